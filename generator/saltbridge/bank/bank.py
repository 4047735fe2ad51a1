"""A bank: a folder with ``bank.yaml``, its templates and perhaps its own data sheet. All faults of all files are told at once.

Templates are the ``*.yaml`` files of the folder and of its topic folders; ``bank.yaml``, the files beside it that hold a
bank's own relations, slips, quantities and sign-offs, and the folder ``sheets`` are not templates. Nothing outside the folder is read: links are refused, and the path of a sheet stays inside.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath

from pydantic import ValidationError

from saltbridge import tables, words
from saltbridge.bank.doubtful import doubtful
from saltbridge.bank.inside import file_of, inside, stays
from saltbridge.bank.rows import RowTable, filled, named_table
from saltbridge.bank.settings import BankKeys
from saltbridge.bank.template import Template, TemplateKeys, as_template
from saltbridge.bank.template_forms import in_forms
from saltbridge.catalogue.catalogue import KINDS, catalogue
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.faults import Fault, FaultList, Faulty, fault
from saltbridge.forms.strict_yaml import Entry, Scalar, Table, lines_of, read_yaml
from saltbridge.forms.validation_messages import Reading, checked, values_of
from saltbridge.home import MARKER
from saltbridge.records import Settings

MOST_TEMPLATES = 2_000
MOST_BYTES = 10_000_000  # of all templates together; an ordinary one has about 1 500
DEEPEST_FOLDER = 2  # the bank itself, and topic folders in it
BANK_FILE = "bank.yaml"
SIGNED_FILE = "signed.yaml"
OWN_FILES = frozenset({BANK_FILE, SIGNED_FILE, *(f"{kind}.yaml" for kind in KINDS)})
SHEETS = "sheets"
OWN_FOLDERS = frozenset({SHEETS, *KINDS[:-1]})
COUPLES = "couples.csv"
MOST_OF_COUPLES = 1_000_000  # bytes
_NO_COUPLES = tables.OwnCouples({}, {}, ())
OUR_PAGES = frozenset({"index", "sheet", "guide", "authors", "names"})
_ENDINGS = frozenset({".yaml", ".yml"})
_NO_FILES = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")  # names that Windows keeps for devices

_USUAL_KEYS = {"format": "1", "id": "bank", "title": "Bank"}
"""Stand for settings that can't be read."""


@dataclass(frozen=True, slots=True)
class Bank:
    """A bank as read. ``templates`` are in order of their ids; ``warnings`` are doubts that do not stop a build.

    ``doubtful`` are templates with faults, read as far as they can be, for their names to be looked at and nothing else.
    """

    id: str
    folder: Path
    settings: Settings
    licence: str
    authors: tuple[str, ...]
    sheet: tables.Sheet
    templates: tuple[Template, ...]
    warnings: tuple[Fault, ...] = ()
    publish_unsigned: bool = True
    doubtful: tuple[Template, ...] = ()

    def template(self, template_id: str) -> Template | None:
        """The template of that id, if the bank has one."""
        return next((each for each in self.templates if each.id == template_id), None)

    def readable(self, template_id: str) -> Template | None:
        """The template of that id, a doubtful one too."""
        return self.template(template_id) or next((each for each in self.doubtful if each.id == template_id), None)


def load_bank(folder: Path, instead: Mapping[str, str] | None = None) -> Bank:
    """Read a bank; ``instead`` holds settings in place of its own, by key. Raises ``Faulty`` with the faults of all its files."""
    bank, faults = survey_bank(folder, instead)
    if faults:
        raise Faulty(faults)
    return bank


def require_bank(folder: Path) -> None:
    """Raise ``Faulty`` (``no-bank``) where the folder is no bank."""
    if not (folder / BANK_FILE).is_file():
        raise no_bank(folder)


def no_bank(path: Path) -> Faulty:
    """The fault of a path that neither is a bank nor lies in one."""
    hint = "Give the folder of the bank."
    return fault("no-bank", expected=f"a folder with a `{BANK_FILE}`", found=f"`{path}`", hint=hint)


def survey_bank(folder: Path, instead: Mapping[str, str] | None = None) -> tuple[Bank, tuple[Fault, ...]]:
    """What of a bank can be read, and the faults of the rest in order of file and line.

    In place of unreadable settings stand the usual ones, in place of an unreadable sheet the school's, so that the templates
    can be looked at all the same. Raises ``Faulty`` where there is no bank, or far too much of it.
    """
    require_bank(folder)
    faults = FaultList()
    paths = [*_template_paths(folder, faults)]
    read, lines = _settings(folder, faults, instead or {})
    keys = read or BankKeys.model_validate(_USUAL_KEYS)
    own = _own_couples(folder, faults)
    read_sheet = _sheet(folder, keys, lines.get("data sheet", 0), own.couples, faults) or tables.sheet("school")
    sheet = tables.with_own_couples(read_sheet, own.couples)
    _refuse_too_much(paths, faults)
    kinds = _own_scenarios(folder, faults)
    reading = Reading(
        rows=sheet.rows,
        say=words.catalogue(keys.language),
        couples=frozenset(own.couples),
        scenarios=kinds or (),
    )
    unsound: list[Template] = []
    files = [found for path in paths if (found := _template(folder, path, reading, faults, unsound))]
    templates = [each for found in files for each in in_forms(found, words.catalogue(keys.language))]
    _refuse_twins(templates, faults)
    bank = Bank(
        id=keys.id,
        folder=folder,
        settings=keys.settings(),
        licence=keys.licence,
        authors=keys.authors,
        sheet=sheet,
        templates=tuple(sorted(templates, key=lambda each: each.id)),
        warnings=(*sheet.warnings, *own.warnings, *_unsaid(keys.language, lines.get("language", 0))),
        publish_unsigned=keys.publish_unsigned == "yes",
        doubtful=tuple(unsound),
    )
    return bank, _in_order(faults, unread_kinds=kinds is None)


def _unsaid(language: str, line: int) -> Iterator[Fault]:
    """A warning where pages in this language would say some of their sentences in English."""
    share = words.missing_share(language)
    if share:
        yield Fault(
            "language-incomplete", f"every sentence in `{language}`", f"{max(1, round(100 * share))} % of them in English only",
            f"Add what data/words/{language}.po lacks.", BANK_FILE, line, "language",
        )  # fmt: skip


def _in_order(faults: FaultList, *, unread_kinds: bool) -> tuple[Fault, ...]:
    """The faults once each, by file and line. A couple or a kind not known may be one that can't be read of the bank's own: not told."""
    unread = any(each.file == COUPLES for each in faults.faults)

    def only_follows(each: Fault) -> bool:
        of_kind = each.key.startswith("scenario") and each.key.count(".") < 2
        return (unread and each.code == "unknown-couple") or (
            unread_kinds and of_kind and each.code in {"unknown-key", "scenario-kind"}
        )

    told = [each for each in dict.fromkeys(faults.faults) if not only_follows(each)]
    return tuple(sorted(told, key=lambda each: (each.file, each.line)))


def _own_scenarios(folder: Path, faults: FaultList) -> tuple[ScenarioEntry, ...] | None:
    """The bank's own kinds of scenario, ``None`` where its catalogue can't be read; notes what is wrong with its files."""
    try:
        return own_scenarios(folder)
    except Faulty as trouble:
        faults.extend(trouble.faults)
        return None


def own_scenarios(folder: Path) -> tuple[ScenarioEntry, ...]:
    """The kinds of scenario that a bank brings. Raises ``Faulty`` with what is wrong with its relations, scenarios and the like."""
    return tuple(each for kind, each in catalogue(folder).scenarios.items() if kind not in catalogue().scenarios)


def read_template(raw: Table, file: str, reading: Reading, table: RowTable | None = None) -> Template:
    """The template of a file's keys, its scenario filled from each row of the table that it names. Raises ``Faulty`` with all its faults."""
    keys, rows = (checked(TemplateKeys, raw, file, reading), ()) if table is None else filled(raw, table, file, reading)
    stem = PurePosixPath(file).stem
    return as_template(keys, template_id=stem, file=file, lines=dict(lines_of(raw)), filled=rows)


# ------------------------------------------------------------------ files


def _template_paths(folder: Path, faults: FaultList) -> Iterator[Path]:
    """Template files in a fixed order; links, odd names and folders too deep are faults."""
    for root, folders, files in os.walk(folder, onerror=lambda error: _unread(error, folder, faults)):
        here = Path(root)
        folders[:] = sorted(name for name in folders if not name.startswith(".") and _is_topic(here / name, folder, faults))
        if here == folder:
            folders[:] = [name for name in folders if name not in OWN_FOLDERS]
        if len(here.relative_to(folder).parts) >= DEEPEST_FOLDER:
            hint = "Put templates into the bank's folder or one topic folder."
            faults.add(
                "folder-too-deep",
                expected="topic folders only",
                found="folders inside them",
                hint=hint,
                file=file_of(here, folder),
            )
            folders.clear()
            continue
        for name in sorted(files):
            path = here / name
            if name.startswith(".") or (here == folder and name in {*OWN_FILES, COUPLES}) or not stays(path, folder, faults):
                continue
            if _named_well(path, folder, faults):
                yield path


def _unread(error: OSError, folder: Path, faults: FaultList) -> None:
    """Note a folder that can't be looked into: its questions would be left out in silence."""
    place = Path(error.filename or folder)
    file = file_of(place, folder) if place != folder else ""
    hint = "Give yourself the right to read it, or take it out."
    faults.add("unreadable", expected="a folder that can be read", found=_refusal(error), hint=hint, file=file)


def _refusal(error: OSError) -> str:
    return (error.strerror or "a refusal").lower()


def _is_topic(path: Path, folder: Path, faults: FaultList) -> bool:
    """Whether to look for templates in a folder: not behind a link, and not in one that saltbridge wrote."""
    if not stays(path, folder, faults) or (path / MARKER).is_file():
        return False
    if path.suffix.lower() in _ENDINGS:
        hint = "Rename the folder, or put the file itself there."
        faults.add("not-a-file", expected="a file of that name", found="a folder", hint=hint, file=file_of(path, folder))
        return False
    return True


def _named_well(path: Path, folder: Path, faults: FaultList) -> bool:
    """Whether a file is a template by its name; a name that only looks like one is a fault."""
    hint = "As `cell-potential.yaml`."
    if path.name.lower() == COUPLES:
        wrong = f"the name `{COUPLES}`", f"`{path.name}`", ""
    elif path.suffix.lower() not in _ENDINGS:
        return False
    elif path.suffix != ".yaml":
        wrong = "the ending `.yaml`", f"`{path.suffix}`", ""
    elif not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", path.stem):
        wrong = "small letters, digits and hyphens", f"`{path.name}`", hint
    elif path.stem in OUR_PAGES or _NO_FILES.fullmatch(path.stem):
        wrong = "a name that no other page has and every system allows", f"`{path.name}`", hint
    else:
        return True
    expected, found, hint = wrong
    faults.add("file-name", expected=expected, found=found, hint=hint, file=file_of(path, folder))
    return False


def _refuse_too_much(paths: list[Path], faults: FaultList) -> None:
    """Stop before reading where the files are too many or too big."""
    hint = "Make it two banks."
    if len(paths) > MOST_TEMPLATES:
        faults.add("too-many-templates", expected=f"at most {MOST_TEMPLATES} templates", found=f"{len(paths)}", hint=hint)
        faults.stop_if_any()
    if (size := sum(path.stat().st_size for path in paths)) > MOST_BYTES:
        faults.add("bank-too-big", expected=f"at most {MOST_BYTES} bytes of templates", found=f"{size}", hint=hint)
        faults.stop_if_any()


def _template(folder: Path, path: Path, reading: Reading, faults: FaultList, unsound: list[Template]) -> Template | None:
    """The template of a file; one with faults joins ``unsound``, as far as it can be read."""
    file, raw = file_of(path, folder), None
    try:
        raw = read_yaml(path, file)
        return read_template(raw, file, reading, named_table(folder, raw, file))
    except Faulty as trouble:
        faults.extend(trouble.faults)
        found = doubtful(raw, trouble.faults, file, reading) if raw is not None else None
        unsound += [found] if found is not None else []
        return None


def _refuse_twins(templates: list[Template], faults: FaultList) -> None:
    first: dict[str, Template] = {}
    for each in templates:
        if each.id in first:
            hint = "The file's name is the question's id; rename one."
            faults.add(
                "template-twice", expected="each file name once", found=f"`{first[each.id].file}` too", hint=hint, file=each.file
            )
        first.setdefault(each.id, each)


# ------------------------------------------------------------------ settings and sheet


def _settings(folder: Path, faults: FaultList, instead: Mapping[str, str]) -> tuple[BankKeys | None, dict[str, int]]:
    """The keys of ``bank.yaml`` and the lines they stand on."""
    path = folder / BANK_FILE
    if not stays(path, folder, faults):
        return None, {}
    try:
        raw = _with(read_yaml(path, BANK_FILE), instead)
    except Faulty as trouble:
        faults.extend(trouble.faults)
        return None, {}
    try:
        return checked(BankKeys, raw, BANK_FILE, Reading()), dict(lines_of(raw))
    except Faulty as trouble:
        faults.extend(trouble.faults)
        return _sound_keys(raw, trouble.faults), dict(lines_of(raw))


def _with(raw: Table, instead: Mapping[str, str]) -> Table:
    """The keys with others in their place."""
    kept = [entry for entry in raw.entries if entry.key not in instead]
    return Table((*kept, *(Entry(key, raw.line, Scalar(text, raw.line, raw.line)) for key, text in instead.items())), raw.line)


def _sound_keys(raw: Table, faults: tuple[Fault, ...]) -> BankKeys | None:
    """The settings without those that have faults, so that what hangs on the others can still be looked at."""
    wrong = {re.split(r"[.\[]", each.key)[0] for each in faults}
    sound = {entry.key: values_of(entry.value) for entry in raw.entries if entry.key not in wrong}
    try:
        return BankKeys.model_validate({**_USUAL_KEYS, **sound}, context=Reading())
    except ValidationError:
        return None


def _own_couples(folder: Path, faults: FaultList) -> tables.OwnCouples:
    """The bank's own couples, none where it has no such file; each half-reaction must balance."""
    if not (folder / COUPLES).exists() and not (folder / COUPLES).is_symlink():
        return _NO_COUPLES
    try:
        path = inside(folder, COUPLES, COUPLES)
        if path.stat().st_size > MOST_OF_COUPLES:
            raise fault("file-too-big", expected=f"at most {MOST_OF_COUPLES} bytes", found=f"{path.stat().st_size}")
        own = tables.read_own_couples(path)
    except Faulty as trouble:
        faults.extend(each.at(file=COUPLES) for each in trouble.faults)
        return _NO_COUPLES
    before = len(faults.faults)
    for couple in own.couples.values():
        try:
            _require_n(couple)
        except Faulty as trouble:
            faults.extend(each.at(file=COUPLES, line=own.lines[couple.id], key="half_reaction") for each in trouble.faults)
    return own if len(faults.faults) == before else _NO_COUPLES


def _require_n(couple: tables.Couple) -> None:
    """Raise ``Faulty`` where a half-reaction doesn't balance, or its electrons are not ``n``."""
    electrons = parse_half_reaction(couple.half_reaction).n
    if electrons != couple.n:
        expected = f"{electrons}, the number of electrons in {couple.half_reaction}"
        raise Faulty([Fault("bad-cell", expected, str(couple.n), key="n")])


def _sheet(folder: Path, keys: BankKeys, line: int, own: Mapping[str, tables.Couple], faults: FaultList) -> tables.Sheet | None:
    """The shipped sheet of that name, or the bank's own: a ``.yaml`` file inside the bank."""
    name = keys.data_sheet
    try:
        if not name.endswith(".yaml"):
            return tables.sheet(name)
        return tables.read_sheet(inside(folder, name, f"{SHEETS}/ours.yaml"), {**tables.potentials(), **own})
    except Faulty as trouble:
        for each in trouble.faults:
            here = replace(each, file=name) if each.file else each.at(file=BANK_FILE, key="data sheet", line=line)
            faults.faults.append(here)
        return None
