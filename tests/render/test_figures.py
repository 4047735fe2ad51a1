"""Drawings: labels that never meet, templates that stand alone on paper, small variants on a page."""

from __future__ import annotations

import io
import itertools
import re
import xml.etree.ElementTree as ET

import page_specimen as made
import pikepdf
import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.document import Figure, Inscription, Piece
from saltbridge.render.figures import figure_html, figure_svg, hatch, sprites
from saltbridge.render.labels import SIZE, broken, label_text, label_width, number
from saltbridge.render.number_line import PITCH, bounds, lying, spread, upright

SVG = "{http://www.w3.org/2000/svg}"
values = st.lists(st.integers(-310, 300).map(lambda hundredths: hundredths / 100), min_size=1, max_size=30)
texts = st.text("ZnCu2+/Ag ", min_size=1, max_size=14)


def _line(numbers, names=None):
    keys = [str(at) for at in range(len(numbers))]
    labels = dict(zip(keys, names or ["Zn2+/Zn"] * len(keys), strict=True))
    return labels, dict(zip(keys, numbers, strict=True))


def _few(flags: frozenset[str] = frozenset()) -> Figure:
    labels, numbers = _line([-0.76, 0.34, 0.15])
    return Figure("number-line", labels | {"axis": "E°/V"}, numbers, flags, "three couples")


FIGURES = [
    made.cell_figure("Zn", "Cu", "2+", "2+"),
    made.cell_figure("Zn", "Cu", "2+", "2+", frozenset({"one-metal"})),
    made.cell_figure("Cu", "Zn", "2+", "2+"),
    _few(),
    _few(frozenset({"vertical"})),
]


# ------------------------------------------------------------ number line


def _boxes(labels, marks):
    """Each label's box: left, top, right, bottom."""
    up, down = SIZE * 0.8, SIZE * 0.28
    return [(m.text_x, m.text_y - up, m.text_x + label_width(labels[m.key]), m.text_y + down) for m in marks]


def _meet(one, other):
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _overlaps(boxes):
    return [(a, b) for at, a in enumerate(boxes) for b in boxes[at + 1 :] if _meet(a, b)]


@given(values, st.data())
def test_labels_of_a_standing_line_never_overlap_and_stay_in_the_drawing(numbers, data):
    names = data.draw(st.lists(texts, min_size=len(numbers), max_size=len(numbers)))
    labels, numbers = _line(numbers, names)
    ruler, marks = upright(labels, numbers)
    boxes = _boxes(labels, marks)
    assert _overlaps(boxes) == []
    assert all(top >= 0 and bottom <= ruler.height and right <= ruler.width for _, top, right, bottom in boxes)


@given(values)
def test_leaders_of_a_standing_line_never_cross(numbers):
    labels, numbers = _line(numbers)
    _, marks = upright(labels, numbers)
    assert [mark.y for mark in marks] == sorted(mark.y for mark in marks)
    assert [mark.text_y for mark in marks] == sorted(mark.text_y for mark in marks)


@given(values, st.data())
def test_labels_of_a_lying_line_never_overlap_and_stay_in_the_drawing(numbers, data):
    names = data.draw(st.lists(texts, min_size=len(numbers), max_size=len(numbers)))
    labels, numbers = _line(numbers, names)
    ruler, marks = lying(labels, numbers)
    boxes = _boxes(labels, marks)
    assert _overlaps(boxes) == []
    assert all(top >= 0 and bottom <= ruler.height and right <= ruler.width for _, top, right, bottom in boxes)


@given(values)
def test_no_staff_of_a_lying_line_runs_through_a_label(numbers):
    labels, numbers = _line(numbers)
    _, marks = lying(labels, numbers)
    boxes = dict(zip([mark.key for mark in marks], _boxes(labels, marks), strict=True))
    for mark in marks:
        tip = float(mark.path.split("V")[1])
        low, high = sorted((mark.y, tip))
        through = [
            key for key, box in boxes.items() if key != mark.key and box[0] < mark.x < box[2] and box[1] < high and low < box[3]
        ]
        assert through == []


@given(values)
def test_a_mark_stands_at_its_value(numbers):
    labels, numbers = _line(numbers)
    low, high = bounds(numbers)
    ruler, marks = lying(labels, numbers)
    for mark in marks:
        share = (numbers[mark.key] - low) / (high - low)
        assert mark.x == pytest.approx(ruler.start + share * (ruler.end - ruler.start))
    standing, marks = upright(labels, numbers)
    for mark in marks:
        share = (numbers[mark.key] - low) / (high - low)
        assert mark.y == pytest.approx(standing.end - share * (standing.end - standing.start))


@given(st.lists(st.floats(0, 400), min_size=1, max_size=25).map(sorted))
def test_spreading_moves_nothing_that_has_room(targets):
    places = spread(targets, PITCH, 0, 800)
    assert all(b - a >= PITCH - 1e-9 for a, b in itertools.pairwise(places))
    alone = [
        at
        for at, target in enumerate(targets)
        if all(abs(target - other) >= PITCH * len(targets) for n, other in enumerate(targets) if n != at)
    ]
    assert all(places[at] == pytest.approx(targets[at]) for at in alone)


def test_two_labels_that_crowd_part_evenly():
    assert spread([100.0, 104.0], 17.0, 0, 800) == pytest.approx([93.5, 110.5])


# ------------------------------------------------------------ labels


def test_runs_are_moved_back_to_the_line():
    ion = Inscription("species", (Piece("base", "SO"), Piece("sub", "4"), Piece("sup", "2−"), Piece("base", "(aq)")), "")
    moves = [float(move) for move in re.findall(r'dy="([-0-9.]+)"', label_text(ion, 0, 0))]
    assert sum(moves) == pytest.approx(0)
    assert len(moves) == 3


def test_a_long_label_breaks_after_its_comma_and_loses_nothing():
    label = made.cell_figure("Zn", "Cu", "2+", "2+").labels["left_solution"]
    first, second = broken(label, 80)
    assert (first.plain, second.plain) == ("Zn2+(aq),", "1.0 mol/dm³")
    assert broken(label, 300) == [label]
    assert broken("unbreakable", 10) == ["unbreakable"]


@pytest.mark.parametrize(("value", "text"), [(3.0, "3"), (-0.04, "0"), (12.34, "12.3"), (-7.0, "-7"), (100.0, "100")])
def test_coordinates_are_short(value, text):
    assert number(value) == text


@given(st.floats(1, 200), st.floats(1, 200))
def test_hatching_stays_inside_its_rectangle(width, height):
    points = re.findall(r"[ML]([-0-9.]+) ([-0-9.]+)", str(hatch(10, 20, width, height)))
    assert all(9.9 <= float(x) <= 10.1 + width and 19.9 <= float(y) <= 20.1 + height for x, y in points)


# ------------------------------------------------------------ on the page


def test_a_variant_carries_only_its_labels():
    written = figure_html(FIGURES[1])
    assert len(written.encode()) <= 1200
    assert "<rect" not in written
    assert "<path" not in written


def test_every_drawing_of_a_page_finds_its_unchanging_part_once():
    page = sprites([*FIGURES, *FIGURES])
    wanted = {re.search(r'href="#([^"]+)"', figure_html(figure))[1] for figure in FIGURES}
    assert sorted(re.findall(r'<symbol id="([^"]+)"', page)) == sorted(wanted)


def test_a_page_without_drawings_has_no_sprites():
    assert sprites([]) == ""


def test_a_drawing_is_described_in_words():
    assert f'role="img" aria-label="{FIGURES[0].spoken}"' in figure_html(FIGURES[0])


def test_copper_metal_is_drawn_in_copper_on_either_side():
    assert " right-copper" in figure_html(FIGURES[0])
    assert " left-copper" in figure_html(FIGURES[2])
    assert "copper" not in re.search('class="([^"]*)"', figure_html(made.cell_figure("Zn", "Ag", "2+", "+")))[1]


# ------------------------------------------------------------ on paper


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: f"{figure.name} {' '.join(sorted(figure.flags))}")
def test_on_paper_a_drawing_stands_alone_in_black_and_white(figure):
    tree = ET.fromstring(figure_svg(figure))  # noqa: S314 - our own text
    written = figure_svg(figure)
    assert "var(" not in written
    assert "currentColor" not in written
    assert not list(tree.iter(f"{SVG}use"))
    shown = "".join("".join(text.itertext()) for text in tree.iter(f"{SVG}text"))
    for label in figure.labels.values():
        plain = label.plain if isinstance(label, Inscription) else label
        assert plain.replace(" ", "") in shown.replace("\u00a0", "")


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: f"{figure.name} {' '.join(sorted(figure.flags))}")
def test_on_paper_a_drawing_is_at_most_42_mm_high_with_letters_of_7_to_11_points(figure):
    tree = ET.fromstring(figure_svg(figure))  # noqa: S314 - our own text
    height = float(tree.get("height").removesuffix("pt"))
    assert height <= 42 / 25.4 * 72
    assert 7 <= SIZE * height / float(tree.get("viewBox").split()[3]) <= 11.1


def test_two_electrodes_of_one_metal_are_drawn_alike():
    assert figure_svg(FIGURES[1]) != figure_svg(FIGURES[0])


def test_typst_draws_every_figure_with_its_own_fonts(tmp_path):
    for at, figure in enumerate(FIGURES):
        (tmp_path / f"{at}.svg").write_text(figure_svg(figure), encoding="utf-8")
    pages = "".join(f'#image("{at}.svg")\n' for at in range(len(FIGURES)))
    (tmp_path / "all.typ").write_text(f"#set page(width: 12cm, height: auto)\n{pages}", encoding="utf-8")
    pdf = typst.compile(str(tmp_path / "all.typ"), ignore_system_fonts=True)
    with pikepdf.open(io.BytesIO(pdf)) as paper:
        fonts = {str(font.BaseFont) for page in paper.pages for font in _fonts(page)}
    assert any("Libertinus" in name for name in fonts)


def _fonts(page):
    found = list(page.get("/Resources", {}).get("/Font", {}).values())
    for form in page.get("/Resources", {}).get("/XObject", {}).values():
        found += list(form.get("/Resources", {}).get("/Font", {}).values())
    return found
