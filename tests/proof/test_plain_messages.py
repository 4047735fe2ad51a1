"""A template that can't be composed is told with its file and line, in a teacher's words, and ends no other's proof."""

from __future__ import annotations

from banks import change, small_bank
from planted import BENCH, CELL

from saltbridge.deliver.proof import draws
from saltbridge.deliver.proof.proof_run import prove

ELECTRODE = """\
title: {title}
outcome: T4.5
level: core
scenario:
  electrode: {metals: [Zn, Cu, Ni], concentrations: {from: [0.10, 0.010]}}
text: A strip stands in a solution, {{ c }}.
parts:
  - ask: Write the half-equation.
    balance: half-equation
"""


def _faults(proof):
    return [str(each.fault) for each in proof.weighing("fault")]


def test_an_equation_that_the_scenario_lacks_is_told_at_its_part(tmp_path):
    proof = prove(small_bank(tmp_path, strip=ELECTRODE, cell=CELL), 5)
    (told,) = _faults(proof)
    assert told == (
        "strip.yaml:8: parts[1]: expected an equation that this scenario has; found balance: half-equation. "
        "It has no equation to balance. [no-equation]"
    )


def test_an_error_of_the_tool_is_told_with_its_template_and_the_others_are_proved(tmp_path, monkeypatch):
    folder = small_bank(tmp_path, cell=CELL, bench=BENCH)
    sound = draws.content

    def broken(seen):
        return sound(seen) if seen.template.id == "cell" else {}["half-equation"]

    monkeypatch.setattr(draws, "content", broken)
    proof = prove(folder, 5)
    (fault,) = _faults(proof)
    assert fault.startswith(
        "bench.yaml:4: scenario: expected a question that can be set and checked; found none at proof 1. "
        "This is an error of saltbridge: report it with this template. It happened in test_plain_messages.py, line "
    )
    assert {each.template.id: each.tally.draws for each in proof.templates}["cell"] == 5


def test_a_number_to_choose_is_told_as_a_number(tmp_path):
    folder = small_bank(tmp_path, one=CELL)
    change(folder / "one.yaml", "choose: anode.metal\n    from: [left.metal", "choose: E0_cell\n    from: [left.E0")
    (told,) = _faults(prove(folder, 5))
    assert told.startswith("one.yaml:17: parts[1].from: expected exactly one option that is 0.32 V; found left.E0, right.metal. ")


def test_an_order_by_words_is_told_at_its_by(tmp_path):
    folder = small_bank(tmp_path, one=BENCH)
    change(folder / "one.yaml", "by: reading", "by: metal")
    assert _faults(prove(folder, 5)) == [
        "one.yaml:20: parts[1].by: expected a number for s1.metal; found `iron`. Things are put in order by a number. [not-a-number]"
    ]


def test_a_condition_over_a_number_and_a_word_is_told_in_a_teachers_words(tmp_path):
    folder = small_bank(tmp_path, one=CELL)
    change(folder / "one.yaml", "E0_cell >= 0.20 V", "E0_cell >= left.metal")
    (told,) = _faults(prove(folder, 5))
    assert "expected two numbers round `>=`; found `0.32 V` and `iron`" in told, told
    assert "Measured" not in told
