"""Scenarios of the bench: readings against a reference metal in two models, one reading of a meter, repeats."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Annotated, Literal, Self

from pydantic import BeforeValidator, Field, model_validator

from saltbridge import units
from saltbridge.faults import Faulty
from saltbridge.forms.fields import AtLeastTwo, Drawn, Keys, Measures, QuantityText, Several, Whole
from saltbridge.forms.validation_messages import carried, shown, wrong
from saltbridge.forms.value_types import Metal
from saltbridge.tables.benches import bands

METER_STEP = Decimal("0.01")  # V, as a school meter shows
WIDEST_SCATTER = Decimal("0.50")  # V
FEWEST_REPEATS, MOST_REPEATS = 4, 8


def _in_volts(value: object) -> object:
    """Readings as printed in volts: millivolts with three decimals."""
    if not isinstance(value, dict):
        raise wrong("wrong-type", "metals with their readings, as `{Zn: -0.75 V}`", shown(value))
    return {symbol: _printed_volts(each) for symbol, each in value.items()}


def _printed_volts(text: object) -> str:
    try:
        printed, unit = units.parse_quantity(str(text))
        if unit not in ("V", "mV"):
            raise wrong("quantity-kind", "a reading in V or mV", shown(text), "As `-0.75 V`.")
    except Faulty as trouble:
        raise carried(trouble) from None
    return f"{printed} V" if unit == "V" else f"{units.convert(printed, unit, 'V'):.3f} V"


class BenchScenario(Keys):
    """Readings of several metals against one reference metal, as on salt-moistened paper."""

    reference: Metal = Field(description="The metal on the black lead of the meter.")
    metals: AtLeastTwo[Metal] = Field(description="The metals tested against it.")
    scatter: QuantityText | None = Field(
        None,
        description="How far readings may stray from the model, either way, as `0.02 V`; without it 0.02 V, with salt only as far as such readings do.",
    )
    model: Literal["own ions", "salt only"] = Field(
        "own ions",
        description="`own ions`: each metal on paper soaked with a solution of its own ions, so that differences follow the data sheet. "
        "`salt only`: all on one salt paper; readings follow bench_bands.csv, and no value on the hydrogen scale is offered.",
    )
    readings: Annotated[dict[Metal, QuantityText], BeforeValidator(_in_volts)] | None = Field(
        None,
        description="Readings of your own against the reference, one for each of the metals, as `{Zn: -0.75 V, Ag: 0.12 V}`; nothing is drawn then.",
    )
    enabled: Several[Metal] = Field(
        (), description="Metals that your school allows on the bench though they are toxic, such as Pb."
    )

    @model_validator(mode="after")
    def _sensible(self) -> Self:
        if self.reference in self.metals:
            raise wrong(
                "bench-reference", "test metals other than the reference", f"`{self.reference}` in `metals`", "Take it out."
            )
        if self.scatter is not None:
            _check_scatter(self.scatter)
        if self.readings is not None:
            self._check_readings(self.readings)
        elif self.model == "salt only":
            self._check_bands()
        return self

    def _check_readings(self, told: Mapping[str, str]) -> None:
        if set(told) != set(self.metals):
            lacking = [symbol for symbol in self.metals if symbol not in told]
            found = f"none of {', '.join(lacking)}" if lacking else ", ".join(sorted(set(told) - set(self.metals)))
            raise wrong("bench-readings", "a reading for each of `metals`, and for no other", found)

    def _check_bands(self) -> None:
        known = bands()
        for symbol in (self.reference, *self.metals):
            if symbol not in known or not known[symbol].reliable:
                reason = (
                    "no reading with salt only is known"
                    if symbol not in known
                    else "its reading can't be distinguished from others"
                )
                usable = ", ".join(f"`{each.symbol}`" for each in known.values() if each.reliable)
                raise wrong(
                    "bench-band", f"metals whose readings with salt only can be ranked: {usable}", f"`{symbol}`: {reason}"
                )


def _check_scatter(text: str) -> None:
    printed, unit = units.parse_quantity(text)
    if not unit or not units.same_dimension(unit, "V"):
        raise wrong("quantity-kind", "`scatter` in V or mV", f"`{text}`", "As `scatter: 0.02 V`.")
    volts = units.convert(printed, unit, "V")
    if not 0 <= volts <= WIDEST_SCATTER or volts % METER_STEP:
        expected = f"a whole number of steps of {METER_STEP} V, at most {WIDEST_SCATTER} V"
        raise wrong("bench-scatter", expected, f"`{text}`", "As `scatter: 0.02 V`.")


class RepeatsScenario(Keys):
    """Repeated readings, one of them far from the others."""

    around: Annotated[Drawn, Measures("V")] = Field(
        description="The value around which the repeats lie, as `0.74 V`, or several."
    )
    repeats: Whole = Field(5, description=f"How many readings there are, {FEWEST_REPEATS} to {MOST_REPEATS}.")
    spread: QuantityText = Field("0.02 V", description="How far the good repeats lie from that value, either way.")
    outlier_by: QuantityText = Field("0.15 V", description="How far the bad one lies from it, at least four times the spread.")

    @model_validator(mode="after")
    def _sensible(self) -> Self:
        if not FEWEST_REPEATS <= self.repeats <= MOST_REPEATS:
            raise wrong("repeats", f"`repeats` from {FEWEST_REPEATS} to {MOST_REPEATS}", f"{self.repeats}")
        spread, away = (volts(text) for text in (self.spread, self.outlier_by))
        if spread < METER_STEP or spread % METER_STEP or away < 4 * spread or away % METER_STEP:
            expected = f"steps of {METER_STEP} V, `outlier by` at least four times `spread`"
            raise wrong("repeats", expected, f"`{self.spread}` and `{self.outlier_by}`")
        return self


def volts(text: str) -> Decimal:
    """A quantity in volts; a complaint where it is of another kind."""
    printed, unit = units.parse_quantity(text)
    if not unit or not units.same_dimension(unit, "V"):
        raise wrong("quantity-kind", "a voltage in V or mV", f"`{text}`", "As `0.02 V`.")
    return units.convert(printed, unit, "V")
