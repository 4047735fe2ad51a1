"""Laws of redox: numbers add up to the charge, electrons agree, slips equal their own formulas, every quantity is reached."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.algebra.expression import evaluate
from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.check.resolve import resolve
from saltbridge.chemistry.balancing import redox_halves
from saltbridge.chemistry.equations import imbalance, multiple_of, parse_equation
from saltbridge.chemistry.half_reactions import combine
from saltbridge.chemistry.half_steps import STEPS, change_of, steps_of, written
from saltbridge.chemistry.oxidation import disproportionates, electrons_passed, oxidation_numbers
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty
from saltbridge.scenarios.redox.redox import element_changed

SPECIES = (
    "Cr2O7^2-", "MnO4^-", "H2O2", "HO2^-", "NaH", "LiAlH4", "NaBH4", "OF2", "O2F2", "BaO2", "S2O8^2-", "NH4NO3", "[Fe(CN)6]^4-",
    "CuSO4·5H2O", "K2Cr2O7", "FeS2", "POCl3", "SCN^-", "Hg2^2+", "Fe2(SO4)3", "(NH4)2SO4", "[CoCl2(NH3)4]^+", "CrO5", "CaC2",
)  # fmt: skip
SKELETONS = (
    ("MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+", "acid"), ("MnO4^- + H2O2 -> Mn^2+ + O2", "acid"), ("Cr2O7^2- + Sn^2+ -> Cr^3+ + Sn^4+", "acid"),
    ("MnO4^- + SO3^2- -> MnO2 + SO4^2-", "base"), ("Cl2 -> Cl^- + ClO^-", "base"), ("H2O2 -> O2", "acid"), ("IO3^- + I^- -> I2", "acid"),
    ("Cu^+ -> Cu + Cu^2+", "acid"),
)  # fmt: skip


@pytest.mark.parametrize("text", SPECIES)
def test_numbers_of_all_atoms_make_the_charge(text):
    species = parse_species(text)
    shares = oxidation_numbers(species)
    assert sum(share.count * share.number for share in shares) == species.charge
    counts = {}
    for share in shares:
        counts[share.symbol] = counts.get(share.symbol, 0) + share.count
    assert counts == dict(species.atoms)


@pytest.mark.parametrize(
    ("text", "element", "code"),
    [
        ("Fe3O4", "Fe", "unlike-atoms"), ("S2O3^2-", "S", "unlike-atoms"), ("S4O6^2-", "S", "unlike-atoms"), ("KO2", "O", "unlike-atoms"),
        ("C2H5OH", "C", "unlike-atoms"), ("CH3COOH", "C", "unlike-atoms"), ("CuFeS2", "Cu", "numbers-open"), ("SiH4", "Si", "numbers-open"),
    ],
)  # fmt: skip
def test_what_is_ambiguous_is_refused_by_name(text, element, code):
    with pytest.raises(Faulty) as caught:
        oxidation_numbers(parse_species(text))
    assert caught.value.faults[0].code == code
    assert element in dict(parse_species(text).atoms)


def test_a_mean_is_told_where_it_is_asked_for():
    """Magnetite: eight thirds; asked for plainly it is refused with the way out."""
    assert work(None, ["species = Fe3O4"], "ox_mean")["value"] == pytest.approx(8 / 3, rel=1e-12)
    with pytest.raises(Faulty, match="atoms of Fe that are not alike; only their mean, ox_mean, can be given"):
        work(None, ["species = Fe3O4"], "ox")


@pytest.mark.parametrize(("skeleton", "medium"), SKELETONS)
def test_a_balanced_equation_is_a_null_vector(skeleton, medium):
    """Every step's whole half-equation and the sum keep atoms and charge, and the electrons are those of the numbers."""
    halves = redox_halves(skeleton, medium)
    for place in range(2):
        equation = change_of(halves[place], oxidation=bool(place))
        for name in steps_of(halves[place], oxidation=bool(place)):
            equation = STEPS[name](equation)
        assert imbalance(equation) == {}
        assert multiple_of(equation, written(halves[place], oxidation=bool(place))) == 1
        change = element_changed(halves[place])
        assert change is not None
        assert change.atoms * (change.high - change.low) == halves[place].n
    whole = combine(*halves)
    assert imbalance(whole.equation) == {}
    assert electrons_passed(whole.equation.left, whole.equation.right) == whole.n


@pytest.mark.parametrize(
    ("text", "passed", "splits"),
    [
        ("Ag^+ + Cl^- -> AgCl", 0, False), ("H^+ + OH^- -> H2O", 0, False), ("2Cu^+ -> Cu^2+ + Cu", 1, True),
        ("Cl2 + 2OH^- -> Cl^- + ClO^- + H2O", 1, True), ("2H2O2 -> 2H2O + O2", 2, True), ("IO3^- + 5I^- + 6H^+ -> 3I2 + 3H2O", 5, False),
        ("2Mg + O2 -> 2MgO", 4, False),
    ],
)  # fmt: skip
def test_redox_and_disproportionation_are_told_apart(text, passed, splits):
    equation = parse_equation(text)
    assert electrons_passed(equation.left, equation.right) == passed
    assert disproportionates(equation.left, equation.right) is splits


@given(n1=st.integers(1, 5), n2=st.integers(1, 5), low=st.floats(-1, 1), gap=st.floats(0.2, 2), share=st.floats(0.01, 0.99))
@settings(max_examples=60)
def test_the_potential_rises_through_a_titration(n1, n2, low, gap, share):
    """Before lies below half-way's mirror, equivalence between the couples, beyond above equivalence where the step is wide."""
    known = catalogue().relations
    base = {
        "R": 8.314462618,
        "T": 298.15,
        "F": 96485.33212,
        "E0_analyte": low,
        "E_titrant": low + gap,
        "n_e_analyte": n1,
        "n_e_titrant": n2,
    }
    at = evaluate(known["potential-at-equivalence"].tree, base)
    before, more, mirrored = (
        evaluate(known["potential-before"].tree, {**base, "r_before": evaluate(known["ratio-before"].tree, {"f_before": each})})
        for each in (share, share + (1 - share) / 2, 1 - share)
    )
    assert low < at < low + gap
    assert before < more
    assert before + mirrored == pytest.approx(2 * low, abs=1e-9)


OWN = {
    "ion-charge-is-oxidation-number": (["species = SO4^2-", "element = S"], "ox", -2.0),  # q, in place of q + 2k
    "charge-change-counts-electrons": (["half_skeleton = MnO4^- -> Mn^2+"], "n_transfer", 3.0),  # from -1 to +2
    "electrons-left-unbalanced": (["skeleton = MnO4^- + H2O2 -> Mn^2+ + O2"], "coeff_H", 8.0 - 2.0),
    "redox-titration-one-to-one": (
        ["titrant = MnO4^-", "analyte = Fe^2+", "skeleton = MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+", "c_titrant = 0.0200 mol/L", "V_titrant = 20.00 cm3", "V_analyte = 25.00 cm3"],
        "c_analyte", 0.0200 * 20.00 / 25.00,
    ),
    "equivalence-point-plain-average": (
        ["E0_analyte = 0.771 V", "E_titrant = 1.507 V", "n_e_analyte = 1", "n_e_titrant = 5"], "E_eq", (0.771 + 1.507) / 2,
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", sorted(set(OWN) - {"electrons-left-unbalanced"}))
def test_a_slip_equals_its_own_formula(slip):
    know, find, value = OWN[slip]
    found = {each["id"]: each["value"] for each in work(None, know, find)["slips"]}
    assert found[slip] == pytest.approx(value, rel=1e-12)


def test_a_slip_that_gives_the_right_number_is_dropped():
    """Permanganate and peroxide: 2 × 8 − 5 × 2 is 6, and so is 8 − 2 with the halves added as they stand."""
    know, find, value = OWN["electrons-left-unbalanced"]
    told = work(None, know, find)
    assert told["value"] == value
    assert "slips" not in told or all(each["id"] != "electrons-left-unbalanced" for each in told["slips"])


REACHED = [
    (["skeleton = MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+"], "oxidant", "MnO₄−"),
    (["skeleton = MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+"], "reductant", "Fe²⁺"),
    (["skeleton = Cl2 -> Cl^- + ClO^-", "medium = base"], "reaction_kind", "disproportionation"),
    (["skeleton = Ag^+ + Cl^- -> AgCl"], "reaction_kind", "neither"),
    (["skeleton = Pb + PbO2 + SO4^2- -> PbSO4"], "reaction_kind", "redox"),
    (["half_skeleton = Fe^2+ -> Fe^3+"], "process", "oxidation"),
    (["half_skeleton = MnO4^- -> MnO2", "medium = base"], "half_equation", "MnO4^- + 2H2O + 3 e- -> MnO2 + 4OH^-"),
    (["solid = Zn", "dissolved = Cu^2+"], "reacts", "yes"),
    (["solid = Cu", "dissolved = Zn^2+"], "reacts", "no"),
    (["species = Cu^+"], "disproportionates", "yes"),
    (["species = Fe^2+"], "disproportionates", "no"),
    (["species = H2O2", "element = O"], "disproportionates", "yes"),
]


@pytest.mark.parametrize(("know", "find", "said"), REACHED)
def test_work_reaches_the_words_of_redox(know, find, said):
    assert work(None, know, find)["text"].replace("⁻", "−") == said


NUMBERS = {"coeff_sum": 24, "coeff_H": 8, "nu_red": 1, "nu_ox": 5, "n_common": 5}


@pytest.mark.parametrize("find", NUMBERS)
def test_work_counts_what_stands_in_an_equation(find):
    assert work(None, ["skeleton = MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+"], find)["value"] == NUMBERS[find]


@pytest.mark.parametrize(
    "relation", [each for each in catalogue().relations.values() if each.family in {"Oxidation numbers", "Redox equations", "Redox titration"}],
    ids=lambda relation: relation.id,
)  # fmt: skip
def test_each_relation_is_solved_for_each_unknown(relation):
    """From a source's own values, each left out in turn and found again."""
    quantities = catalogue().quantities
    case = relation.cases[0].values
    untold = []
    for unknown in relation.symbols:
        if quantities[unknown].constant or (unknown == "T"):
            continue
        know = [
            f"{name} = {value!r} {quantities[name].unit}".strip()
            for name, value in case.items()
            if name != unknown and not quantities[name].constant
        ]
        try:
            found = work(None, know, unknown, quantities[unknown].unit or None)["value"]
        except Faulty as error:
            untold.append((unknown, error.faults[0].code))
            continue
        if quantities[unknown].show == "%":
            found /= 100
        assert found == pytest.approx(case[unknown], rel=5e-3, abs=1e-4), unknown
    assert all(code in {"undefined", "not-derivable"} and _flat(relation, unknown, case) for unknown, code in untold), untold


def _flat(relation, unknown, case):
    """Whether the relation does not tell the unknown in this case: a factor of zero stands before it."""
    moved = evaluate(relation.tree, {**case, unknown: case[unknown] + 1}) if unknown != relation.subject else math.inf
    return moved == pytest.approx(evaluate(relation.tree, case), abs=1e-12)


@pytest.mark.parametrize(
    ("know", "find", "said"),
    [
        (["species = Xx2"], "ox", "an element symbol"),
        (["species = CuSO4"], "ox", "Cu or S"),
        (["species = SO4^2-", "element = Cl"], "ox", "an element of SO4"),
        (["half_skeleton = MnO4^- -> Mn^2+", "medium = water"], "half_equation", "medium = acid or medium = base"),
        (["solid = Zn"], "reacts", "only solid"),
        (["titrant = MnO4^-"], "nu_analyte", "no analyte, skeleton"),
        (["skeleton = Ag^+ + Cl^- -> AgBr"], "equation", "species that can be balanced"),
        (["c_titrant = -0.02 mol/L", "V_titrant = 20 cm3"], "n_titrant", "above zero"),
    ],
)  # fmt: skip
def test_impossible_redox_is_refused_in_words(know, find, said):
    with pytest.raises(Faulty) as caught:
        work(None, know, find)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    "relation", [each for each in catalogue().relations.values() if each.family in {"Oxidation numbers", "Redox equations", "Redox titration"}],
    ids=lambda relation: relation.id,
)  # fmt: skip
def test_a_second_hand_finds_the_same(relation):
    """The plain formulas of check, written apart, on every case of every relation."""
    for case in relation.cases:
        known = {name: value for name, value in case.values.items() if name != relation.subject}
        assert resolve(relation.subject, known) == pytest.approx(evaluate(relation.tree, case.values), rel=1e-9, abs=1e-12)
