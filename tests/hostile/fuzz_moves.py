"""Moves that spoil a right template: by its keys and values, by the characters of its texts, by its raw bytes.

Each case hangs on its number alone, so a crash can be made again: ``raw_case(number)``.
"""

from __future__ import annotations

import copy
import random
from typing import Any

import yaml
from hostile_samples import SAMPLES

from saltbridge.bank.parts import PART_KINDS, BalancePart, ChoosePart, FindPart, OrderPart
from saltbridge.bank.template import TemplateKeys
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.chemistry import realism
from saltbridge.scenarios.coded import CODED
from saltbridge.scenarios.declared_models import model_of
from saltbridge.tables import metals, potentials

_MODELS = (
    TemplateKeys,
    CODED["galvanic cell"].model,
    CODED["bench"].model,
    model_of(catalogue().scenarios["anode block"]),
    FindPart,
    ChoosePart,
    OrderPart,
    BalancePart,
)
KEYS = sorted({*catalogue().scenarios, *(each.alias or name for model in _MODELS for name, each in model.model_fields.items())})
_UNITS = (
    "V",
    "mV",
    "A",
    "mA",
    "s",
    "min",
    "h",
    "g",
    "kg",
    "mol/L",
    "mmol/L",
    "°C",
    "K",
    "bar",
    "kPa",
    "%",
    "C",
    "J/mol",
    "kJ/mol",
    "1",
    "m2",
    "",
)
_NUMBERS = (
    "0", "1", "-1", "0.10", "1e999", "-1e999", "1e-999", "1e400", "1e-400", "1e308", "9" * 60, "0." + "0" * 50 + "1", "NaN", "inf", "1_0",
    "0x1F", "١", "²", "1,5", "1e5", "1e-5", "-273.15", "-300", "0.05", "100", "1000", "10000", "+2", ".5", "5.", "−3", "1e15", "1e16", "123456.7",
)  # fmt: skip
_TEXTS = (
    "", " ", "standard", "sometimes", "always", "anode left", "own ions", "same", "different", "steps", "formula", "true", "none", "x",
    "<script>alert(1)</script>", "<!-- x -->", "&lt;b&gt;", "&#x3c;", "[x](javascript:alert(1))", "![x](y.png)", "<https://x.example>", "[a][b]\n\n[b]: http://x",
    "{{ x }}", "{{ left.metal }}", "{{ E_cell | number }}", "{{ T | unit }}", "{{ left.metal | name | capital }}", "{{ I | symbol }}", "{{ ''.__class__ }}",
    "{{ x() }}", "{% for a in b %}{% endfor %}", "{% if E_cell > 1e999 %}a{% endif %}", "{% if E0_cell >= 0.2 and n == 2 %}a{% else %}b{% endif %}",
    "{% if left.metal == 'zinc' %}\n\n- a\n- b\n\n{% endif %}", "{# c #}", "{% raw %}{{ x }}{% endraw %}", "{{ 9**9**9 }}", "`Zn^2+`", "`{{ left.ion }}(aq)`",
    "`{{ E_cell }}`", "`{{ left.metal }}^{{ n }}+`", "`Zn | Zn^2+ || Cu^2+ | Cu`", "`(((((Zn)))))`", "`H999999`", "`A -> B`", "`" + "Zn + " * 60 + "Zn -> Zn`",
    "# head", "> quote", "    code", "| a | b |\n|---|--:|\n| {{ n }} | `Zn` |", "- a\n  - b\n    - c\n", "1. a\n\n   b", "**" * 20, "*_" * 40, "a  \nb",
    "\u202eabc", "a\u200bb", "e" + "\u0301" * 50, "\ue0001\ue001", "\ufeff", "Ζn", "\U0001f9ea", "\u2066x", "\ud7ff", "\uffff", "\x85", "\u2028",
    "E0_cell >= 0.20 V", "E_cell < 1e999 V", "n == 2", "left.metal != right.metal", "m > 1", "t >= 1 A", "a and b", "left.metal == 'Zn'", "T == 25 °C", "0 < 1",
    "left.metal < right.metal", "K >= 1", "anode == 'left'", "1e400 V < E_cell", "left.ion == right.ion", "__class__ == 1",
)  # fmt: skip


def _names() -> list[str]:
    known = list(catalogue().quantities)
    sides = [
        f"{side}.{name}"
        for side in ("left", "right", "anode", "cathode", "s1", "s9")
        for name in ("metal", "ion", "E0", "c", "p", "E", "reading", "E0.x")
    ]
    return [
        *known,
        *sides,
        "anode",
        "cathode",
        "metal",
        "metals",
        "reading",
        "context",
        "diagram",
        "ranking",
        "equation",
        "E0_cell:mV",
        "reference",
        "n",
        "potential_name",
    ]


_NAMES = _names()
_WORDS = (*_TEXTS, *KEYS, *PART_KINDS, *catalogue().slips, *realism.RULES, *list(metals()), *list(potentials()))


def value(chance: random.Random, depth: int = 0) -> Any:
    """A value that might stand anywhere: number with unit, name, word, text, list or keys."""
    pick = chance.random()
    if pick < 0.3:
        return f"{chance.choice(_NUMBERS)} {chance.choice(_UNITS)}".strip()
    if pick < 0.55:
        return chance.choice(_NAMES)
    if pick < 0.8 or depth > 2:
        return chance.choice(_WORDS)
    if pick < 0.92:
        return [value(chance, depth + 1) for _ in range(chance.choice((0, 1, 2, 3, 30)))]
    return {chance.choice(KEYS): value(chance, depth + 1) for _ in range(chance.randint(0, 3))}


def _places(node: Any) -> list[tuple[Any, Any]]:
    """Every (holder, key or position) of a tree."""
    found: list[tuple[Any, Any]] = []
    pairs = list(node.items()) if isinstance(node, dict) else list(enumerate(node)) if isinstance(node, list) else []
    for key, inner in pairs:
        found.append((node, key))
        found.extend(_places(inner))
    return found


def _leaf(chance: random.Random, old: Any) -> Any:
    """A value like the old one, of the kind that stands there."""
    text = old if isinstance(old, str) else ""
    if text and chance.random() < 0.35:
        return _spoiled_text(chance, text)
    if text[:1].isdigit():
        number, _, unit = text.partition(" ")
        return f"{chance.choice(_NUMBERS)} {unit}".strip() if chance.random() < 0.7 else f"{number} {chance.choice(_UNITS)}"
    if text in _NAMES or "." in text:
        return chance.choice(_NAMES)
    if text in metals():
        return chance.choice(list(metals()))
    if text in potentials():
        return chance.choice(list(potentials()))
    if " " in text and chance.random() < 0.7:
        return _spoiled_text(chance, text)
    return chance.choice(_LIKE.get(text, ())) if text in _LIKE else value(chance)


_ALIKE = (
    ("core", "advanced", "introductory", "first-year"), ("practice", "homework", "exam"), ("galvanic cell", "number line", "none"),
    ("cell equation", "cathode half", "anode half"), ("ascending", "descending"), ("same", "different"), ("own ions",), ("ferry", "lamp", "x"),
    ("mV", "g", "V", "kJ/mol", "kg", "J", "1", "mol", "C", "A", "V/K"), ("2", "3", "0", "1", "10", "11", "99"), tuple(realism.RULES), tuple(catalogue().slips),
)  # fmt: skip
_LIKE = {word: words for words in _ALIKE for word in words}


def _spoiled_text(chance: random.Random, text: str) -> str:
    """A text with a piece put in, cut out, doubled, or set to a hole of another name."""
    at, to = sorted((chance.randint(0, len(text)), chance.randint(0, len(text))))
    match chance.randint(0, 4):
        case 0:
            return text[:at] + chance.choice(_TEXTS) + text[at:]
        case 1:
            return text[:at] + text[to:]
        case 2:
            return text[:to] + text[at:to] * chance.choice((1, 2, 20)) + text[to:]
        case 3:
            return text[:at] + "{{ " + chance.choice(_NAMES) + " }}" + text[at:]
        case _:
            return (
                text[:at]
                + chr(
                    chance.choice(
                        (0x20, 0x60, 0x7B, 0x7C, 0x2A, 0x5B, 0x3C, 0x301, 0x202E, 0xE001, 0x1F9EA, chance.randint(33, 0x2FFF))
                    )
                )
                + text[at:]
            )


def _move(chance: random.Random, tree: Any) -> None:
    """One change of keys or values."""
    holder, key = chance.choice(_places(tree))
    kind = chance.random()
    if kind < 0.82:
        holder[key] = (
            _leaf(chance, holder[key]) if not isinstance(holder[key], list | dict) or chance.random() < 0.3 else holder[key]
        )
    elif kind < 0.86:
        del holder[key]
    elif kind < 0.92 and isinstance(holder, dict):
        holder[chance.choice(KEYS)] = value(chance)
    elif isinstance(holder, list):
        holder.insert(0, copy.deepcopy(holder[key]) if chance.random() < 0.4 else value(chance))
    elif isinstance(holder, dict):
        holder[chance.choice(KEYS)] = holder.pop(key)


def _bytes(chance: random.Random, raw: bytes) -> bytes:
    """Bytes flipped, cut, doubled or put in."""
    data = bytearray(raw)
    for _ in range(chance.randint(1, 4)):
        at = chance.randint(0, max(0, len(data) - 1))
        match chance.randint(0, 3):
            case 0:
                data[at:at] = bytes([chance.randint(0, 255)])
            case 1:
                del data[at : at + chance.randint(1, 8)]
            case 2:
                data[at:at] = data[at : at + 40] * chance.choice((1, 3))
            case _:
                data[at:at] = chance.choice(
                    (
                        b"\r",
                        b"\t",
                        b"\0",
                        b"&a ",
                        b"*a",
                        b"!!x ",
                        b"{",
                        b"[",
                        b"- ",
                        b": ",
                        b"? ",
                        b"|\n",
                        b"%",
                        b'"\\ud800"',
                        b"'",
                        b"#",
                        b"<<: ",
                        b"\xef\xbb\xbf",
                    )
                )
    return bytes(data)


def raw_case(number: int) -> bytes:
    """The bytes of case ``number``."""
    return spoiled(random.Random(number))  # noqa: S311 - repeatable cases, no secrets


def spoiled(chance: random.Random) -> bytes:
    """A right template spoiled by its structure, by its bytes, or both."""
    text = chance.choice(list(SAMPLES.values()))
    if chance.random() < 0.15:
        return _bytes(chance, text.encode())
    tree = yaml.load(text, yaml.BaseLoader)  # noqa: S506 - texts and nothing else
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 5))):
        if _places(tree):
            _move(chance, tree)
    raw = yaml.dump(tree, allow_unicode=chance.random() < 0.8, sort_keys=False, Dumper=_NoAliases).encode(
        "utf-8", "surrogatepass"
    )
    return _bytes(chance, raw) if chance.random() < 0.05 else raw


class _NoAliases(yaml.SafeDumper):
    def ignore_aliases(self, _data: Any) -> bool:
        return True
