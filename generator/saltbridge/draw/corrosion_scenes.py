"""Corrosion drawn: joined metals, scratched coats, protection, blocks, surfaces, rust."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.corrosion_scenario import (
    AnodeBlockScenario,
    CorrodingSurfaceScenario,
    JoinedMetalsScenario,
    ProtectionScenario,
    RustingScenario,
    RustTubesScenario,
    ScratchedCoatScenario,
)
from saltbridge.chemistry.realism import Facts
from saltbridge.derivation import corrosion
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.draw.battery_scenes import told_of
from saltbridge.draw.scene import Scene, pick_quantity
from saltbridge.draw.seeds import Seed
from saltbridge.faults import fault
from saltbridge.tables.corrosion import rust_tubes
from saltbridge.units import Quantity, convert
from saltbridge.words import of_bank as words_of


def joined_scene(body: JoinedMetalsScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Two metals that touch. Raises ``Faulty`` where they lie closer than the least gap."""
    one, other = seed.sample("pair", body.metals or body.materials or (), 2)
    series = "seawater" if body.materials else "both" if body.compare == "both tables" else "standard"
    situation = corrosion.joined((one, other), series, bank.sheet, catalogue, words_of(bank.settings))
    least = convert(*_least(body, seed), "V")
    for kind in ("E0", "E_sea"):
        values = [situation.given.get(f"{owner}.{kind}") for owner in corrosion.PAIR]
        printed = [Decimal(value.printed) for value in values if value is not None]
        if len(printed) == 2 and (abs(printed[0] - printed[1]) < least or printed[0] == printed[1]):
            raise fault("gap", expected=f"at least {least} V between the two", found=f"{one} and {other}")
    return Scene(situation, Facts(metals=(one, other) if body.metals else (), film_noted=body.compare == "both tables"))


def _least(body: JoinedMetalsScenario, seed: Seed) -> tuple[str, str]:
    found = pick_quantity(body.gap, seed, "gap") if body.gap is not None else Quantity("0", "V")
    return found.printed, found.unit


def scratched_scene(body: ScratchedCoatScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """One coat with a scratch; the others may be ranked."""
    coat = seed.pick("coat", body.coats)
    situation = corrosion.scratched(coat, body.base, body.coats, bank.sheet, catalogue, words_of(bank.settings))
    owners = tuple(f"k{place}" for place in range(1, len(body.coats) + 1))
    return Scene(situation, Facts(metals=(coat, body.base)), {"coats": owners})


def protection_scene(body: ProtectionScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """A structure and helpers. Raises ``Faulty`` where not exactly one of those drawn protects."""
    helpers = seed.sample("helpers", body.helpers, int(body.shown))
    situation = corrosion.protection(body.structure, helpers, bank.sheet, catalogue, words_of(bank.settings))
    return Scene(situation, Facts(metals=(body.structure, *helpers), film_noted=True))


def block_scene(body: AnodeBlockScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """A block of sacrificial metal."""
    metal = seed.pick("metal", body.metals)
    told = told_of({"I": body.current, "t": body.time, "m_block": body.block, "u_anode": body.usable}, seed)
    return Scene(corrosion.anode_block(metal, told, bank.sheet, catalogue, words_of(bank.settings)), Facts())


def surface_scene(body: CorrodingSurfaceScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """A corroding surface."""
    metal = seed.pick("metal", body.metals)
    told = told_of({"j_corr": body.current_density, "A_corr": body.area, "t": body.time}, seed)
    return Scene(corrosion.surface(metal, told, bank.sheet, catalogue, words_of(bank.settings)), Facts())


def rusting_scene(body: RustingScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Iron in water with air."""
    told = told_of({"pH": body.pH, "c_iron": body.iron_ions, "p_oxygen": body.oxygen}, seed)
    lg = bank.settings.nernst == "lg"
    situation = corrosion.rusting(told, body.equations, bank.sheet, catalogue, lg=lg, say=words_of(bank.settings))
    return Scene(situation, Facts())


def tube_scene(body: RustTubesScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Iron in one tube."""
    found = rust_tubes()[seed.pick("tube", body.tubes)]
    return Scene(corrosion.tube(found, bank.sheet, catalogue, words_of(bank.settings)), Facts())


CORROSION_DRAWINGS: Mapping[type, Callable[[Any, Seed, Bank, Catalogue], Scene]] = {
    JoinedMetalsScenario: joined_scene,
    ScratchedCoatScenario: scratched_scene,
    ProtectionScenario: protection_scene,
    AnodeBlockScenario: block_scene,
    CorrodingSurfaceScenario: surface_scene,
    RustingScenario: rusting_scene,
    RustTubesScenario: tube_scene,
}
