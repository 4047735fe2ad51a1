"""Drawings from the SVG templates of the site folder, for the page and for paper.

A template holds what does not change and says where labels go (``spot``); that part is drawn once a page as a symbol,
and a variant's drawing is only its labels. On paper the same drawing stands by itself, black on white.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from saltbridge.document import Figure, Inscription
from saltbridge.home import shipped
from saltbridge.render import number_line
from saltbridge.render.labels import SIZE, Label, broken, label_text, number
from saltbridge.render.plot_layout import BASELINE, laid_out, ring
from saltbridge.render.plot_layout import markup as plot_markup
from saltbridge.render.skeleton import escape

_PAGE = {
    "ink": "currentColor",
    "plate": "var(--sheet, #fff)",
    "left": "var(--left, #4d6570)",
    "right": "var(--right, #4d6570)",
}
_PAPER = {"ink": "#000", "plate": "#fff", "left": "#555", "right": "#000"}
LINE_PITCH = 15.0
_PIXELS = 1.25
"""Pixels of a page for one unit of a drawing: letters then are as large as those of controls."""

_BLANK = 14.0, 9.0
"""What a lying number line leaves blank above and below, for the touch of a finger; paper does without."""

_POINTS = 72 / 25.4
_WIDE = 320.0
"""Units across of a drawing that is not narrow."""


@dataclass(frozen=True, slots=True)
class Print:
    """How drawings look on paper: the face, the size of letters in points, and the most they may take, in millimetres.

    Where letters of that size make a drawing too wide, it is drawn anew, narrower about them; one with more to show than there is
    room for gets smaller letters.
    """

    family: str = "Libertinus Serif"
    weight: str = "normal"
    size: float = 11.0
    widest: float = 150.0
    highest: float = 42.0

    @property
    def narrow(self) -> bool:
        """Whether a drawing of the usual width would have letters too small."""
        return _WIDE * self.size / SIZE > self.widest * _POINTS


PRINT = Print()


@dataclass(frozen=True, slots=True)
class _Key:
    """What decides the unchanging part of a drawing."""

    name: str
    flags: tuple[str, ...]
    ruler: number_line.Ruler | None = None

    @property
    def id(self) -> str:
        """Name for use as an element's id."""
        parts = [self.name, *self.flags]
        if self.ruler:
            end = self.ruler
            parts += [number(size) for size in (end.width, end.height, end.end, end.across)]
            parts += [str(end.ticks[0][1]), str(end.ticks[-1][1])]
        return "figure-" + "-".join(parts).replace(".", "_")


@dataclass(frozen=True, slots=True)
class _Spot:
    x: float
    y: float
    anchor: str
    room: float
    ringed: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """The unchanging part: its size, its markup, and the places for labels; ``paper``: black on white."""

    width: float
    height: float
    markup: str
    spots: dict[str, _Spot]
    paper: bool = False


# ------------------------------------------------------------------ what other rooms call


def figure_html(figure: Figure) -> str:
    """The drawing for a page: labels over a symbol that the page defines once (see ``sprites``), or a plot that is all its own."""
    if figure.plots:
        return _plot_html(figure)
    key, own = keyed(figure)
    drawing = drawing_of(key, paper=False)
    tone = _tone(figure)
    looks = f"figure {figure.name}{' upright' if key.ruler and key.ruler.upright else ''}{tone}"
    width, height = drawing.width, _height(figure, drawing)
    size = f'width="{width * _PIXELS:.0f}" height="{height * _PIXELS:.0f}" viewBox="0 0 {number(width)} {number(height)}"'
    return (
        f'<svg class="{looks}" {size} role="img" aria-label="{escape(figure.spoken)}"><use href="#{key.id}"/>{own(drawing)}</svg>'
    )


def sprites(figures: Iterable[Figure]) -> str:
    """The unchanging parts of all drawings of a page, each once; empty where there are none."""
    keys = dict.fromkeys(keyed(figure)[0] for figure in figures if not figure.plots)
    symbols = "".join(f'<symbol id="{key.id}" overflow="visible">{drawing_of(key, paper=False).markup}</symbol>' for key in keys)
    return f'<svg class="sprites" width="0" height="0" aria-hidden="true" focusable="false">{symbols}</svg>' if symbols else ""


def figure_svg(figure: Figure, look: Print = PRINT) -> str:
    """The drawing as a file of its own for paper: black on white, lying, with letters as large as the text."""
    if figure.plots:
        return _plot_svg(figure, look)
    flags = figure.flags - {"vertical"} | ({"narrow"} if look.narrow else set())
    key, own = keyed(replace(figure, flags=flags))
    drawing = drawing_of(key, paper=True)
    above, below = _BLANK if key.ruler else (0.0, 0.0)
    width, height = drawing.width, _height(figure, drawing) - above - below
    return _on_paper(drawing.markup + own(drawing), look, width, height, above)


def _on_paper(markup: str, look: Print, width: float, height: float, above: float = 0.0) -> str:
    """A drawing as a file of its own, letters as large as the text where it then fits."""
    points = min(look.size / SIZE, look.highest * _POINTS / height, look.widest * _POINTS / width)
    box = f"0 {number(above)} {number(width)} {number(height)}"
    size = f'width="{width * points:.1f}pt" height="{height * points:.1f}pt" viewBox="{box}"'
    letters = f'font-family="{escape(look.family)}" font-weight="{look.weight}" font-size="{number(SIZE)}" fill="#000"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} {letters}>{markup}</svg>'


def _plot_svg(figure: Figure, look: Print) -> str:
    laid = laid_out(figure.plots, flat=True, narrow=look.narrow)
    return _on_paper(plot_markup(laid, _PAPER), look, laid.width, laid.height)


def _plot_html(figure: Figure) -> str:
    laid = laid_out(figure.plots, flat=False, narrow=False)
    width, height = laid.width, laid.height
    size = f'width="{width * _PIXELS:.0f}" height="{height * _PIXELS:.0f}" viewBox="0 0 {number(width)} {number(height)}"'
    return f'<svg class="figure plot" {size} role="img" aria-label="{escape(figure.spoken)}">{plot_markup(laid, _PAGE)}</svg>'


# ------------------------------------------------------------------ kinds of drawing

_Own = Callable[[Drawing], str]


def keyed(figure: Figure) -> tuple[_Key, _Own]:
    """The key of the unchanging part, and how to write the figure's own part over it."""
    if figure.name == "number-line":
        return _number_line(figure)
    return _Key(figure.name, tuple(sorted(figure.flags))), lambda drawing: _labels(figure, drawing)


def _labels(figure: Figure, drawing: Drawing) -> str:
    """The labels at their spots, in two lines where one is too long; a label without a spot is not drawn."""
    written = []
    for name, label in figure.labels.items():
        spot = drawing.spots.get(name)
        if spot is None:
            continue
        if spot.ringed:
            written.append(ring(spot.x, spot.y - BASELINE, _PAPER if drawing.paper else _PAGE))
        lines = broken(label, spot.room)
        written += [label_text(line, spot.x, spot.y + at * LINE_PITCH, spot.anchor) for at, line in enumerate(lines)]
    return "".join(written)


def _height(figure: Figure, drawing: Drawing) -> float:
    """The drawing's height, with room for a second line where a label at its foot takes two."""
    low = [spot for spot in drawing.spots if drawing.spots[spot].y > drawing.height - LINE_PITCH and spot in figure.labels]
    more = any(len(broken(figure.labels[spot], drawing.spots[spot].room)) > 1 for spot in low)
    return drawing.height + (LINE_PITCH if more else 0)


def _number_line(figure: Figure) -> tuple[_Key, _Own]:
    labels = {key: figure.labels.get(key, "") for key in figure.numbers}
    ruler, marks = ruled(figure, labels)

    def own(drawing: Drawing) -> str:
        leaders = "".join([mark.path for mark in marks])
        dots = "".join([f'<circle cx="{number(mark.x)}" cy="{number(mark.y)}" r="2.6"/>' for mark in marks])
        ink = "#000" if "#000" in drawing.markup else "currentColor"
        texts = "".join([label_text(labels[mark.key], mark.text_x, mark.text_y, "start") for mark in marks])
        axis = _labels(Figure("", {"axis": figure.labels.get("axis", "")}, {}, frozenset(), ""), drawing)
        return f'<path d="{leaders}" fill="none" stroke="{ink}"/>{dots}{texts}{axis}'

    return _Key(figure.name, (), ruler), own


def ruled(figure: Figure, labels: Mapping[str, Label]) -> tuple[number_line.Ruler, tuple[number_line.Mark, ...]]:
    """The ruler of a number line and its marks, standing or lying as its flags say."""
    if "vertical" in figure.flags:
        return number_line.upright(labels, figure.numbers)
    return number_line.lying(labels, figure.numbers, narrow="narrow" in figure.flags)


def _tone(figure: Figure) -> str:
    """Copper metal is drawn in copper, every other electrode in the grey of zinc; the fill tells them apart without colour."""
    metals = {
        side: plain(figure.labels.get(name, "")) for side, name in (("left", "left_electrode"), ("right", "right_electrode"))
    }
    return "".join(f" {side}-copper" for side, text in metals.items() if text == "Cu" or text.startswith(("Cu(", "copper")))


def plain(label: Label) -> str:
    """The characters of a label."""
    return label.plain if isinstance(label, Inscription) else label


# ------------------------------------------------------------------ templates


@cache
def _environment() -> Environment:
    loader = FileSystemLoader(shipped("site") / "figures")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)


@cache
def drawing_of(key: _Key, *, paper: bool) -> Drawing:
    """The template drawn; while it runs it tells its size and its labels' spots."""
    size = [0.0, 0.0]
    spots: dict[str, _Spot] = {}

    def sized(width: float, height: float) -> str:
        size[:] = [width, height]
        return ""

    def spot(name: str, x: float, y: float, anchor: str = "middle", room: float = 999.0) -> str:
        spots[name] = _Spot(x, y, anchor, room)
        return ""

    def letter(place: str, x: float, y: float) -> str:
        spots[f"letter {place}"] = _Spot(x, y + BASELINE, "middle", 999.0, ringed=True)
        return ""

    template = _environment().get_template(f"{key.name}.svg")
    tools = {
        "size": sized,
        "spot": spot,
        "letter": letter,
        "hatch": hatch,
        "head": arrow_head,
        "flags": key.flags,
        "ruler": key.ruler,
        "flat": paper,
    }
    markup = template.render(**tools, **(_PAPER if paper else _PAGE))
    return Drawing(size[0], size[1], " ".join(markup.split()).replace("> <", "><"), spots, paper)


def arrow_head(x: float, y: float, way: int) -> str:
    """Path data of an arrow's head with its tip at a point, pointing to the right (1) or to the left (-1)."""
    return f"M{number(x)} {number(y)}l{-way * 9} -4.5v9Z"


def hatch(x: float, y: float, width: float, height: float, pitch: float = 7.0) -> Markup:
    """Path data of slanting lines that fill a rectangle, each cut at its edges (no clip or pattern, which paper may lose)."""
    lines = []
    offset = pitch
    while offset < width + height:
        x1, y1 = (x, y + offset) if offset <= height else (x + offset - height, y + height)
        x2, y2 = (x + offset, y) if offset <= width else (x + width, y + offset - width)
        lines.append(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}")
        offset += pitch
    return Markup("".join(lines))  # noqa: S704 - built from numbers only
