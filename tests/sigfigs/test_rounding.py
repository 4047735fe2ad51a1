"""Rounding, figures and places: a long table, grouped by rule."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.faults import Faulty
from saltbridge.sigfigs import decimals_of, figures_of, last_place, to_decimals, to_figures, twelve

finite = st.floats(min_value=-1e300, max_value=1e300).filter(lambda value: value == 0 or abs(value) > 1e-290)

# Each row: rule, value, places, printed.
DECIMALS = [
    ("no tie", 1.1027, 2, "1.10"),
    ("no tie", 0.3419, 3, "0.342"),
    ("no tie", -0.7618, 2, "-0.76"),
    # Ties that binary64 holds exactly.
    ("exact tie", 0.125, 2, "0.13"),
    ("exact tie", 0.375, 2, "0.38"),
    ("exact tie", 2.5, 0, "3"),
    ("exact tie", 0.5, 0, "1"),
    ("exact tie", 1.5, 0, "2"),
    # Ties that binary64 holds from below: the twelve digits mend them.
    ("tie held from below", 2.675, 2, "2.68"),
    ("tie held from below", 1.005, 2, "1.01"),
    ("tie held from below", 0.285, 2, "0.29"),
    ("tie held from below", 1.115, 2, "1.12"),
    ("tie held from below", 8.345, 2, "8.35"),
    ("tie from a sum", 0.34 + 0.765, 2, "1.11"),
    ("tie from a product", 1.15 * 1.0, 1, "1.2"),
    ("tie from a difference", 1.1 - 0.045, 2, "1.06"),
    ("just below a tie", 2.67499999, 2, "2.67"),
    ("just above a tie", 2.67500001, 2, "2.68"),
    ("beyond the twelfth digit", 2.6749999999999, 2, "2.68"),
    ("negative tie", -0.125, 2, "-0.13"),
    ("negative tie", -2.675, 2, "-2.68"),
    ("negative tie", -2.5, 0, "-3"),
    ("zero has no sign", -0.001, 2, "0.00"),
    ("zero has no sign", -0.0, 2, "0.00"),
    ("zero has no sign", 0.0, 0, "0"),
    ("carry", 0.999, 2, "1.00"),
    ("carry", 9.995, 2, "10.00"),
    ("carry", -99.95, 1, "-100.0"),
    ("whole tens", 1234.0, -2, "1.2E+3"),
    ("padding", 1.5, 4, "1.5000"),
    ("small limit", 1e-300, 2, "0.00"),
    ("decimal in", Decimal("0.125"), 2, "0.13"),
]

# Each row: rule, value, figures, printed.
FIGURES = [
    ("no tie", 1.1027, 3, "1.10"),
    ("no tie", 212787.0, 3, "2.13E+5"),
    ("no tie", 96485.33212, 4, "9.649E+4"),
    ("padding", 1.5, 3, "1.50"),
    ("padding", 2.0, 1, "2"),
    ("padding", 300.0, 5, "300.00"),
    ("tie held from below", 2.675, 3, "2.68"),
    ("tie held from below", 1.005, 3, "1.01"),
    ("tie held from below", 0.001235, 3, "0.00124"),
    ("exact tie", 0.25, 1, "0.3"),
    ("exact tie", 12.5, 2, "13"),
    ("negative tie", -0.25, 1, "-0.3"),
    ("carry", 9.996, 3, "10.0"),
    ("carry", 0.09996, 3, "0.100"),
    ("carry", 999.6, 3, "1.00E+3"),
    ("zero", 0.0, 3, "0.00"),
    ("zero", -0.0, 1, "0"),
    ("large", 1.23456e37, 3, "1.23E+37"),
    ("small", 1.23456e-37, 3, "1.23E-37"),
]


@pytest.mark.parametrize(("rule", "value", "places", "printed"), DECIMALS)
def test_decimals_are_rounded_by_rule(rule: str, value: float, places: int, printed: str):
    assert str(to_decimals(value, places)) == printed, rule


@pytest.mark.parametrize(("rule", "value", "figures", "printed"), FIGURES)
def test_figures_are_rounded_by_rule(rule: str, value: float, figures: int, printed: str):
    assert str(to_figures(value, figures)) == printed, rule


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_refused_by_rounding_and_kept_by_twelve(value: float):
    with pytest.raises(ValueError, match="not a finite number"):
        to_decimals(value, 2)
    with pytest.raises(ValueError, match="not a finite number"):
        to_figures(value, 2)
    assert str(twelve(value)) == str(value)


def test_twelve_digits_end_binary_dust():
    assert 0.1 + 0.2 != 0.3
    assert twelve(0.1 + 0.2) == 0.3
    assert twelve(1 / 3) == 0.333333333333
    assert twelve(100000000000.5) == 100000000001.0


@given(finite)
def test_twelve_digits_are_stable(value: float):
    assert twelve(twelve(value)) == twelve(value)
    assert twelve(-value) == -twelve(value)


@given(finite, st.integers(1, 11))
def test_rounding_to_figures_moves_by_half_a_place_at_most(value: float, figures: int):
    rounded = to_figures(value, figures)
    assert abs(Decimal(repr(twelve(value))) - rounded) <= last_place(rounded) / 2
    assert len(rounded.as_tuple().digits) == figures or value == 0


@given(st.floats(-1e6, 1e6), st.integers(0, 6))
def test_rounding_is_odd(value: float, places: int):
    mirrored = to_decimals(-value, places)
    assert mirrored == -to_decimals(value, places)


# Each row: text, figures, decimals.
WRITTEN = [
    ("1.50e-3", 3, 5),
    ("1.10", 3, 2),
    ("-1.10", 3, 2),
    ("−1.10", 3, 2),
    ("+0.34", 2, 2),
    ("0.0010", 2, 4),
    ("300", 3, 0),
    ("300.", 3, 0),
    ("9.65e4", 3, 0),
    ("9.6485e2", 5, 2),
    ("0", 1, 0),
    ("0.00", 3, 2),
    (".5", 1, 1),
    ("96485.33212", 10, 5),
]


@pytest.mark.parametrize(("text", "figures", "decimals"), WRITTEN)
def test_figures_and_decimals_are_counted_as_written(text: str, figures: int, decimals: int):
    assert (figures_of(text), decimals_of(text)) == (figures, decimals)


@pytest.mark.parametrize("text", ["", "1,10", "1.1.0", "abc", "1e", "1e99999", "NaN", "--1", "١", "1 000"])
def test_what_is_no_number_is_a_fault_with_an_example(text: str):
    for count in (figures_of, decimals_of):
        with pytest.raises(Faulty, match=r"expected a number such as 1\.10 or 1\.50e-3; found"):
            count(text)


@pytest.mark.parametrize(("text", "place"), [("1.10", "0.01"), ("9.65E+4", "1E+2"), ("5", "1"), ("1.8E-3", "0.0001")])
def test_the_last_place_is_one_unit_of_the_last_digit(text: str, place: str):
    assert last_place(Decimal(text)) == Decimal(place)


def test_infinity_has_no_last_place():
    with pytest.raises(ValueError, match="no last place"):
        last_place(Decimal("Infinity"))
