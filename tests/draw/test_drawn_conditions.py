"""Conditions in draws: metals by name or symbol, alternatives, sizes; and words that no draw can meet."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.faults import Faulty

CELL = """\
title: A cell
outcome: T3.4
level: core
scenario:
  galvanic cell: {metals: [Zn, Fe, Cu, Ag]}
keep only if: KEEP
text: "{% if WHEN %}Zinc stands left.{% endif %} A cell of {{ left.metal }} and {{ right.metal }}."
parts:
  - ask: Calculate the standard cell potential.
    find: E0_cell
"""


def _drawer(folder: Path, keep: str, when: str = "n == 2") -> Drawer:
    (folder / "bank.yaml").write_text("format: 1\nid: pier\ntitle: Pier Bank\n", "utf-8")
    (folder / "one.yaml").write_text(CELL.replace("KEEP", keep).replace("WHEN", when), "utf-8")
    bank = load_bank(folder)
    return Drawer(bank.templates[0], bank, catalogue())


def _lefts(drawer: Drawer, read: Callable[[Drawn], object]) -> set[object]:
    return {read(drawer.draw(f"try {number}")) for number in range(60)}


def _symbol(drawn: Drawn) -> object:
    return drawn.lookup("left.symbol")


@pytest.mark.parametrize(
    ("keep", "left"),
    [
        ('left.metal != "Zn"', {"Fe", "Cu", "Ag"}),
        ("left.metal != 'zinc'", {"Fe", "Cu", "Ag"}),
        ('left.symbol == "zinc" or left.metal == "Ag"', {"Zn", "Ag"}),
        ("left.metal != right.metal", {"Zn", "Fe", "Cu", "Ag"}),
    ],
)
def test_a_metal_counts_by_its_name_and_by_its_symbol(tmp_path, keep: str, left: Iterable[str]):
    assert _lefts(_drawer(tmp_path, keep), _symbol) == set(left)


def test_of_two_alternatives_one_holds(tmp_path):
    drawer = _drawer(tmp_path, "abs(E0_cell) > 1.5 V or E0_cell < 0.5 V")
    found = {round(float(drawn.lookup("E0_cell").value), 2) for drawn in (drawer.draw(f"try {n}") for n in range(60))}
    assert found
    assert all(value > 1.5 or value < 0.5 for value in found)
    assert len({value > 1.5 for value in found}) == 2


@pytest.mark.parametrize(
    ("keep", "when", "told"),
    [
        ('anode == "lefft"', "n == 2", 'keep only if: expected a word that `anode` can be; found `"lefft"`. Did you mean `left`?'),
        ('left.metal != "Zinc"', "n == 2", 'keep only if: expected a word that `left.metal` can be; found `"Zinc"`. Did you mean `zinc`?'),
        ("n == 2", "right.symbol == 'Xy'", 'text: expected a word that `right.symbol` can be; found `"Xy"`. Known: `lithium`, `Li`'),
    ],
)  # fmt: skip
def test_a_comparison_that_no_draw_can_meet_is_a_fault(tmp_path, keep: str, when: str, told: str):
    with pytest.raises(Faulty) as caught:
        _drawer(tmp_path, keep, when).draw("try")
    (fault,) = caught.value.faults
    assert told in str(fault)
    assert fault.code == "condition-word"
    assert fault.file == "one.yaml"
    assert fault.line > 0


def test_an_impossible_word_and_an_unknown_name_are_told_together(tmp_path):
    with pytest.raises(Faulty) as caught:
        _drawer(tmp_path, 'anode == "lefft"', "colour == 'red'").draw("try")
    assert {fault.code for fault in caught.value.faults} == {"condition-word", "unknown-name"}
