"""Conditions: what they read, what they mean, and what they refuse."""

from __future__ import annotations

from contextlib import suppress
from decimal import Decimal

import pytest
from bank_samples import messages
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.faults import Faulty
from saltbridge.forms.conditions import LONGEST, MOST, Called, Measured, parse_condition

OF_WORDS = "Words can only be the same (==) or not (!=)."
VALUES = {
    "E0_cell": Measured(1.10, "V"),
    "I": Measured(Decimal("0.50"), "A"),
    "T": Measured(298.15, "K"),
    "n": 2,
    "Q": Measured(0.1, "1"),
    "left.metal": Called("zinc", "Zn"),
    "right.metal": Called("copper", "Cu"),
    "right.symbol": Called("Cu", "copper"),
    "U": Measured(-0.30, "V"),
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
        ('left.metal == "zinc"', True),
        ('left.metal != "Cu"', True),
        ('left.metal != "Zn"', False),
        ("right.symbol == right.metal", True),
        ("n == 3 or n == 2", True),
        ("n == 3 or I > 1.00 A", False),
        ("n == 3 and I < 1.00 A or n == 2 and I < 1.00 A", True),
        ("n == 2 or n == 3 and I > 1.00 A", True),
        ("abs(U) > 0.2 V", True),
        ("abs( U ) == 300 mV and U < 0 V", True),
        ("abs(n) == 2", True),
        ("E_cell >= 0 V or n == 2", True),
        ("abs(E_cell) >= 0 V", False),
        ('E_cell == "none"', True),
        ('E_cell != "none"', False),
        ('left.metal != "none"', True),
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


HINT = 'Write it as `E0_cell >= 0.20 V`, `left.metal != "Zn"`, `abs(E_cell) > 0.1 V`, or several of these joined by `and` and `or`. [condition]'


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("E0_cell => 0.20 V", f"expected a comparison of two terms; found `E0_cell => 0.20 V`. {HINT}"),
        ("E0_cell", f"expected a comparison of two terms; found `E0_cell`. {HINT}"),
        ("", f"expected a comparison of two terms; found ``. {HINT}"),
        ("n == 2 or", f"expected a comparison of two terms; found `n == 2 or`. {HINT}"),
        ("(n == 2 or n == 3)", f"expected a comparison of two terms; found `(n == 2 or n == 3)`. {HINT}"),
        ("abs(n - 1) == 2", f"expected a comparison of two terms; found `abs(n - 1) == 2`. {HINT}"),
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


def test_a_fault_in_one_alternative_is_told_though_another_holds():
    assert messages(lambda: parse_condition("n == 2 or E0_cell >= 0.20").holds(VALUES.get)) == [
        "expected a number with a unit, such as V; found a number without one. Write the unit: `0.20 V`. [condition-unit]"
    ]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('n == "two"', f"expected two numbers or two words; found `2` and `two`. {OF_WORDS} [condition-kind]"),
        ("left.metal != 2", f"expected two numbers or two words; found `zinc` and `2`. {OF_WORDS} [condition-kind]"),
        ("abs(left.metal) > 2", "expected a number inside `abs(…)`; found `left.metal`, which is `zinc` [condition-kind]"),
    ],
)
def test_a_number_is_never_compared_with_a_word(text, expected):
    assert messages(lambda: parse_condition(text).holds(VALUES.get)) == [expected]


def test_words_have_no_order():
    assert messages(lambda: parse_condition("left.metal > right.metal").holds(VALUES.get)) == [
        "expected two numbers round `>`; found `zinc` and `copper`. Words can only be the same (==) or not (!=). [condition-kind]"
    ]
