"""One electrode as a situation: its potential against hydrogen from concentrations, pressures, pH and temperature.

Nodes carry no owner: ``E``, ``E0``, ``n_half``, ``c``, ``c2``, ``p``, ``pH``. With a pH the hydrogen ions leave the quotient
and become a slope, as a teacher draws the line.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from saltbridge.algebra.expression import Ref, Tree
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import has_activity
from saltbridge.chemistry.half_reactions import HalfReaction, parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Instance, Say, Situation, instance
from saltbridge.scenarios.cell.galvanic import (
    ALL_STANDARD,
    ALL_STANDARD_HINT,
    HALF_QUOTIENT,
    HALF_QUOTIENT_HINT,
    Form,
    Temperature,
    add_wrong_quotients,
    product,
)
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import add_constants, add_given, is_25, metal_of, name_metal, read_potential
from saltbridge.tables import Sheet, SheetRow, temperature_coefficient
from saltbridge.units import Quantity

ACID, ALKALI = "H^+", "OH^-"
REST = "The pH term covers the hydrogen ions. The rest of Q has the reduced species above and the oxidised below."
REST_HINT = "Which species other than hydrogen ions stand in Q?"


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What an electrode stands in: ``amounts`` by species without phase, ``pH``, ``temperature``; ``unknown`` is a node to find.

    ``shift_E0``: the standard potential is moved to the temperature by its coefficient. ``by_acidity``: the concentration of
    hydrogen or hydroxide ions follows from what is told of the other, or from the pOH.
    """

    amounts: Mapping[str, Quantity] = field(default_factory=dict)
    pH: Quantity | None = None
    temperature: Temperature | None = None
    unknown: str = ""
    shift_E0: bool = False
    by_acidity: bool = False


def electrode(
    row: SheetRow,
    surroundings: Surroundings,
    sheet: Sheet,
    catalogue: Catalogue,
    *,
    nernst: str = "lg",
    say: Say = in_english,
) -> Situation:
    """The situation of one electrode of a data sheet.

    Raises ``Faulty`` for what is told of a species that it does not hold, and for impossible values.
    """
    situation = Situation(say=say)
    warm = surroundings.temperature or Temperature(sheet.constants["T"].printed, "K", sheet.title)
    add_given(situation, catalogue, "T", warm.printed, warm.unit, warm.source)
    add_constants(situation, sheet)
    add_electrode(situation, row, surroundings, sheet, catalogue, nernst)
    return situation


def add_electrode(
    situation: Situation, row: SheetRow, surroundings: Surroundings, sheet: Sheet, catalogue: Catalogue, nernst: str
) -> None:
    """The electrode in a situation that knows its temperature and constants. Raises ``Faulty`` as ``electrode`` does."""
    half = parse_half_reaction(row.half_reaction)
    mild = is_25(situation)
    form = Form("lg" if nernst == "lg" and mild else "", mild)
    _name(situation, half)
    _add_standard(situation, row, surroundings, sheet, catalogue)
    situation.given["n_half"] = Given(float(half.n), "", str(half.n), "balance")
    for bare, quantity in surroundings.amounts.items():
        add_given(situation, catalogue, node_of(half, bare), quantity.printed, quantity.unit)
    by_pH = surroundings.pH is not None or surroundings.unknown == "pH"
    if surroundings.pH is not None:
        add_given(situation, catalogue, "pH", surroundings.pH.printed, surroundings.pH.unit)
    factors = _factors(situation, half, surroundings, by_pH=by_pH)
    if (by_pH or surroundings.by_acidity) and any(each.bare == ALKALI for each in half.species):
        _add_alkali(situation, catalogue, half)
    acid = next((term.coefficient for term in half.oxidised if term.species.bare == ACID), 0)
    if by_pH and acid:
        situation.given["m_H"] = Given(float(acid), "", str(acid), "balance")
        _add_line(situation, catalogue, factors, form)
    else:
        said = (HALF_QUOTIENT, HALF_QUOTIENT_HINT) if factors else (ALL_STANDARD, ALL_STANDARD_HINT)
        _add_quotient(situation, "Q_half", factors, *said)
        relation = catalogue.relations["half-cell-nernst"]
        situation.laws.append(instance(relation, form=form.id, other_forms=form.others))
        if acid:
            situation.laws.append(instance(catalogue.relations["acidity"], {"c_H": node_of(half, ACID)}))
    situation.shape = (row.couple, *(("25 °C",) if mild else ()))


def node_of(half: HalfReaction, bare: str) -> str:
    """The node of a species' amount, numbered in the order of the half-reaction: ``c``, ``c2``, ``p``.

    Raises ``Faulty`` (code ``species-not-in-couple``) where the half-reaction does not hold it.
    """
    active = [each for each in dict.fromkeys(half.species) if has_activity(each)]
    letter = {each.bare: "p" if each.phase == "g" else "c" for each in active}
    if bare not in letter:
        known = ", ".join(letter) or "none"
        raise fault("species-not-in-couple", expected=f"a species of {half.couple_label} in Q ({known})", found=bare)
    same = [each for each, its in letter.items() if its == letter[bare]]
    place = same.index(bare) + 1
    return letter[bare] + (str(place) if place > 1 else "")


def _name(situation: Situation, half: HalfReaction) -> None:
    oxidised, reduced = half.principal
    say = situation.say
    situation.labels["couple"] = couple_label(oxidised, reduced, say)
    situation.labels["oxidised"] = inscribe_species(oxidised, say=say)
    situation.labels["reduced"] = inscribe_species(reduced, say=say)
    situation.labels["reduction"] = inscribe_equation(half.reduction, say=say)
    situation.words["reduction text"] = half.reduction.bare.text
    situation.about.update(dict.fromkeys(("E0", "E0_25", "E", "dEdT"), "couple"))
    for species in dict.fromkeys(half.species):
        if has_activity(species):
            node = node_of(half, species.bare)
            situation.labels[f"{node}.species"] = inscribe_species(species.in_phase(""), say=say)
            situation.about[node] = f"{node}.species"
    metal = metal_of(reduced)
    if metal:
        name_metal(situation, "electrode", metal)


def _add_standard(situation: Situation, row: SheetRow, surroundings: Surroundings, sheet: Sheet, catalogue: Catalogue) -> None:
    """E° as the sheet prints it, moved to the temperature where that is wanted."""
    coefficient = temperature_coefficient(row.couple)
    if not surroundings.shift_E0:
        situation.given.setdefault("E0", read_potential(row.E0, sheet))
        return
    if coefficient is None:
        raise fault("no-coefficient", expected=f"a temperature coefficient for {row.couple}", found="none in the table")
    situation.given["E0_25"] = read_potential(row.E0, sheet)
    add_given(situation, catalogue, "dEdT", coefficient, "mV/K", "potentials.csv")


Factors = list[tuple[Species, Tree, int]]


def _factors(situation: Situation, half: HalfReaction, surroundings: Surroundings, *, by_pH: bool) -> Factors:
    """(species, its amount, power in Q) for each amount told or to be found; with a pH, without hydrogen ions."""
    unknown = surroundings.unknown
    told = {ALKALI} if by_pH else {ACID, ALKALI} if surroundings.by_acidity else set()
    known = {name.split(":", 1)[0] for name in situation.given}
    found: Factors = []
    for terms, sign in ((half.reduced, 1), (half.oxidised, -1)):
        for coefficient, species in terms:
            if not has_activity(species) or (by_pH and species.bare == ACID):
                continue
            node = node_of(half, species.bare)
            if node in known or species.bare in told or node == unknown or (unknown == "pH" and species.bare == ACID):
                found.append((species, Ref(node), sign * coefficient))
    return found


def _add_quotient(situation: Situation, node: str, factors: Factors, say: str, hint: str) -> None:
    """Q of one electrode, and the usual wrong ones beside it."""
    powers = [(tree, power) for _, tree, power in factors]
    situation.laws.append(Instance("quotient", node, product(powers), say, hint=hint))
    add_wrong_quotients(situation, node, powers)
    if any(species.phase == "g" for species, _, _ in factors):
        rest = [(tree, power) for species, tree, power in factors if species.phase != "g"]
        situation.flat_quotients[f"without gases: {node}"] = product(rest)


def _add_alkali(situation: Situation, catalogue: Catalogue, half: HalfReaction) -> None:
    """The concentration of hydroxide ions from the pH, at 25 °C."""
    if not is_25(situation):
        raise fault("impossible", expected="25 °C, where pH and pOH add up to 14.00", found="another temperature")
    situation.laws.append(instance(catalogue.relations["basicity"], {"c_OH": node_of(half, ALKALI)}))


def _add_line(situation: Situation, catalogue: Catalogue, factors: Factors, form: Form) -> None:
    """The straight line against the pH; it starts at E° where nothing else is in Q."""
    relations = catalogue.relations
    start = "E0"
    if factors:
        start = "E_pH0"
        _add_quotient(situation, "Q_rest", factors, REST, REST_HINT)
        binding = {"E": "E_pH0", "Q_half": "Q_rest"}
        relation = relations["half-cell-nernst"]
        situation.laws.append(instance(relation, binding, say=relation.say, form=form.id, other_forms=form.others))
        situation.about["E_pH0"] = "couple"
    situation.laws.append(instance(relations["ph-line"], {"E_pH0": start}))


def told_species(text: str, half: HalfReaction) -> str:
    """The species of a half-reaction that a text means, without phase; raises ``Faulty`` where it can't be read."""
    there = {species.bare for species in half.species}
    near = [bare for bare in there if bare.replace("^", "") == text.replace(" ", "").replace("^", "")]
    return near[0] if len(near) == 1 else parse_species(text).bare
