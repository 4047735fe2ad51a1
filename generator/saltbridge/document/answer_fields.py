"""The fields of answers: what a student types into, chooses from or puts in order. One class a kind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from saltbridge.document.inline import Maths, Spans
from saltbridge.document.pieces import Inscription


@dataclass(frozen=True, slots=True)
class CommonError:
    """A usual wrong way to a part's answer: how it is made, and the marks that it leaves.

    A number that it gives stands in the key, by ``id``; what is written down is ``shown``, nothing in a variant that does not have it.
    """

    id: str
    said: Spans
    give: int
    shown: Spans = ()


@dataclass(frozen=True, slots=True)
class NumberField:
    """A number with its unit. ``symbol``, ``unit`` and how exactly it is ``wanted`` stand at the box; ``label`` is read aloud."""

    symbol: Maths | None
    unit: Inscription | None
    label: str
    wanted: str = ""


@dataclass(frozen=True, slots=True)
class ChoiceField:
    """One of several options, in the order shown."""

    options: tuple[Spans, ...]
    label: str


@dataclass(frozen=True, slots=True)
class Group:
    """One of several choices that are made together: what stands above it, and its options."""

    head: Spans
    options: tuple[Spans, ...]


@dataclass(frozen=True, slots=True)
class ChoicesField:
    """Several choices made together, one of each group; ``numbered``: the groups are cases of one question, counted from 1."""

    groups: tuple[Group, ...]
    label: str
    numbered: bool = False

    @property
    def shared(self) -> bool:
        """Whether all groups have the same options, which a paper prints once."""
        return len({group.options for group in self.groups}) == 1


@dataclass(frozen=True, slots=True)
class SeveralField:
    """As many of several options as are right, in the order shown."""

    options: tuple[Spans, ...]
    label: str


@dataclass(frozen=True, slots=True)
class OrderField:
    """Things to put in order; ``first`` and ``last`` say what the ends mean."""

    items: tuple[Spans, ...]
    first: str
    last: str
    label: str


@dataclass(frozen=True, slots=True)
class EquationField:
    """A balanced equation, typed in the notation of the guide."""

    label: str


@dataclass(frozen=True, slots=True)
class KeyPoint:
    """One thing that a full written answer says: its marks, what else is accepted for it and what is refused."""

    text: Spans
    marks: int
    accept: tuple[Spans, ...] = ()
    refuse: tuple[Spans, ...] = ()


@dataclass(frozen=True, slots=True)
class WrittenField:
    """An answer in words, or a sketch, that a reader marks by its points. ``most``: its marks; ``wanted``: how many of the points will do (0: all)."""

    label: str
    points: tuple[KeyPoint, ...]
    most: int
    wanted: int = 0
    on: Literal["lines", "squares", "frame"] = "lines"


@dataclass(frozen=True, slots=True)
class NotationField:
    """A species, a cell diagram or an expression, typed; ``symbol`` stands before an expression, ``how`` says how it is typed."""

    kind: Literal["species", "diagram", "expression"]
    label: str
    how: Spans
    symbol: Maths | None = None


@dataclass(frozen=True, slots=True)
class WordField:
    """A short word; what ``also`` counts and what is ``refused`` though it is near are told in the memorandum."""

    label: str
    also: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BlankCell:
    """A cell of a table to answer: its field and right answer, what is worked out by mistake, and its label (``c.2``)."""

    label: str
    field: NumberField | ChoiceField | WordField | NotationField
    answer: Spans
    errors: tuple[CommonError, ...] = ()


@dataclass(frozen=True, slots=True)
class TableField:
    """A table to complete: its headings, and rows of given texts and blank cells, the first of which names the row.

    ``notes`` stand at the headings and say for a whole column how its numbers are wanted; ``mark`` is what earns a mark.
    """

    head: tuple[Spans, ...]
    notes: tuple[str, ...]
    rows: tuple[tuple[Spans | BlankCell, ...], ...]
    mark: str
    label: str

    @property
    def units(self) -> int:
        """How many times a mark can be earned: by blank cells, by rows that have some, or by the whole."""
        if self.mark == "cell":
            return len(self.blanks)
        return sum(any(isinstance(cell, BlankCell) for cell in row) for row in self.rows) if self.mark == "row" else 1

    @property
    def blanks(self) -> tuple[BlankCell, ...]:
        """The blank cells, row by row."""
        return tuple(cell for row in self.rows for cell in row if isinstance(cell, BlankCell))


Field = (
    NumberField
    | ChoiceField
    | ChoicesField
    | SeveralField
    | OrderField
    | EquationField
    | WordField
    | TableField
    | WrittenField
    | NotationField
)
