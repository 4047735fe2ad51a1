"""Balancing: against published equations, against another library, and where a balance is not to be had."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from chempy import balance_stoichiometry

from saltbridge.chemistry.balancing import balance_equation, balance_half, balance_redox
from saltbridge.chemistry.equations import Equation, imbalance, parse_equation
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.species import Species
from saltbridge.faults import Faulty
from saltbridge.tables import potentials

CASES = yaml.safe_load((Path(__file__).parent.parent / "checks" / "balanced_equations.yaml").read_text(encoding="utf-8"))["cases"]


def as_sets(equation: Equation) -> tuple[frozenset, frozenset]:
    """Terms in no order."""
    return frozenset(equation.left), frozenset(equation.right)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_a_published_equation_follows_from_its_skeleton(case):
    """Source of each: beside it in tests/checks/balanced_equations.yaml."""
    assert as_sets(balance_redox(case["skeleton"], case["medium"])) == as_sets(parse_equation(case["balanced"]))


def in_chempy(species: Species) -> str:
    charge = f"{species.charge:+d}" if abs(species.charge) > 1 else {1: "+", -1: "-"}.get(species.charge, "")
    return species.formula.replace("[", "(").replace("]", ")") + charge


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_another_library_finds_the_same_coefficients(case):
    """chempy.balance_stoichiometry, run here on the species of our answer; every case has one balance only."""
    ours = balance_redox(case["skeleton"], case["medium"])
    left, right = ({in_chempy(term.species) for term in side} for side in (ours.left, ours.right))
    found = balance_stoichiometry(left, right)
    for side, theirs in zip((ours.left, ours.right), found, strict=True):
        assert {in_chempy(term.species): term.coefficient for term in side} == {
            name: int(count) for name, count in theirs.items()
        }


def test_permanganate_and_peroxide_react_two_to_five():
    """The ratio of the permanganate titration of peroxide, from memory; the matrix alone allows others (chempy 0.10.2 finds 2 to 1)."""
    made = balance_redox("MnO4^- + H2O2 -> Mn^2+ + O2", "acid")
    assert as_sets(made) == as_sets(parse_equation("2MnO4^- + 5H2O2 + 6H^+ -> 2Mn^2+ + 5O2 + 8H2O"))


def test_the_whole_of_permanganate_and_peroxide_is_refused_as_open():
    with pytest.raises(Faulty) as caught:
        balance_equation(parse_equation("MnO4^- + H2O2 + H^+ -> Mn^2+ + O2 + H2O"))
    assert str(caught.value) == (
        "expected one way to balance; found 2 independent ones for 'MnO4^- + H2O2 + H^+ -> Mn^2+ + O2 + H2O'. "
        "Balance the two half-reactions one by one and combine them. [several-balances]"
    )


def skeletons() -> list[tuple[str, str, str]]:
    """Every couple of the table that names its own species: id, skeleton, medium."""
    found = []
    for name, couple in potentials().items():
        half = parse_half_reaction(couple.half_reaction)
        bare = [{term.species.bare for term in side} for side in (half.oxidised, half.reduced)]
        medium = "base" if "OH^-" in bare[0] | bare[1] else "acid"
        left, right = (" + ".join(sorted(side - {"H2O", "H^+", "OH^-"})) for side in bare)
        found.append((name, f"{left or 'H2O'} -> {right or 'H2O'}", medium))
    return found


@pytest.mark.parametrize(("name", "skeleton", "medium"), skeletons(), ids=lambda value: value)
def test_every_half_reaction_of_the_table_follows_from_its_skeleton(name, skeleton, medium):
    """The table writes its half-reactions out in full, so each is a second opinion, typed in apart from this code."""
    printed = parse_half_reaction(potentials()[name].half_reaction)
    found = balance_half(skeleton, medium)
    assert as_sets(found.reduction) == as_sets(printed.reduction.bare)


def test_an_oxidation_comes_back_as_the_reduction():
    assert balance_half("H2O2 -> O2").text == "O2 + 2H^+ + 2 e- -> H2O2"


def test_the_medium_follows_the_phases_of_the_skeleton():
    assert balance_half("MnO4^-(aq) -> MnO2(s)", "base").text == "MnO4^-(aq) + 2H2O(l) + 3 e- -> MnO2(s) + 4OH^-(aq)"


@pytest.mark.parametrize(
    "skeleton", ["H2O2 -> O2 + H2O", "KMnO4 + HCl -> KCl + MnCl2 + Cl2", "H2 + O2 -> H2O", "Na + H2O -> NaOH + H2"]
)
def test_a_skeleton_that_is_no_pair_of_ions_balances_too(skeleton):
    assert imbalance(balance_redox(skeleton)) == {}


@pytest.mark.parametrize(
    ("skeleton", "code"),
    [
        ("Fe -> Cu", "not-to-balance"),
        ("Cr2O7^2- -> CrO4^2-", "no-redox"),
        ("H2O -> H^+", "no-redox"),
        ("Zn -> Zn", "species-twice"),
        ("MnO4^- + Cl^- -> Mn^2+ + Cl2 + ClO3^-", "several-balances"),
        ("Zn2+ -> Zn", "charge-unclear"),
    ],
)
def test_what_has_no_balance_ends_in_a_named_fault(skeleton, code):
    with pytest.raises(Faulty, match=rf"\[{code}\]"):
        balance_half(skeleton)


def test_two_oxidations_make_no_reaction():
    with pytest.raises(Faulty, match="both halves oxidised"):
        balance_redox("Zn + Cu -> Zn^2+ + Cu^2+")
