"""How a node is named to a person at the command line: ``left.c`` is told as ``c(Zn^2+)``."""

from __future__ import annotations

from saltbridge.document import Inscription
from saltbridge.graph.laws import Situation, symbol_of

_INNER = frozenset({"F", "R", "slope", "n_cathode", "n_anode", "nu_cathode", "nu_anode", "anode", "cathode", "q_used"})
_TAKE_AN_OWNER = frozenset({"c", "p", "E0"})


def told_name(situation: Situation, node: str) -> str | None:
    """The name under which a node could be told, or ``None`` for what only the machinery knows."""
    bare = node.split(":", 1)[0]
    if "." not in bare:
        return None if bare in _INNER else bare
    label = situation.labels.get(situation.about.get(bare, ""))
    symbol = symbol_of(bare)
    if label is None or symbol not in _TAKE_AN_OWNER or "," in label.plain:
        return None
    return f"{symbol}({ascii_of(label)})"


def told_names(situation: Situation, nodes: list[str] | tuple[str, ...]) -> list[str]:
    """The names of nodes as they could be told, each once, in order."""
    named = (told_name(situation, node) for node in nodes)
    return list(dict.fromkeys(name for name in named if name is not None))


def ascii_of(label: Inscription) -> str:
    """A species or couple in the notation that is typed: ``Zn^2+/Zn``."""
    raised = "".join(f"^{piece.text}" if piece.kind == "sup" else piece.text for piece in label.pieces)
    return raised.replace("−", "-")
