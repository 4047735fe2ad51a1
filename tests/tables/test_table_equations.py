"""Every half-reaction of the table balances, and its metals and salts are what they claim."""

from __future__ import annotations

import pytest

from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.species import parse_species
from saltbridge.tables import elements, metals, potentials

ANIONS = {"SO4": -2, "NO3": -1, "Cl": -1}


@pytest.mark.parametrize("name", potentials())
def test_the_half_reaction_balances_and_has_its_electrons(name):
    couple = potentials()[name]
    assert parse_half_reaction(couple.half_reaction).n == couple.n


@pytest.mark.parametrize("symbol", metals())
def test_a_metal_stands_in_the_half_reaction_of_its_ion(symbol):
    metal = metals()[symbol]
    half = parse_half_reaction(potentials()[metal.couple].half_reaction)
    assert [term.species.text for term in half.oxidised] == [f"{metal.ion}(aq)"]
    assert [term.species.text for term in half.reduced] == [f"{symbol}(s)"]


@pytest.mark.parametrize("symbol", metals())
def test_a_salt_is_neutral_and_brings_the_ion(symbol):
    metal = metals()[symbol]
    salt, ion = parse_species(metal.salt_formula), parse_species(metal.ion)
    atoms = dict(salt.atoms)
    anion = next(name for name in ANIONS if name in metal.salt_formula)
    anions = atoms["Cl"] if anion == "Cl" else atoms["S" if anion == "SO4" else "N"]
    assert atoms[symbol] * ion.charge + anions * ANIONS[anion] == 0


def test_every_element_of_the_table_has_a_weight():
    for couple in potentials().values():
        half = parse_half_reaction(couple.half_reaction)
        for term in (*half.oxidised, *half.reduced):
            assert {symbol for symbol, _ in term.species.atoms} <= elements().keys()
