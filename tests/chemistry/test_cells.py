"""Cells: what Q holds, how concentration cells stay apart, and what a swap changes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge import tables
from saltbridge.chemistry.cells import (
    Amount,
    GalvanicCell,
    cell_reaction,
    half_cell,
    quotient_terms,
    swap,
    transfer_text,
    transfers,
)
from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.half_reactions import combine
from saltbridge.faults import Faulty

ROWS = {row.couple: row for row in tables.sheet("college").rows}


def mol(text: str) -> Amount:
    return Amount(text, float(text), "mol/L")


def terms(cell: GalvanicCell) -> set[tuple[str, str, int]]:
    return {(side, species.bare, exponent) for side, species, exponent in quotient_terms(cell)}


def built(left: str, right: str, left_amounts=None, right_amounts=None) -> GalvanicCell:
    return GalvanicCell(half_cell(ROWS[left], left_amounts), half_cell(ROWS[right], right_amounts))


# ------------------------------------------------------------------ the quotient


def test_products_are_above_and_reactants_below_each_at_its_side():
    cell = built("Zn^2+/Zn", "Ag^+/Ag", {"Zn^2+": mol("0.10")}, {"Ag^+": mol("0.50")})
    assert terms(cell) == {("left", "Zn^2+", 1), ("right", "Ag^+", -2)}
    assert cell_reaction(cell).n == 2


def test_solids_liquids_and_water_stay_out_of_the_quotient():
    cell = built("Fe^3+/Fe^2+", "MnO4^-/Mn^2+")
    assert terms(cell) == {
        ("left", "Fe^2+", -5),
        ("left", "Fe^3+", 5),
        ("right", "MnO4^-", -1),
        ("right", "Mn^2+", 1),
        ("right", "H^+", -8),
    }


def test_gases_are_in_the_quotient():
    assert ("left", "H2", -1) in terms(built("H^+/H2", "Cu^2+/Cu"))


def test_the_ions_of_a_concentration_cell_stay_apart():
    cell = built("Zn^2+/Zn", "Zn^2+/Zn", {"Zn^2+": mol("0.10")}, {"Zn^2+": mol("0.50")})
    assert terms(cell) == {("left", "Zn^2+", 1), ("right", "Zn^2+", -1)}
    assert cell_reaction(cell).n == 2
    assert transfer_text(cell) == "Zn^2+(aq, 0.50) -> Zn^2+(aq, 0.10)"


def test_a_concentration_cell_of_a_gas_tells_every_transfer():
    cell = built("Cl2/Cl^-", "Cl2/Cl^-", {"Cl2": Amount("2", 2.0, "bar", printed_unit="bar")}, {})
    assert {(one.coefficient, one.species.bare, one.source, one.goal) for one in transfers(cell)} == {
        (2, "Cl^-", "left", "right"),
        (1, "Cl2", "right", "left"),
    }


def test_other_cells_transfer_nothing():
    assert transfers(built("Zn^2+/Zn", "Ag^+/Ag")) == ()


def test_equal_amounts_of_a_shared_species_are_set_off():
    cell = built("H^+/H2", "MnO4^-/Mn^2+", {"H^+": mol("0.010")}, {"H^+": mol("0.010")})
    assert ("right", "H^+", -6) in terms(cell)
    assert not [term for term in terms(cell) if term[:2] == ("left", "H^+")]


def test_unequal_or_unknown_amounts_of_a_shared_species_stay_apart():
    for other in (mol("0.10"), Amount("?", None, "mol/L", given=False)):
        cell = built("H^+/H2", "MnO4^-/Mn^2+", {"H^+": mol("0.010")}, {"H^+": other})
        assert {("right", "H^+", -16), ("left", "H^+", 10)} <= terms(cell)


def test_a_divided_equation_has_whole_exponents():
    even = built("H2O/H2", "H^+/H2")
    assert cell_reaction(even).equation.text == "H^+(aq) + OH^-(aq) -> H2O(l)"
    assert (cell_reaction(even).n, terms(even)) == (1, {("right", "H^+", -1), ("left", "OH^-", -1)})
    odd = built("H2O/H2", "H^+/H2", {"H2": Amount("0.5", 0.5, "bar")}, {})
    assert cell_reaction(odd).equation.text == "2H^+(aq) + 2OH^-(aq) -> 2H2O(l)"
    assert (cell_reaction(odd).n, dict.fromkeys(terms(odd))) == (
        2,
        dict.fromkeys({("right", "H2", 1), ("right", "H^+", -2), ("left", "H2", -1), ("left", "OH^-", -2)}),
    )


def test_the_quotient_of_an_equation_takes_usual_phases():
    found = {(species.bare, exponent) for _, species, exponent in quotient_terms(parse_equation("2Ag^+ + Zn -> 2Ag + Zn^2+"))}
    assert found == {("Ag^+", -2), ("Zn^2+", 1)}


def test_an_equation_with_a_species_twice_adds_its_exponents():
    assert [exponent for _, _, exponent in quotient_terms(parse_equation("H^+ + H^+ + 2 e- -> H2"))] == [-2, 1]


def test_an_unusual_species_without_phase_is_asked_for():
    with pytest.raises(Faulty) as caught:
        quotient_terms(parse_equation("SO2 -> SO2"))
    assert str(caught.value) == "expected the phase of SO2; found none. Write SO2(s), (l), (g) or SO2(aq). [phase-needed]"


def test_the_published_coefficients_of_the_copper_gold_cell():
    """OpenStax Chemistry 2e, section 17.3, end-of-chapter exercise on Cu|Cu2+||Au3+|Au: 3 Cu, 2 Au3+, 3 Cu2+, 2 Au (CC BY 4.0)."""
    assert cell_reaction(built("Cu^2+/Cu", "Au^3+/Au")).equation.text == "2Au^3+(aq) + 3Cu(s) -> 2Au(s) + 3Cu^2+(aq)"


# ------------------------------------------------------------------ laws

couples = st.sampled_from(sorted(ROWS))
amounts = st.sampled_from(["0.0010", "0.10", "0.5", "1.0"])


@st.composite
def cells(draw) -> GalvanicCell:
    """A cell of any two couples with amounts for some of their dissolved species and gases."""
    halves = []
    for _ in range(2):
        half = half_cell(ROWS[draw(couples)])
        told = {}
        for species in half.shown:
            if species.phase in {"g", "aq"} and draw(st.booleans()):
                text = draw(amounts)
                told[species.bare] = Amount(text, float(text), "bar" if species.phase == "g" else "mol/L")
        halves.append(half_cell(ROWS[half.couple], told))
    return GalvanicCell(*halves)


def log_quotient(cell: GalvanicCell) -> float:
    return sum(
        exponent * math.log(amount.value)
        for side, species, exponent in quotient_terms(cell)
        if (amount := cell.side(side).amount(species)) and amount.value
    )


@given(cells())
def test_a_swap_twice_is_the_same_cell(cell):
    assert swap(swap(cell)) == cell


@given(cells())
def test_a_swap_turns_the_reaction_and_the_sign_of_ln_q(cell):
    forward, backward = cell_reaction(cell), cell_reaction(swap(cell))
    assert forward.n == backward.n
    assert {*forward.equation.left} == {*backward.equation.right}
    assert log_quotient(cell) == pytest.approx(-log_quotient(swap(cell)), abs=1e-9)


@given(cells())
def test_ln_q_per_electron_is_the_difference_of_the_two_halves(cell):
    """ln Q / n = ln Q_right / n_right − ln Q_left / n_left, with each half on its own as a reduction."""

    def of_half(side: str) -> float:
        half = cell.side(side).half
        total = 0.0
        for side_terms, sign in ((half.reduced, 1), (half.oxidised, -1)):
            for coefficient, species in side_terms:
                amount = cell.side(side).amount(species)
                total += sign * coefficient * math.log(amount.value) if amount else 0.0
        return total / half.n

    assert log_quotient(cell) / cell_reaction(cell).n == pytest.approx(of_half("right") - of_half("left"), abs=1e-9)


@given(cells())
def test_a_cell_reaction_is_a_whole_multiple_of_the_combined_halves(cell):
    plain, whole = combine(cell.right.half, cell.left.half), cell_reaction(cell)
    factor = whole.n // plain.n
    assert whole.n == factor * plain.n
    assert [term.coefficient for term in whole.equation.left] == [term.coefficient * factor for term in plain.equation.left]


# ------------------------------------------------------------------ half-cells of the sheet


def test_the_usual_half_cell_shows_all_but_electrode_and_water():
    half = half_cell(ROWS["MnO4^-/Mn^2+"])
    assert half.electrode.text == "Pt(s)"
    assert [species.bare for species in half.shown] == ["MnO4^-", "Mn^2+", "H^+"]


def test_an_amount_of_a_stranger_is_refused():
    with pytest.raises(Faulty) as caught:
        half_cell(ROWS["Zn^2+/Zn"], {"Cu^2+": mol("0.10")})
    assert str(caught.value) == (
        "expected one of Zn^2+ of Zn^2+/Zn; found 'Cu^2+'. Name the species without its phase. [species-not-in-couple]"
    )
