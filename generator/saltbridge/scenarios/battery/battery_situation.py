"""Batteries as situations: half-reactions on discharge and on charge, capacity, energy, packs, and the cell under load."""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import HalfReaction, combine, parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Say, Situation, balance
from saltbridge.scenarios.bath.electrolysis import add_molar_mass
from saltbridge.scenarios.equation_laws import add_electrons, add_half, add_sum, give_equation
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import add_constants, add_given, name_metal
from saltbridge.tables import Sheet, metals
from saltbridge.tables.batteries import Battery, batteries
from saltbridge.tables.reading import nearest
from saltbridge.units import Quantity

ELECTRODES, PLATES = ("half-at-cathode", "half-at-anode"), ("plus-plate", "minus-plate")
"""Kinds of step for the two half-equations: at cathode and anode, and at the plates of a battery that gives current."""
CHARGING = (
    ("half_negative_charge", "plate-on-charge", "half_anode"),
    ("half_positive_charge", "plate-on-charge", "half_cathode"),
    ("equation_charge", "charging-equation", "equation"),
)
"""What a charging current drives backwards: node, kind of step, and what happens on discharge."""
CAUTION = "Do as the label of the cell says. Never open, heat or short-circuit a cell. The rules of your school come first."
"""Said alike of every battery, so that it does not answer whether this one may be charged (common practice, no source)."""
Told = Mapping[str, Quantity]


def battery_of(word: str) -> Battery:
    """The battery of an id or name. Raises ``Faulty`` (code ``unknown-battery``) naming the nearest."""
    known = batteries()
    found = known.get(word) or next((each for each in known.values() if each.name == word), None)
    if found is None:
        hint = nearest(word, known) or f"Known: {', '.join(known)}."
        raise fault("unknown-battery", expected="a battery of the table", found=word[:40], hint=hint)
    return found


def started(told: Told, sheet: Sheet, catalogue: Catalogue, say: Say) -> Situation:
    """A situation with the constants of the sheet and what is told."""
    situation = Situation(say=say)
    add_constants(situation, sheet)
    for name, quantity in told.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    return situation


def add_battery(situation: Situation, kind: Battery, catalogue: Catalogue) -> None:
    """Names, printed figures, equations and rules of a battery."""
    negative, positive = parse_half_reaction(kind.negative_half), parse_half_reaction(kind.positive_half)
    add_cell(situation, positive, negative, catalogue, PLATES)
    add_electrons(situation, catalogue, combine(positive, negative).n)
    situation.given.setdefault("U_nom", Given(float(kind.nominal), "V", kind.nominal))
    if kind.E_negative:
        for role, value in (("cathode", kind.E_positive), ("anode", kind.E_negative)):
            situation.given[f"E0_{role}"] = Given(float(value), "V", value)
            situation.about[f"E0_{role}"] = f"{role}.couple"
    situation.words |= {"battery.name": kind.name, "battery.note": kind.note, "battery.caution": CAUTION}
    for fact in (f"kind-of-a-{kind.kind}-cell", f"recharging-a-{kind.kind}", f"end-of-a-{kind.kind}-cell"):
        situation.laws.append(catalogue.facts[fact])
    _add_plates(situation, catalogue)
    if kind.kind == "secondary":
        for node, way, made_from in CHARGING:
            situation.laws.append(balance(catalogue, way, node, (made_from,)))


def add_cell(
    situation: Situation, cathode: HalfReaction, anode: HalfReaction, catalogue: Catalogue, kinds: tuple[str, str] = ELECTRODES
) -> None:
    """Half-equations, couples and overall equation of a cell that gives current; ``kinds`` of step at cathode and anode."""
    combined = combine(cathode, anode)
    labels, words, say = situation.labels, situation.words, situation.say
    for role, half in (("cathode", cathode), ("anode", anode)):
        labels[f"{role}.couple"] = couple_label(*half.principal, say)
        for way, equation in (("reduction", half.reduction), ("oxidation", half.oxidation)):
            labels[f"{role}.{way}"] = inscribe_equation(equation, say=say)
            words[f"{role}.{way} text"] = equation.bare.text
    labels["equation"] = inscribe_equation(combined.equation, say=say)
    words["equation"] = combined.equation.bare.text
    for name, count in (("nu_cathode", combined.cathode_times), ("nu_anode", combined.anode_times)):
        situation.given[name] = Given(float(count), "", str(count), "balance")
    give_equation(situation, "cathode.half", cathode.reduction)
    give_equation(situation, "anode.half", anode.reduction)
    add_half(situation, catalogue, "cathode", kinds[0], ("cathode.half",))
    add_half(situation, catalogue, "anode", kinds[1], ("anode.half",))
    add_sum(situation, catalogue)


def _add_plates(situation: Situation, catalogue: Catalogue) -> None:
    """The half-equations at each plate on charge.

    Owners of half-equations: ``charge_negative``, ``charge_positive``, ``discharge_negative``, ``discharge_positive``.
    """
    labels = situation.labels
    for owner, label in (
        ("charge_negative", "anode.reduction"), ("charge_positive", "cathode.oxidation"),
        ("discharge_negative", "anode.oxidation"), ("discharge_positive", "cathode.reduction"),
    ):  # fmt: skip
        labels[f"{owner}.half"] = labels[label]
    labels["charge_negative.negative_on_charge"] = labels["charge_negative.half"]
    labels["charge_positive.positive_on_charge"] = labels["charge_positive.half"]
    situation.laws += [catalogue.facts["negative_on_charge"], catalogue.facts["positive_on_charge"]]


# ------------------------------------------------------------------ one electrode, one cell under load


def add_material(situation: Situation, material: str, electrons: int, sheet: Sheet) -> None:
    """Electrons and molar mass of an electrode material, and its names."""
    species = parse_species(material)
    situation.given.setdefault("z", Given(float(electrons), "", str(electrons)))
    situation.labels["product"] = inscribe_species(species.in_phase(""), say=situation.say)
    situation.about.update({"M": "product"})
    add_molar_mass(situation, species, sheet)
    metal = metals().get(species.formula)
    if metal:
        name_metal(situation, "product", metal)
