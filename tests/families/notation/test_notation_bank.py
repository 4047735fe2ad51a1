"""Each form of typed notation is a template: drawn, composed, judged, its usual errors told, what follows from own answers followed."""

from __future__ import annotations

import pytest
from families.family_bank import keys, must_be_caught, prints_whole, right_answers, samples, slips_told

from saltbridge.answers import judge
from saltbridge.render.text import spans_text

test_the_right_answer_is_judged_right = right_answers("notation")
test_slips_are_recognised_and_never_right = slips_told("notation")
test_what_must_be_caught_is_caught = must_be_caught("notation")
test_a_question_prints_without_holes = prints_whole("notation")

PRINTED = (
    "diagram-of-two-metals",
    "diagram-with-platinum",
    "diagram-with-concentrations",
    "diagram-of-two-solutions",
    "quotient-of-a-cell",
)


@pytest.mark.parametrize("template", [*PRINTED, "quotient-with-a-gas", "products-of-a-bath", "half-equations-with-states"])
def test_what_is_printed_as_the_answer_is_right_when_it_is_typed(template):
    """As it stands on the line: raised and lowered figures, the bridge as two broken bars, Q or K before its sign."""
    for _, question, variant in samples("notation", template):
        for part, key in keys(question, variant):
            if key["kind"] in {"species", "diagram", "expression", "equation"}:
                printed = spans_text(part.answer, variant.slots)
                assert judge(key, printed).verdict == "right", printed


def test_a_student_with_the_other_anode_is_followed_to_the_species_and_the_diagram():
    for drawn, question, variant in samples("notation", "diagram-of-two-metals"):
        (_, _), (_, species), (_, diagram) = keys(question, variant)
        other = "left" if drawn.graph.value(drawn.cells, "anode") == "right" else "right"
        ion = drawn.situation.labels[f"{other}.ion"].plain
        verdict = judge(species, ion, {"a": other})
        assert (verdict.verdict, verdict.own, verdict.parts) == ("follows", other, ("a",))
        left, right = diagram["right"].split(" || ")
        turned = f"{' | '.join(right.split(' | ')[::-1])} || {' | '.join(left.split(' | ')[::-1])}"
        assert judge(diagram, turned, {"a": other}).verdict == "follows"
        assert judge(diagram, turned, {"b": verdict.own}).parts == ("b",)
        assert judge(diagram, turned).slips[0] == "notation-order-reversed"
        assert judge(diagram, diagram["right"], {"a": other}).verdict == "right"


def test_a_student_with_an_equation_of_their_own_is_followed_to_its_quotient():
    """The other anode, a multiple, and each usual wrong form of the equation lead to an expression of their own."""
    multiples = forms = 0
    for drawn, question, variant in samples("notation", "quotient-of-a-cell"):
        (_, _), (_, equation), (_, quotient) = keys(question, variant)
        other = "left" if drawn.graph.value(drawn.cells, "anode") == "right" else "right"
        above, below = quotient["right"].split("/")
        assert judge(quotient, f"{below}/{above}", {"a": other}).verdict == "follows"
        bare = equation["right"]
        doubled = " -> ".join(" + ".join(_twice(term) for term in side.split(" + ")) for side in bare.split(" -> "))
        own = judge(equation, doubled).own
        assert own == 2
        assert judge(quotient, f"({quotient['right']})^2", {"b": own}).verdict in {"follows", "right-but"}
        multiples += 1
        for text, expression in quotient["forms"].items():
            found = judge(equation, text)
            if isinstance(found.own, str) and expression != quotient["right"]:
                assert judge(quotient, expression, {"b": found.own}).verdict == "follows"
                forms += 1
    assert multiples
    assert forms


def _twice(term):
    count = term[: len(term) - len(term.lstrip("0123456789"))]
    return f"{2 * int(count or 1)}{term[len(count) :]}"


def test_states_are_asked_for_where_the_template_says_so():
    for _, question, variant in samples("notation", "half-equations-with-states"):
        (_, asked), (_, free) = keys(question, variant)
        without = asked["right"].replace("(s)", "").replace("(aq)", "")
        assert judge(asked, without).why == ("states",)
        assert judge(free, free["right"]).verdict == "right"


def test_the_example_at_the_box_is_of_another_cell():
    for template in PRINTED:
        for _, question, variant in samples("notation", template):
            for part, key in keys(question, variant):
                if key["kind"] in {"diagram", "expression"}:
                    told = spans_text(part.field.how, variant.slots)
                    example = told.partition(": ")[0].removeprefix("As in ")
                    assert judge(key, example).verdict == "not-yet", told
