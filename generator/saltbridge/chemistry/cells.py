"""Half-cells and galvanic cells: a half-reaction with its electrode and the amounts of its species.

Amounts of dissolved species are in mol/L, of gases in bar. A species without an amount stands at its standard activity
of 1. Everything here holds for the cell as written, reduction at the right; which side is the cathode is found later.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import lcm
from typing import TYPE_CHECKING, Literal, NamedTuple, cast

from saltbridge.chemistry.equations import Equation, Term
from saltbridge.chemistry.half_reactions import (
    MEDIUM,
    WATER,
    Combined,
    HalfReaction,
    combine,
    electrode,
    is_metal,
    parse_half_reaction,
)
from saltbridge.chemistry.species import Phase, Species
from saltbridge.faults import fault
from saltbridge.tables.kinds import usual_phases

if TYPE_CHECKING:
    from collections.abc import Mapping

    from saltbridge.tables import SheetRow

Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")


@dataclass(frozen=True, slots=True)
class Amount:
    """A concentration or pressure: ``text`` and ``printed_unit`` as printed, ``value`` in ``unit``.

    ``value`` is None and ``given`` false where the amount is the unknown ``?``.
    """

    text: str
    value: float | None
    unit: Literal["mol/L", "bar"]
    given: bool = True
    printed_unit: str = ""

    @property
    def shown(self) -> str:
        """As written in a diagram: ``0.10``, ``0.50 bar``, ``?``."""
        return f"{self.text} {self.printed_unit}" if self.printed_unit else self.text


@dataclass(frozen=True, slots=True)
class HalfCell:
    """A half-reaction at its electrode.

    ``shown`` lists the species of the diagram from the electrode outwards, the electrode itself left out.
    """

    half: HalfReaction
    couple: str
    electrode: Species
    amounts: tuple[tuple[Species, Amount], ...] = ()
    shown: tuple[Species, ...] = ()
    _hash: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Its hash is kept: what is set and known of a cell is looked up by it at every draw."""
        object.__setattr__(self, "_hash", hash((self.half, self.couple, self.electrode, self.amounts, self.shown)))

    def __hash__(self) -> int:
        return self._hash

    def amount(self, species: Species) -> Amount | None:
        """Find the amount told for a species; None stands for standard activity."""
        return next((amount for named, amount in self.amounts if named.bare == species.bare), None)


@dataclass(frozen=True, slots=True)
class GalvanicCell:
    """Two half-cells as drawn; E_cell = E_right − E_left."""

    left: HalfCell
    right: HalfCell

    def side(self, side: Side) -> HalfCell:
        """Give the half-cell of a side."""
        return self.left if side == "left" else self.right

    @property
    def is_concentration_cell(self) -> bool:
        """Whether both sides hold the same couple."""
        return self.left.half == self.right.half


def swap(cell: GalvanicCell) -> GalvanicCell:
    """Left and right changed over."""
    return GalvanicCell(cell.right, cell.left)


def half_cell(row: SheetRow, amounts: Mapping[str, Amount] | None = None) -> HalfCell:
    """Build the usual half-cell of a sheet row; ``amounts`` go by species without phase, the electrode is the metal or platinum.

    The diagram holds H⁺ and OH⁻ too. Raises ``Faulty`` with code ``species-not-in-couple`` for an amount of another species.
    """
    half = parse_half_reaction(row.half_reaction)
    conductor = electrode(half)
    given = dict(amounts or {})
    shown = [species for species in outwards(half) if species.bare != WATER and species != conductor]
    known = {species.bare: species for species in half.species if has_activity(species)}
    for name in given:
        if name not in known:
            raise fault(
                "species-not-in-couple",
                expected=f"one of {', '.join(known)} of {row.couple}",
                found=repr(name),
                hint="Name the species without its phase.",
            )
    told = tuple((known[name], amount) for name, amount in given.items())
    return HalfCell(half, row.couple, conductor, told, tuple(shown))


def outwards(half: HalfReaction) -> list[Species]:
    """Species from the electrode outwards: solids, liquids, gases, then the solution, the couple's own before its medium."""
    phases = ("s", "l", "g", "aq", "")
    unique = list(dict.fromkeys(half.species))
    return sorted(unique, key=lambda species: (phases.index(species.phase), species.bare in MEDIUM))


# ------------------------------------------------------------------ reaction and quotient


class QuotientTerm(NamedTuple):
    """A factor of Q: the activity of ``species`` on ``side``, raised to ``exponent`` (negative: below the line)."""

    side: Side
    species: Species
    exponent: int


def has_activity(species: Species) -> bool:
    """Whether a species appears in Q: not the electron, water, or a pure solid or liquid. Raises ``Faulty`` without a phase."""
    return not (species.is_electron or species.bare == WATER) and usual_phase(species) in {"g", "aq"}


def usual_phase(species: Species) -> Phase:
    """Tell the phase, else the usual one: ions dissolved, metals solid, common elements. Raises ``Faulty`` where unclear."""
    if species.phase:
        return species.phase
    if species.charge:
        return "aq"
    if species.bare in usual_phases():
        return cast("Phase", usual_phases()[species.bare])
    if is_metal(species):
        return "s"
    raise fault(
        "phase-needed",
        expected=f"the phase of {species.bare}",
        found="none",
        hint=f"Write {species.bare}(s), (l), (g) or {species.bare}(aq).",
    )


def cell_reaction(cell: GalvanicCell) -> Combined:
    """Give the reaction as written, reduction at the right.

    Like ``combine``, but never divided so far that a factor of Q would get a broken exponent.
    """
    forward = combine(cell.right.half, cell.left.half)
    if forward.divided_by == 1 or all(exponent % forward.divided_by == 0 for _, _, exponent in _net_terms(cell)):
        return forward
    sides = (
        tuple(Term(count * forward.divided_by, species) for count, species in side)
        for side in (forward.equation.left, forward.equation.right)
    )
    return Combined(Equation(*sides), forward.n * forward.divided_by, forward.cathode_times, forward.anode_times)


def quotient_terms(subject: GalvanicCell | Equation) -> tuple[QuotientTerm, ...]:
    """List the factors of Q: products positive, reactants negative; solids, pure liquids, water and electrons left out.

    For a cell the right half-cell is reduced and the left one oxidised, as written, for ``cell_reaction(cell).n``
    electrons; a species on both sides stays apart unless both hold the same amount of it. For a bare equation the side
    is that of the arrow.
    """
    if isinstance(subject, Equation):
        return tuple(
            QuotientTerm(side, species, exponent)
            for side, terms, way in zip(SIDES, (subject.left, subject.right), (-1, 1), strict=True)
            for species, exponent in _exponents(terms, way).items()
        )
    divided = cell_reaction(subject).divided_by
    return tuple(QuotientTerm(side, species, exponent // divided) for side, species, exponent in _net_terms(subject))


def _exponents(terms: tuple[Term, ...], factor: int) -> dict[Species, int]:
    """Add up the coefficients of what has an activity, times a factor."""
    sums: dict[Species, int] = {}
    for coefficient, species in terms:
        if has_activity(species):
            sums[species] = sums.get(species, 0) + coefficient * factor
    return sums


def _net_terms(cell: GalvanicCell) -> list[QuotientTerm]:
    """List the factors for lcm(n_left, n_right) electrons, equal species of equal amount set off against each other."""
    n = lcm(cell.left.half.n, cell.right.half.n)
    sums: dict[Side, dict[Species, int]] = {}
    for side, way in zip(SIDES, (-1, 1), strict=True):
        half = cell.side(side).half
        factor = way * n // half.n
        gained, lost = _exponents(half.reduced, factor), _exponents(half.oxidised, -factor)
        sums[side] = {species: gained.get(species, 0) + lost.get(species, 0) for species in {**gained, **lost}}
    if not cell.is_concentration_cell:
        _set_off(cell, sums)
    return [QuotientTerm(side, species, exponent) for side in SIDES[::-1] for species, exponent in sums[side].items() if exponent]


def _set_off(cell: GalvanicCell, sums: dict[Side, dict[Species, int]]) -> None:
    """Leave the sum of a species found on both sides in equal amount at the side that has more of it."""
    for species in set(sums["left"]) & set(sums["right"]):
        amounts = [cell.side(side).amount(species) for side in SIDES]
        values = [amount.value if amount else 1.0 for amount in amounts]
        if None in values or values[0] != values[1]:
            continue
        keeper, loser = sorted(SIDES, key=lambda side: -abs(sums[side][species]))
        sums[keeper][species] += sums[loser].pop(species)


class Transfer(NamedTuple):
    """What a concentration cell does: a whole number of ``species`` passes from one side to the other."""

    coefficient: int
    species: Species
    source: Side
    goal: Side


def transfers(cell: GalvanicCell) -> tuple[Transfer, ...]:
    """For a concentration cell, reduction at the right: what disappears on one side and appears on the other."""
    found = []
    for term in quotient_terms(cell) if cell.is_concentration_cell else ():
        if term.exponent > 0:
            other: Side = "left" if term.side == "right" else "right"
            found.append(Transfer(term.exponent, term.species, other, term.side))
    return tuple(found)


def transfer_text(cell: GalvanicCell) -> str:
    """``Zn^2+(aq, 0.50) -> Zn^2+(aq, 0.10)`` for a concentration cell, reduction at the right."""

    def one(transfer: Transfer, side: Side) -> str:
        return Term(transfer.coefficient, transfer.species.in_phase("")).text + told(cell.side(side), transfer.species)

    moved = transfers(cell)
    return " -> ".join(
        " + ".join(one(each, side) for each, side in zip(moved, way, strict=True))
        for way in ([m.source for m in moved], [m.goal for m in moved])
    )


def told(half: HalfCell, species: Species) -> str:
    """Phase and amount in brackets: ``(aq, 0.10)``."""
    amount = half.amount(species)
    inside = ", ".join(part for part in (species.phase, amount.shown if amount else "") if part)
    return f"({inside})" if inside else ""
