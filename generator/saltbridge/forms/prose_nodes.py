"""The nodes that prose adds to those of ``document``; compose turns them into slots."""

from __future__ import annotations

from dataclasses import dataclass

from saltbridge.document import Grid, Inline, Items, Paragraph
from saltbridge.forms.conditions import Condition
from saltbridge.forms.holes import Hole


@dataclass(frozen=True, slots=True)
class Notation:
    """A code span to set when its holes are filled: fixed ASCII chemistry and holes in order, ``{{ left.ion }}(aq)``.

    Without a hole it is a cell diagram, which a bank's settings decide how to set.
    """

    pieces: tuple[str | Hole, ...]


@dataclass(frozen=True, slots=True)
class Branch:
    """Two sides of a condition: blocks where ``blocks`` is true, else spans of a line."""

    condition: Condition
    then: tuple[ProseNode, ...]
    otherwise: tuple[ProseNode, ...]
    blocks: bool


ProseNode = Inline | Paragraph | Items | Grid | Hole | Notation | Branch
