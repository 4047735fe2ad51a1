"""Formal potentials: where they stand, and what a titration in an acid makes of them."""

from __future__ import annotations

import pytest

from saltbridge.api import work
from saltbridge.faults import Faulty
from saltbridge.tables import potentials
from saltbridge.tables.formal_potentials import acids, formal_potentials

CURVE = ("titrant = Ce^4+/Ce^3+", "analyte = Fe^3+/Fe^2+")


def test_every_couple_is_of_the_table_and_lies_within_half_a_volt_of_its_standard_potential():
    for couple, acid in formal_potentials():
        formal = formal_potentials()[couple, acid]
        assert abs(float(formal.E) - float(potentials()[couple].E0)) < 0.5
        assert formal.source
        assert acid in acids()


def test_iron_and_cerium_in_sulfuric_acid_meet_where_a_worked_solution_says():
    """0.68 V and 1.44 V: 1.06 V at equivalence (worked problem of a coulometric titration, seen in a stored copy)."""
    assert work(None, (*CURVE, "acid = sulfuric acid"), "E_eq")["value"] == pytest.approx(1.06)


@pytest.mark.parametrize(("before", "potential"), [("100", 0.669575), ("200", 0.715641), ("240", 0.761703), ("249", 0.821796)])
def test_the_curve_before_equivalence_is_that_of_a_worked_solution(before, potential):
    """The same problem's table: iron(II) oxidised by cerium(IV) for so many of 250 seconds, 0.68 V and 1.44 V."""
    told = (*CURVE, "acid = sulfuric acid", f"V_before = {before} cm3", "V_titrant = 250 cm3")
    assert work(None, told, "E_before")["value"] == pytest.approx(potential, abs=2e-4)


def test_ferroin_changes_within_the_step_in_sulfuric_acid():
    told = (*CURVE, "acid = sulfuric acid", "indicators = methylene blue, diphenylamine, ferroin")
    assert work(None, told, "indicator")["text"] == "ferroin"


def test_an_acid_without_the_couple_is_refused_with_those_that_have_it():
    with pytest.raises(Faulty) as raised:
        work(None, (*CURVE, "acid = nitric acid"), "E_eq")
    assert str(raised.value) == (
        "expected an acid in which the formal potential of Fe^3+/Fe^2+ is known "
        "(sulfuric acid, hydrochloric acid, perchloric acid); found nitric acid. Or leave out the acid. [no-formal-potential]"
    )
