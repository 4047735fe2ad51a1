"""Two readings of a cell under load drawn."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import fault
from saltbridge.scenarios.battery.battery_models import ReadingsScenario
from saltbridge.scenarios.battery.battery_situation import started
from saltbridge.scenarios.scene import Means, Scene, Source, pick_quantity
from saltbridge.units import Quantity, convert
from saltbridge.words import of_bank as words_of

STEP = Decimal("0.01")  # V and A, as a school meter shows


def readings_scene(body: ReadingsScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Two readings on a line, each rounded as a meter shows it. Raises ``Faulty`` where the second current is not the larger."""
    one, two = (
        pick_quantity(each, source, name) for name, each in (("I_at1", body.first_current), ("I_at2", body.second_current))
    )
    behind = {name: pick_quantity(each, source, name) for name, each in (("E", body.potential), ("R", body.internal_resistance))}
    potential = convert(behind["E"].printed, behind["E"].unit, "V")
    inner = convert(behind["R"].printed, behind["R"].unit, "ohm")
    spread = pick_quantity(body.scatter, source, "scatter") if body.scatter is not None else Quantity("0", "V")
    stray = convert(spread.printed, spread.unit, "V")
    told = {"I_at1": one, "I_at2": two}
    for place, current in enumerate((one, two), 1):
        amps = convert(current.printed, current.unit, "A")
        off = source.decimal(f"stray {place}", -stray, stray, STEP) if stray else Decimal(0)
        told[f"U_at{place}"] = Quantity(f"{potential - amps * inner + off:.2f}", "V")
    if Decimal(told["U_at2"].printed) >= Decimal(told["U_at1"].printed) or Decimal(told["U_at2"].printed) <= 0:
        raise fault(
            "readings", expected="a second reading with more current and fewer volts, above zero", found=told["U_at2"].printed
        )
    situation = started(told, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, Facts(cell_resistance=float(inner)))
