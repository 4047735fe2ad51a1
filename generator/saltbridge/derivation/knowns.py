"""What is told in words like ``I = 2.50 A`` or ``E0(Cu^2+/Cu) = 0.337 V``: read, checked, put into a situation."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from saltbridge import units
from saltbridge.chemistry.cells import SIDES, Amount, GalvanicCell, HalfCell
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.species import parse_species
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.faults import Fault, Faulty, fault
from saltbridge.tables import Sheet
from saltbridge.units import Quantity

_TOLD = re.compile(r"\s*([A-Za-z_][A-Za-z0-9_]*)\s*(?:\((.{1,80})\))?\s*=\s*(\S.*?)\s*", re.DOTALL)
WORDS = ("metal",)


@dataclass(frozen=True, slots=True)
class Told:
    """One thing told: ``name``, what it is of (a couple, a species), and its number with unit, or a word."""

    name: str
    of: str
    quantity: Quantity
    word: str = ""
    source: str = ""


def read_told(texts: Sequence[str], catalogue: Catalogue) -> tuple[Told, ...]:
    """Read every ``NAME = VALUE``; raises ``Faulty`` with all faults."""
    found: list[Told] = []
    faults: list[Fault] = []
    for text in texts:
        try:
            told = _read(text, catalogue)
        except Faulty as error:
            faults.extend(each.at(key=text.strip()[:60]) for each in error.faults)
            continue
        if any((told.name, told.of) == (other.name, other.of) for other in found):
            faults.append(Fault("told-twice", f"{told.name} once", "twice", "Leave one out.", key=text.strip()[:60]))
        found.append(told)
    if faults:
        raise Faulty(faults)
    return tuple(found)


def _read(text: str, catalogue: Catalogue) -> Told:
    match = _TOLD.fullmatch(text) if len(text) <= 200 else None
    if match is None:
        raise fault("known", expected="NAME = VALUE", found=repr(text[:60]), hint='Write for example "I = 2.50 A".')
    name, of, value = match[1], (match[2] or "").strip(), match[3]
    if name in WORDS:
        return Told(name, of, Quantity("", ""), value, text)
    quantity = catalogue.quantities.get(name)
    if quantity is None:
        near = difflib.get_close_matches(name, [*catalogue.quantities, *WORDS], 1, 0.5)
        hint = f"Did you mean {near[0]}?" if near else "saltbridge work --list names them all."
        raise fault("unknown-quantity", expected="the name of a quantity", found=name, hint=hint)
    read = units.parse_quantity(value)
    if quantity.unit and not read.unit:
        raise fault(
            "unit-needed",
            expected=f"{name} with its unit, such as {quantity.unit}",
            found=repr(value),
            hint=f'Write "{name} = {value} {quantity.unit}".',
        )
    _require_kind(name, read.unit, quantity.unit)
    return Told(name, of, read, "", text)


def _require_kind(name: str, unit: str, coherent: str) -> None:
    celsius = unit == "°C" and coherent == "K"
    if unit != coherent and not celsius and not units.same_dimension(unit, coherent):
        usual = ", ".join(units.known_units(coherent)[:6]) or "a pure number"
        raise fault("dimension", expected=f"{name} in a unit of its kind ({usual})", found=unit or "a pure number")


# ------------------------------------------------------------------ the sheet and the cell


def with_potentials(sheet: Sheet, told: Sequence[Told]) -> Sheet:
    """The sheet with potentials told for couples (``E0(Cu^2+/Cu) = 0.337 V``) in place of its own.

    Raises ``Faulty`` (code ``couple-not-on-sheet``) naming the nearest couples.
    """
    rows = list(sheet.rows)
    for each in told:
        place = next((at for at, row in enumerate(rows) if _names(each.of, row.couple, row.half_reaction)), None)
        if place is None:
            near = difflib.get_close_matches(each.of, [row.couple for row in rows], 3, 0.3)
            raise fault(
                "couple-not-on-sheet",
                expected=f"a couple of {sheet.title}",
                found=each.of,
                hint=f"Near: {', '.join(near)}." if near else "",
            )
        volts = units.convert(each.quantity.printed, each.quantity.unit, "V")
        rows[place] = replace(rows[place], E0=str(volts))
    return replace(sheet, rows=tuple(rows))


def _names(told: str, couple: str, half_reaction: str) -> bool:
    plain = told.replace(" ", "")
    return plain in {couple, couple.replace("^", "")} or plain == parse_half_reaction(half_reaction).couple_label


def with_told_amounts(cell: GalvanicCell, told: Sequence[Told]) -> GalvanicCell:
    """The cell with concentrations and pressures told by species (``c(Zn^2+) = 0.10 mol/L``, ``pH = 4.5``).

    Raises ``Faulty`` where no half-cell holds the species.
    """
    for each in told:
        bare = "H^+" if each.name == "pH" else parse_species(each.of).bare
        changed = {side: _told_half(cell.side(side), bare, each) for side in SIDES}
        if all(half is None for half in changed.values()):
            raise fault(
                "species-not-in-cell", expected=f"a half-cell that holds {bare}", found="none", hint="Name a species of the cell."
            )
        cell = GalvanicCell(changed["left"] or cell.left, changed["right"] or cell.right)
    return cell


def _told_half(half: HalfCell, bare: str, told: Told) -> HalfCell | None:
    species = next((each for each in half.half.species if each.bare == bare and each.phase in {"aq", "g"}), None)
    if species is None:
        return None
    unit = "bar" if species.phase == "g" else "mol/L"
    if told.name == "pH":
        amount = Amount(told.quantity.printed, 10.0 ** -float(told.quantity.printed), "mol/L")
    else:
        text = str(units.convert(told.quantity.printed, told.quantity.unit, unit))
        amount = Amount(text, float(Decimal(text)), "bar" if unit == "bar" else "mol/L")
    others = tuple((other, known) for other, known in half.amounts if other.bare != bare)
    return replace(half, amounts=(*others, (species, amount)))
