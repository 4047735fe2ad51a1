"""Electrolysis drawn: salts, coats, series, works, refining and mixed ions."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.electrolysis_scenario import (
    INERT,
    CoatingScenario,
    MixedIonsScenario,
    PlantScenario,
    RefiningScenario,
    SaltBathScenario,
    SeriesScenario,
)
from saltbridge.bank.fields import Drawn as Range
from saltbridge.chemistry.realism import Facts
from saltbridge.derivation import baths
from saltbridge.derivation.bath_products import Bath
from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.laws import Given
from saltbridge.draw.scene import Scene, pick_quantity, sheet_row
from saltbridge.draw.seeds import Seed
from saltbridge.faults import fault
from saltbridge.tables import metals
from saltbridge.tables.electrolytes import electrolytes
from saltbridge.units import Quantity
from saltbridge.words import catalogue as words_of


def _told(ranges: Mapping[str, Range | None], seed: Seed) -> dict[str, Quantity]:
    return {name: pick_quantity(values, seed, name) for name, values in ranges.items() if values is not None}


def salt_bath_scene(body: SaltBathScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """A salt's bath. Raises ``Faulty`` where no rule tells its products."""
    salt = electrolytes()[seed.pick("salt", body.salts)]
    electrodes = seed.pick("electrodes", body.electrodes)
    told = _told(
        {
            "c_salt": body.concentration, "I": body.current, "t": body.time, "efficiency": body.efficiency, "T": body.temperature,
            "p_gas": body.pressure, "V_bath": body.volume, "U_supply": body.supply,
        },
        seed,
    )  # fmt: skip
    bath = Bath(salt, body.state == "molten", "" if electrodes == INERT else electrodes)
    situation, found = baths.salt_bath(bath, body.amounts_of, told, bank.sheet, catalogue, words_of(bank.settings.language))
    if body.voltage_raised is not None:
        situation.given["voltage_factor"] = Given(float(body.voltage_raised), "", str(body.voltage_raised))
    facts = Facts(salt=salt.formula, state=body.state, electrodes=electrodes, renewed=found.anode.key == "electrode")
    return Scene(situation, facts)


def coating_scene(body: CoatingScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """A coat of a metal."""
    metal = seed.pick("metal", body.metals)
    ranges = {"A_face": body.area, "I": body.current, "t": body.time, "thickness": body.thickness, "efficiency": body.efficiency}
    situation = baths.coating(metal, _told(ranges, seed), body.faces, bank.sheet, catalogue, words_of(bank.settings.language))
    return Scene(situation, Facts(metals=(metal,)))


def series_scene(body: SeriesScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Two products of the same electrons. Raises ``Faulty`` where a draw names one product twice or in the wrong order."""
    first, second = seed.pick("first", body.first), seed.pick("second", body.second)
    if first == second:
        raise fault("same-product", expected="two different products", found=first)
    if body.joined == "one cell":
        _refuse_order(first, second, bank)
    told = _told({"m": body.mass, "I": body.current, "t": body.time}, seed)
    situation = baths.series(first, second, told, bank.sheet, catalogue, words_of(bank.settings.language))
    return Scene(situation, Facts(metals=tuple(each for each in (first, second) if each in metals())))


def _refuse_order(first: str, second: str, bank: Bank) -> None:
    """The metal that dissolves has the lower potential."""
    for each in (first, second):
        if each not in metals():
            raise fault("unknown-metal", expected="two metals as the electrodes of one cell", found=each)
    low, high = (float(sheet_row(bank, metals()[each].couple).E0) for each in (first, second))
    if low >= high:
        raise fault("order", expected="a first metal of lower potential, which dissolves", found=f"{first} and {second}")


def works_scene(body: PlantScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """A works and its product."""
    product = seed.pick("product", body.products)
    told = _told(
        {"U_bath": body.voltage, "efficiency": body.efficiency, "price": body.price, "I": body.current, "t": body.time}, seed
    )
    return Scene(baths.works(product, told, bank.sheet, catalogue, words_of(bank.settings.language)), Facts())


def refining_scene(body: RefiningScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """An impure anode with one impurity."""
    impurity = seed.pick("impurity", body.impurities)
    situation = baths.refining(body.main, impurity, bank.sheet, catalogue, words_of(bank.settings.language))
    return Scene(situation, Facts(metals=(body.main, impurity)))


def mixed_ions_scene(body: MixedIonsScenario, seed: Seed, bank: Bank, catalogue: Catalogue) -> Scene:
    """Ions of two metals in one solution."""
    one, other = seed.sample("pair", body.metals, 2)
    situation = baths.mixed_ions((one, other), bank.sheet, catalogue, words_of(bank.settings.language))
    return Scene(situation, Facts(metals=(one, other)))


ELECTROLYSIS_DRAWINGS: Mapping[type, Callable[[Any, Seed, Bank, Catalogue], Scene]] = {
    SaltBathScenario: salt_bath_scene,
    CoatingScenario: coating_scene,
    SeriesScenario: series_scene,
    PlantScenario: works_scene,
    RefiningScenario: refining_scene,
    MixedIonsScenario: mixed_ions_scene,
}
