"""Corrosion drawn: joined metals, scratched coatings, protection, blocks, surfaces, rust."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import fault
from saltbridge.scenarios.battery.battery_draws import told_of
from saltbridge.scenarios.corrosion import corrosion_situation as corrosion
from saltbridge.scenarios.corrosion.corrosion_models import (
    AnodeBlockScenario,
    CorrodingSurfaceScenario,
    JoinedMetalsScenario,
    ProtectionScenario,
    RustingScenario,
    RustingTubesScenario,
    ScratchedCoatingScenario,
)
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity
from saltbridge.tables.corrosion import rust_tubes
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
    return Scene(situation, Facts(metals=(one, other) if body.metals else (), film_noted=body.compare == "both tables"))


def _least(body: JoinedMetalsScenario, source: Source) -> tuple[str, str]:
    found = pick_quantity(body.gap, source, "gap") if body.gap is not None else Quantity("0", "V")
    return found.printed, found.unit


def scratched_scene(body: ScratchedCoatingScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """One coating with a scratch; the others may be ranked."""
    coating = source.pick("coat", body.coatings)
    situation = corrosion.scratched(coating, body.base, body.coatings, means.sheet, catalogue, words_of(means.settings))
    owners = tuple(f"k{place}" for place in range(1, len(body.coatings) + 1))
    return Scene(situation, Facts(metals=(coating, body.base)), {"coatings": owners})


def protection_scene(body: ProtectionScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A structure and metals that may protect it. Raises ``Faulty`` where not exactly one of those drawn protects."""
    choices = source.sample("helpers", body.protecting_metals, int(body.shown))
    situation = corrosion.protection(body.structure, choices, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, Facts(metals=(body.structure, *choices), film_noted=True))


def block_scene(body: AnodeBlockScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A block of sacrificial metal."""
    metal = source.pick("metal", body.metals)
    told = told_of({"I": body.current, "t": body.time, "m_block": body.block, "u_anode": body.usable}, source)
    return Scene(corrosion.anode_block(metal, told, means.sheet, catalogue, words_of(means.settings)), Facts())


def surface_scene(body: CorrodingSurfaceScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A corroding surface."""
    metal = source.pick("metal", body.metals)
    told = told_of({"j_corr": body.current_density, "A_corr": body.area, "t": body.time}, source)
    return Scene(corrosion.surface(metal, told, means.sheet, catalogue, words_of(means.settings)), Facts())


def rusting_scene(body: RustingScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Iron in water with air."""
    told = told_of({"pH": body.pH, "c_iron": body.iron_ions, "p_oxygen": body.oxygen}, source)
    situation = corrosion.rusting(told, body.equations, means.sheet, catalogue, say=words_of(means.settings))
    return Scene(situation, Facts())


def tube_scene(body: RustingTubesScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Iron in one tube."""
    found = rust_tubes()[source.pick("tube", body.tubes)]
    return Scene(corrosion.tube(found, means.sheet, catalogue, words_of(means.settings)), Facts())


CORROSION_DRAWINGS: Mapping[type, Callable[[Any, Source, Means, Catalogue], Scene]] = {
    JoinedMetalsScenario: joined_scene,
    ScratchedCoatingScenario: scratched_scene,
    ProtectionScenario: protection_scene,
    AnodeBlockScenario: block_scene,
    CorrodingSurfaceScenario: surface_scene,
    RustingScenario: rusting_scene,
    RustingTubesScenario: tube_scene,
}
