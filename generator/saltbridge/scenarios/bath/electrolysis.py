"""Electrolysis at one electrode as a situation: current, time, charge, electrons, amount and mass of one product."""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.algebra.expression import Bin, Num, Ref, Tree
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import HalfReaction, parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species, molar_mass_terms, parse_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Instance, Say, Situation, instance
from saltbridge.scenarios.equation_laws import add_half, give_equation
from saltbridge.scenarios.joining import holds
from saltbridge.scenarios.situations import add_constants, add_given, metal_of, name_metal
from saltbridge.tables import Sheet, elements, metals
from saltbridge.units import Quantity

MOLAR_MASS = "Add the relative atomic masses of the data sheet, one for each atom."
MOLAR_MASS_HINT = "Which atoms are in one formula unit, and how many of each?"
PRODUCT_HALF = "product.half"
"""The half-equation of the product, written as a reduction."""
FARADAY = "Faraday's laws"
"""The family of relations that a bath binds, q_used in the place of q where an efficiency is in play."""


def metal_deposit(metal: str, sheet: Sheet) -> tuple[HalfReaction, Species]:
    """The half-reaction that deposits a metal from its usual ion, and the metal.

    Raises ``Faulty`` (code ``unknown-metal``) for a metal outside the table or whose couple is not on the sheet.
    """
    entry = metals().get(metal) or next((each for each in metals().values() if each.name == metal.lower()), None)
    row = sheet.row(entry.couple) if entry else None
    if entry is None or row is None:
        there = {row.couple for row in sheet.rows}
        known = ", ".join(sorted(symbol for symbol, each in metals().items() if each.couple in there))
        raise fault(
            "unknown-metal",
            expected=f"a metal with its usual ion on the sheet: {known}",
            found=metal,
            hint="Give z and M instead.",
        )
    return parse_half_reaction(row.half_reaction), parse_species(entry.symbol)


def electrolysis(
    half: HalfReaction,
    product: Species,
    quantities: Mapping[str, Quantity],
    sheet: Sheet,
    catalogue: Catalogue,
    say: Say = in_english,
) -> Situation:
    """The situation at one electrode: ``quantities`` are given by name with their printed number and unit.

    z is the number of electrons for one ``product``; its molar mass comes from the sheet. Raises ``Faulty`` for impossible values.
    """
    situation = Situation(say=say)
    add_constants(situation, sheet)
    for name, quantity in quantities.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    add_product(situation, half, product, sheet)
    add_half(situation, catalogue, "cathode", "deposit", (PRODUCT_HALF,))
    add_faraday(situation, catalogue, with_efficiency=any(name.split(":")[0] == "efficiency" for name in situation.given))
    return situation


def add_product(situation: Situation, half: HalfReaction, product: Species, sheet: Sheet, *, oxidised: bool = False) -> None:
    """Z and M of the product, and its names in prose; its half-equation as it happens, which may be an oxidation."""
    count = next((term.coefficient for term in (*half.reduced, *half.oxidised) if term.species.bare == product.bare), 0)
    if count == 0 or half.n % count:
        raise fault(
            "electron-count",
            expected=f"a half-equation with a whole number of electrons for each {product.bare}",
            found=half.text,
        )
    situation.given.setdefault("z", Given(float(half.n // count), "", str(half.n // count), "balance"))
    situation.labels["product"] = inscribe_species(product.in_phase(""), say=situation.say)
    happens = half.oxidation if oxidised else half.reduction
    situation.labels["half-equation"] = inscribe_equation(happens, say=situation.say)
    situation.words["half-equation"] = happens.bare.text
    give_equation(situation, PRODUCT_HALF, half.reduction)
    situation.about.update({"m": "product", "M": "product", "n_B": "product"})
    add_molar_mass(situation, product, sheet)
    metal = metal_of(product)
    if metal:
        name_metal(situation, "product", metal)
    name_element(situation, "product", product)


def name_element(situation: Situation, owner: str, product: Species) -> None:
    """The word for a product that is an element, such as chlorine; ``owner`` alone prints its formula."""
    symbols = [symbol for symbol, _ in product.atoms]
    if len(symbols) == 1:
        situation.words[f"{owner}.name"] = elements()[symbols[0]].name


def add_molar_mass(situation: Situation, product: Species, sheet: Sheet, node: str = "M") -> None:
    """The molar mass from the relative atomic masses as the sheet prints them; a single atom is simply read."""
    terms = molar_mass_terms(product)
    missing = [symbol for symbol, _ in terms if symbol not in sheet.atomic_masses]
    if missing:
        raise fault(
            "no-atomic-mass",
            expected=f"{', '.join(missing)} on {sheet.title}",
            found="no row",
            hint="Add it to atomic_masses of the sheet.",
        )
    if len(terms) == 1 and terms[0][1] == 1:
        printed = sheet.atomic_masses[terms[0][0]]
        situation.given.setdefault(node, Given(float(printed), "g/mol", printed, "read", sheet.title))
        return
    tree: Tree | None = None
    for symbol, count in terms:
        atom = f"A.{symbol}"
        situation.given[atom] = Given(
            float(sheet.atomic_masses[symbol]), "g/mol", sheet.atomic_masses[symbol], "read", sheet.title
        )
        term: Tree = Ref(atom) if count == 1 else Bin("*", Num(str(count)), Ref(atom))
        tree = term if tree is None else Bin("+", tree, term)
    if tree is not None and node not in situation.given:
        situation.laws.append(Instance("molar-mass", node, tree, MOLAR_MASS, hint=MOLAR_MASS_HINT))


def add_faraday(situation: Situation, catalogue: Catalogue, *, with_efficiency: bool) -> None:
    """Faraday's law in its steps; the charge is reduced by the efficiency only where one is in play."""
    for relation in catalogue.relations.values():
        if relation.family != FARADAY or not holds(situation, relation) or (relation.id == "charge-used" and not with_efficiency):
            continue
        binding = {"q": "q_used"} if relation.id == "electron-amount" and with_efficiency else None
        say = relation.say_here if "product" in situation.labels and "z" in situation.given else ""
        situation.laws.append(instance(relation, binding, say=say or relation.say))
