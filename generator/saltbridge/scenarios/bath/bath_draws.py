"""Electrolysis drawn: salts, coatings, series, plants, refining and mixed ions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import fault
from saltbridge.forms.fields import Drawn as Range
from saltbridge.graph.laws import Given
from saltbridge.scenarios.bath import baths
from saltbridge.scenarios.bath.bath_models import (
    INERT,
    SaltBathScenario,
    SeriesScenario,
)
from saltbridge.scenarios.bath.bath_products import Bath
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity, sheet_row
from saltbridge.tables import metals
from saltbridge.tables.electrolytes import Electrolyte, electrolytes
from saltbridge.units import Quantity
from saltbridge.words import of_bank as words_of


def _told(ranges: Mapping[str, Range | None], source: Source) -> dict[str, Quantity]:
    return {name: pick_quantity(values, source, name) for name, values in ranges.items() if values is not None}


def salt_bath_scene(body: SaltBathScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A salt's bath. Raises ``Faulty`` where no rule tells its products."""
    salt = electrolytes()[source.pick("salt", body.salts)]
    electrodes = source.pick("electrodes", _fitting(salt, body.electrodes, means))
    told = _told(
        {
            "c_salt": body.concentration, "I": body.current, "t": body.time, "efficiency": body.efficiency, "T": body.temperature,
            "p_gas": body.pressure, "V_bath": body.volume, "U_supply": body.supply,
        },
        source,
    )  # fmt: skip
    bath = Bath(salt, body.state == "molten", "" if electrodes == INERT else electrodes)
    situation, found = baths.salt_bath(bath, body.amounts_of, told, means.sheet, catalogue, words_of(means.settings))
    if body.voltage_raised is not None:
        situation.given["voltage_factor"] = Given(float(body.voltage_raised), "", str(body.voltage_raised))
    facts = Facts(salt=salt.formula, state=body.state, electrodes=electrodes, renewed=found.anode.key == "electrode")
    return Scene(situation, facts)


def _fitting(salt: Electrolyte, electrodes: Sequence[str], means: Means) -> tuple[str, ...]:
    """The electrodes that last in a salt's solution: no metal that its ions would attack by themselves, as silver ions do zinc.

    Raises ``Faulty`` (code ``electrodes``) where none of them does.
    """
    ion = Decimal(sheet_row(means, salt.cation_couple).E0)
    found = tuple(each for each in electrodes if each == INERT or Decimal(sheet_row(means, metals()[each].couple).E0) >= ion)
    if not found:
        expected = f"an electrode that {salt.name} does not attack"
        raise fault("electrodes", expected=expected, found=", ".join(electrodes))
    return found


def series_scene(body: SeriesScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Two products of the same electrons. Raises ``Faulty`` where a draw names one product twice or in the wrong order."""
    first, second = source.pick("first", body.first), source.pick("second", body.second)
    if first == second:
        raise fault("same-product", expected="two different products", found=first)
    if body.joined == "one cell":
        _refuse_order(first, second, means)
    told = _told({"m": body.mass, "I": body.current, "t": body.time}, source)
    situation = baths.series(first, second, told, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, Facts(metals=tuple(each for each in (first, second) if each in metals())))


def _refuse_order(first: str, second: str, means: Means) -> None:
    """The metal that dissolves has the lower potential."""
    for each in (first, second):
        if each not in metals():
            raise fault("unknown-metal", expected="two metals as the electrodes of one cell", found=each)
    low, high = (float(sheet_row(means, metals()[each].couple).E0) for each in (first, second))
    if low >= high:
        raise fault("order", expected="a first metal of lower potential, which dissolves", found=f"{first} and {second}")
