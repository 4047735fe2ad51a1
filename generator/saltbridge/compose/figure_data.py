"""Drawings of a variant, from the same data as its numbers."""

from __future__ import annotations

from saltbridge.chemistry.cells import SIDES
from saltbridge.compose.context import Context
from saltbridge.document import Figure, Inscription, Piece
from saltbridge.scenarios.half_names import ON_THE_LINE


def galvanic_cell(context: Context) -> Figure:
    """The cell as drawn: electrodes, solutions, bridge and meter."""
    situation, words = context.situation, context.printer.words
    labels: dict[str, Inscription | str] = {"meter": "V", "bridge": words("salt bridge")}
    said = []
    same = situation.labels["left.couple"] == situation.labels["right.couple"]
    for side in SIDES:
        labels[f"{side}_electrode"] = situation.labels[f"{side}.electrode"]
        labels[f"{side}_solution"] = situation.labels.get(f"{side}.ion", situation.labels[f"{side}.oxidised"])
        if same:
            labels[f"{side}_solution"] = _with_amount(labels[f"{side}_solution"], f"{side}.c", context)
        said.append(situation.words.get(f"{side}.metal", situation.labels[f"{side}.electrode"].spoken))
    spoken = words(
        "Two beakers joined by a salt bridge, with a meter between the electrodes: on the left {left} in a solution of {left_ion}, "
        "on the right {right} in a solution of {right_ion}.",
        left=words(said[0]), right=words(said[1]), left_ion=_spoken(labels["left_solution"]), right_ion=_spoken(labels["right_solution"]),
    )  # fmt: skip
    return Figure("galvanic-cell", labels, {}, frozenset({"one-metal"} if same else ()), spoken)


def _with_amount(label: Inscription | str, node: str, context: Context) -> Inscription | str:
    """The ion with its concentration, where that is all that tells the two sides apart."""
    if isinstance(label, str) or node not in context.situation.given:
        return label
    amount = context.quantity(node)
    return Inscription("species", (*label.pieces, Piece("base", ", "), *amount.pieces), f"{label.spoken}, {amount.spoken}")


def _spoken(label: Inscription | str) -> str:
    return label if isinstance(label, str) else label.spoken


def number_line(context: Context) -> Figure:
    """The couples of the question on the line of potentials, with zero where the hydrogen electrode stands."""
    situation = context.situation
    nodes = [node for node in ON_THE_LINE if node in situation.given]
    labels: dict[str, Inscription | str] = {}
    numbers: dict[str, float] = {}
    said = []
    for place, node in enumerate(nodes):
        label = situation.labels[situation.about[node]]
        value = situation.given[node].value
        if isinstance(value, float):
            labels[str(place)], numbers[str(place)] = label, value
            said.append(f"{label.spoken} {context.quantity(node).spoken}")
    words = context.printer.words
    return Figure(
        "number-line",
        labels,
        numbers,
        frozenset(),
        words("Number line of standard potentials: {couples}.", couples="; ".join(said)),
    )
