"""Equations that a solver would never finish are refused by their degree; ordinary spelling is not mistaken for tricks."""

from __future__ import annotations

import pytest

from saltbridge.algebra.expression import parse
from saltbridge.algebra.rearrange import solve
from saltbridge.faults import Faulty
from saltbridge.tables.characters import MOST_ACCENTS, improper


@pytest.mark.parametrize(
    "bait",
    [
        "I**0.3333333333 + I**0.71828182845 + I**1.4142135",
        "I**7 + I**5*t + I**3 + exp(I) + ln(I)",
        "(I + t)**40*(I - F)**40 + I",
        "((I + 1)**2 + 1)**2*((I + 2)**2 + 2)**2",
        "exp(I*t) + I**3*ln(I) + sqrt(I + exp(I))",
        "t**I + I**t + I",
    ],
)
def test_an_equation_of_high_degree_is_refused_before_a_solver_sees_it(bait):
    with pytest.raises(Faulty, match=r"\[rearrange\]"):
        solve("q", parse(bait), "I")


@pytest.mark.parametrize("fair", ["I*t + I", "I*I", "t/(I + F) + I", "I**2 + I*t"])
def test_an_equation_of_low_degree_is_still_solved(fair):
    assert solve("q", parse(fair), "I") is not None


@pytest.mark.parametrize(
    "fair",
    [
        "Zell\u00adpotential",
        "Đặng Thị Hạnh",
        "दिल्ली के छात्र",
        "می\u200cخواهم",
        "E\u0302\u0303",
        "mol·dm⁻³",
        "a\u00a0b\u202fc",
        "two\nlines\tand a tab",
    ],
)
def test_ordinary_spelling_is_proper(fair):
    assert improper(fair) is None


@pytest.mark.parametrize(
    ("wrong", "place"),
    [
        ("ab\u202e", 2),
        ("\ud800", 0),
        ("a\ue003", 1),
        ("a\x1b[2J", 1),
        ("x\ufeff", 1),
        ("e" + "\u0301" * (MOST_ACCENTS + 1), 1),
        ("\U000e0041", 0),
    ],
)
def test_the_place_of_an_improper_character_is_told(wrong, place):
    found = improper(wrong)

    assert found is not None
    assert found[0] == place
