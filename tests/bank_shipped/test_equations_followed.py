"""In shipped questions: an equation follows from the electrode taken for the anode, and ΔG from the equation as it was written."""

from __future__ import annotations

import pytest
from shipped import samples

from saltbridge.answers import judge
from saltbridge.chemistry.equations import Equation, parse_equation, times


def keys(sample):
    """The keys of a variant's parts by their letter."""
    return {part.label: sample.key(part.label) for part in sample.question.parts}


def multiple(text, factor):
    """The equation so many times."""
    equation = parse_equation(text)
    return Equation(times(equation.left, factor), times(equation.right, factor)).text


@pytest.mark.parametrize("factor", [1, 2, 3])
def test_the_energy_is_that_of_the_reaction_as_it_was_written(factor):
    for sample in samples("gibbs-energy"):
        key = keys(sample)
        written = judge(key["a"], multiple(key["a"]["right"], factor))
        assert (written.verdict, written.own) == ("right" if factor == 1 else "right-but", factor)
        energy = judge(key["c"], f"{factor * float(key['c']['exact']):#.3g}", {"a": written.own})
        assert energy.verdict == ("right" if factor == 1 else "follows")
        assert judge(key["c"], f"{2 * factor * float(key['c']['exact']):#.3g}", {"a": written.own}).verdict != "follows"


def test_an_equation_follows_from_the_electrode_taken_for_the_anode():
    for sample in samples("unequal-charges"):
        key = keys(sample)
        choice = next(each for each in key.values() if each.get("node") == "anode")
        label = next(label for label, each in key.items() if each is choice)
        equation = next(each for each in key.values() if each["kind"] == "equation")
        back = parse_equation(equation["right"]).reverse().text
        wrong = judge(choice, [1 - choice["right"][0]])
        assert judge(equation, back, {label: wrong.own}).verdict == "follows"
        assert judge(equation, back, {label: judge(choice, choice["right"]).own}).verdict == "slip"
        assert judge(equation, equation["right"], {label: wrong.own}).verdict == "right"
