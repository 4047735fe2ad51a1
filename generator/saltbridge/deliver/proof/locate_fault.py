"""Where in its template a fault of a later stage belongs, so that a teacher finds the line."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.parts import AnyPart, BalancePart, ChoosePart, FindPart, OrderPart, WhichPart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.spare_part import SparePart
from saltbridge.bank.template import Template
from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.bank.wrong_step_part import WrongStepPart
from saltbridge.draw.drawn_tables import leaves
from saltbridge.faults import Fault

_WORD = re.compile(r"[A-Za-z][A-Za-z0-9_.]*")
_KEYS = {"condition-kind": "keep only if", "couple-not-on-sheet": "scenario", "no-anode": "scenario", "impossible": "scenario"}


def placed(template: Template, fault: Fault) -> Fault:
    """The fault with file, key and line: those it has, else of the first key that names what it is about."""
    if fault.line and fault.key != "parts":
        return fault.at(file=template.file)
    key = fault.key if fault.key not in {"", "parts"} else _key(template, fault)
    return template.fault(key, fault.code, expected=fault.expected, found=fault.found, hint=fault.hint)


def _key(template: Template, fault: Fault) -> str:
    if fault.code in _KEYS:
        return _KEYS[fault.code]
    if fault.code in {"dimension", "unit"}:
        return _key_of_unit(template, fault.found)
    if fault.code == "not-a-number":
        by = fault.expected.rpartition(".")[2]
        return next((key for key, names in _mentions(template) if key.endswith(".by") and names == (by,)), "parts")
    found = fault.found.strip("`")
    told = {found, found.rpartition(".")[2]}
    wanted = set(_WORD.findall(fault.expected)) if fault.code == "not-derivable" else set()
    for about in (told, wanted):
        for key, names in _mentions(template):
            if about.intersection(names):
                return key
    for key, names in _mentions(template):
        if key.endswith(".from") and fault.code == "no-right-option" and all(name in fault.found for name in names):
            return key
    return "parts" if fault.code == "no-right-option" else "scenario"


def _key_of_unit(template: Template, unit: str) -> str:
    """The part that asks for a unit, or the conditions where none does."""
    asking = (leaf.key for leaf in leaves(template, None) if isinstance(leaf.part, FindPart) and leaf.part.unit == unit)
    return next((f"{key}.in" for key in asking), "keep only if" if template.keep_only_if else "scenario")


def _mentions(template: Template) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Every key that can name something, with the names there, in the order of a template."""
    several = len(template.keep_only_if) > 1
    for at, condition in enumerate(template.keep_only_if, 1):
        yield f"keep only if[{at}]" if several else "keep only if", condition.names
    for at, slip in enumerate(template.must_reveal, 1):
        yield f"must reveal[{at}]", (slip,)
    for at, name in enumerate(template.given, 1):
        yield f"given[{at}]", (name,)
    yield "text", template.text.names
    for leaf in leaves(template, None):
        yield from ((f"{leaf.key}.{key}", names) for key, names in _of_part(leaf.part))


def _of_working(part: SparePart | EstimatePart | WrongStepPart) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The keys of a part that is about a working and asks for no number."""
    if isinstance(part, SparePart):
        yield from (("not needed for", (part.find,)), ("from", part.data))
        return
    yield "estimate" if isinstance(part, EstimatePart) else "wrong step in", (part.find,)
    yield "in", (part.unit,) if part.unit else ()
    if isinstance(part, WrongStepPart):
        yield "errors", part.errors


def _of_part(part: AnyPart) -> Iterator[tuple[str, tuple[str, ...]]]:
    match part:
        case FindPart():
            yield "find", (part.find,)
            yield "in", (part.unit,) if part.unit else ()
        case ChoosePart():
            yield "choose", (part.choose,)
            yield "from", tuple(option.text for option in part.options)
        case OrderPart():
            yield "order", tuple(part.order)
            yield "by", (part.by,)
            yield "show", (part.show,)
        case BalancePart():
            yield "balance", (part.balance,)
        case SeveralPart():
            yield "tick", tuple(option.text for option in part.tick)
            yield "where", part.where.names if part.where else ()
        case WhichPart():
            yield "which", tuple(part.which)
        case SpeciesPart():
            yield "species", (part.species,)
        case DiagramPart():
            yield "diagram", (part.diagram,)
        case ExpressionPart():
            yield "expression", (part.expression,)
        case WordPart():
            yield "word", (part.word,)
        case SparePart() | EstimatePart() | WrongStepPart():
            yield from _of_working(part)
    yield from ((key, text.names) for key, text in part.texts.items())
