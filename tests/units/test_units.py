"""Reading, converting and printing units."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal
from functools import cache

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from saltbridge.faults import Faulty
from saltbridge.sigfigs import print_number
from saltbridge.units import (
    Quantity,
    convert,
    exact_factor,
    factor,
    known_units,
    parse_quantity,
    parse_unit,
    quantity_inscription,
    same_dimension,
    unit_inscription,
    unit_text,
)
from saltbridge.words import catalogue

# Symbols that the outside library spells otherwise, or does not have.
OUTSIDE_NAMES = {
    "°C": "delta_degC",
    "Ah": "A*h",
    "mAh": "mA*h",
    "kAh": "kA*h",
    "Wh": "W*h",
    "kWh": "kW*h",
    "MWh": "MW*h",
    "%": "percent",
    "y": "year",
}
ASKED_FOR = [
    "V",
    "mV",
    "A",
    "mA",
    "kA",
    "C",
    "kC",
    "Ah",
    "mAh",
    "s",
    "min",
    "h",
    "d",
    "y",
    "K",
    "°C",
    "g",
    "mg",
    "kg",
    "t",
    "mol",
    "mmol",
    "L",
    "mL",
    "dm3",
    "cm3",
    "m3",
    "mol/L",
    "mol/dm3",
    "mmol/L",
    "kJ/mol",
    "J/mol",
    "J",
    "kJ",
    "Wh",
    "kWh",
    "bar",
    "kPa",
    "Pa",
    "atm",
    "%",
    "ohm",
    "kohm",
    "g/mol",
    "cm2",
    "dm2",
    "m2",
    "um",
    "mm",
    "cm",
    "A/dm2",
    "mA/cm2",
    "V/K",
    "mV/K",
]


@cache
def outside_registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize("symbol", known_units())
def test_every_symbol_agrees_with_the_librarys_own_definitions(symbol: str):
    """Outside source: the definitions shipped with pint (its default registry), which our table replaces."""
    registry = outside_registry()
    outside = registry.Quantity(1.0, OUTSIDE_NAMES.get(symbol, symbol)).to_base_units()
    base = {
        "kilogram": "kg",
        "meter": "m",
        "second": "s",
        "ampere": "A",
        "delta_degree_Celsius": "K",
        "kelvin": "K",
        "mole": "mol",
    }
    unit = " ".join(f"{base[str(name)]}{int(power)}" for name, power in outside.unit_items())
    assert float(exact_factor(symbol, unit)) == pytest.approx(outside.magnitude, rel=1e-12)


def test_the_atmosphere_and_the_zero_of_celsius_agree_with_scipy():
    """Outside source: scipy.constants."""
    assert factor("atm", "Pa") == constants.atm
    assert float(convert("0", "°C", "K")) == constants.zero_Celsius
    assert factor("y", "s") == constants.Julian_year


@pytest.mark.parametrize("unit", [*ASKED_FOR, "J/(mol K)", "J mol-1 K-1"])
def test_every_unit_of_the_trade_is_read(unit: str):
    assert parse_quantity(f"2.50 {unit}").printed == "2.50"


@pytest.mark.parametrize(
    ("text", "printed", "unit"),
    [
        ("2.50 A", "2.50", "A"),
        ("2.50A", "2.50", "A"),
        ("-1.10 V", "-1.10", "V"),
        ("−1.10 V", "-1.10", "V"),
        ("1.5e-3 mol/L", "1.5e-3", "mol/L"),
        ("25 °C", "25", "°C"),
        ("90 %", "90", "%"),
        ("0.10 M", "0.10", "mol/L"),
        ("0.10 mol dm^-3", "0.10", "mol/dm3"),
        ("0.10 mol·dm⁻³", "0.10", "mol/dm3"),
        ("5 kJ mol-1", "5", "kJ/mol"),
        ("8.314 J mol-1 K-1", "8.314", "J/(mol K)"),
        ("8.314 J/(mol·K)", "8.314", "J/(mol K)"),
        ("12 kΩ", "12", "kohm"),
        ("12 k\u2126", "12", "kohm"),
        ("7 µm/y", "7", "um/y"),
        ("250 ml", "250", "mL"),
        ("3 s^-1", "3", "1/s"),
        ("5", "5", ""),
    ],
)
def test_a_quantity_keeps_its_digits_and_gets_one_writing_of_its_unit(text: str, printed: str, unit: str):
    assert parse_quantity(text) == Quantity(printed, unit)


@pytest.mark.parametrize(
    "text", ["", "A", "2,50 A", "2.50 furlong", "2.50 V/", "2.50 J/mol/K", "2.50 J/mol K", "1e9999 V", "V" * 200, "5 __import__"]
)
def test_what_is_no_quantity_is_a_fault(text: str):
    with pytest.raises(Faulty):
        parse_quantity(text)


def test_an_unknown_unit_is_answered_with_the_known_ones():
    with pytest.raises(Faulty, match=r"a unit made of m, dm, cm.*found 'furlong'"):
        parse_quantity("3 furlong")


@pytest.mark.parametrize(("typed", "symbol"), [("Volt", "V"), ("mins", "min"), ("Seconds", "s"), ("hours", "h")])
def test_a_unit_written_out_is_answered_with_its_symbol(typed, symbol):
    with pytest.raises(Faulty, match=rf"found '{typed}'\. Write the symbol: {symbol}\. \[unit\]"):
        parse_unit(typed)


def test_a_wrong_kind_of_unit_is_answered_with_the_right_ones():
    with pytest.raises(Faulty, match="a unit of the same kind as A: A, mA, uA, kA; found V"):
        factor("V", "A")


def test_a_product_below_the_line_wants_brackets():
    with pytest.raises(Faulty, match=r"Write J/\(mol K\)"):
        parse_unit("J/mol K")


@pytest.mark.parametrize(
    ("value", "unit", "to", "result"),
    [
        ("25", "°C", "K", "298.15"),
        ("298.15", "K", "°C", "25"),
        ("-273.15", "°C", "K", "0"),
        ("25", "°C", "°C", "25"),
        ("30", "min", "s", "1800"),
        ("0.50", "h", "s", "1800"),
        ("2000", "mAh", "C", "7200"),
        ("1", "mol/dm3", "mol/L", "1"),
        ("1", "mol/L", "mol/m3", "1000"),
        ("10", "mA/cm2", "A/dm2", "1"),
        ("1", "kWh", "kJ", "3600"),
        ("90", "%", "1", "0.9"),
        ("5", "V", "J/C", "5"),
        ("1", "atm", "bar", "1.01325"),
        (0.1, "V", "mV", "100"),
    ],
)
def test_conversions_are_exact(value: str | float, unit: str, to: str, result: str):
    assert convert(value, unit, to) == Decimal(result)


@given(
    st.decimals(-1000, 1000, places=4),
    st.sampled_from([("V", "mV"), ("°C", "K"), ("h", "s"), ("kJ/mol", "J/mol"), ("cm2", "dm2"), ("atm", "kPa")]),
)
def test_there_and_back_again_is_the_same(value: Decimal, pair: tuple[str, str]):
    unit, to = pair
    assert float(convert(convert(value, unit, to), to, unit)) == pytest.approx(float(value), rel=1e-15, abs=1e-15)


def test_kinds_are_told_apart():
    assert same_dimension("V", "J/C")
    assert same_dimension("mol/dm3", "mol/L")
    assert not same_dimension("V", "A")
    assert {"mol/L", "mol/dm3", "mmol/L"} <= set(known_units("mol/L"))


def pieces(unit: str, style: str) -> str:
    marks = {"sup": "^", "sub": "_", "base": ""}
    return "".join(marks[piece.kind] + piece.text for piece in unit_inscription(unit, style).pieces).replace("\u202f", " ")


@pytest.mark.parametrize(
    ("unit", "slash", "power", "spoken"),
    [
        ("V", "V", "V", "volts"),
        ("kJ/mol", "kJ/mol", "kJ mol^−1", "kilojoules per mole"),
        ("J/(mol K)", "J/(mol K)", "J mol^−1 K^−1", "joules per mole kelvin"),
        ("mol/dm3", "mol/dm^3", "mol dm^−3", "moles per cubic decimetre"),
        ("mol/L", "mol/L", "mol L^−1", "moles per litre"),
        ("A/dm2", "A/dm^2", "A dm^−2", "amperes per square decimetre"),
        ("cm2", "cm^2", "cm^2", "square centimetres"),
        ("s-1", "1/s", "s^−1", "per second"),
        ("y", "years", "years", "years"),
        ("um/y", "µm/y", "µm y^−1", "micrometres per year"),
        ("kohm", "kΩ", "kΩ", "kiloohms"),
        ("°C", "°C", "°C", "degrees Celsius"),
        ("%", "%", "%", "percent"),
    ],
)
def test_units_are_set_in_either_style_and_spoken(unit: str, slash: str, power: str, spoken: str):
    assert (pieces(unit, "slash"), pieces(unit, "power"), unit_inscription(unit).spoken) == (slash, power, spoken)


def test_units_are_spoken_in_the_banks_language():
    assert unit_inscription("kJ/mol", "slash", catalogue("de")).spoken == "Kilojoule pro Mol"


def test_number_and_unit_stand_a_thin_no_break_space_apart():
    joined = quantity_inscription(print_number("-1.50e-3"), unit_inscription("kJ/mol", "power"))
    assert joined.plain == "−1.50\u202f×\u202f10−3\u202fkJ\u202fmol−1"
    assert joined.spoken == "minus 1.50 times 10 to the minus 3 kilojoules per mole"
    assert joined.role == "quantity"


def test_a_bare_number_gets_no_space():
    assert quantity_inscription(print_number("5"), unit_inscription("")).plain == "5"
    assert quantity_inscription(print_number("5"), None).plain == "5"


def test_the_writing_of_a_unit_is_its_own_writing_again():
    for unit in [*known_units(), *ASKED_FOR, "J/(mol K)"]:
        assert unit_text(unit_text(unit)) == unit_text(unit)


def test_reading_and_printing_never_load_the_units_library():
    script = (
        "import sys; from saltbridge.units import *; parse_quantity('2.50 A'); unit_inscription('kJ/mol'); print('pint' in sys.modules);"
        "factor('mA', 'A'); print('pint' in sys.modules)"
    )
    result = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert result.stdout.split() == ["False", "True"]
