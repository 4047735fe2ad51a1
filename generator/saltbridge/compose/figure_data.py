"""Drawings of a variant, from the same data as its numbers: an SVG with its labels, or a plot."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from saltbridge.bank.figure_key import FigureUse
from saltbridge.compose.context import Context
from saltbridge.compose.plots.discharge_plot import discharge_curve, discharge_graphs
from saltbridge.compose.plots.figure_context import FigureContext
from saltbridge.compose.plots.line_graph import line_graph
from saltbridge.compose.plots.number_line_plot import number_line
from saltbridge.compose.plots.oxidation_state_plot import oxidation_state_diagram
from saltbridge.compose.plots.potential_and_ph import potential_and_ph
from saltbridge.compose.plots.titration_plot import titration_curve
from saltbridge.document import Figure, Inscription
from saltbridge.draw.drawn_figures import FIGURE, flags_of
from saltbridge.scenarios.figures.figure_records import DRAWN, FigureText

Label = Inscription | str
LETTER_SLOT = "letter "
"""Before the name of a place: the slot of its letter."""
ARROW_SLOTS = ("arrow left ", "arrow right ")

Drawing = Callable[[FigureContext], Figure]
PLOTS: Mapping[str, Drawing] = {
    "number line": number_line,
    "line graph": line_graph,
    "titration curve": titration_curve,
    "discharge curve": discharge_curve,
    "discharge graphs": discharge_graphs,
    "potential and pH": potential_and_ph,
    "oxidation state diagram": oxidation_state_diagram,
}
"""What code draws from numbers, by the name under ``plot``."""


def figure_of(use: FigureUse) -> Callable[[Context], Figure] | None:
    """How the figure of a template is drawn in a variant; ``None`` for none."""
    entry = use.entry
    if entry is None:
        return None
    draw = PLOTS[entry.plot] if entry.plot else _drawn
    return lambda context: draw(FigureContext(use, entry, context))


def _drawn(figure: FigureContext) -> Figure:
    use, entry, context = figure.use, figure.entry, figure.context
    flags = flags_of(use, context.drawn)
    hidden = {entry.letters[place].hides for place in use.letters} | {entry.arrows[place].hides for place in use.arrows}
    labels: dict[str, Label] = {}
    for slot, texts in entry.labels.items():
        found = _first(texts, flags, figure)
        if found is not None and found.text and slot not in hidden:
            labels[slot] = figure.label(found)
    labels |= {f"{LETTER_SLOT}{place}": figure.letter(place) for place in use.letters}
    for place in use.arrows:
        names = zip(ARROW_SLOTS, entry.arrows[place].names, strict=True)
        labels |= {f"{slot}{place}": figure.situation.labels[name] for slot, name in names}
    marks = {f"arrows-{place}" for place in use.arrows}
    return Figure(entry.drawing, labels, {}, flags | marks, " ".join(_sentences(figure, flags)))


def _first(texts: tuple[FigureText, ...], flags: frozenset[str], figure: FigureContext) -> FigureText | None:
    """The first text of this draw that can be filled."""
    standing = (each for each in texts if each.stands(flags, figure.context.drawn.lookup))
    return next((each for each in standing if not each.lacks(figure.has)), None)


# ------------------------------------------------------------------ in words


def _sentences(figure: FigureContext, flags: frozenset[str]) -> Iterator[str]:
    """The description, then what each key adds, then where letters and arrows stand."""
    use, entry, words = figure.use, figure.entry, figure.words
    first = _first(entry.says, flags, figure)
    if first is not None:
        yield figure.spoken(first)
    for key, known in entry.keys.items():
        drawn = known.usual == DRAWN
        word = figure.situation.given[f"{FIGURE}.{key}"].printed if drawn else use.words.get(key, known.usual)
        if known.words[word]:
            yield figure.spoken(FigureText(known.words[word]))
    for letter, place in sorted((figure.letter(place).plain, place) for place in use.letters):
        yield words("The letter {letter} stands {place}.", letter=letter, place=words(entry.letters[place].says))
    for place in use.arrows:
        pair = entry.arrows[place]
        to_left, to_right = (figure.situation.labels[name].plain for name in pair.names)
        yield words(pair.says, to_left=to_left, to_right=to_right)
