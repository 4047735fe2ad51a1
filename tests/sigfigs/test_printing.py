"""The printed and spoken form of numbers, and that what is printed can be typed back."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge.answers import Number, read_number
from saltbridge.document import Inscription, Piece
from saltbridge.faults import Faulty
from saltbridge.sigfigs import NumberWords, number_words, print_number
from saltbridge.words import catalogue


def shown(inscription: Inscription) -> str:
    """The pieces on one line, a raised one after a caret, thin spaces as _."""
    return "".join(("^" if piece.kind == "sup" else "") + piece.text for piece in inscription.pieces).replace("\u202f", "_")


# Each row: rule, number, shown, spoken.
PRINTED = [
    ("plain", "1.10", "1.10", "1.10"),
    ("minus is U+2212", "-1.10", "−1.10", "minus 1.10"),
    ("minus is U+2212", "−1.10", "−1.10", "minus 1.10"),
    ("a plus is dropped", "+0.34", "0.34", "0.34"),
    ("a zero before the point", ".5", "0.5", "0.5"),
    ("no bare point", "5.", "5", "5"),
    ("no leading zeros", "007", "7", "7"),
    ("zero has no sign", "-0.00", "0.00", "0.00"),
    ("zero is plain", "0", "0", "0"),
    ("zero is plain", "0.0000", "0.0000", "0.0000"),
    ("four digits stay together", "1234", "1234", "1234"),
    ("four decimals stay together", "0.0592", "0.0592", "0.0592"),
    ("threes from five digits", "12345", "12_345", "12345"),
    ("threes from five digits", "123456", "123_456", "123456"),
    ("threes from five decimals", "0.05916", "0.059_16", "0.05916"),
    ("threes on both sides", "96485.33212", "96_485.332_12", "96485.33212"),
    ("each side by itself", "96485.33", "96_485.33", "96485.33"),
    ("written power", "1.8e-3", "1.8_×_10^−3", "1.8 times 10 to the minus 3"),
    ("written power", "1.50e-3", "1.50_×_10^−3", "1.50 times 10 to the minus 3"),
    ("written power", "6.02214076e23", "6.022_140_76_×_10^23", "6.02214076 times 10 to the 23"),
    ("written power", "-1.2e5", "−1.2_×_10^5", "minus 1.2 times 10 to the 5"),
    ("written power", "12e3", "1.2_×_10^4", "1.2 times 10 to the 4"),
    ("written power", "0.5e-3", "5_×_10^−4", "5 times 10 to the minus 4"),
    ("lower limit stays plain", "0.001", "0.001", "0.001"),
    ("below the limit", "0.00099", "9.9_×_10^−4", "9.9 times 10 to the minus 4"),
    ("below the limit", "0.00050", "5.0_×_10^−4", "5.0 times 10 to the minus 4"),
    ("upper limit stays plain", "999999", "999_999", "999999"),
    ("from the limit", "1000000", "1.000_000_×_10^6", "1.000000 times 10 to the 6"),
    ("decimal keeps its zeros", Decimal("1.10"), "1.10", "1.10"),
    ("decimal keeps its zeros", Decimal("1.1"), "1.1", "1.1"),
    ("decimal's exponent is not writing", Decimal("9.65E+4"), "96_500", "96500"),
    ("decimal below the limit", Decimal("1.8E-4"), "1.8_×_10^−4", "1.8 times 10 to the minus 4"),
    ("decimal above the limit keeps its figures", Decimal("1.20E+6"), "1.20_×_10^6", "1.20 times 10 to the 6"),
    ("decimal above the limit keeps its figures", Decimal("1E+37"), "1_×_10^37", "1 times 10 to the 37"),
    ("decimal zero", Decimal("0.00"), "0.00", "0.00"),
    ("decimal zero", Decimal("-0.00"), "0.00", "0.00"),
]


@pytest.mark.parametrize(("rule", "number", "text", "said"), PRINTED)
def test_numbers_are_printed_and_spoken_by_rule(rule: str, number: str | Decimal, text: str, said: str):
    printed = print_number(number)
    assert (shown(printed), printed.spoken, printed.role) == (text, said, "number"), rule


def test_a_potential_shows_its_plus():
    assert print_number("0.34", signed=True) == Inscription("number", (Piece("base", "+0.34"),), "plus 0.34")
    assert shown(print_number("-0.76", signed=True)) == "−0.76"
    assert shown(print_number("0.00", signed=True)) == "0.00"


def test_the_decimal_mark_is_the_banks_own_in_print_and_speech():
    assert shown(print_number("96485.33212", ",")) == "96_485,332_12"
    assert print_number("-1.10", ",").spoken == "minus 1,10"
    assert shown(print_number("1.8e-3", ",")) == "1,8_×_10^−3"


def test_either_form_can_be_forced():
    assert shown(print_number("1.50e-5", scientific=False)) == "0.000_015_0"
    assert shown(print_number("-1.2e3", scientific=False)) == "−1200"
    assert shown(print_number("1.10", scientific=True)) == "1.10_×_10^0"
    assert shown(print_number(Decimal("9.65E+4"), scientific=True)) == "9.65_×_10^4"


def test_the_words_come_from_the_banks_language():
    german = number_words(catalogue("de"))
    assert german == NumberWords("minus", "plus", "mal 10 hoch")
    assert print_number("-1.8e-3", ",", say=german).spoken == "minus 1,8 mal 10 hoch minus 3"


def test_equal_decimals_of_different_length_are_told_apart():
    assert [shown(print_number(Decimal(text))) for text in ("1.1", "1.10", "1.1")] == ["1.1", "1.10", "1.1"]


@pytest.mark.parametrize("text", ["", "one", "1,10", "1 000", "NaN", "1e5e5"])
def test_what_is_no_number_is_a_fault(text: str):
    with pytest.raises(Faulty, match="expected a number such as"):
        print_number(text)


def typed_back(inscription: Inscription, mark: str) -> Number:
    text = "".join(("^" if piece.kind == "sup" else "") + piece.text for piece in inscription.pieces)
    number = read_number(text, mark)
    assert isinstance(number, Number), text
    return number


few_digits = st.builds(lambda digits, power: Decimal(digits).scaleb(power), st.integers(-(10**12), 10**12), st.integers(-40, 40))


@given(few_digits, st.sampled_from(".,"), st.booleans(), st.sampled_from([None, True, False]))
def test_what_is_printed_can_be_typed_back(number: Decimal, mark: str, signed: bool, scientific: bool | None):
    inscription = print_number(number, mark, signed=signed, scientific=scientific)
    if len(inscription.plain) <= 80:
        assert typed_back(inscription, mark).value == float(number)


@given(few_digits.filter(bool), st.sampled_from(".,"))
def test_the_figures_printed_are_the_figures_read(number: Decimal, mark: str):
    number_read = typed_back(print_number(number, mark, scientific=True), mark)
    assert number_read.figures is not None
    assert number_read.figures[0] <= len(number.as_tuple().digits) <= number_read.figures[1]
