"""The bench drawn: readings of strips in the model wanted, one reading of a meter, repeats, two readings to compare."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.scenarios.bench.bench_models import (
    METER_STEP,
    BenchScenario,
    RepeatsScenario,
    volts,
)
from saltbridge.scenarios.bench.bench_situation import Strips, bench
from saltbridge.scenarios.bench.meter import repeats
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity, sheet_row
from saltbridge.tables import metals
from saltbridge.tables.benches import bands
from saltbridge.units import convert
from saltbridge.words import of_bank as words_of

USUAL_SCATTER = Decimal("0.02")  # V, as own-ion paper cells come to the table (opened: within 0.04 V)


def bench_scene(body: BenchScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Readings of several metals against a reference metal. Raises ``Faulty`` where a couple is not on the sheet."""
    order = source.shuffle("strips", body.metals)
    readings = _told(body, order) if body.readings else _drawn(body, order, source, means)
    red, black = source.sample("pair", order, 2)
    new = source.pick("new reference", order)
    strips = Strips(body.reference, readings, (red, black), new, body.model)
    situation = bench(strips, means.sheet, catalogue, words_of(means.settings))
    keys = tuple(f"s{place}" for place in range(1, len(order) + 1))
    facts = Facts(
        metals=(body.reference, *order),
        bench=True,
        practical=True,
        enabled=frozenset(body.enabled),
        own_ions=body.model == "own ions",
    )
    return Scene(situation, facts, {"metals": keys})


def _told(body: BenchScenario, order: tuple[str, ...]) -> dict[str, str]:
    """The class's own readings, digits as they are."""
    return {symbol: (body.readings or {})[symbol].partition(" ")[0] for symbol in order}


def _drawn(body: BenchScenario, order: tuple[str, ...], source: Source, means: Means) -> dict[str, str]:
    """Readings that stray from what the model expects, to the step of a meter."""
    readings = {}
    for symbol in order:
        middle, scatter = _typical(body, symbol, means) - _typical(body, body.reference, means), _scatter(body, symbol)
        readings[symbol] = f"{middle + source.decimal(f'stray {symbol}', -scatter, scatter, METER_STEP):.2f}"
    return readings


def _typical(body: BenchScenario, symbol: str, means: Means) -> Decimal:
    """The reading that the model expects: the standard potential, or against copper on salt paper."""
    if body.model == "own ions":
        return Decimal(sheet_row(means, metals()[symbol].couple).E0)
    return Decimal(bands()[symbol].typical)


def _scatter(body: BenchScenario, symbol: str) -> Decimal:
    if body.scatter is not None:
        return volts(body.scatter)
    return USUAL_SCATTER if body.model == "own ions" else Decimal(bands()[symbol].scatter)


def repeats_scene(body: RepeatsScenario, source: Source, means: Means, _catalogue: Catalogue) -> Scene:
    """Repeats around a value, one of them far off to either side."""
    about = pick_quantity(body.around, source, "around")
    middle, spread, away = convert(about.printed, about.unit, "V"), volts(body.spread), volts(body.outlier_by)
    values = [middle + source.decimal(f"repeat {place}", -spread, spread, METER_STEP) for place in range(body.repeats)]
    side = 1 if source.number("side") % 2 else -1
    values[source.number("outlier") % body.repeats] = middle + side * away
    return Scene(repeats([f"{value:.2f}" for value in values], words_of(means.settings)), Facts())
