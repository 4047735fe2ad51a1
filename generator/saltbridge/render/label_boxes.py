"""Where the labels of a drawing stand: the room that their letters take, on a page and on paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from saltbridge.document import Figure
from saltbridge.render.figures import LINE_PITCH, drawing_of, keyed, plain, ruled
from saltbridge.render.labels import SIZE, Label, broken, label_width
from saltbridge.render.plot_layout import BASELINE, RING, laid_out


@dataclass(frozen=True, slots=True)
class Box:
    """Where a label stands: the corners of the room its letters take."""

    label: str
    left: float
    top: float
    right: float
    bottom: float


def label_boxes(figure: Figure, *, paper: bool = False) -> list[Box]:
    """The boxes of all labels of a drawing, ``paper``: as it is set there."""
    if figure.plots:
        return list(_of_plots(figure, paper=paper))
    return list(_of_number_line(figure)) if figure.name == "number-line" else list(_of_drawing(figure, paper=paper))


def _of_number_line(figure: Figure) -> Iterator[Box]:
    labels = {key: figure.labels.get(key, "") for key in figure.numbers}
    _, marks = ruled(figure, labels)
    return (_box(labels[mark.key], mark.text_x, mark.text_y, "start") for mark in marks)


def _of_drawing(figure: Figure, *, paper: bool) -> Iterator[Box]:
    drawing = drawing_of(keyed(figure)[0], paper=paper)
    for name, label in figure.labels.items():
        spot = drawing.spots.get(name)
        if spot is not None and spot.ringed:
            yield _ring_box(label, spot.x, spot.y)
        elif spot is not None:
            for at, line in enumerate(broken(label, spot.room)):
                yield _box(line, spot.x, spot.y + at * LINE_PITCH, spot.anchor)


def _of_plots(figure: Figure, *, paper: bool) -> Iterator[Box]:
    for each in laid_out(figure.plots, flat=paper, narrow=paper and "narrow" in figure.flags).labels:
        yield _ring_box(each.label, each.x, each.y) if each.ringed else _box(each.label, each.x, each.y, each.anchor)


def ways(figure: Figure) -> Iterator[tuple[Figure, bool]]:
    """The figure in every way that it is drawn, each with whether that is on paper; a number line lies and stands."""
    if figure.name == "number-line":
        yield replace(figure, flags=figure.flags - {"vertical"}), False
        yield replace(figure, flags=figure.flags | {"vertical"}), False
    else:
        yield figure, False
        yield figure, True


def _ring_box(label: Label, x: float, y: float) -> Box:
    middle = y - BASELINE
    return Box(plain(label), x - RING, middle - RING, x + RING, middle + RING)


def _box(label: Label, x: float, y: float, anchor: str) -> Box:
    width = label_width(label)
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    return Box(plain(label), left, y - SIZE * 0.75, left + width, y + SIZE * 0.2)
