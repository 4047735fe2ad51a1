"""What is told in words like ``I = 2.50 A`` or ``E0(Cu^2+/Cu) = 0.337 V``: read, checked, put into a situation."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from saltbridge import units
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.catalogue import Quantity as QuantityEntry
from saltbridge.chemistry.cells import SIDES, Amount, GalvanicCell, HalfCell, Side
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import Fault, Faulty, fault, nearest
from saltbridge.graph.node_names import TAKE_AN_OWNER
from saltbridge.scenarios.situations import refuse_unit
from saltbridge.sigfigs import decimals_of, to_figures
from saltbridge.tables import Sheet
from saltbridge.units import Quantity

_TOLD = re.compile(r"\s*([A-Za-z_][A-Za-z0-9_]*)\s*(?:\((.{1,80})\))?\s*=\s*(\S.*?)\s*", re.DOTALL)
FARTHEST_POTENTIAL, FARTHEST_OF_BATTERIES = 10, 1000  # V
LARGEST = {"mol/L": 100, "bar": 10_000}
LOWEST_PH, HIGHEST_PH = -5, 20  # past these it is no solution in water


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
        if any((told.name, _loosely(told.of)) == (other.name, _loosely(other.of)) for other in found):
            faults.append(Fault("given-twice", f"{told.name} once", "twice", "Leave one out.", key=text.strip()[:60]))
        found.append(told)
    if faults:
        raise Faulty(faults)
    return tuple(found)


def _read(text: str, catalogue: Catalogue) -> Told:
    match = _TOLD.fullmatch(text) if len(text) <= 200 else None
    if match is None:
        raise fault("given", expected="NAME = VALUE", found=repr(text[:60]), hint='Write for example "I = 2.50 A".')
    name, of, value = match[1], (match[2] or "").strip(), match[3]
    quantity = require_quantity(name, catalogue)
    if quantity.word:
        return Told(name, of, Quantity("", ""), value, text)
    if of and name not in TAKE_AN_OWNER:
        raise fault(
            "owner", expected=f"{name} without brackets", found=f"{name}({of})", hint="Only E0(…), c(…) and p(…) take them."
        )
    read = _quantity(quantity, value)
    refuse_unit(quantity, read.unit)
    _refuse_far_potential(quantity, read)
    if quantity.whole and Decimal(read.printed) != int(Decimal(read.printed)):
        raise fault("whole", expected=f"a whole number for {name}", found=read.printed)
    if name == "pH" and not LOWEST_PH <= Decimal(read.printed) <= HIGHEST_PH:
        raise fault("pH-out-of-range", expected=f"a pH from {LOWEST_PH} to {HIGHEST_PH}", found=read.printed)
    return Told(name, of, read, "", text)


def require_quantity(name: str, catalogue: Catalogue, others: Sequence[str] = ()) -> QuantityEntry:
    """The quantity of a name; raises ``Faulty`` with the nearest name (``others`` are names that are no quantities)."""
    quantity = catalogue.quantities.get(name)
    if quantity is None:
        known = [*catalogue.quantities, *others]
        plain = re.sub("delta|[Δ∆]", "d", re.sub("[°⦵]", "0", name), flags=re.IGNORECASE).lower()
        same = [each for each in known if each.lower() == plain]
        hint = f"Did you mean {same[0]}?" if same else nearest(name, known) or "saltbridge work --list names them all."
        raise fault("unknown-quantity", expected="the name of a quantity", found=name[:40], hint=hint)
    return quantity


def _quantity(quantity: QuantityEntry, value: str) -> Quantity:
    """The number and unit of a quantity; raises ``Faulty`` where either can't be read."""
    name, example = quantity.symbol, "°C" if quantity.unit == "K" else quantity.show or quantity.unit
    if re.fullmatch(r"[-+]?\d+,\d+(\D.*)?", value):
        raise fault(
            "decimal-comma", expected="a decimal point", found=repr(value), hint=f'Write "{name} = {value.replace(",", ".", 1)}".'
        )
    try:
        read = units.parse_quantity(value)
    except Faulty as error:
        if error.faults[0].code != "unit":
            raise
        usual = ", ".join(units.known_units(quantity.unit)[:6]) or "a pure number"
        raise fault("unit", expected=f"{name} in a unit of its kind ({usual})", found=repr(value)) from error
    if quantity.unit and not read.unit:
        raise fault(
            "unit-needed",
            expected=f"{name} with its unit, such as {example}",
            found=repr(value),
            hint=f'Write "{name} = {value} {example}".',
        )
    return read


def _refuse_far_potential(quantity: QuantityEntry, read: Quantity) -> None:
    """Raise ``Faulty`` for a potential beyond those of any cell, as when millivolts are told as volts; a battery may give more."""
    several = quantity.flags.several_cells
    farthest, kind = (FARTHEST_OF_BATTERIES, "battery or supply") if several else (FARTHEST_POTENTIAL, "cell")
    if quantity.unit != "V" or abs(units.convert(read.printed, read.unit, "V")) <= farthest:
        return
    likely = read.unit == "V" and abs(Decimal(read.printed)) <= 1000 * FARTHEST_POTENTIAL
    hint = f'Write "{quantity.symbol} = {read.printed} mV".' if likely else ""
    expected = f"{quantity.symbol} within {farthest} V, as in any {kind}"
    raise fault("impossible", expected=expected, found=f"{read.printed} {read.unit}", hint=hint)


def refuse_battery(told: Sequence[Told]) -> None:
    """Raise ``Faulty`` for a cell potential of one cell that only several in series have."""
    for each in told:
        if each.name == "E_cell" and abs(units.convert(each.quantity.printed, each.quantity.unit, "V")) > FARTHEST_POTENTIAL:
            found = f"{each.quantity.printed} {each.quantity.unit}"
            expected = f"E_cell within {FARTHEST_POTENTIAL} V, as in any one cell"
            hint = f'Write "E_cell = {each.quantity.printed} mV".' if each.quantity.unit == "V" else ""
            raise _keyed(fault("impossible", expected=expected, found=found, hint=hint), each)


def _loosely(owner: str) -> str:
    """A couple or species without the marks that may be left out."""
    return owner.replace(" ", "").replace("^", "")


# ------------------------------------------------------------------ the sheet and the cell


def with_potentials(sheet: Sheet, told: Sequence[Told]) -> Sheet:
    """The sheet with potentials told for couples (``E0(Cu^2+/Cu) = 0.337 V``) in place of its own.

    Raises ``Faulty`` (code ``couple-not-on-sheet``) naming the nearest couples.
    """
    rows = list(sheet.rows)
    for each in told:
        if not each.of:
            raise _keyed(
                fault(
                    "which-couple", expected="the couple in brackets", found=each.source, hint='Write "E0(Cu^2+/Cu) = 0.34 V".'
                ),
                each,
            )
        place = next((at for at, row in enumerate(rows) if _names(each.of, row.couple, row.half_reaction)), None)
        if place is None:
            near = difflib.get_close_matches(each.of, [row.couple for row in rows], 3, 0.4)
            hint = f"Near: {', '.join(near)}." if near else "Write it as Cu^2+/Cu."
            raise _keyed(fault("couple-not-on-sheet", expected=f"a couple of {sheet.title}", found=each.of, hint=hint), each)
        volts = units.convert(each.quantity.printed, each.quantity.unit, "V")
        rows[place] = replace(rows[place], E0=str(volts))
    return replace(sheet, rows=tuple(rows))


def told_couples(sheet: Sheet, told: Sequence[Told]) -> frozenset[str]:
    """The ids of the couples whose potential was told."""
    return frozenset(row.couple for row in sheet.rows for each in told if _names(each.of, row.couple, row.half_reaction))


def _keyed(error: Faulty, told: Told) -> Faulty:
    return Faulty(each.at(key=told.source.strip()[:60]) for each in error.faults)


def _names(told: str, couple: str, half_reaction: str) -> bool:
    plain = told.replace(" ", "")
    return plain in {couple, couple.replace("^", "")} or plain == parse_half_reaction(half_reaction).couple_label


def with_told_amounts(cell: GalvanicCell, told: Sequence[Told]) -> GalvanicCell:
    """The cell with concentrations and pressures told by species (``c(Zn^2+) = 0.10 mol/L``, ``pH = 4.5``).

    Where both half-cells hold a species, the one without an amount of its own is meant. Raises ``Faulty`` where none holds it.
    """
    for each in told:
        sides = told_sides(cell, each)
        halves = {side: _told_half(cell, side, each) if side in sides else cell.side(side) for side in SIDES}
        cell = GalvanicCell(halves["left"], halves["right"])
    return cell


def told_sides(cell: GalvanicCell, told: Told) -> tuple[Side, ...]:
    """The half-cells that an amount is told of; raises ``Faulty`` where there are none."""
    if told.name != "pH" and not told.of:
        hint = f'Write "{told.name}({"H2" if told.name == "p" else "Cu^2+"}) = …".'
        raise _keyed(fault("which-species", expected="the species in brackets", found=told.name, hint=hint), told)
    bare = _bare(told, cell)
    holding = [side for side in SIDES if _species(cell.side(side), bare, told.name) is not None]
    if not holding:
        phase = "g" if told.name == "p" else "aq"
        active = (species for side in SIDES for species in cell.side(side).half.species if species.phase == phase)
        there = ", ".join(dict.fromkeys(species.bare for species in active)) or "it has none"
        kind = "gas" if told.name == "p" else "dissolved species"
        raise _keyed(fault("species-not-in-cell", expected=f"a {kind} of this cell ({there})", found=bare), told)
    empty = [
        side for side in holding if not any(known.bare == bare and amount.given for known, amount in cell.side(side).amounts)
    ]
    return tuple(empty or holding)


def _bare(told: Told, cell: GalvanicCell) -> str:
    """The species told of, as the cell writes it; ``Cu2+`` is read where the cell leaves one meaning."""
    if told.name == "pH":
        return "H^+"
    there = {species.bare for side in SIDES for species in cell.side(side).half.species}
    meant = [bare for bare in there if _loosely(bare) == _loosely(told.of)]
    if len(meant) == 1:
        return meant[0]
    try:
        return parse_species(told.of).bare
    except Faulty as error:
        raise _keyed(error, told) from error


def _species(half: HalfCell, bare: str, name: str) -> Species | None:
    phase = "g" if name == "p" else "aq"
    return next((each for each in half.half.species if each.bare == bare and each.phase == phase), None)


def _told_half(cell: GalvanicCell, side: Side, told: Told) -> HalfCell:
    half = cell.side(side)
    species = _species(half, _bare(told, cell), told.name)
    assert species is not None  # noqa: S101 - told_sides has looked
    if told.name == "pH":
        value = 10.0 ** -float(told.quantity.printed)
        amount = Amount(str(to_figures(value, max(1, decimals_of(told.quantity.printed)))), value, "mol/L")
    else:
        amount = _amount(told, "bar" if species.phase == "g" else "mol/L")
    others = tuple((other, known) for other, known in half.amounts if other.bare != species.bare)
    return replace(half, amounts=(*others, (species, amount)))


def _amount(told: Told, unit: Literal["mol/L", "bar"]) -> Amount:
    text = str(units.convert(told.quantity.printed, told.quantity.unit, unit))
    if not 0 < Decimal(text) <= LARGEST[unit]:
        found = f"{told.quantity.printed} {told.quantity.unit}"
        raise _keyed(fault("impossible", expected=f"an amount above 0 and up to {LARGEST[unit]} {unit}", found=found), told)
    return Amount(text, float(text), unit)
