"""Tests that slips of a family must pass: each gives the value of its own formula; what can't be is refused in a sentence.

A table of slips has ``slip: (told, asked, right, wrong)``, right and wrong by plain formulas worked out apart.
"""

from __future__ import annotations

import pytest

from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty


def slips_found(know, find, diagram=None):
    """The value of each slip of a derivation by its id."""
    return {each["id"]: each["value"] for each in work(diagram, know, find)["slips"]}


def own_formulas(table, *, or_twin=False):
    """A test that each slip of ``table`` gives its wrong value; ``or_twin`` where a twin may speak for it."""

    def check(slip):
        """Right and wrong agree with the plain formulas."""
        know, find, right, wrong = table[slip]
        assert work(None, know, find)["value"] == pytest.approx(right, rel=1e-9)
        found = slips_found(know, find)
        names = (slip, *(catalogue().slips[slip].twins if or_twin else ()))
        assert [found[name] for name in names if name in found][:1] == [pytest.approx(wrong, rel=1e-9)]

    return pytest.mark.parametrize("slip", table)(check)


def refusals(rows):
    """A test that each of ``rows``, (told, asked, message), is refused with just that message."""

    def check(know, find, message):
        """The whole sentence, nothing before or after it."""
        with pytest.raises(Faulty) as raised:
            work(None, know, find)
        assert str(raised.value) == message

    return pytest.mark.parametrize(("know", "find", "message"), rows)(check)
