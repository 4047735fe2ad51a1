"""A situation without a scenario: quantities told one by one, and every relation that may join them."""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge import units
from saltbridge.algebra.expression import Ref
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.faults import Faulty, fault, nearest
from saltbridge.graph.laws import Instance, Situation, instance
from saltbridge.graph.planner import reachable
from saltbridge.scenarios.assignments import Told
from saltbridge.scenarios.bath.electrolysis import FARADAY, PRODUCT_HALF, add_faraday, add_product, metal_deposit
from saltbridge.scenarios.concentration.electrode import ACID, ALKALI, Surroundings, add_electrode, told_species
from saltbridge.scenarios.declared_words import build_told
from saltbridge.scenarios.energy.energy import add_signs
from saltbridge.scenarios.equation_laws import add_half
from saltbridge.scenarios.joining import holds, join_facts, join_rules
from saltbridge.scenarios.keyword_scenarios import THEMES
from saltbridge.scenarios.situations import add_constants, add_given, read_constant
from saltbridge.scenarios.standards.standards import WHOLE_CELLS_RULE
from saltbridge.scenarios.titration.titration import PORTION_HINT, WHOLE_IS_PORTION
from saltbridge.scenarios.told_surroundings import ION_OF, no_such_ion, refuse_ignored, refuse_melt
from saltbridge.tables import Sheet, constant

COLDEST, WARMEST = 200, 400  # K; outside, a cell with water is a slip of the pen


def loose(told: Sequence[Told], sheet: Sheet, catalogue: Catalogue, *, nernst: str, wanted: str = "") -> Situation:
    """The situation of quantities told without a cell; a metal takes its usual ion.

    Raises ``Faulty`` for what is impossible or needs a diagram.
    """
    situation = Situation()
    couple = next((each.word for each in told if each.name == "couple"), "")
    for each in told:
        if each.of and not (couple and each.name in {"c", "p"}):
            hint = 'Give it before the options, for example "Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)".'
            raise fault(
                "needs-diagram",
                expected="a cell diagram beside what is given of a couple or species",
                found=each.source,
                hint=hint,
            )
    refuse_odd_temperature(told, float("inf"))
    refuse_ignored(told, couple)
    refuse_melt(told, wanted)
    add_told(situation, [each for each in told if not each.of], catalogue)
    add_constants(situation, sheet)
    if wanted != "T" and not any(each.name == "T" for each in told):
        situation.given["T"] = read_constant("T", sheet)
    if couple:
        _add_couple(situation, couple, told, sheet, catalogue, nernst, wanted)
    add_bath(situation, told, sheet, catalogue, wanted)
    add_themes(situation, told, sheet, catalogue)
    situation.own_laws = len(situation.laws)
    form = nernst if nernst == "lg" else ""
    for relation in catalogue.relations.values():
        if relation.family != FARADAY and holds(situation, relation):
            known = form if any(each.id == form for each in relation.forms) else ""
            situation.laws.append(instance(relation, form=known, say=relation.say))
    if not any(each.name in {"V_flask", "n_whole"} for each in told):
        situation.laws.append(Instance("portion", "n_whole", Ref("n_analyte"), WHOLE_IS_PORTION, hint=PORTION_HINT))
    add_signs(situation)
    situation.laws += [WHOLE_CELLS_RULE]
    join_facts(situation, (fact for fact in catalogue.facts.values() if fact.family))
    join_rules(situation, catalogue.rules.values())
    return situation


def _add_couple(
    situation: Situation, couple: str, told: Sequence[Told], sheet: Sheet, catalogue: Catalogue, nernst: str, wanted: str
) -> None:
    """One electrode, with the amounts told by species."""
    row = next((each for each in sheet.rows if couple.replace("^", "") == each.couple.replace("^", "")), None)
    if row is None:
        hint = nearest(couple, [each.couple for each in sheet.rows])
        raise fault("couple-not-on-sheet", expected=f"a couple of {sheet.title}", found=couple, hint=hint)
    half = parse_half_reaction(row.half_reaction)
    amounts = {told_species(each.of, half): each.quantity for each in told if each.of}
    ions = {
        bare: each.quantity for each in told if (bare := ION_OF.get(each.name)) and bare in {one.bare for one in half.species}
    }
    acid = next((each.quantity for each in told if each.name == "pH"), None)
    by_acidity = not ions and acid is None and any(each.name in {*ION_OF, "pOH"} for each in told)
    if by_acidity and not {ACID, ALKALI} & {one.bare for one in half.species}:
        raise no_such_ion(next(each for each in told if each.name in {*ION_OF, "pOH"}), couple)
    around = Surroundings(ions | amounts, acid, unknown=wanted, by_acidity=by_acidity)
    add_electrode(situation, row, around, sheet, catalogue, nernst)


def add_themes(situation: Situation, told: Sequence[Told], sheet: Sheet, catalogue: Catalogue) -> None:
    """What the words told bring with them (``salt = CuSO4``): each theme that reads one of them adds its facts and laws."""
    words = {each.name: each.word for each in told if each.word}
    for reads, add in THEMES:
        if reads & set(words):
            add(situation, words, sheet, catalogue)
    for entry in catalogue.scenarios.values():
        if entry.words.keys() & words.keys():
            build_told(entry, situation, words, sheet, catalogue)


def add_told(situation: Situation, told: Sequence[Told], catalogue: Catalogue) -> None:
    """The quantities told, each as a given; raises ``Faulty`` with all that are impossible."""
    faults = []
    for each in told:
        if each.word:
            continue
        try:
            add_given(situation, catalogue, each.name, each.quantity.printed, each.quantity.unit)
        except Faulty as error:
            faults += [one.at(key=each.source.strip()[:60]) for one in error.faults]
    if faults:
        raise Faulty(faults)


def add_bath(situation: Situation, told: Sequence[Told], sheet: Sheet, catalogue: Catalogue, wanted: str) -> None:
    """Faraday's laws, with z and M of the metal told.

    z and M come from what is told where that is enough for them and they are wanted, else from the table.
    """
    metal = next((each.word for each in told if each.name == "metal"), "")
    if metal:
        add_product(situation, *metal_deposit(metal, sheet), sheet)
        if not any(each.name == "salt" for each in told):  # a salt's bath tells its own electrodes
            add_half(situation, catalogue, "cathode", "deposit", (PRODUCT_HALF,))
    known = situation.given.get(wanted) if wanted in {"z", "M"} else None
    with_efficiency = "efficiency" in {wanted, *(each.name for each in told)}
    before = len(situation.laws)
    if known is not None and known.how != "given":
        del situation.given[wanted]
        add_faraday(situation, catalogue, with_efficiency=with_efficiency)
        if wanted in reachable(situation):
            return
        situation.given[wanted] = known
        del situation.laws[before:]
    add_faraday(situation, catalogue, with_efficiency=with_efficiency)


def refuse_odd_temperature(told: Sequence[Told], warmest: float = WARMEST) -> None:
    """Raise ``Faulty`` where the temperature told is that of no cell with water, as when °C is told as K."""
    for each in told:
        if each.name != "T":
            continue
        kelvin = float(units.convert(each.quantity.printed, each.quantity.unit, "K"))
        if not COLDEST <= kelvin <= warmest:
            other = (
                "°C"
                if each.quantity.unit == "K" and 0 <= kelvin <= 100
                else "K"
                if COLDEST <= kelvin - constant("T_zero") <= WARMEST
                else ""
            )
            error = fault(
                "impossible",
                expected=f"a temperature from {COLDEST} K to {WARMEST} K, where a cell can hold water",
                found=f"{each.quantity.printed} {each.quantity.unit}",
                hint=f'Write "T = {each.quantity.printed} {other}".' if other else "",
            )
            raise Faulty(one.at(key=each.source.strip()[:60]) for one in error.faults)
