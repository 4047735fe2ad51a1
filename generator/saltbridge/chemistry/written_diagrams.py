"""A cell diagram as it stands on the line, right or wrong: species by species, with what separates them.

    diagram = half [ " || " half ]           (one half: the sign of the salt bridge is missing)
    half    = phase { " | " phase }
    phase   = entry { ", " entry }
    entry   = [count] species [ "(" [state] [", "] [amount] ")" ]

``parse_diagram`` reads what a teacher writes and finds the half-reactions behind it; here nothing is asked of the chemistry, so that
what a student writes wrong can be written down too.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from saltbridge.chemistry.cells import SIDES, cell_reaction
from saltbridge.chemistry.diagrams import in_reading_order
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import fault
from saltbridge.tables.kinds import inert_conductors

if TYPE_CHECKING:
    from saltbridge.chemistry.cells import GalvanicCell, HalfCell

BRIDGE, BAR, COMMA = " || ", " | ", ", "
LONGEST = 400
MOST_ENTRIES = 24
_ENTRY = re.compile(r"([0-9]{0,3})([^()0-9].*?)(?:\((?:(s|l|g|aq)(?:, (.+))?|([0-9].*))\))?")
_COMMA = re.compile(r", (?![^(]*\))")


class Entry(NamedTuple):
    """A species on the line: ``times`` stands before it, ``amount`` in brackets after it as printed, such as ``0.10`` or ``0.50 bar``."""

    species: Species
    times: int = 1
    amount: str = ""

    @property
    def text(self) -> str:
        """As it stands on the line."""
        inside = ", ".join(part for part in (self.species.phase, self.amount) if part)
        times = str(self.times) if self.times != 1 else ""
        return f"{times}{self.species.bare}" + (f"({inside})" if inside else "")


Group = tuple[Entry, ...]
"""The species of one phase."""
Half = tuple[Group, ...]


@dataclass(frozen=True, slots=True)
class WrittenDiagram:
    """Its halves from left to right: two, or one where no salt bridge is written."""

    halves: tuple[Half, ...]

    @property
    def text(self) -> str:
        """Plain text, read back by ``parse_written``."""
        return BRIDGE.join(BAR.join(COMMA.join(entry.text for entry in group) for group in half) for half in self.halves)


def written_diagram(cell: GalvanicCell, *, counted: bool = False) -> WrittenDiagram:
    """A cell as its diagram is written; ``counted`` with the numbers of its reaction before the species, which no diagram has."""
    counts = coefficients(cell) if counted else {}
    return WrittenDiagram(tuple(_half(cell.side(side), in_reading_order(cell.side(side), side), counts) for side in SIDES))


def _half(half: HalfCell, groups: Sequence[Sequence[Species]], counts: Mapping[str, int]) -> Half:
    def entry(species: Species) -> Entry:
        amount = half.amount(species)
        return Entry(species, counts.get(species.bare, 1), amount.shown if amount and amount.given else "")

    return tuple(tuple(entry(species) for species in group) for group in groups)


def coefficients(cell: GalvanicCell) -> Mapping[str, int]:
    """The numbers above 1 that species of the diagram have in the reaction."""
    equation = cell_reaction(cell).equation
    shown = {species.bare for side in SIDES for group in in_reading_order(cell.side(side), side) for species in group}
    terms = (*equation.left, *equation.right)
    return {term.species.bare: term.coefficient for term in terms if term.coefficient > 1 and term.species.bare in shown}


@lru_cache(maxsize=1024)
def parse_written(text: str) -> WrittenDiagram:
    """Read a diagram as ``WrittenDiagram.text`` prints it. Raises ``Faulty``."""
    if len(text) > LONGEST:
        raise fault("diagram-too-long", expected=f"a diagram of at most {LONGEST} characters", found=f"{len(text)} characters")
    halves = text.split(BRIDGE)
    if len(halves) > len(SIDES):
        raise fault("diagram-unread", expected="at most one salt bridge ||", found=repr(text))
    return WrittenDiagram(
        tuple(tuple(tuple(_parse_entry(entry) for entry in _COMMA.split(group)) for group in half.split(BAR)) for half in halves)
    )


def _parse_entry(text: str) -> Entry:
    match = _ENTRY.fullmatch(text)
    if not match:
        raise fault("diagram-unread", expected="a species such as Zn^2+(aq, 0.10)", found=repr(text))
    count, formula, state, amount, alone = match.groups()
    return Entry(parse_species(formula + (f"({state})" if state else "")), int(count or "1"), amount or alone or "")


# ------------------------------------------------------------------ written wrong

Reshape = Callable[[WrittenDiagram], "WrittenDiagram | None"]


def as_diagram(counted: WrittenDiagram) -> WrittenDiagram:
    """The diagram of a cell that is told with the numbers of its reaction: without them."""
    return _each(counted, lambda entry: entry._replace(times=1))


def _each(diagram: WrittenDiagram, change: Callable[[Entry], Entry]) -> WrittenDiagram:
    return WrittenDiagram(tuple(tuple(tuple(change(entry) for entry in group) for group in half) for half in diagram.halves))


def _reversed(counted: WrittenDiagram) -> WrittenDiagram:
    """The half-cells changed over, each with its electrode at its end."""
    return WrittenDiagram(tuple(half[::-1] for half in as_diagram(counted).halves[::-1]))


def _electrode_left_out(counted: WrittenDiagram) -> WrittenDiagram:
    """Without electrodes that take no part."""
    return WrittenDiagram(
        tuple(tuple(group for group in half if not is_inert(group, half)) for half in as_diagram(counted).halves)
    )


def _bars_in_phases(counted: WrittenDiagram) -> WrittenDiagram:
    """A bar between all species, those of one phase too."""
    return WrittenDiagram(tuple(tuple((entry,) for group in half for entry in group) for half in as_diagram(counted).halves))


def _commas_for_bars(counted: WrittenDiagram) -> WrittenDiagram:
    """Commas where the electrode meets the solution."""
    return WrittenDiagram(tuple((tuple(entry for group in half for entry in group),) for half in as_diagram(counted).halves))


def _numbers_kept(counted: WrittenDiagram) -> WrittenDiagram:
    """With the numbers of the reaction."""
    return counted


def _bar_for_bridge(counted: WrittenDiagram) -> WrittenDiagram:
    """A single bar where the salt bridge is."""
    return WrittenDiagram((tuple(group for half in as_diagram(counted).halves for group in half),))


def is_inert(group: Group, half: Half) -> bool:
    """Whether a phase is an electrode that takes no part: a conductor whose element stands nowhere else in the half-cell."""
    if len(group) != 1 or group[0].species.bare not in inert_conductors():
        return False
    (symbol, _), *_ = group[0].species.atoms
    others = [entry.species for other in half if other is not group for entry in other]
    return all(symbol not in dict(species.atoms) for species in others)


DIAGRAM_RESHAPES: Mapping[str, Reshape] = {
    "reversed": _reversed,
    "inert electrode left out": _electrode_left_out,
    "bars within a phase": _bars_in_phases,
    "commas for bars": _commas_for_bars,
    "numbers kept": _numbers_kept,
    "bar for the bridge": _bar_for_bridge,
}
"""Ways in which a diagram is written wrong: each takes it with the numbers of its reaction. Where nothing differs there is no error."""
