"""The sizes of units by which the independent route counts."""

from __future__ import annotations

import pytest

from saltbridge.check.factors import COHERENT, from_coherent, to_coherent
from saltbridge.faults import Faulty
from saltbridge.units import factor, known_units, same_dimension

USUAL = sorted({compound for unit in known_units() for compound in (unit, *known_units(unit))} | set(COHERENT))


@pytest.mark.parametrize("unit", USUAL)
def test_every_unit_that_may_be_written_is_known_with_the_size_that_the_units_library_gives(unit):
    base = next((each for each in COHERENT if same_dimension(unit, each)), None)
    if base is not None and unit != "°C":
        assert to_coherent(1.0, unit) == pytest.approx(factor(unit, base), rel=1e-14)
    assert from_coherent(to_coherent(12.5, unit), unit) == pytest.approx(12.5)


# SI Brochure, 9th edition, tables 7 and 8; the atmosphere is 101 325 Pa by definition (10th CGPM, 1954).
@pytest.mark.parametrize(
    ("value", "unit", "coherent"),
    [(5.0, "ms", 5e-3), (2.0, "ug", 2e-6), (1.0, "mA h/g", 3.6), (25.0, "°C", 298.15), (1.0, "atm", 1.01325), (8.5, "%", 0.085)],
)
def test_sizes_that_a_brochure_prints(value, unit, coherent):
    assert to_coherent(value, unit) == pytest.approx(coherent, rel=1e-14)


def test_an_unknown_unit_lists_the_known_ones():
    with pytest.raises(Faulty, match=r"expected a unit made of m, dm, .*%; found 'furlong' \[unknown-unit\]"):
        to_coherent(1, "furlong")
