"""Corrosion drawn: joined metals, scratched coatings, protection, blocks, surfaces, rust."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import fault
from saltbridge.scenarios.corrosion import corrosion_situation as corrosion
from saltbridge.scenarios.corrosion.corrosion_models import (
    JoinedMetalsScenario,
)
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity
from saltbridge.units import Quantity, convert
from saltbridge.words import of_bank as words_of


def joined_scene(body: JoinedMetalsScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Two metals that touch. Raises ``Faulty`` where they lie closer than the least gap."""
    one, other = source.sample("pair", body.metals or body.materials or (), 2)
    series = "seawater" if body.materials else "both" if body.compare == "both tables" else "standard"
    situation = corrosion.joined((one, other), series, means.sheet, catalogue, words_of(means.settings))
    least = convert(*_least(body, source), "V")
    for kind in ("E0", "E_sea"):
        values = [situation.given.get(f"{owner}.{kind}") for owner in corrosion.PAIR]
        printed = [Decimal(value.printed) for value in values if value is not None]
        if len(printed) == 2 and (abs(printed[0] - printed[1]) < least or printed[0] == printed[1]):
            raise fault("gap", expected=f"at least {least} V between the two", found=f"{one} and {other}")
    return Scene(situation, Facts(metals=(one, other) if body.metals else (), film_noted=True))


def _least(body: JoinedMetalsScenario, source: Source) -> tuple[str, str]:
    found = pick_quantity(body.gap, source, "gap") if body.gap is not None else Quantity("0", "V")
    return found.printed, found.unit
