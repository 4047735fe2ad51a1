"""Equations and half-reactions: reading, balance, and what two halves make."""

from __future__ import annotations

from math import gcd

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.chemistry.equations import Equation, Term, imbalance, lowest, parse_equation
from saltbridge.chemistry.half_reactions import combine, electrode, parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty
from saltbridge.tables import potentials

HALVES = {name: parse_half_reaction(couple.half_reaction) for name, couple in potentials().items()}
SPECIES = ["Zn", "Zn^2+(aq)", "Ag^+", "H2O(l)", "e-", "MnO4^-(aq)", "[Fe(CN)6]^3-", "CuSO4·5H2O(s)", "Cl2(g)"]


def told(text: str, read=parse_equation) -> str:
    with pytest.raises(Faulty) as caught:
        read(text)
    return str(caught.value)


# ------------------------------------------------------------------ reading


@pytest.mark.parametrize("arrow", ["->", "→", "<=>", "⇌", "=", "⟶"])
def test_every_arrow_is_read(arrow):
    assert parse_equation(f"2Ag^+ + Zn {arrow} 2 Ag + Zn^2+").text == "2Ag^+ + Zn -> 2Ag + Zn^2+"


def test_an_electron_keeps_its_space():
    assert parse_equation("Zn -> Zn^2+ + 2e-").text == "Zn -> Zn^2+ + 2 e-"


sides = st.lists(
    st.builds(Term, st.integers(1, 999), st.sampled_from([parse_species(text) for text in SPECIES])), min_size=1, max_size=6
).map(tuple)


@given(st.builds(Equation, sides, sides))
def test_what_is_printed_is_read_back(equation):
    assert parse_equation(equation.text) == equation


@given(st.text(max_size=60) | st.text(alphabet="ZnAg2+^->() =e", max_size=40))
def test_any_text_is_an_equation_or_a_fault(text):
    try:
        equation = parse_equation(text)
    except Faulty:
        return
    assert parse_equation(equation.text) == equation


@pytest.mark.parametrize(
    ("written", "message"),
    [
        (
            "Zn + Cu^2+",
            "expected two sides with one arrow between; found 'Zn + Cu^2+'. Write for example: Zn + 2Ag^+ -> Zn^2+ + 2Ag. [equation-unread]",
        ),
        (
            "1/2O2 -> O",
            "expected whole numbers before the species; found '1/2O2'. Multiply the whole equation. [coefficient-not-whole]",
        ),
        ("Ag^++Zn -> Ag", "expected spaces around the + between species; found 'Ag^++Zn' [plus-needs-spaces]"),
        ("0Zn -> Ag", "expected a whole number from 1 to 999; found '0Zn' [coefficient-unread]"),
    ],
)
def test_a_fault_says_what_to_write(written, message):
    assert told(written) == message


def test_all_broken_species_are_told_at_once():
    with pytest.raises(Faulty) as caught:
        parse_equation("Zn2+ + Xq -> Cu2+")
    assert [each.code for each in caught.value.faults] == ["charge-unclear", "species-unread", "charge-unclear"]


@pytest.mark.parametrize(
    "written", ["H2 -> " * 90, " + ".join(["H2"] * 14) + " -> O2", "-> Zn", "Zn ->", "Zn -> Zn -> Zn", "9999H2 -> H2"]
)
def test_hostile_equations_end_in_a_fault(written):
    assert told(written)


def test_the_pieces_of_an_equation_keep_coefficients_and_arrow():
    inscription = inscribe_equation(parse_equation("2Ag^+(aq) + Zn(s) -> 2Ag(s) + Zn^2+(aq)"), phase=True)
    assert inscription.plain == "2\u202fAg+(aq) + Zn(s) → 2\u202fAg(s) + Zn2+(aq)"
    assert inscription.spoken == "2 Ag plus aqueous, and Zn solid gives 2 Ag solid, and Zn 2 plus aqueous"


# ------------------------------------------------------------------ balance


def test_a_balanced_equation_has_no_imbalance():
    assert imbalance(parse_equation("2Ag^+ + Zn -> 2Ag + Zn^2+")) == {}


def test_the_imbalance_tells_charge_even_where_atoms_agree():
    assert imbalance(parse_equation("Ag^+ + Zn -> Ag + Zn^2+")) == {"charge": (1, 2)}


def test_an_unbalanced_half_reaction_tells_atoms_and_charge_of_each_side():
    assert told("MnO4^- + 8H^+ + 4 e- -> Mn^2+ + 3H2O", parse_half_reaction) == (
        "expected the same atoms and charge on both sides; found 4 O on the left and 3 on the right; 8 H on the left and 6 on the right; "
        "charge +3 on the left and +2 on the right in 'MnO4^- + 8H^+ + 4 e- -> Mn^2+ + 3H2O' [unbalanced]"
    )


def test_an_oxidation_is_shown_turned_round():
    assert told("Zn -> Zn^2+ + 2 e-", parse_half_reaction) == (
        "expected a reduction, electrons on the left; found 'Zn -> Zn^2+ + 2 e-'. Write Zn^2+ + 2 e- -> Zn. [written-as-oxidation]"
    )


def test_a_half_reaction_needs_electrons():
    assert "[no-electrons]" in told("Zn -> Zn", parse_half_reaction)
    assert "[equation-unread]" in told("2 e- -> Zn", parse_half_reaction)


@given(sides, st.integers(1, 30))
def test_lowest_undoes_a_common_factor(side, factor):
    equation = Equation(side, side)
    reduced, shared = lowest(Equation(*(tuple(Term(count * factor, one) for count, one in half) for half in (side, side))))
    assert shared % factor == 0
    assert reduced == lowest(equation)[0]


# ------------------------------------------------------------------ couples and cells


@pytest.mark.parametrize("name", HALVES)
def test_the_label_of_a_couple_is_the_id_of_its_row(name):
    """A row may add a phase or "in base" to its id where two rows would have one label."""
    assert HALVES[name].couple_label == name.removesuffix(" in base").replace("(l)", "").replace("(aq)", "").replace("(g)", "")


@pytest.mark.parametrize(
    ("name", "conductor"),
    [
        ("Zn^2+/Zn", "Zn(s)"),
        ("AgCl/Ag", "Ag(s)"),
        ("Hg2Cl2/Hg", "Hg(l)"),
        ("Fe^3+/Fe^2+", "Pt(s)"),
        ("I2/I^-", "Pt(s)"),
        ("PbO2/PbSO4", "Pt(s)"),
    ],
)
def test_the_electrode_is_the_metal_of_the_couple_or_platinum(name, conductor):
    assert electrode(HALVES[name]).text == conductor


@pytest.mark.parametrize("name", HALVES)
def test_combining_with_every_other_couple_keeps_atoms_charge_and_lowest_numbers(name):
    for other, anode in HALVES.items():
        made = combine(HALVES[name], anode)
        terms = (*made.equation.left, *made.equation.right)
        assert imbalance(made.equation) == {}, other
        assert made.n * made.divided_by == made.cathode_times * HALVES[name].n == made.anode_times * anode.n, other
        assert not any(term.species.is_electron for term in terms), other
        if other != name:
            assert gcd(made.n, *(term.coefficient for term in terms)) == 1, other
            assert not {term.species for term in made.equation.left} & {term.species for term in made.equation.right}, other


@pytest.mark.parametrize(("one", "other"), [("Ag^+/Ag", "Zn^2+/Zn"), ("MnO4^-/Mn^2+", "Fe^3+/Fe^2+"), ("Cl2/Cl^-", "ClO3^-/Cl2")])
def test_changing_cathode_and_anode_turns_the_equation_round(one, other):
    forward, backward = combine(HALVES[one], HALVES[other]), combine(HALVES[other], HALVES[one])
    assert {*forward.equation.left} == {*backward.equation.right}
    assert {*forward.equation.right} == {*backward.equation.left}
    assert forward.n == backward.n


def test_water_and_hydrogen_ions_cancel():
    made = combine(HALVES["MnO4^-/Mn^2+"], HALVES["O2/H2O2"])
    assert made.equation.text == "2MnO4^-(aq) + 6H^+(aq) + 5H2O2(aq) -> 2Mn^2+(aq) + 8H2O(l) + 5O2(g)"
    assert made.n == 10


def test_a_sum_with_a_common_factor_is_divided_and_so_are_its_electrons():
    made = combine(HALVES["H^+/H2"], HALVES["H2O/H2"])
    assert made.equation.text == "H^+(aq) + OH^-(aq) -> H2O(l)"
    assert (made.n, made.divided_by) == (1, 2)


def test_the_halves_of_one_couple_do_not_cancel():
    made = combine(HALVES["Zn^2+/Zn"], HALVES["Zn^2+/Zn"])
    assert made.equation.text == "Zn^2+(aq) + Zn(s) -> Zn(s) + Zn^2+(aq)"
    assert made.n == 2


def test_species_without_a_phase_cancel_with_those_that_have_one():
    made = combine(parse_half_reaction("2H^+ + 2 e- -> H2"), parse_half_reaction("O2(g) + 4H^+(aq) + 4 e- -> 2H2O(l)"))
    assert made.equation.text == "2H2O(l) -> 2H2 + O2(g)"
