"""Entries of quantities.yaml, relations.yaml and slips.yaml as records, each fault at its line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from saltbridge.algebra.expression import evaluate, names
from saltbridge.catalogue.balance_entries import BalanceEntry, reshaping
from saltbridge.catalogue.catalogue_records import Case, Form, Quantity, Relation, Slip
from saltbridge.catalogue.entries import Entry, EntryError
from saltbridge.catalogue.examples import example
from saltbridge.catalogue.flags import FLAGS, flags
from saltbridge.faults import Faulty, nearest
from saltbridge.units import parse_unit

_QUANTITY = (
    "name",
    "base",
    "sub",
    "mark",
    "of",
    "unit",
    "print",
    "range",
    "signed",
    "whole",
    "constant",
    "upright",
    "word",
    "family",
    "example",
    *FLAGS,
)
_RELATION = ("family", "where", "cost", "equation", "forms", "say", "say here", "hint", "valid", "source", "cases")
_FORM = ("equation", "at", "within", "constant")
_SLIP = ("at", "when", "only", "instead", "read", "reshape", "hint", "twins", "source")
_RANGES = ("any", "positive", "not negative", "fraction")
LONGEST_FAMILY = 40
LEAST_CASES = 2
DEAREST = 20  # steps
CASE_TOLERANCE = 2e-3  # of the value: sources print three or four figures


def quantity(entry: Entry) -> Quantity:
    """A quantity; raises ``EntryError`` where a needed key is missing."""
    entry.allow(_QUANTITY, ("name", "base", "unit"))
    if not entry.path.isidentifier() or not entry.path.isascii():
        entry.blame("name", "", expected="a name of letters, digits and _", found=entry.path)
    unit = entry.text("unit")
    for key in ("unit", "print"):
        _unit(entry, key)
    return Quantity(
        entry.path, entry.text("name"), entry.text("base"), unit, entry.text("print", unit), entry.text("sub"),
        entry.one_of("mark", ("", "standard"), "") == "standard", entry.text("of"), entry.flag("signed"), entry.flag("whole"),
        entry.flag("constant"), entry.flag("upright"), entry.one_of("range", _RANGES, "any"),
        entry.flag("word"), entry.text("family"), flags(entry), example(entry),
    )  # fmt: skip


def _unit(entry: Entry, key: str) -> None:
    try:
        parse_unit(entry.text(key))
    except Faulty as trouble:
        for each in trouble.faults:
            entry.blame(each.code, key, expected="a unit such as V, kJ/mol or A/dm2", found=each.found, hint=each.hint)


def relation(entry: Entry, quantities: Mapping[str, Quantity]) -> Relation:
    """A relation over known quantities, its outside cases put through it; raises ``EntryError``."""
    entry.allow(_RELATION, ("family", "equation", "say", "valid", "source", "cases"))
    subject, tree = entry.equation("equation")
    _known(entry, "equation", (subject, *names(tree)), quantities)
    if subject in names(tree):
        entry.blame("equation", "equation", expected=f"{subject} on the left side only", found=entry.text("equation"))
        raise EntryError
    family = entry.text("family")
    if not 0 < len(family) <= LONGEST_FAMILY:
        entry.blame("bad-value", "family", expected=f"a heading of at most {LONGEST_FAMILY} characters", found=family)
    forms = entry.inner("forms")
    found = Relation(
        entry.path, subject, tree, family, entry.text("say"), entry.text("say here"), entry.text("valid"), entry.text("source"),
        tuple(_form(form, name, quantities) for name in (forms.keys if forms else ()) if forms and (form := forms.inner(name))),
        (), _where(entry), _cost(entry), entry.text("hint"),
    )  # fmt: skip
    cases = tuple(_case(case, found) for case in entry.each("cases"))
    if len(cases) < LEAST_CASES:
        entry.blame("too-few-cases", "cases", expected=f"at least {LEAST_CASES} outside cases", found=str(len(cases)))
    return replace(found, cases=cases)


def _where(entry: Entry) -> dict[str, str]:
    """What a scenario must know for the relation to hold there: names with their words or numbers."""
    inner = entry.inner("where")
    return {name: inner.text(name) for name in inner.keys} if inner else {}


def _cost(entry: Entry) -> int:
    """How many steps the relation counts as when ways are compared."""
    text = entry.text("cost", "1")
    if text not in {str(cost) for cost in range(1, DEAREST + 1)}:
        entry.blame("bad-value", "cost", expected=f"a whole number from 1 to {DEAREST}", found=text)
        return 1
    return int(text)


def _form(entry: Entry, name: str, quantities: Mapping[str, Quantity]) -> Form:
    entry.allow(_FORM, ("equation",))
    subject, tree = entry.equation("equation")
    _known(entry, "equation", (subject, *names(tree)), quantities)
    constants = entry.inner("constant")
    constant = {each: constants.tree(each) for each in constants.keys} if constants else {}
    for each, definition in constant.items():
        _known(entry, "constant", (each, *names(definition)), quantities)
        for other in sorted(constant.keys() & set(names(definition))):
            expected = "constants that do not lead to one another"
            entry.blame("cycle", "constant", expected=expected, found=f"{each} from {other}")
    return Form(name, subject, tree, _numbers(entry.inner("at")), _numbers(entry.inner("within")), constant)


def _numbers(entry: Entry | None) -> dict[str, float]:
    return {name: entry.number(name) for name in entry.keys} if entry else {}


def _case(entry: Entry, of: Relation) -> Case:
    """An outside case; it must name every symbol, say its source, and fit the equation."""
    entry.allow((*of.symbols, "source"), (*of.symbols, "source"))
    values = {symbol: entry.number(symbol) for symbol in of.symbols}
    case = Case(values, entry.text("source"))
    try:
        found = evaluate(of.tree, values)
    except (ArithmeticError, ValueError) as error:
        entry.blame("case", of.subject, expected="values in the range of the equation", found=str(error))
        return case
    if abs(found - values[of.subject]) > CASE_TOLERANCE * max(abs(values[of.subject]), 1e-3):
        entry.blame(
            "case", of.subject, expected=f"{of.subject} = {found:.6g}, as the equation gives", found=entry.text(of.subject),
            hint="Look at the equation, or at the units of the case.",
        )  # fmt: skip
    return case


def slip(
    entry: Entry,
    relations: Mapping[str, Relation],
    quantities: Mapping[str, Quantity],
    balances: Mapping[str, BalanceEntry],
) -> Slip:
    """A slip at known relations, or at a conversion or the quotient, or where an equation is made; raises ``EntryError``."""
    entry.allow(_SLIP, ("at", "hint", "source"))
    places = tuple(place for place in entry.texts("at") if not place.startswith("balance:"))
    first = places[0] if places else ""
    kinds, reshape = reshaping(entry, balances)
    plain = Slip(entry.path, entry.text("hint"), entry.text("source"), entry.texts("twins"), balances=kinds, reshape=reshape)
    if not places and plain.balances:
        return plain
    if first.startswith("rule:"):
        hint = "Write it under `wrong` of that rule in rules.yaml."
        entry.blame("bad-value", "at", expected="a relation, convert: UNIT -> UNIT, or quotient", found=first, hint=hint)
        raise EntryError
    if first.startswith("convert:"):
        return replace(plain, conversions=tuple(_conversion(entry, place) for place in places))
    if first == "quotient":
        entry.allow(_SLIP, ("instead",))
        return replace(plain, quotient=entry.text("instead"))
    return _at_relations(entry, plain, [_relation(entry, place, relations) for place in places], quantities)


def _conversion(entry: Entry, place: str) -> tuple[str, str]:
    before, arrow, after = (part.strip() for part in place.removeprefix("convert:").partition("->"))
    if not (place.startswith("convert:") and before and arrow and after):
        entry.blame("bad-value", "at", expected="convert: UNIT -> UNIT", found=place)
    return before, after


def _relation(entry: Entry, place: str, relations: Mapping[str, Relation]) -> Relation:
    if place not in relations:
        hint = nearest(place, relations) or "Or write convert: UNIT -> UNIT, or quotient."
        entry.blame("unknown-relation", "at", expected="the id of a relation", found=place, hint=hint)
        raise EntryError
    return relations[place]


def _at_relations(entry: Entry, plain: Slip, places: list[Relation], quantities: Mapping[str, Quantity]) -> Slip:
    if ("instead" in entry.keys) == ("read" in entry.keys):
        found = "both" if "read" in entry.keys else "neither"
        entry.blame("bad-shape", "at", expected="either instead or read", found=found)
        raise EntryError
    if len({len(each.symbols) for each in places}) != 1:
        entry.blame("unlike-relations", "at", expected="relations of the same form", found=", ".join(each.id for each in places))
    instead = entry.equation("instead") if "instead" in entry.keys else None
    if instead:
        _known(entry, "instead", (instead[0], *names(instead[1])), quantities)
    readings = entry.inner("read")
    read = {name: readings.tree(name) for name in readings.keys} if readings else {}
    for name, tree in read.items():
        _among(entry, "read", (name,), places[0])
        _known(entry, "read", names(tree), quantities)
    when = entry.text("when")
    if when:
        _among(entry, "when", (when,), places[0])
    asked = entry.one_of("only", ("", "asked"), "") == "asked"
    return replace(plain, relations=tuple(each.id for each in places), instead=instead, read=read, when=when, only_asked=asked)


def _known(entry: Entry, key: str, symbols: Iterable[str], quantities: Mapping[str, Quantity]) -> None:
    for symbol in dict.fromkeys(symbols):
        if symbol not in quantities:
            hint = nearest(symbol, quantities) or "Add it to quantities.yaml."
            entry.blame("unknown-quantity", key, expected="a name of quantities.yaml", found=symbol, hint=hint)


def _among(entry: Entry, key: str, symbols: Iterable[str], of: Relation) -> None:
    for symbol in symbols:
        if symbol not in of.symbols:
            expected = f"a name of {of.id} ({', '.join(of.symbols)})"
            entry.blame("unknown-quantity", key, expected=expected, found=symbol, hint=nearest(symbol, of.symbols))


def twins(entry: Entry, slips: Mapping[str, Slip]) -> None:
    """Note twins that are no slips."""
    for twin in slips[entry.path].twins:
        if twin not in slips:
            entry.blame("unknown-slip", "twins", expected="the id of a common error", found=twin, hint=nearest(twin, slips))
