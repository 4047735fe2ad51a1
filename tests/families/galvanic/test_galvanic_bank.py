"""Each question form of galvanic cells is a template without Python: drawn, composed, judged, its slips caught."""

from __future__ import annotations

from families.family_bank import must_be_caught, prints_whole, right_answers, samples, slips_told

test_the_right_answer_is_judged_right = right_answers("galvanic")
test_slips_are_recognised_and_never_right = slips_told("galvanic")
test_what_must_be_caught_is_caught = must_be_caught("galvanic")
test_a_question_prints_without_holes = prints_whole("galvanic")


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
