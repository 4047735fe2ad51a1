"""Bench readings drawn: the model's reading of each strip, and how far it strays."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.bank.bank import Bank
from saltbridge.bank.scenario import BenchScenario
from saltbridge.chemistry.realism import Facts
from saltbridge.derivation.bench import bench
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.draw.scene import Scene, sheet_row
from saltbridge.draw.seeds import Seed
from saltbridge.tables import metals
from saltbridge.units import convert
from saltbridge.words import of_bank as words_of

SCATTER_STEP = Decimal("0.01")  # V, as a school meter shows


def bench_scene(body: BenchScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Readings of several metals against a reference metal. Raises ``Faulty`` where a couple is not on the sheet."""
    scatter = convert(*_volts(body.scatter))
    order = seed.shuffle("strips", body.metals)
    volts = {symbol: Decimal(sheet_row(bank, metals()[symbol].couple).E0) for symbol in (body.reference, *order)}
    readings: dict[str, str] = {}
    for symbol in order:
        stray = seed.decimal(f"stray {symbol}", -scatter, scatter, SCATTER_STEP)
        readings[symbol] = f"{volts[symbol] - volts[body.reference] + stray:.2f}"
    red, black = seed.sample("pair", order, 2)
    situation = bench(body.reference, readings, (red, black), bank.sheet, catalogue, words_of(bank.settings))
    strips = tuple(f"s{place}" for place in range(1, len(order) + 1))
    return Scene(situation, Facts(metals=(body.reference, *order), bench=True), {"metals": strips})


def _volts(text: str) -> tuple[str, str, str]:
    number, _, unit = text.partition(" ")
    return number, unit, "V"
