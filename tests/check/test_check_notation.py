"""The independent reader of diagrams and expressions, by hand; and proof says where a written answer is another."""

from __future__ import annotations

from dataclasses import replace

import pytest
from families.family_bank import bank

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.check.notation import fault_of_half, halves_of, powers_by, powers_of
from saltbridge.deliver.proof.draws import proof_seed
from saltbridge.deliver.proof.notation_checks import written_again
from saltbridge.deliver.proof.variant_under_test import Eyes
from saltbridge.faults import Faulty


def test_a_diagram_is_split_into_halves_and_phases():
    text = "Pt(s) | Fe^2+(aq, 0.10), Fe^3+(aq, 0.20) || Cl^-(aq, 1.0) | Cl2(g, 0.50 bar) | Pt(s)"
    assert halves_of(text) == ([["Pt"], ["Fe^2+", "Fe^3+"]], [["Cl^-"], ["Cl2"], ["Pt"]])
    with pytest.raises(Faulty, match="unreadable-diagram"):
        halves_of("Zn | Zn^2+ | Cu^2+ | Cu")


@pytest.mark.parametrize(
    ("phases", "half", "wrong"),
    [
        ([["Zn"], ["Zn^2+"]], "Zn^2+ + 2 e- -> Zn", ""),
        ([["Pt"], ["MnO4^-", "H^+", "Mn^2+"]], "MnO4^- + 8H^+ + 5 e- -> Mn^2+ + 4H2O", ""),
        ([["Fe^2+", "Fe^3+"]], "Fe^3+ + e- -> Fe^2+", "no electrode at the end but Fe^2+, Fe^3+"),
        ([["Pt"], ["Fe^2+"]], "Fe^3+ + e- -> Fe^2+", "without Fe^3+"),
        ([["Zn"], ["Zn^2+", "K^+"]], "Zn^2+ + 2 e- -> Zn", "with K^+"),
        ([["Zn^2+"], ["Zn"]], "Zn^2+ + 2 e- -> Zn", "no electrode at the end but Zn^2+"),
    ],
)
def test_a_half_cell_is_held_against_its_half_equation(phases, half, wrong):
    assert fault_of_half(phases, half) == wrong


@pytest.mark.parametrize(
    ("expression", "powers"),
    [
        ("[Zn^2+]/[Ag^+]^2", {"Zn^2+": 1, "Ag^+": -2}),
        ("1/([Cu^2+]·p(Cl2)^3)", {"Cu^2+": -1, "Cl2": -3}),
        ("[Mn^2+]^2·p(Cl2)^5/([MnO4^-]^2·[H^+]^16)", {"Mn^2+": 2, "Cl2": 5, "MnO4^-": -2, "H^+": -16}),
        ("[[Ag(NH3)2]^+]/[NH3]^2", {"[Ag(NH3)2]^+": 1, "NH3": -2}),
    ],
)
def test_an_expression_is_read_power_by_power(expression, powers):
    assert powers_of(expression) == powers


def test_an_equation_tells_the_powers():
    """Oxidation of chloride by permanganate, balanced by hand."""
    states = {"Cl2": "g", "H2O": "l"}
    found = powers_by("2MnO4^- + 16H^+ + 10Cl^- -> 2Mn^2+ + 5Cl2 + 8H2O", states)
    assert found == {"Mn^2+": 2, "Cl2": 5, "MnO4^-": -2, "H^+": -16, "Cl^-": -10}
    assert powers_by("Zn + 2Ag^+ -> Zn^2+ + 2Ag", {"Zn": "s", "Ag": "s"}) == {"Zn^2+": 1, "Ag^+": -2}


@pytest.mark.parametrize(
    ("template", "at", "wrong", "code"),
    [
        ("diagram-of-two-metals", 1, "Xe(g)", "species-differs"),
        ("diagram-of-two-metals", 2, "Au(s) | Au^3+(aq) || Au^3+(aq) | Au(s)", "diagram-differs"),
        ("quotient-of-a-cell", 2, "[Zn^2+]^7", "expression-differs"),
    ],
)
def test_another_answer_than_the_right_one_is_found(template, at, wrong, code):
    seen = Eyes(bank("notation").template(template), bank("notation"), catalogue()).see(1, proof_seed(1))
    assert list(written_again(seen)) == []
    judge = list(seen.variant.judge)
    judge[at] = {**judge[at], "right": wrong}
    found = list(written_again(replace(seen, variant=replace(seen.variant, judge=tuple(judge)))))
    assert {each.code for each in found} == {code}
