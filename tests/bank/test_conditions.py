"""Conditions: what they read, what they mean, and what they refuse."""

from __future__ import annotations

from contextlib import suppress
from decimal import Decimal

import pytest
from bank_samples import messages
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.faults import Faulty
from saltbridge.forms.conditions import LONGEST, MOST, Measured, parse_condition

VALUES = {
    "E0_cell": Measured(1.10, "V"),
    "I": Measured(Decimal("0.50"), "A"),
    "T": Measured(298.15, "K"),
    "n": 2,
    "Q": Measured(0.1, "1"),
    "left.metal": "Zn",
    "right.metal": "Cu",
    "anode": "left",
    "E_cell": None,
}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("E0_cell >= 0.20 V", True),
        ("E0_cell >= 1.10 V", True),
        ("E0_cell > 1.10 V", False),
        ("E0_cell > 1099 mV", True),
        ("0.20 V <= E0_cell", True),
        ("I < 1.00 A and n == 2", True),
        ("I < 1.00 A and n != 2", False),
        ("I>=-2 mA", True),
        ("T == 25 °C", True),
        ("Q == 0.10", True),
        ("left.metal != right.metal", True),
        ('left.metal == "Zn"', True),
        ("anode == 'right'", False),
        ("E_cell >= 0 V", False),
        ("E_cell < 0 V", False),
    ],
)
def test_what_conditions_mean(text, expected):
    """Comparisons hold as a teacher reads them, in any unit of the kind; an undefined value meets no condition."""
    assert parse_condition(text).holds(VALUES.get) is expected


def test_differences_of_printed_decimals_compare_as_printed():
    """0.80 - 0.60 is a hair above 0.20 in binary and 0.34 - 0.14 a hair off too: twelve figures decide."""
    condition = parse_condition("E0_cell == 0.20 V")

    assert condition.holds(lambda _: Measured(0.80 - 0.60, "V"))
    assert condition.holds(lambda _: Measured(0.34 - 0.14, "V"))


def test_names_are_told_once_in_order():
    assert parse_condition("I < 1.00 A and n == 2 and I > E.x").names == ("I", "n", "E.x")


@settings(deadline=None)
@given(
    value=st.decimals(-5, 5, places=3),
    bound=st.decimals(-5, 5, places=3),
    sign=st.sampled_from([">=", "<=", "==", "!=", ">", "<"]),
)
def test_a_condition_agrees_with_exact_decimals(value, bound, sign):
    """For printed numbers a condition says what exact decimal comparison says."""
    exact = {
        ">=": value >= bound,
        "<=": value <= bound,
        "==": value == bound,
        "!=": value != bound,
        ">": value > bound,
        "<": value < bound,
    }

    assert parse_condition(f"E {sign} {bound} V").holds(lambda _: Measured(float(value), "V")) is exact[sign]


@settings(deadline=None)
@given(text=st.text(alphabet="E0_cn.><=!\"' and12V", max_size=30))
def test_any_text_is_read_or_refused(text):
    """No text makes the reader fail in another way than by a fault."""
    with suppress(Faulty):
        assert parse_condition(text).names


HINT = 'Write it as `E0_cell >= 0.20 V`, `left.metal != "Zn"` or two of these joined by `and`. [condition]'


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("E0_cell => 0.20 V", f"expected a comparison of two terms; found `E0_cell => 0.20 V`. {HINT}"),
        ("E0_cell", f"expected a comparison of two terms; found `E0_cell`. {HINT}"),
        ("", f"expected a comparison of two terms; found ``. {HINT}"),
        ("n == 2 or n == 3", f"expected a comparison of two terms; found `n == 2 or n == 3`. {HINT}"),
        ("f(n) == 2", f"expected a comparison of two terms; found `f(n) == 2`. {HINT}"),
        ("a + b > 2", f"expected a comparison of two terms; found `a + b > 2`. {HINT}"),
        ("0.1 V < E < 0.5 V", f"expected a comparison of two terms; found `0.1 V < E < 0.5 V`. {HINT}"),
        ("n == 2 and", f"expected a comparison of two terms; found `n == 2 and`. {HINT}"),
        ("a.b.c.d.e == 2", f"expected a name such as `E0_cell` or `left.metal`; found `a.b.c.d.e`. {HINT}"),
        ("1 < 2", f"expected a name on one side at least; found `1 < 2`. {HINT}"),
        (
            'left.metal > "Zn"',
            'expected numbers round `>`; found `left.metal > "Zn"`. Words can only be the same (==) or not (!=). [condition]',
        ),
        ("n == " + "1" * LONGEST, "expected at most 200 characters; found 205. Write several conditions as a list. [condition]"),
        (
            " and ".join(["n == 2"] * (MOST + 1)),
            "expected at most 8 comparisons; found 9. Write several conditions as a list. [condition]",
        ),
        ("n == -.", "expected a number with a decimal point and a unit, such as 2.50 A; found '-.' [condition]"),
    ],
)
def test_what_can_not_be_read(text, expected):
    """A condition that is more or less than a comparison is refused with the whole of it shown."""
    assert messages(lambda: parse_condition(text)) == [expected]


def test_a_number_without_its_unit_is_refused():
    assert messages(lambda: parse_condition("E0_cell >= 0.20").holds(VALUES.get)) == [
        "expected a number with a unit, such as V; found a number without one. Write the unit: `0.20 V`. [condition-unit]"
    ]


def test_words_have_no_order():
    assert messages(lambda: parse_condition("left.metal > right.metal").holds(VALUES.get)) == [
        "expected two numbers round `>`; found `Zn` and `Cu`. Words can only be the same (==) or not (!=). [condition-kind]"
    ]
