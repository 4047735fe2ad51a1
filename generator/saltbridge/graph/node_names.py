"""How a node is named to a person at the command line: ``left.c`` is told as ``c(Zn^2+)``."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from saltbridge.catalogue.catalogue_records import Quantity
from saltbridge.document import Inscription
from saltbridge.graph.laws import Situation, flags_of, quantity_of

TAKE_AN_OWNER = ("E0", "c", "p")
"""What a cell holds several of, given with the couple or species in brackets."""
Role = Literal["anode", "cathode"]
ROLES: tuple[Role, Role] = ("anode", "cathode")
"""Electrodes by what happens there: sides, not quantities."""


def told_name(situation: Situation, node: str, quantities: Mapping[str, Quantity]) -> str | None:
    """The name under which a node could be told, or ``None`` for what only the machinery knows."""
    bare = node.split(":", 1)[0]
    if "." not in bare:
        return None if bare in ROLES or flags_of(bare, quantities).inner else bare
    label = situation.labels.get(situation.about.get(bare, ""))
    quantity = quantity_of(bare, quantities)
    if label is None or quantity is None or quantity.symbol not in TAKE_AN_OWNER or "," in label.plain:
        return None
    return f"{quantity.symbol}({ascii_of(label)})"


def told_names(situation: Situation, nodes: Sequence[str], quantities: Mapping[str, Quantity]) -> list[str]:
    """The names of nodes as they could be told, each once, in order."""
    named = (told_name(situation, node, quantities) for node in nodes)
    return list(dict.fromkeys(name for name in named if name is not None))


def ascii_of(label: Inscription) -> str:
    """A species or couple in the notation that is typed: ``Zn^2+/Zn``."""
    raised = "".join(f"^{piece.text}" if piece.kind == "sup" else piece.text for piece in label.pieces)
    return raised.replace("−", "-")
