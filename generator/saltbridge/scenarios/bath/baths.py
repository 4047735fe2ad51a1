"""Situations of electrolysis for questions: a salt's bath, a coating, two products of one charge, a plant, refining, mixed ions."""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.inscriptions import in_english, inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Say, Situation
from saltbridge.scenarios.bath.bath_products import Bath, Found, add_products
from saltbridge.scenarios.bath.cautions import add_caution, caution_of
from saltbridge.scenarios.bath.electrolysis import add_faraday, add_product
from saltbridge.scenarios.bath.products import (
    add_gas_facts,
    add_molar_volume,
    add_named_product,
    add_second,
    add_second_species,
    electrons_for_one,
    is_gas,
)
from saltbridge.scenarios.joining import bind
from saltbridge.scenarios.situations import add_constants, add_given
from saltbridge.tables import Sheet, metals
from saltbridge.units import Quantity

Told = Mapping[str, Quantity]


def _start(told: Told, sheet: Sheet, catalogue: Catalogue, say: Say) -> Situation:
    situation = Situation(say=say)
    add_constants(situation, sheet)
    for name, quantity in told.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    return situation


def _efficiency(told: Told) -> bool:
    return "efficiency" in told


def salt_bath(
    bath: Bath, amounts_of: str, told: Told, sheet: Sheet, catalogue: Catalogue, say: Say = in_english
) -> tuple[Situation, Found]:
    """A salt's bath: products, half-equations, the lowest voltage, and Faraday's laws for the product of one electrode.

    ``amounts_of`` tells at which electrode ``m`` and ``V_gas`` are. Raises ``Faulty`` as ``add_products`` does.
    """
    situation = _start(told, sheet, catalogue, say)
    found = add_products(situation, bath, sheet, catalogue)
    if not found.decided:
        expected = f"the concentration of {bath.salt.formula}, which decides what forms at the anode"
        raise fault("undecided", expected=expected, found="none", hint="See rule R-CL.")
    first, second = (found.cathode, found.anode) if amounts_of == "cathode" else (found.anode, found.cathode)
    roles = ("cathode", "anode") if amounts_of == "cathode" else ("anode", "cathode")
    product, other = found.matter(roles[0]), found.matter(roles[1])
    add_product(situation, first.half, product, sheet, oxidised=amounts_of == "anode")
    add_gas_facts(situation, product)
    add_faraday(situation, catalogue, with_efficiency=_efficiency(told))
    add_second_species(situation, second.half, other, electrons_for_one(second.half, other), sheet)
    _add_volumes(situation, product.formula, other.formula, sheet)
    if "V_bath" in told:
        bind(situation, catalogue, "Electrolysis: bath", {"c_bath": "c_salt"})
    situation.labels["salt"] = inscribe_species(parse_species(bath.salt.formula), say=say)
    situation.words |= {"salt.name": bath.salt.name, "anode.material": metals()[bath.anode].name if bath.anode else "graphite"}
    add_caution(situation, caution_of(bath))
    return situation, found


def _add_volumes(situation: Situation, first: str, second: str, sheet: Sheet) -> None:
    """Volumes of those of the two products that are gases."""
    for owner, formula in (("product", first), ("second", second)):
        situation.words[f"{owner}.gas"] = "yes" if is_gas(formula) else "no"
    if is_gas(first) or is_gas(second):
        add_molar_volume(situation, sheet)


def series(first: str, second: str, told: Told, sheet: Sheet, catalogue: Catalogue, say: Say = in_english) -> Situation:
    """Two products of the same electrons."""
    situation = _start(told, sheet, catalogue, say)
    add_named_product(situation, first, sheet, catalogue)
    add_faraday(situation, catalogue, with_efficiency=_efficiency(told))
    add_second(situation, second, sheet)
    _add_volumes(situation, first, second, sheet)
    return situation
