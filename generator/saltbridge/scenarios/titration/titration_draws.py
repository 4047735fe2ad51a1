"""Redox titrations drawn: a titre with its runs, or a point and readings of the curve."""

from __future__ import annotations

from decimal import Decimal
from math import log

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import HYDROGEN_ION, parse_half_reaction
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.chemistry.species import parse_species
from saltbridge.graph.laws import Given, Situation
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity, sheet_row
from saltbridge.scenarios.situations import add_constants, add_given
from saltbridge.scenarios.titration.titration import (
    add_amounts,
    add_curve,
    add_indicators,
    add_mean_titre,
    add_ratio,
    add_steepest,
    add_weighed,
    in_acid,
)
from saltbridge.scenarios.titration.titration_models import CurveScenario, TitrationScenario
from saltbridge.tables import SheetRow, constant
from saltbridge.tables.indicators import indicators
from saltbridge.units import convert
from saltbridge.words import of_bank as words_of

RUN_STEP, FARTHEST_RUN = Decimal("0.05"), Decimal("0.05")  # cm3: two such runs lie within 0.10 cm3
ROUGH = (Decimal("0.30"), Decimal("0.70"))  # cm3 that a rough run goes too far
READING_STEP = Decimal("0.10")  # cm3 between readings


def titration_scene(body: TitrationScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A titration by numbers."""
    situation = Situation(say=words_of(means.settings))
    add_ratio(situation, body.reactions, body.titrant, body.analyte, body.medium)
    ranges = {
        "c_titrant": body.concentration_of_titrant, "V_titrant": body.titre, "V_analyte": body.aliquot, "V_flask": body.made_up_to,
        "c_analyte": body.concentration_of_analyte, "m_sample": body.mass_of_sample,
    }  # fmt: skip
    for name, values in ranges.items():
        if values is None:
            continue
        quantity = pick_quantity(values, source, name)
        if name == "V_titrant" and body.runs:
            _add_runs(situation, catalogue, Decimal(str(convert(quantity.printed, quantity.unit, "cm3"))), body.runs, source)
        else:
            add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    if body.weighed:
        add_weighed(situation, parse_species(body.weighed), means.sheet)
    add_amounts(situation, flask=body.made_up_to is not None)
    titre = pick_quantity(body.titre, source, "V_titrant") if body.titre else None
    return Scene(situation, Facts(titre=float(convert(titre.printed, titre.unit, "cm3")) if titre else None))


def _add_runs(situation: Situation, catalogue: Catalogue, titre: Decimal, runs: int, source: Source) -> None:
    """A rough run and then runs that agree; all are told, and only these count."""
    rough = titre + source.decimal("rough", *ROUGH, RUN_STEP)
    values = [rough, *(titre + source.decimal(f"run {run}", Decimal(0), FARTHEST_RUN, RUN_STEP) for run in range(2, runs + 1))]
    for run, value in enumerate(values, 1):
        add_given(situation, catalogue, f"run{run}.V_titre", f"{value:.2f}", "cm3")
    add_mean_titre(situation, [f"run{run}.V_titre" for run in range(2, runs + 1)])


def curve_scene(body: CurveScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A titration by potentials."""
    situation = Situation(say=words_of(means.settings))
    warm = means.sheet.constants["T"]
    situation.given["T"] = Given(float(warm.printed), warm.unit, warm.printed, "read", means.sheet.title)
    add_constants(situation, means.sheet)
    titrant, analyte = (
        in_acid(couple, body.acid) if body.acid else sheet_row(means, couple) for couple in (body.titrant, body.analyte)
    )
    add_curve(situation, means.sheet, titrant, analyte, body.acid or "")
    if _protons(titrant):
        add_given(situation, catalogue, "pH_flask", source.pick("pH", body.pH or ("0",)), "")
    quantity = pick_quantity(body.equivalence, source, "equivalence")
    at = Decimal(str(convert(quantity.printed, quantity.unit, "cm3")))
    fractions: list[float] = []
    if body.readings:
        _add_readings(situation, catalogue, titrant, analyte, at, body.readings)
    else:
        add_given(situation, catalogue, "V_titrant", quantity.printed, quantity.unit)
    for name, values in (("V_before", body.before), ("V_after", body.after)):
        if values is not None:
            point = pick_quantity(values, source, name)
            add_given(situation, catalogue, name, point.printed, point.unit)
            fractions.append(float(convert(point.printed, point.unit, "cm3") / at))
    if body.indicators:
        chosen = source.shuffle("indicators", body.indicators)
        add_indicators(situation, [(name, indicators()[name].potential, indicators()[name].source) for name in chosen])
    return Scene(situation, Facts(fractions=tuple(fractions)), {})


def _protons(row: SheetRow) -> int:
    return sum(term.coefficient for term in parse_half_reaction(row.half_reaction).oxidised if term.species.bare == HYDROGEN_ION)


def _add_readings(
    situation: Situation, catalogue: Catalogue, titrant: SheetRow, analyte: SheetRow, at: Decimal, count: int
) -> None:
    """Readings of the curve by steps of 0.10 cm³; equivalence lies in the middle of a step, as between two readings."""
    thermal = constant("R") * constant("T_25") / constant("F")
    first = at - READING_STEP * (count // 2) + READING_STEP / 2
    for place in range(count):
        volume = first + READING_STEP * place
        share = float(volume / at)
        n = parse_half_reaction((analyte if share < 1 else titrant).half_reaction).n
        ratio = share / (1 - share) if share < 1 else share - 1
        value = float((analyte if share < 1 else titrant).E0) + thermal / n * log(ratio)
        add_given(situation, catalogue, f"p{place + 1}.V_point", f"{volume:.2f}", "cm3")
        add_given(situation, catalogue, f"p{place + 1}.E_point", f"{value:.3f}", "V")
    add_steepest(situation, count)
