"""Products of a charge: metals, gases and lye with their half-reactions; gases with a molar volume; a second product of the same electrons."""

from __future__ import annotations

import difflib

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import HalfReaction, parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Situation
from saltbridge.scenarios.bath.electrolysis import PRODUCT_HALF, add_molar_mass, add_product, metal_deposit, name_element
from saltbridge.scenarios.equation_laws import add_half
from saltbridge.scenarios.situations import metal_of, read_constant
from saltbridge.tables import Sheet, metals
from saltbridge.tables.choices_of_couples import bath_products
from saltbridge.tables.kinds import usual_phases

TABLE = "metals.csv"


def product_of(word: str, sheet: Sheet) -> tuple[HalfReaction, Species]:
    """The half-reaction that makes a product (a metal, a halogen, oxygen, hydrogen), and the product.

    Raises ``Faulty`` (code ``unknown-product``) naming the nearest.
    """
    made = bath_products().get(word)
    if made is None or made.lye:
        if word in metals() or word.lower() in {metal.name for metal in metals().values()}:
            return metal_deposit(word, sheet)
        known = (*bath_products(), *metals())
        near = difflib.get_close_matches(word, known, 1, 0.4)
        hint = f"Did you mean {near[0]}?" if near else f"Known: {', '.join(known)}."
        raise fault("unknown-product", expected="the formula of a product", found=word[:40], hint=hint)
    return parse_half_reaction(sheet.required(made.couple).half_reaction), parse_species(word)


def add_named_product(situation: Situation, word: str, sheet: Sheet, catalogue: Catalogue) -> None:
    """A product by its formula as the one that q, m and n_B are about, with the half-equation of the electrode where it forms."""
    half, product = product_of(word, sheet)
    oxidised = forms_at_anode(half, product)
    add_product(situation, half, product, sheet, oxidised=oxidised)
    if oxidised:
        add_half(situation, catalogue, "anode", "product-at-anode", (PRODUCT_HALF,))
    else:
        kind = "product-at-cathode" if metal_of(product) is None else "deposit"
        add_half(situation, catalogue, "cathode", kind, (PRODUCT_HALF,))
    add_gas_facts(situation, product)


def forms_at_anode(half: HalfReaction, product: Species) -> bool:
    """Whether a product is the oxidised form of its couple, as chlorine and oxygen are."""
    return any(term.species.bare == product.bare for term in half.oxidised)


def is_lye(word: str) -> bool:
    """Whether a product is a hydroxide that a brine cell makes."""
    return word in bath_products() and bath_products()[word].lye


def is_gas(formula: str) -> bool:
    """Whether a product of a bath or a fuel is a gas whose volume can be asked for."""
    return formula in bath_products() and usual_phases().get(formula) == "g"


def add_gas_facts(situation: Situation, product: Species) -> None:
    """How many atoms a molecule of the gas has, where the product is a gas."""
    if is_gas(product.formula):
        atoms = sum(count for _, count in product.atoms)
        situation.given.setdefault("atoms_gas", Given(float(atoms), "", str(atoms), "balance"))
        situation.about["V_gas"] = "product"


def add_molar_volume(situation: Situation, sheet: Sheet) -> None:
    """V_m as the sheet prints it, unless it, a pressure or a temperature is told."""
    told = {name.split(":")[0] for name, known in situation.given.items() if known.how == "given"}
    if told.isdisjoint({"V_m", "p_gas", "T"}):
        situation.given["V_m"] = read_constant("V_m", sheet)


def add_second(situation: Situation, word: str, sheet: Sheet) -> None:
    """A second product that the same electrons make: z_2 and M_2 and its names."""
    if is_lye(word):
        half, product, electrons = (
            parse_half_reaction(sheet.required(bath_products()[word].couple).half_reaction),
            parse_species(word),
            1,
        )
    else:
        half, product = product_of(word, sheet)
        electrons = electrons_for_one(half, product)
    add_second_species(situation, half, product, electrons, sheet)


def electrons_for_one(half: HalfReaction, product: Species) -> int:
    """How many electrons one ion or molecule takes."""
    count = next(term.coefficient for term in (*half.reduced, *half.oxidised) if term.species.bare == product.bare)
    return half.n // count


def add_second_species(situation: Situation, half: HalfReaction, product: Species, electrons: int, sheet: Sheet) -> None:
    """The same for a half-reaction that is known."""
    situation.given.setdefault("z_2", Given(float(electrons), "", str(electrons), "balance"))
    situation.labels["second"] = inscribe_species(product.in_phase(""), say=situation.say)
    name_element(situation, "second", product)
    happens = half.oxidation if forms_at_anode(half, product) else half.reduction
    situation.labels["second.half-equation"] = inscribe_equation(happens, say=situation.say)
    situation.about.update({"m_2": "second", "M_2": "second", "n_2": "second", "V_gas_2": "second"})
    add_molar_mass(situation, product, sheet, "M_2")
    metal = metal_of(product)
    if metal:
        situation.words["second.metal"] = metal.name
        situation.labels["second.ion"] = inscribe_species(parse_species(metal.ion), say=situation.say)


def add_coat(situation: Situation, word: str, sheet: Sheet, catalogue: Catalogue) -> None:
    """The metal of a coat, with its density. Raises ``Faulty`` (code ``unknown-metal``)."""
    half, product = metal_deposit(word, sheet)
    add_product(situation, half, product, sheet)
    add_half(situation, catalogue, "cathode", "deposit", (PRODUCT_HALF,))
    metal = metals()[product.formula]
    situation.given.setdefault("density", Given(float(metal.density), "g/cm3", metal.density, "read", TABLE))
