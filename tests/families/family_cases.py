"""Tests that every file of outside cases must pass: numbers as printed, words, and a source for each.

``numbers("batteries_cases.yaml")`` makes a test of each case; a test file gives it a name of its own.
"""

from __future__ import annotations

import unicodedata
from decimal import Decimal

import pytest
from checks.outside import cases

from saltbridge.api import work


def flat(text):
    """A text with its raised and lowered figures on the line: Cu²⁺ as Cu2+."""
    return unicodedata.normalize("NFKC", text)


def together(key, *files):
    """The cases under ``key`` of all ``files``."""
    return [case for name in files for case in cases(name, key)]


def room(case):
    """How far a value may lie from the print: half of its last place, or what a difference between sources explains."""
    if "room" in case:
        return case["room"]
    if "within" in case:
        return case["within"] * abs(float(case["printed"]))
    return float(Decimal(1).scaleb(int(Decimal(case["printed"]).as_tuple().exponent))) / 2 * 1.0001


def _each_case(check, found):
    return pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in found])(check)


def numbers(*files, exact=()):
    """A test that each number is that of its source; ``exact`` is told besides what a case tells."""

    def check(case):
        """Within the digits that the source prints, or within the room that its own rounding explains."""
        value = work(None, [*case["given"], *exact], case["find"], case["unit"] or None)["value"]
        assert value == pytest.approx(float(case["printed"]), abs=room(case), rel=0)

    return _each_case(check, together("numbers", *files))


def words(*files):
    """A test that each word is that of its source."""

    def check(case):
        """The word as a student reads it."""
        assert flat(work(None, case["given"], case["find"])["text"]) == flat(case["word"])

    return _each_case(check, together("words", *files))


def sources(found):
    """A test that each case names its source, and has an id of its own."""

    def check():
        """A source is more than a word."""
        assert len({case["id"] for case in found}) == len(found) > 0
        assert [case["id"] for case in found if len(case["source"]) <= 10] == []

    return check
