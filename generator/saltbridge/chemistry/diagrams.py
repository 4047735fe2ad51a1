"""Cell diagrams: ``Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)``, read, printed and set.

    diagram  = half bridge half              (electrode first on the left, last on the right)
    bridge   = "||" | "¦¦" | "‖"
    half     = phase { "|" phase }
    phase    = item { "," item }
    item     = species [ "(" [state] [","] [amount] ")" ]
    amount   = "?" | number [unit]           (mol/L for a solution, bar for a gas, unless a unit is told)

The half-reaction of a side is the row of the data sheet that fits the species named; H⁺, OH⁻ and water need no naming.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache, partial
from itertools import groupby
from typing import TYPE_CHECKING, Literal, NamedTuple

from saltbridge.chemistry.cells import SIDES, Amount, GalvanicCell, HalfCell, Side, outwards, told
from saltbridge.chemistry.couples import find_row
from saltbridge.chemistry.half_reactions import MEDIUM, is_metal
from saltbridge.chemistry.inscriptions import formula_pieces, in_english, merged, spoken_formula
from saltbridge.chemistry.species import Phase, Species, parse_species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import Fault, Faulty, fault
from saltbridge.sigfigs import number_words, print_number
from saltbridge.tables.kinds import inert_conductors
from saltbridge.units import Style, exact_factor, unit_inscription

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saltbridge.chemistry.half_reactions import HalfReaction
    from saltbridge.chemistry.inscriptions import Say
    from saltbridge.tables import SheetRow

LONGEST = 400

_BRIDGE = re.compile(r"\|\||¦\s*¦|‖")
_BAR = re.compile(r"[|¦]")
_COMMA = re.compile(r",(?![^(]*\))")
_TOLD = re.compile(r"\(\s*(?:(s|l|g|aq)\s*(?:,\s*([^()]*))?|([0-9.?][^()]*))\)$")
_AMOUNT = re.compile(r"([0-9]{1,12}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})(?:(?:e|\s*[×x*·]\s*10\^)([-+]?[0-9]{1,2}))?\s*(\S.*)?")
_CONCENTRATIONS = ("", "mol/L", "mol/l", "mol/dm3", "mol/dm^3", "mol/dm³", "M", "mmol/L", "mmol/dm3", "mmol/dm³", "mM")
_PRESSURES = ("", "bar", "kPa", "Pa", "atm")
_LARGEST = {"mol/L": Decimal(100), "bar": Decimal(10000)}


# ------------------------------------------------------------------ amounts


def parse_amount(text: str, unit: Literal["mol/L", "bar"]) -> Amount:
    """Read ``0.10``, ``0.10 mol/dm3``, ``50 kPa`` or ``?``; the value is kept in mol/L or bar. Raises ``Faulty``."""
    units = _CONCENTRATIONS if unit == "mol/L" else _PRESSURES
    plain = text.strip().replace("−", "-")
    if re.fullmatch(r"\?(\s*\S+)?", plain):
        return Amount("?", None, unit, given=False)
    match = _AMOUNT.fullmatch(plain[:LONGEST])
    if not match:
        raise fault(
            "amount-unread",
            expected="a number with a unit, or ?",
            found=repr(text[:40]),
            hint="Write for example 0.10 mol/L or 0.50 bar.",
        )
    if (match[3] or "")[:1].isdigit():
        expected, hint = "at most 12 figures before and after the mark", "Write it with a power of ten, as 3.16e-5."
        raise fault("amount-too-long", expected=expected, found=repr(text[:40]), hint=hint)
    figures, exponent, printed = match[1].replace(",", "."), match[2], (match[3] or "").strip()
    if printed not in units:
        known = ", ".join(name for name in units if name)
        raise fault("unit-unknown", expected=f"one of the units {known}", found=repr(printed))
    times = exact_factor(printed, unit) if printed else Decimal(1)
    value = Decimal(figures + (f"e{exponent}" if exponent else "")) * times
    if not 0 < value <= _LARGEST[unit]:
        raise fault("amount-out-of-range", expected=f"an amount above 0 and up to {_LARGEST[unit]} {unit}", found=repr(text))
    lead = "0" if figures.startswith(".") else ""
    shown = printed if unit == "bar" or times != 1 else ""
    return Amount(
        lead + figures + (f"e{int(exponent)}" if exponent else ""),
        float(value),
        unit,
        True,
        shown or ("bar" if unit == "bar" else ""),
    )


# ------------------------------------------------------------------ reading


@dataclass(frozen=True, slots=True)
class _Item:
    """A species as named, its phase empty where not told, with the text of its amount."""

    species: Species
    amount: str | None


def parse_diagram(text: str, rows: Sequence[SheetRow]) -> GalvanicCell:
    """Read a whole cell diagram against the rows of a data sheet. Raises ``Faulty`` with the faults of both sides."""
    if len(text) > LONGEST:
        raise fault("diagram-too-long", expected=f"a diagram of at most {LONGEST} characters", found=f"{len(text)} characters")
    halves = _BRIDGE.split(text)
    if len(halves) != 2:
        raise fault(
            "diagram-unread",
            expected="two half-cells with one salt bridge || between them",
            found=f"{len(halves) - 1} bridges in {text!r}",
            hint="Write for example Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s); what the bridge holds is left out.",
        )
    faults: list[Fault] = []
    read: list[HalfCell] = []
    for half, side in zip(halves, SIDES, strict=True):
        try:
            read.append(parse_half_cell(half, rows, side))
        except Faulty as problem:
            faults.extend(each.at(key=f"{side} half-cell") for each in problem.faults)
    if faults:
        raise Faulty(faults)
    return GalvanicCell(*read)


def parse_half_cell(text: str, rows: Sequence[SheetRow], side: Side = "left") -> HalfCell:
    """Read one half-cell, electrode first for the left side and last for the right. Raises ``Faulty``."""
    if len(text) > LONGEST:
        raise fault("diagram-too-long", expected=f"a half-cell of at most {LONGEST} characters", found=f"{len(text)} characters")
    phases = [[_read_item(item) for item in _COMMA.split(phase)] for phase in _BAR.split(text)]
    if side == "right":
        phases.reverse()
    outer, others = phases[0], [item for phase in phases[1:] for item in phase]
    conductor = _conductor(outer, text, side)
    _refuse_doubles([conductor, *(item.species for item in others)])
    row, half = find_row(conductor, [item.species for item in others], rows)
    by_name = {species.bare: species for species in half.species}
    known = {
        by_name[item.species.bare]: _amount_of(by_name[item.species.bare], item) for item in others if item.amount is not None
    }
    amounts = tuple((species, known[species]) for species in outwards(half) if species in known)
    shown = _in_usual_order(half, [by_name[item.species.bare] for item in others])
    return HalfCell(half, row.couple, by_name.get(conductor.bare, conductor), amounts, shown)


def _read_item(text: str) -> _Item:
    """Take phase and amount off the end of an item and read the species before them."""
    body = text.strip()
    match = _TOLD.search(body)
    if not match:
        return _Item(parse_species(body), None)
    species = parse_species(body[: match.start()])
    amount = match[2] if match[1] else match[3]
    phase: Phase = (
        "s" if match[1] == "s" else "l" if match[1] == "l" else "g" if match[1] == "g" else "aq" if match[1] == "aq" else ""
    )
    return _Item(species.in_phase(phase), amount.strip() if amount is not None and amount.strip() else None)


def _conductor(outer: list[_Item], text: str, side: Side) -> Species:
    """Take the electrode: a metal or carbon that stands alone at the outer end."""
    named = outer[0].species
    if len(outer) != 1 or not (is_metal(named) or named.bare in inert_conductors()) or named.phase in {"g", "aq"}:
        place = "first" if side == "left" else "last"
        hint = "Add Pt(s) | in front." if side == "left" else "Add | Pt(s) at the end."
        raise fault(
            "electrode-missing",
            expected=f"the electrode standing alone and {place} in the {side} half-cell",
            found=f"{', '.join(item.species.text for item in outer)} in {text.strip()!r}",
            hint=f"A couple without a metal of its own needs an inert electrode. {hint}",
        )
    if outer[0].amount is not None:
        raise fault("amount-of-solid", expected="no amount for an electrode", found=repr(outer[0].amount))
    return named if named.phase else named.in_phase("l" if named.bare == "Hg" else "s")


def _refuse_doubles(named: list[Species]) -> None:
    names = [species.bare for species in named]
    if doubles := sorted({name for name in names if names.count(name) > 1}):
        raise fault("species-twice", expected="each species once in a half-cell", found=", ".join(doubles))


def _amount_of(species: Species, item: _Item) -> Amount:
    if species.phase not in {"g", "aq"}:
        raise fault(
            "amount-of-solid",
            expected=f"no amount for the pure {species.text}",
            found=repr(item.amount),
            hint=f"Write {species.text}.",
        )
    return parse_amount(item.amount or "", "bar" if species.phase == "g" else "mol/L")


def _in_usual_order(half: HalfReaction, named: Sequence[Species]) -> tuple[Species, ...]:
    """The species named, those of one phase in the usual order, however they were typed: a diagram means the same in any."""
    usual = outwards(half)
    runs = [list(run) for _, run in groupby(named, key=lambda species: species.phase)]
    return tuple(species for run in runs for species in sorted(run, key=usual.index))


# ------------------------------------------------------------------ printing


def groups(half: HalfCell) -> tuple[tuple[Species, ...], ...]:
    """Group the species of a half-cell by phase, from the electrode outwards, the electrode first."""
    found: list[list[Species]] = [[half.electrode]]
    for species in half.shown:
        joins = species.phase in {"g", "aq", ""} and found[-1][-1].phase == species.phase and len(found) > 1
        if joins:
            found[-1].append(species)
        else:
            found.append([species])
    return tuple(tuple(group) for group in found)


def in_reading_order(half: HalfCell, side: Side) -> tuple[tuple[Species, ...], ...]:
    """List the phases of a half-cell from left to right on the line.

    Of two ions in one solution the one that reacts stands first: the reduced on the left, where it is oxidised, and the oxidised
    on the right (IUPAC Green Book, 3rd ed., section 2.13.1, from memory); hydrogen ions stand last.
    """
    if side == "right":
        return groups(half)[::-1]
    reduced = {term.species for term in half.half.reduced}

    def rank(species: Species) -> int:
        return 2 if species.bare in MEDIUM else int(species not in reduced)

    return tuple(tuple(sorted(group, key=rank)) for group in groups(half))


def half_diagram(half: HalfCell, side: Side) -> str:
    """Print one side as plain text: ``Cu^2+(aq, 1.0) | Cu(s)``."""
    return " | ".join(
        ", ".join(species.bare + told(half, species) for species in group) for group in in_reading_order(half, side)
    )


def diagram(cell: GalvanicCell) -> str:
    """Print the whole cell as plain text, read back by ``parse_diagram``."""
    return f"{half_diagram(cell.left, 'left')} || {half_diagram(cell.right, 'right')}"


# ------------------------------------------------------------------ setting


class Way(NamedTuple):
    """A way of writing: how a half-cell is split into phases, and numbers before species; the right one by itself."""

    phases: Callable[[HalfCell, Side], tuple[tuple[Species, ...], ...]] = in_reading_order
    numbers: Mapping[str, int] = {}


RIGHT_WAY = Way()


def inscribe_diagram(
    cell: GalvanicCell,
    bridge_sign: str = "¦¦",
    decimal_mark: str = ".",
    concentration_unit: str = "",
    say: Say = in_english,
    unit_style: Style = "slash",
    way: Way = RIGHT_WAY,
) -> Inscription:
    """Set a cell diagram, by another ``way`` where a wrong one is to be shown; ``concentration_unit`` such as mol/dm³ is printed after each concentration unless empty.

    It is said phase by phase: "Zn solid, phase boundary, Zn 2 plus aqueous 0.10, salt bridge, …".
    """
    pieces: list[Piece] = []
    words: list[str] = []
    for side in SIDES:
        half = cell.side(side)
        if words:
            pieces.append(Piece("base", f" {bridge_sign} "))
            words.append(say("salt bridge"))
        write = _right_half if way is RIGHT_WAY else partial(_half, way)
        shown, said = write(half, side, decimal_mark, concentration_unit, say, unit_style)
        pieces += shown
        words += said
    return Inscription("diagram", merged(pieces), ", ".join(words))


def _half(
    way: Way, half: HalfCell, side: Side, decimal_mark: str, concentration_unit: str, say: Say, unit_style: Style
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """The pieces of a half-cell and its words."""
    pieces: list[Piece] = []
    words: list[str] = []
    for place, group in enumerate(way.phases(half, side)):
        if place:
            pieces.append(Piece("base", " | "))
            words.append(say("phase boundary"))
        for rank, species in enumerate(group):
            number = str(way.numbers.get(species.bare, ""))
            pieces.append(Piece("base", (", " if rank else "") + number))
            unit = _told_unit(half.amount(species), concentration_unit, say, unit_style)
            pieces.extend(_told_pieces(half, species, decimal_mark, unit))
            words.append(f"{number} {_told_words(half, species, decimal_mark, say, unit)}".strip())
    return merged(pieces), tuple(words)


@lru_cache(maxsize=2048)
def _right_half(
    half: HalfCell, side: Side, decimal_mark: str, concentration_unit: str, say: Say, unit_style: Style
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """A half-cell written the right way; kept, since many diagrams share it."""
    return _half(RIGHT_WAY, half, side, decimal_mark, concentration_unit, say, unit_style)


def _told_unit(amount: Amount | None, concentration_unit: str, say: Say, style: Style) -> Inscription | None:
    """The unit printed after an amount: the one it was told in, else the bank's for a concentration."""
    if amount is None:
        return None
    shown = amount.printed_unit or (concentration_unit if amount.unit == "mol/L" and amount.given else "")
    return unit_inscription(shown, style, say) if shown else None


def _told_pieces(half: HalfCell, species: Species, mark: str, unit: Inscription | None) -> list[Piece]:
    """Set the formula, then phase and amount in brackets."""
    pieces = list(formula_pieces(species))
    amount = half.amount(species)
    inside: list[Piece] = [Piece("base", species.phase)] if species.phase else []
    if amount:
        inside += [Piece("base", ", " if inside else ""), *_amount_pieces(amount, mark)]
        inside += [Piece("base", "\u00a0"), *unit.pieces] if unit else []
    return [*pieces, Piece("base", "("), *inside, Piece("base", ")")] if inside else pieces


def _amount_pieces(amount: Amount, mark: str) -> tuple[Piece, ...]:
    return print_number(amount.text, mark).pieces if amount.given else (Piece("base", "?"),)


def _told_words(half: HalfCell, species: Species, mark: str, say: Say, unit: Inscription | None) -> str:
    amount = half.amount(species)
    words = [spoken_formula(species, phase=True, say=say)]
    if amount:
        words.append(print_number(amount.text, mark, say=number_words(say)).spoken if amount.given else say("unknown"))
        words.append(unit.spoken if unit else "")
    return " ".join(word for word in words if word)
