"""Baths drawn: which metal, and two of current, time and mass."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.scenarios.bath.electrolysis import electrolysis, metal_deposit
from saltbridge.scenarios.bath.faraday_models import ElectrolysisScenario
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity
from saltbridge.words import of_bank as words_of


def electrolysis_scene(body: ElectrolysisScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A metal deposited by a steady current. Raises ``Faulty`` where its couple is not on the sheet."""
    metal = source.pick("metal", body.metals)
    half, product = metal_deposit(metal, means.sheet)
    ranges = {"I": body.current, "t": body.time, "m": body.mass, "efficiency": body.efficiency}
    drawn = {name: pick_quantity(values, source, name) for name, values in ranges.items() if values is not None}
    situation = electrolysis(half, product, drawn, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, Facts(metals=(metal,)))
