"""Baths drawn: which metal, and two of current, time and mass."""

from __future__ import annotations

from saltbridge.bank.bank import Bank
from saltbridge.bank.scenario import ElectrolysisScenario
from saltbridge.chemistry.realism import Facts
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.electrolysis import electrolysis, metal_deposit
from saltbridge.draw.scene import Scene, pick_quantity
from saltbridge.draw.seeds import Seed
from saltbridge.words import of_bank as words_of


def electrolysis_scene(body: ElectrolysisScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """A metal deposited by a steady current. Raises ``Faulty`` where its couple is not on the sheet."""
    metal = seed.pick("metal", body.metals)
    half, product = metal_deposit(metal, bank.sheet)
    ranges = {"I": body.current, "t": body.time, "m": body.mass, "efficiency": body.efficiency}
    drawn = {name: pick_quantity(values, seed, name) for name, values in ranges.items() if values is not None}
    situation = electrolysis(half, product, drawn, bank.sheet, catalogue, words_of(bank.settings))
    return Scene(situation, Facts(metals=(metal,)))
