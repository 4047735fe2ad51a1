"""Ties: whatever has an entry in one place has what belongs to it in every other."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
import yaml

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.check.factors import from_coherent, to_coherent
from saltbridge.check.resolve import resolve
from saltbridge.compose.figure_data import PLOTS
from saltbridge.home import shipped
from saltbridge.scenarios.figures.figure_entries import figures

PACKAGE = Path(__file__).parent.parent / "generator" / "saltbridge"
FIGURES = {path.stem: path.read_text(encoding="utf-8") for path in sorted((shipped("site") / "figures").glob("*.svg"))}
CODE = [ast.parse(path.read_text(encoding="utf-8")) for path in sorted(PACKAGE.rglob("*.py"))]
CLOSE = 2e-3
"""Outside values are printed with three figures or more."""


def _nodes():
    return (node for tree in CODE for node in ast.walk(tree))


STRINGS = {node.value for node in _nodes() if isinstance(node, ast.Constant) and isinstance(node.value, str)}


def _scalars(tree):
    if isinstance(tree, dict):
        return {each for pair in tree.items() for part in pair for each in _scalars(part)}
    return {each for part in tree for each in _scalars(part)} if isinstance(tree, list) else {tree}


# ------------------------------------------------------------------ relations


@pytest.mark.parametrize("relation", catalogue().relations.values(), ids=catalogue().relations)
def test_a_relation_has_a_plain_formula_that_gives_its_outside_values(relation):
    quantities = catalogue().quantities
    for case in relation.cases:
        unit = {name: quantities[name].unit for name in case.values}
        known = {name: to_coherent(value, unit[name]) for name, value in case.values.items() if name != relation.subject}
        found = resolve(relation.subject, known)
        assert found is not None, "no plain formula in check/"
        told = from_coherent(found, unit[relation.subject])
        assert told == pytest.approx(case.values[relation.subject], rel=CLOSE, abs=1e-9), case.source


def test_a_relation_is_joined_or_named_somewhere():
    """By its family in the data of a scenario or in code, or by its id there."""
    files = [path for path in sorted(shipped("data").rglob("*.yaml")) if "scenarios" in str(path.relative_to(shipped("data")))]
    named = set(STRINGS)
    for path in files:
        named |= _scalars(yaml.load(path.read_text(encoding="utf-8"), yaml.CSafeLoader))
    assert [name for name, each in catalogue().relations.items() if name not in named and each.family not in named] == []


# ------------------------------------------------------------------ figures


OWN_LAYOUT = {"number line"}
"""Plots that have an SVG for what does not change."""


def test_every_figure_file_is_drawn_and_every_figure_drawn_has_a_file():
    drawn = {entry.drawing for name, entry in figures().items() if not entry.plot or name in OWN_LAYOUT}
    assert drawn == set(FIGURES)


def test_every_plot_in_data_is_drawn_by_code_and_the_other_way_round():
    assert {entry.plot for entry in figures().values() if entry.plot} == set(PLOTS)


@pytest.mark.parametrize("name", FIGURES)
def test_what_a_figure_asks_for_can_be_given(name):
    """Each flag is one of its entry or of paper; each spot has a label there, and each label a spot."""
    entry = next(each for each in figures().values() if each.drawing == name)
    words = {word for key in entry.keys.values() for word in key.words}
    flags = {*words, *entry.flags, *(f"arrows-{place}" for place in entry.arrows), "narrow", "vertical"}
    assert set(re.findall(r'"([\w -]+)" in flags', FIGURES[name])) <= flags
    arrows = {f"arrow {way} {place}" for way in ("left", "right") for place in entry.arrows}
    spots = set(re.findall(r'spot\("([\w -]+)"', FIGURES[name]))
    assert spots == {*entry.labels, *arrows} or name == "number-line"
    assert set(re.findall(r'letter\("([\w -]+)"', FIGURES[name])) == set(entry.letters)
