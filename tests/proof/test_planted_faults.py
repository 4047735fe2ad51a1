"""Every planted fault of a bank is found in one run, in its file and on its line, and nothing else is called a fault."""

from __future__ import annotations

import pytest
from planted import BATH, CELL, PLANTS, STORY, plant_bank

from saltbridge.deliver.proof.proof_run import prove
from saltbridge.home import shipped


@pytest.fixture(scope="module")
def planted(tmp_path_factory):
    folder = tmp_path_factory.mktemp("planted")
    sheet = (shipped("data") / "sheets" / "school.yaml").read_text(encoding="utf-8")
    expected = plant_bank(folder, sheet)
    return expected, prove(folder, 60)


def test_there_are_at_least_sixty_and_of_many_kinds(planted):
    expected, _ = planted
    assert len(expected) >= 80
    assert len({code for _, _, code in expected}) >= 40


def test_every_planted_fault_is_found_on_its_line(planted):
    expected, proof = planted
    found = {(each.fault.file, each.fault.line, each.fault.code) for each in proof.weighing("fault")}
    assert {name for place, name in expected.items() if place not in found} == set()


def test_nothing_else_is_called_a_fault(planted):
    expected, proof = planted
    extra = [
        str(each.fault) for each in proof.weighing("fault") if (each.fault.file, each.fault.line, each.fault.code) not in expected
    ]
    assert extra == []


def test_each_says_what_was_expected_and_found(planted):
    _, proof = planted
    assert [each.fault for each in proof.findings if not (each.fault.expected and each.fault.found)] == []


def test_sound_templates_beside_them_are_proved(planted):
    _, proof = planted
    sound = {each.template.id: each for each in proof.templates if each.template.file.startswith("sound/")}
    assert set(sound) == {"cell", "bath", "bench"}
    assert all(each.tally.draws == 60 and each.weight != "fault" for each in sound.values())


@pytest.mark.parametrize("plant", PLANTS, ids=[plant.name for plant in PLANTS])
def test_a_plant_changes_its_base(plant):
    """Each base is sound by itself (the test above), so that what is found comes from the plant."""
    assert plant.text != plant.sound
    assert plant.base in {CELL, BATH, STORY} or "bench:" in plant.base
