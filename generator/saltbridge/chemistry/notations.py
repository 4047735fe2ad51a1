"""The closed list of operations that write something down in the notation of chemistry, and the ways in which each is written wrong.

``diagram`` takes the diagram of a cell with the numbers of its reaction, ``quotient`` an equation and the states of its species
(``Zn(s), Zn^2+(aq)``); each gives a text, as the operations on equations do.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple, Protocol

from saltbridge.chemistry.equations import Equation, parse_equation
from saltbridge.chemistry.quotients import QUOTIENT_RESHAPES, quotient_of, with_states
from saltbridge.chemistry.species import parse_species
from saltbridge.chemistry.written_diagrams import DIAGRAM_RESHAPES, as_diagram, parse_written


class Written(Protocol):
    """A diagram or an expression."""

    @property
    def text(self) -> str:
        """As plain text."""


class Notation(NamedTuple):
    """How its texts are read, what is rightly written from them, and what with each error."""

    read: Callable[[Sequence[str]], Any]
    write: Callable[[Any], Written]
    reshapes: Mapping[str, Callable[[Any], Written | None]]


def _told(texts: Sequence[str]) -> Equation:
    """An equation with the states of its species."""
    equation, states = texts
    told = map(parse_species, states.split(", ") if states else ())
    return with_states(parse_equation(equation), {each.bare: each.phase for each in told})


NOTATIONS: Mapping[str, Notation] = {
    "diagram": Notation(lambda texts: parse_written(texts[0]), as_diagram, DIAGRAM_RESHAPES),
    "quotient": Notation(_told, quotient_of, QUOTIENT_RESHAPES),
}


def written(op: str, error: str, texts: Sequence[str]) -> Written | None:
    """What an operation writes, rightly or with the error of that name; ``None`` where it can't be made. Raises ``Faulty``."""
    notation = NOTATIONS[op]
    made_from = notation.read(texts)
    return notation.reshapes[error](made_from) if error else notation.write(made_from)
