"""The couples of a question on the line of potentials."""

from __future__ import annotations

from saltbridge.compose.plots.figure_context import FigureContext
from saltbridge.document import Figure, Inscription
from saltbridge.scenarios.half_names import ON_THE_LINE


def number_line(figure: FigureContext) -> Figure:
    """The couples of the question on the line of potentials, with zero where the hydrogen electrode stands."""
    situation = figure.situation
    labels: dict[str, Inscription | str] = {}
    numbers: dict[str, float] = {}
    said = []
    for place, node in enumerate(node for node in ON_THE_LINE if node in situation.given):
        label = situation.labels[situation.about[node]]
        value = situation.given[node].value
        if isinstance(value, float):
            labels[str(place)], numbers[str(place)] = label, value
            shown = figure.context.shown(node)
            said.append(f"{label.spoken} {shown.spoken if isinstance(shown, Inscription) else shown.text}")
    spoken = figure.words(figure.entry.says[0].text, couples="; ".join(said))
    return Figure("number-line", labels, numbers, frozenset(), spoken)
