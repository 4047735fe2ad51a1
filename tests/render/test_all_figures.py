"""All figures, each in every kind that it fits: drawn, filled, clear of one another, low enough for paper, and told in words."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from render.figure_samples import cases, drawn

from saltbridge.document import Inscription
from saltbridge.render.figures import Print, drawing_of, figure_html, figure_svg, keyed
from saltbridge.render.label_boxes import label_boxes
from saltbridge.render.labels import SIZE
from saltbridge.render.overlaps import overlapping
from saltbridge.scenarios.figures.figure_entries import figures

HIGHEST = 42 / 25.4 * 72
"""Points that a drawing on paper may take."""
LARGE = Print(size=18.0, widest=150.0, highest=80.0)
GOLDEN = Path(__file__).parent / "golden" / "figures.txt"
CASES = cases()
each_figure = pytest.mark.parametrize(("kind", "figure"), CASES, ids=[f"{figure} of {kind}" for kind, figure in CASES])


@each_figure
def test_some_example_has_all_that_the_figure_shows(kind, figure):
    """A plain figure in each of its kinds; what a key of it adds in one of them, and in the others that is told."""
    assert drawn(kind, figure) or (figure.startswith("{") and any(drawn(other, each) for other, each in CASES if each == figure))


@each_figure
def test_no_label_touches_another(kind, figure):
    assert {pair for each in drawn(kind, figure) for pair in overlapping(each)} == set()


@each_figure
def test_on_paper_it_is_at_most_42_mm_high_with_letters_of_7_points_at_least(kind, figure):
    for each in drawn(kind, figure):
        tree = ET.fromstring(figure_svg(each))  # noqa: S314 - our own text
        height = float(tree.get("height").removesuffix("pt"))
        assert height <= HIGHEST
        assert 7 <= SIZE * height / float(tree.get("viewBox").split()[3]) <= 11.1


@each_figure
def test_every_label_stands_in_the_drawing_on_page_and_paper(kind, figure):
    for each in drawn(kind, figure):
        for paper in (False, True):
            written = figure_svg(each) if paper else figure_html(each)
            wide, high = map(float, re.search('viewBox="0 [0-9.]+ ([0-9.]+) ([0-9.]+)"', written).groups())
            outside = [
                box.label
                for box in label_boxes(each, paper=paper)
                if each.name != "number-line"
                and not (box.left >= -2 and box.right <= wide + 2 and box.top >= -2 and box.bottom <= high + 2)
            ]
            assert outside == []


@each_figure
def test_in_large_print_no_label_touches_another(kind, figure):
    for each in drawn(kind, figure):
        narrow = replace(each, flags=each.flags | {"narrow"})
        assert overlapping(narrow) == ()
        assert "svg" in figure_svg(each, LARGE)


@each_figure
def test_every_label_is_drawn_and_every_slot_of_the_drawing_has_its_label_or_none_by_its_entry(kind, figure):
    for each in drawn(kind, figure):
        if each.plots or each.numbers:
            continue
        spots = drawing_of(keyed(each)[0], paper=False).spots.keys()
        assert each.labels.keys() <= spots
        entry = next(found for found in figures().values() if found.drawing == each.name)
        always = {slot for slot, texts in entry.labels.items() if all(text.text and not text.when for text in texts)}
        hidden = {place.hides for key in (entry.letters, entry.arrows) for place in key.values()}
        assert always - hidden <= each.labels.keys()
        assert all((label.plain if isinstance(label, Inscription) else label).strip() for label in each.labels.values())


@each_figure
def test_a_plot_names_both_axes_and_its_numbers_go_up_in_even_steps(kind, figure):
    for each in drawn(kind, figure):
        for plot in each.plots:
            assert plot.across.label.plain
            assert plot.up.label.plain
            for axis in (plot.across, plot.up):
                steps = [after.at - before.at for before, after in zip(axis.ticks, axis.ticks[1:], strict=False)]
                assert steps == pytest.approx([steps[0]] * len(steps)) if steps else not axis.ticks
                points = [point for curve in plot.curves for point in curve.points]
                place = 0 if axis is plot.across else 1
                assert all(axis.low - 1e-9 <= point[place] <= axis.high + 1e-9 for point in points)


def _described() -> str:
    """The description of the first draw of each in the first of its kinds, in English and German."""
    found: dict[str, str] = {}
    for kind, figure in CASES:
        if figure not in found and drawn(kind, figure):
            told = [drawn(kind, figure, language)[0].spoken for language in ("en", "de")]
            found[figure] = "\n".join([f"{figure} of {kind}", *(f"  {text}" for text in told)])
    return "\n".join(found.values()) + "\n"


def test_the_descriptions_are_these():
    assert _described() == GOLDEN.read_text(encoding="utf-8")


@each_figure
def test_a_german_bank_describes_it_in_german_and_leaves_no_hole(kind, figure):
    for each in drawn(kind, figure, "de"):
        assert not re.search(r"[{}]|\b(the|of|and|with|left|right)\b", each.spoken)
