"""Every bank gives the same givens, answers, ranges, printed lines and keys as when it was last read.

A change that means to alter none of them must leave these files alone; one that means to is named in the CHANGELOG.
"""

from __future__ import annotations

import pytest
from snapshot.taking import GOLDEN, golden, places


@pytest.mark.parametrize(("name", "template"), places(), ids=lambda each: each)
def test_nothing_that_is_printed_or_keyed_has_changed(name, template):
    """A digest a variant tells which of given, answers, print and keys moved; the first variant shows the words."""
    assert golden(name, template) == (GOLDEN / name / f"{template}.txt").read_text(encoding="utf-8")


def test_no_golden_file_is_left_over():
    assert {(file.parent.name, file.stem) for file in GOLDEN.glob("*/*.txt")} == set(places())
