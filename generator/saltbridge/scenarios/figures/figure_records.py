"""What data/figures.yaml says of a figure: texts with names in braces, the keys a template may write, places for letters and arrows."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from saltbridge.catalogue.scenario_records import RuleUse
from saltbridge.forms.conditions import Condition

_PART = re.compile(r"(\{[^{}]*\}|`[^`]*`)")
_HOLE = re.compile(r"\{([^{}]*)\}")
DRAWN = "drawn"
"""What counts where a key is left out: one of its words is drawn for each variant."""
SYMBOL = "symbol "
"""Before a name in braces: the symbol of that quantity, which is always there (``{symbol E_cell}``)."""
Kind = Literal["words", "name", "species"]
Has = Callable[[str], bool]
Lookup = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class FigureText:
    """A text with names in braces (``{left.ion or left.oxidised}``: the first that there is); ``when`` says in which draws it stands."""

    text: str
    when: Condition | str = ""

    @property
    def holes(self) -> tuple[tuple[str, ...], ...]:
        """The names of each hole, the first wanted first."""
        return tuple(tuple(name.strip() for name in hole.split(" or ")) for hole in _HOLE.findall(self.text))

    def lacks(self, has: Has) -> tuple[str, ...]:
        """The names wanted by holes that nothing fills."""
        return tuple(names[0] for names in self.holes if not any(_filled_by(name, has) for name in names))

    def stands(self, flags: Collection[str], lookup: Lookup) -> bool:
        """Whether it stands in this draw."""
        if isinstance(self.when, str):
            return not self.when or self.when in flags
        return self.when.holds(lookup)

    def parts(self, text: str, has: Has) -> Iterator[tuple[Kind, str]]:
        """``text``, this one or its translation, in parts: words as they stand, names to show, chemistry between backticks."""
        for part in _PART.split(text):
            if part.startswith("{"):
                yield "name", next(name for name in _names(part[1:-1]) if _filled_by(name, has))
            elif part.startswith("`"):
                yield "species", part.strip("`")
            elif part:
                yield "words", part


def _names(hole: str) -> list[str]:
    return [name.strip() for name in hole.split(" or ")]


def _filled_by(name: str, has: Has) -> bool:
    return name.startswith(SYMBOL) or has(name)


@dataclass(frozen=True, slots=True)
class FigureWords:
    """A key of a figure: its words, each with the sentence it adds to the description; ``usual`` counts where the key is left out."""

    means: str
    words: Mapping[str, str]
    usual: str


@dataclass(frozen=True, slots=True)
class LetterPlace:
    """A place of a drawing where a letter can stand: ``says`` is where, ``what`` is told of it as values, ``hides`` a label."""

    says: str
    what: Mapping[str, str]
    hides: str = ""

    @staticmethod
    def owner(place: str) -> str:
        """The name that the letter of a place goes by: ``left_solution.letter``."""
        return place.replace(" ", "_")


@dataclass(frozen=True, slots=True)
class ArrowPair:
    """Two arrows of opposite ways with a letter each: ``names`` are those of the letters, to the left and to the right."""

    letters: tuple[str, str]
    names: tuple[str, str]
    says: str
    hides: str = ""


@dataclass(frozen=True, slots=True)
class GraphLine:
    """A graph through points that are told: the names on either axis, point by point; a stem stands for all that are numbered.

    ``named`` are the quantities at the axes; ``from_zero``: the axis across begins at zero.
    """

    across: tuple[str, ...]
    up: tuple[str, ...]
    named: tuple[str, ...]
    log: bool = False
    from_zero: bool = False


@dataclass(frozen=True, eq=False)
class FigureEntry:
    """One figure. ``kinds`` are those that it fits, none: every one that has what it shows; ``plot``: drawn from numbers, by code.

    ``axes`` are its quantities, across and up, ``curves`` those of each curve.
    ``lettered``: every place has its letter, without being told; ``kept``: the condition under which a draw is clear to see.
    """

    name: str
    about: str
    kinds: tuple[str, ...] = ()
    plot: str = ""
    needs: tuple[str, ...] = ()
    labels: Mapping[str, tuple[FigureText, ...]] = field(default_factory=dict)
    flags: Mapping[str, Condition] = field(default_factory=dict)
    keys: Mapping[str, FigureWords] = field(default_factory=dict)
    letters: Mapping[str, LetterPlace] = field(default_factory=dict)
    arrows: Mapping[str, ArrowPair] = field(default_factory=dict)
    asked: tuple[RuleUse, ...] = ()
    follows: tuple[RuleUse, ...] = ()
    axes: tuple[str, ...] = ()
    curves: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    lines: tuple[GraphLine, ...] = ()
    says: tuple[FigureText, ...] = ()
    lettered: bool = False
    kept: Condition | None = None

    @property
    def drawing(self) -> str:
        """The name of its SVG, without ending."""
        return self.name.replace(" ", "-")

    def fits(self, kind: str) -> bool:
        """Whether a scenario of this kind may name it; what it shows must be there besides."""
        return not self.kinds or kind in self.kinds

    def lacks(self, has: Has, flags: Collection[str] = (), lookup: Lookup | None = None) -> tuple[str, ...]:
        """The names without which it would be empty: of labels that nothing fills, and of what it needs one of."""
        missing = [] if not self.needs or any(map(has, self.needs)) else [self.needs[0]]
        for texts in self.labels.values():
            standing = [each for each in texts if lookup is None or each.stands(flags, lookup)]
            if standing and not any(not each.lacks(has) for each in standing):
                missing += standing[0].lacks(has)
        told = [key.words[word] for key in self.keys.values() for word in key.words if word in flags]
        missing += [name for text in told for name in FigureText(text).lacks(has)]
        if self.lines and not any(self.has_line(line, has) for line in self.lines):
            missing += [*self.lines[0].across, *self.lines[0].up]
        return tuple(dict.fromkeys(missing))

    def shown_names(self, has: Has) -> frozenset[str]:
        """The names that it may show: those of its labels, and of the points of its lines."""
        labels = {name for texts in self.labels.values() for text in texts for names in text.holes for name in names}
        return frozenset(
            labels | {name for line in self.lines for name in (*points_of(line.across, has), *points_of(line.up, has))}
        )

    @staticmethod
    def has_line(line: GraphLine, has: Has) -> bool:
        """Whether all its points are told."""
        return all(has(name) for name in (*points_of(line.across, has), *points_of(line.up, has))) and bool(
            points_of(line.across, has)
        )


def points_of(names: tuple[str, ...], has: Has) -> tuple[str, ...]:
    """The names of a graph's points in order; ``p.V_point`` stands for p1.V_point, p2.V_point … as many as there are."""
    return tuple(each for name in names for each in (_numbered(name, has) if _is_stem(name, has) else (name,)))


def _is_stem(name: str, has: Has) -> bool:
    owner, point, rest = name.partition(".")
    return bool(point) and has(f"{owner}1.{rest}")


def _numbered(name: str, has: Has) -> Iterator[str]:
    owner, _, rest = name.partition(".")
    place = 1
    while has(f"{owner}{place}.{rest}"):
        yield f"{owner}{place}.{rest}"
        place += 1
