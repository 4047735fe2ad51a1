"""Sign-offs of a bank: ``signed.yaml`` says who has signed which content of which template.

::

    two-metals:
      signed by: "A. Moderator"
      on: 2026-11-25
      template: 0123456789abcdef
      data sheet: …
      relations: …
      settings: …
      withdrawn on: 2026-12-01

A signature holds for the content that its digests name. Names are the department's own; the shipped bank has none.
"""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Literal

from saltbridge.bank.bank import SIGNED_FILE, Bank
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.deliver.ordinary_files import replace_file
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.content import DIGITS, PARTS, content_of
from saltbridge.faults import Fault, FaultList, Faulty, fault
from saltbridge.forms.strict_yaml import Entry, Scalar, Table, read_yaml

State = Literal["draft", "signed", "changed", "withdrawn"]
LONGEST_NAME = 120
_KEYS = ("signed by", "on", *PARTS, "withdrawn on")
_HEAD = "# Written by `saltbridge sign`: who has signed which content of which template.\n"


@dataclass(frozen=True, slots=True)
class Signature:
    """One entry: ``content`` are the digests signed, ``withdrawn`` a day or nothing; ``line`` where it stands."""

    by: str
    on: str
    content: Mapping[str, str]
    withdrawn: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Standing:
    """How a template stands: its state, the signature if there is one, and the parts changed since."""

    state: State
    signature: Signature | None = None
    changed: tuple[str, ...] = ()


# ------------------------------------------------------------------ reading


def signatures(bank: Bank) -> dict[str, Signature]:
    """The sign-offs by template; none where there is no file. Raises ``Faulty`` with every fault of the file."""
    path = bank.folder / SIGNED_FILE
    if path.is_symlink():
        raise Faulty([fault("link", expected="a file of the bank", found="a link").faults[0].at(file=SIGNED_FILE)])
    if not path.exists():
        return {}
    faults = FaultList()
    found: dict[str, Signature] = {}
    for entry in read_yaml(path, SIGNED_FILE).entries:
        read = _Reader(entry, faults)
        if bank.template(entry.key) is None:
            near = difflib.get_close_matches(entry.key, [each.id for each in bank.templates], 1, 0.6)
            hint = f"Did you mean `{near[0]}`?" if near else "Take the entry out."
            read.blame("unknown-template", "", "the id of a template of this bank", f"`{entry.key}`", hint)
        elif (signature := read.signature()) is not None:
            found[entry.key] = signature
    faults.stop_if_any()
    return found


@dataclass(slots=True)
class _Reader:
    entry: Entry
    faults: FaultList
    texts: dict[str, tuple[str, int]] = field(default_factory=dict)

    def blame(self, code: str, key: str, expected: str, found: str, hint: str = "") -> None:
        line = self.texts[key][1] if key in self.texts else self.entry.line
        path = f"{self.entry.key}.{key}" if key else self.entry.key
        self.faults.add(code, expected=expected, found=found, hint=hint, file=SIGNED_FILE, line=line, key=path)

    def signature(self) -> Signature | None:
        before = len(self.faults.faults)
        self._texts()
        for key in (key for key in _KEYS[:-1] if key not in self.texts):
            self.blame("missing-key", key, f"the key `{key}`", "no such key", "Sign the template anew.")
        for key in ("on", "withdrawn on"):
            if key in self.texts and not _is_day(self.texts[key][0]):
                self.blame("date", key, "a day such as 2026-11-25", f"`{self.texts[key][0]}`")
        for key in PARTS:
            if key in self.texts and not re.fullmatch(rf"[0-9a-f]{{{DIGITS}}}", self.texts[key][0]):
                self.blame("digest", key, f"{DIGITS} digits 0-9 a-f", f"`{self.texts[key][0][:40]}`", "Sign the template anew.")
        if "signed by" in self.texts and (wrong := name_trouble(self.texts["signed by"][0])):
            self.blame("name", "signed by", "a name on one line", wrong)
        if len(self.faults.faults) > before:
            return None
        text = {key: value for key, (value, _) in self.texts.items()}
        content = {part: text[part] for part in PARTS}
        return Signature(text["signed by"], text["on"], content, text.get("withdrawn on", ""), self.entry.line)

    def _texts(self) -> None:
        table = self.entry.value
        if not isinstance(table, Table):
            self.blame("wrong-type", "", "keys with values", "a text or a list")
            return
        for each in table.entries:
            if each.key not in _KEYS:
                near = difflib.get_close_matches(each.key, _KEYS, 1, 0.6)
                self.texts[each.key] = ("", each.line)
                self.blame("unknown-key", each.key, "one of " + ", ".join(f"`{key}`" for key in _KEYS), f"`{each.key}`",
                           f"Did you mean `{near[0]}`?" if near else "")  # fmt: skip
                del self.texts[each.key]
            elif isinstance(each.value, Scalar):
                self.texts[each.key] = (each.value.text, each.line)
            else:
                self.texts[each.key] = ("", each.line)
                self.blame("wrong-type", each.key, "a text", "a list or keys")


def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def name_trouble(name: str) -> str:
    """What is wrong with a signer's name; empty where nothing is."""
    if not name.strip():
        return "nothing"
    if len(name) > LONGEST_NAME:
        return f"{len(name)} characters"
    return "" if name.isprintable() else "characters that do not print"


# ------------------------------------------------------------------ standing


def standing(template: Template, bank: Bank, catalogue: Catalogue, signed: Mapping[str, Signature]) -> Standing:
    """How a template stands with its signature."""
    signature = signed.get(template.id)
    if signature is None:
        return Standing("draft")
    if signature.withdrawn:
        return Standing("withdrawn", signature)
    try:
        now = content_of(template, bank, catalogue)
    except Faulty:  # it can't be drawn any more, so it is not what was signed
        return Standing("changed", signature, PARTS)
    changed = tuple(part for part in PARTS if now[part] != signature.content[part])
    return Standing("changed", signature, changed) if changed else Standing("signed", signature)


def unsigned(bank: Bank, templates: Iterable[Template]) -> tuple[Fault, ...]:
    """A fault for every template that is not signed as it stands, where the bank wants only signed ones published.

    Then the faults of the file of sign-offs count too; a bank that publishes drafts may have any.
    """
    if bank.publish_unsigned:
        return ()
    try:
        signed, known = signatures(bank), catalogue_of(bank.folder)
    except Faulty as error:
        return error.faults
    found = []
    for template in templates:
        stand = standing(template, bank, known, signed)
        if stand.state != "signed":
            hint = f"Run `saltbridge sign {template.id}` after looking at the proof."
            found.append(template.fault("", "unsigned", expected="a signed template", found=told(stand), hint=hint))
    return tuple(found)


def told(stand: Standing) -> str:
    """The standing in words."""
    match stand:
        case Standing("signed", Signature(by=by, on=on)):
            return f"signed by {by} on {on}"
        case Standing("changed", Signature(by=by, on=on), parts):
            return f"changed since {by} signed on {on}: {', '.join(parts)}"
        case Standing("withdrawn", Signature(by=by, withdrawn=day)):
            return f"the signature of {by} was withdrawn on {day}"
        case _:
            return "a draft that nobody has signed"


# ------------------------------------------------------------------ writing


def sign(bank: Bank, template: Template, catalogue: Catalogue, by: str, on: date) -> Signature:
    """Sign a template as it stands. Raises ``Faulty`` for a name that can't be kept, or where the template can't be drawn."""
    if wrong := name_trouble(by):
        raise fault("name", expected=f"a name of at most {LONGEST_NAME} characters on one line", found=wrong)
    known = signatures(bank)
    known[template.id] = Signature(by.strip(), on.isoformat(), content_of(template, bank, catalogue))
    write(bank, known)
    return known[template.id]


def withdraw(bank: Bank, template: Template, on: date) -> Signature:
    """Withdraw a signature. Raises ``Faulty`` (``not-signed``) where there is none."""
    known = signatures(bank)
    if template.id not in known or known[template.id].withdrawn:
        raise fault("not-signed", expected=f"a signature on {template.id}", found="none")
    known[template.id] = replace(known[template.id], withdrawn=on.isoformat())
    write(bank, known)
    return known[template.id]


def write(bank: Bank, known: Mapping[str, Signature]) -> None:
    """Write the file anew, by template; it is replaced in one step."""
    replace_file(bank.folder / SIGNED_FILE, _HEAD + "".join(_entry(name, known[name]) for name in sorted(known)))


def _entry(name: str, signature: Signature) -> str:
    lines = {"signed by": json.dumps(signature.by, ensure_ascii=False), "on": signature.on}
    lines |= {part: f'"{signature.content[part]}"' for part in PARTS}
    if signature.withdrawn:
        lines["withdrawn on"] = signature.withdrawn
    return f"{name}:\n" + "".join(f"  {key}: {value}\n" for key, value in lines.items())
