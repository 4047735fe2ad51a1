"""Fuel cells as situations: half-equations in acid and base, fuel used, potential and efficiencies from formation data."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import HalfReaction, parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_species
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Situation
from saltbridge.scenarios.bath.electrolysis import add_molar_mass
from saltbridge.scenarios.bath.products import add_gas_facts, add_molar_volume, is_gas
from saltbridge.scenarios.battery.battery_situation import add_cell
from saltbridge.scenarios.joining import bind
from saltbridge.scenarios.situations import add_given
from saltbridge.tables import Sheet
from saltbridge.tables.batteries import Fuel, fuels
from saltbridge.tables.reading import nearest

MEDIA = ("acid", "base")
KIND = ("kind-of-a-fuel-cell", "recharging-a-fuel-cell", "end-of-a-fuel-cell")


def fuel_of(word: str) -> Fuel:
    """The fuel of a formula or name. Raises ``Faulty`` (code ``unknown-fuel``) naming the nearest."""
    known = fuels()
    found = known.get(word) or next((each for each in known.values() if each.name == word.lower()), None)
    if found is None:
        hint = nearest(word, known) or f"Known: {', '.join(known)}."
        raise fault("unknown-fuel", expected="a fuel of the table", found=word[:40], hint=hint)
    return found


def halves(fuel: Fuel, medium: str) -> tuple[HalfReaction, HalfReaction]:
    """The half-reactions of oxygen and of the fuel in acid or base. Raises ``Faulty`` (code ``medium``) for another word."""
    if medium not in MEDIA:
        raise fault("medium", expected="medium = acid or medium = base", found=medium[:40])
    acid = medium == "acid"
    oxygen, burnt = (fuel.oxygen_acid, fuel.acid_half) if acid else (fuel.oxygen_base, fuel.base_half)
    return parse_half_reaction(oxygen), parse_half_reaction(burnt)


def add_fuel(situation: Situation, fuel: Fuel, medium: str, sheet: Sheet, catalogue: Catalogue) -> None:
    """Equations of the cell, electrons and molar mass of the fuel, and what kind of cell it is."""
    oxygen, burnt = halves(fuel, medium)
    species = parse_species(fuel.fuel)
    add_cell(situation, oxygen, burnt, catalogue)
    count = next(term.coefficient for term in burnt.reduced if term.species.bare == species.bare)
    situation.given["z"] = Given(float(burnt.n // count), "", str(burnt.n // count), "balance")
    situation.labels["product"] = inscribe_species(species, say=situation.say)
    situation.labels["half-equation"] = situation.labels["anode.oxidation"]
    situation.words |= {"fuel.name": fuel.name, "fuel.product": fuel.product, "medium.name": medium}
    situation.about.update({"m": "product", "M": "product", "n_B": "product"})
    add_molar_mass(situation, species, sheet)
    situation.laws += [catalogue.facts[name] for name in KIND]
    _add_gas(situation, species, sheet)


def _add_gas(situation: Situation, species: Species, sheet: Sheet) -> None:
    if is_gas(species.formula):
        add_gas_facts(situation, species)
        add_molar_volume(situation, sheet)


def add_efficiencies(situation: Situation, fuel: Fuel, catalogue: Catalogue) -> None:
    """Energies, potential and efficiencies for one mole of fuel, whose electrons are z; the cell in acid only."""
    told = {name.split(":")[0] for name in situation.given}
    for name, printed in (("dG0", fuel.dG0), ("dH0", fuel.dH0)):
        if name not in told:
            add_given(situation, catalogue, name, printed, "kJ/mol")
    bind(situation, catalogue, "Fuel cells", {"n": "z"})
    bind(situation, catalogue, "Energy and equilibrium", {"n": "z", "E_cell": "U_term"})
