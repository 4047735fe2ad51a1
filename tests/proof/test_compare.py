"""What moved between two banks is told with its cause."""

from __future__ import annotations

import json
import shutil

import pytest
from banks import change, lamp_bank, small_bank, write
from planted import CELL

from saltbridge.deliver.proof.compare import changes
from saltbridge.deliver.proof.comparison_text import changes_json, changes_text

DRAWS = 40


@pytest.fixture
def two(tmp_path):
    """An old bank and its copy."""
    old = small_bank(tmp_path / "old", sheet=True)
    shutil.copytree(old, tmp_path / "new")
    return old, tmp_path / "new"


def _moved(two):
    old, new = two
    return {each.template: each for each in changes(new, old, DRAWS).both}


def test_the_same_bank_has_not_moved(two):
    moved = _moved(two)
    assert set(moved) == {"cell", "bath", "bench"}
    assert all(each.moved == 0 and each.causes == () for each in moved.values())


def test_everything_that_follows_from_zinc_is_seen(two):
    line = (two[1] / "sheets" / "ours.yaml").read_text(encoding="utf-8").split("Zn^2+/Zn: -0.76")[0].count("\n") + 1
    change(two[1] / "sheets" / "ours.yaml", "Zn^2+/Zn: -0.76", "Zn^2+/Zn: -0.80")
    moved = _moved(two)
    for name in ("cell", "bench"):
        (cause,) = moved[name].causes
        assert (cause.kind, cause.what, cause.before, cause.after) == ("data sheet", "E0(Zn^2+/Zn)", "-0.76", "-0.80")
        assert (cause.file, cause.line) == ("sheets/ours.yaml", line)
        assert moved[name].answers > 0
    assert moved["bath"].moved == 0
    assert moved["bath"].causes == ()


def test_only_draws_with_zinc_have_moved(two):
    change(two[1] / "sheets" / "ours.yaml", "Zn^2+/Zn: -0.76", "Zn^2+/Zn: -0.80")
    cell = _moved(two)["cell"]
    assert 0 < cell.moved < DRAWS
    assert all(float(each.after.split()[0]) == pytest.approx(float(each.before.split()[0]) + 0.04) or
               float(each.after.split()[0]) == pytest.approx(float(each.before.split()[0]) - 0.04) for each in cell.examples)  # fmt: skip


@pytest.mark.parametrize(
    ("file", "old", "new", "template", "kind", "what", "count"),
    [
        ("sheets/ours.yaml", "  Cu: 63.5", "  Cu: 63.6", "bath", "data sheet", "M(Cu)", "answers"),
        ("sheets/ours.yaml", "printed: 96500", "printed: 96485", "bath", "data sheet", "F", "answers"),
        ("cell.yaml", "decimals: 2", "decimals: 1", "cell", "template", "parts[2].decimals", "answers"),
        ("cell.yaml", "[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn, Fe, Ni, Cu, Ag]", "cell", "template", "scenario.galvanic cell.metals", "other"),
        ("bath.yaml", "0.21 A, 1.51 A", "0.23 A, 1.51 A", "bath", "template", "scenario.electrolysis.current.between", "answers"),
        ("bank.yaml", "id: pier", "id: quay", "cell", "setting", "id", "other"),
    ],
)  # fmt: skip
def test_each_kind_of_cause_is_named(two, file, old, new, template, kind, what, count):
    change(two[1] / file, old, new)
    moved = _moved(two)[template]
    assert (kind, what) in {(cause.kind, cause.what) for cause in moved.causes}
    assert getattr(moved, count) > 0


def test_a_changed_relation_is_named(tmp_path):
    old, new = (lamp_bank(tmp_path / name) for name in ("old", "new"))
    change(new / "relations.yaml", "E0_cell - U_lamp", "-U_lamp + E0_cell")
    causes = _moved((old, new))["spare"].causes
    assert [(each.kind, each.what) for each in causes] == [("relation", "spare-voltage")]
    assert causes[0].before == "U_spare = E0_cell - U_lamp"


def test_words_that_move_no_number_are_told_too(two):
    change(two[1] / "cell.yaml", "Which metal is the anode?", "Which one is the anode?")
    cell = _moved(two)["cell"]
    assert cell.moved == 0
    assert [(each.what, each.before, each.after) for each in cell.causes] == [
        ("parts[1].ask", "Which metal is the anode?", "Which one is the anode?")
    ]


def test_templates_that_came_and_went_are_listed(two):
    old, new = two
    (new / "bath.yaml").unlink()
    write(new / "lamp.yaml", CELL.replace("{title}", "Lamp"))
    found = changes(new, old, 5)
    assert (found.added, found.gone) == (("lamp",), ("bath",))
    assert "New: lamp\nGone: bath\nAs they were: bench, cell" in changes_text(found)


def test_the_text_and_the_data_say_the_same(two):
    line = (two[1] / "sheets" / "ours.yaml").read_text(encoding="utf-8").split("Zn^2+/Zn: -0.76")[0].count("\n") + 1
    change(two[1] / "sheets" / "ours.yaml", "Zn^2+/Zn: -0.76", "Zn^2+/Zn: -0.80")
    found = changes(two[1], two[0], DRAWS)
    data = json.loads(changes_json(found))
    cell = next(each for each in data["templates"] if each["template"] == "cell")
    text = changes_text(found)
    assert f"cell: the answer moved in {cell['answers']} (of {DRAWS})" in text
    assert f"because of the data sheet: E0(Zn^2+/Zn) -0.76 -> -0.80 (sheets/ours.yaml:{line})" in text
    assert text.splitlines()[-1] == "As they were: bath"
    assert data["schema"] == 1
