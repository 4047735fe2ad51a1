"""Each question form of the family is a template without Python: drawn, composed, judged, its slips caught."""

from __future__ import annotations

import pytest
from families.potentials_bank import check_right_answers, check_slips, samples, templates

from saltbridge.render.text import question_text

IDS = templates("galvanic")


@pytest.mark.parametrize("template", IDS)
def test_the_right_answer_is_judged_right(template):
    check_right_answers("galvanic", template)


@pytest.mark.parametrize("template", IDS)
def test_slips_are_recognised_and_never_right(template):
    check_slips("galvanic", template)


@pytest.mark.parametrize("template", IDS)
def test_a_question_prints_without_holes(template):
    for _, question, variant in samples("galvanic", template):
        text = question_text(question, variant)
        assert "{" not in text
        assert "undefined" not in text.lower()


def test_both_sides_are_anodes_in_turn():
    """A question whose anode always stood on one side would teach a false rule."""
    anodes = {drawn.situation.words["anode.side"] for drawn, _, _ in samples("galvanic", "roles-and-ways")}
    assert anodes == {"left", "right"}


def test_electrons_and_cations_go_to_the_cathode_and_anions_to_the_anode():
    for drawn, _, _ in samples("galvanic", "roles-and-ways"):
        value = {name: drawn.cells[place] for name, place in drawn.graph.index.items()}
        assert value["electrons_to"] == value["cations_to"] == value["gains_mass"] == drawn.situation.words["cathode.side"]
        assert value["anions_to"] == value["anode"]


def test_a_salt_that_makes_a_solid_is_never_the_one_for_the_bridge():
    """Silver and lead rule out the chloride and the carbonate; only a nitrate is left for every cell drawn."""
    for drawn, _, _ in samples("galvanic", "salt-for-the-bridge"):
        place = drawn.graph.value(drawn.cells, "bridge")
        assert drawn.situation.words[f"{place}.salt"] == "potassium nitrate"
