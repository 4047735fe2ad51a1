"""Each slip of corrosion gives the value of its own formula, worked out apart; laws and refusals of the family."""

from __future__ import annotations

from itertools import pairwise
from math import log

import pytest
from families.family_slips import own_formulas, refusals
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.tables import sheet
from saltbridge.tables.corrosion import rust_tubes, seawater

SHEET = sheet("college")
F, R = (float(SHEET.constants[name].printed) for name in ("F", "R"))
ZINC = float(SHEET.atomic_masses["Zn"])
YEAR = 31557600.0
BLOCK = ["metal = Zn", "I = 0.50 A", "t = 5 y", "u_anode = 80 %"]
GRAMS = ZINC * 0.50 * 5 * YEAR / (2 * F)
VOLTS = R * 298.15 / F

CASES = {
    # slip: (told, asked, right, wrong) with plain formulas
    "anode-life-without-utilisation": (BLOCK, "m_block", GRAMS / 0.8 / 1000, GRAMS * 0.8 / 1000),
    "all-of-the-block-is-used": (BLOCK, "m_block", GRAMS / 0.8 / 1000, GRAMS / 1000),
    "density-upside-down": (["m = 15.74 g", "density = 7.87 g/cm3"], "V_loss", 2.0, 15.74 * 7.87),
    "oxygen-rises-with-ph": (
        ["E0_oxygen = 1.229 V", "pH = 7", "p_oxygen = 0.21 bar"], "E_oxygen",
        1.229 - VOLTS * log(10) * 7 + VOLTS / 4 * log(0.21), 1.229 + VOLTS * log(10) * 7 + VOLTS / 4 * log(0.21),
    ),
    "hydrogen-rises-with-ph": (["pH = 7"], "E_hydrogen", -VOLTS * log(10) * 7, VOLTS * log(10) * 7),
    "drive-added-up": (["E_oxygen = 0.81 V", "E_iron = -0.62 V"], "E_drive", 0.81 + 0.62, 0.81 - 0.62),
}  # fmt: skip

test_a_slip_gives_the_value_of_its_own_formula = own_formulas(CASES)


@settings(max_examples=15, deadline=None)
@given(st.integers(1, 140), st.integers(1, 1000))
def test_oxygen_stands_one_fixed_step_above_hydrogen(tenths, millibars):
    """The window of water has the same width at every pH: 1.229 V for gases at 1 bar."""
    ph = tenths / 10
    oxygen = work(None, ["E0_oxygen = 1.229 V", f"pH = {ph}", "p_oxygen = 1 bar"], "E_oxygen")["value"]
    assert oxygen - work(None, [f"pH = {ph}"], "E_hydrogen")["value"] == pytest.approx(1.229, abs=1e-9)
    assert millibars > 0


@settings(max_examples=15, deadline=None)
@given(st.integers(1, 500), st.integers(1, 5000), st.integers(1, 20))
def test_depth_does_not_depend_on_area_and_rate_not_on_time(microamperes, area, years):
    """The rate is j M/(z F density), whatever the area and the time."""
    know = ["metal = Fe", "density = 7.87 g/cm3", f"j_corr = {microamperes} uA/cm2", f"A_corr = {area} cm2", f"t = {years} y"]
    iron = float(SHEET.atomic_masses["Fe"])
    expected = microamperes * 1e-6 * iron / (2 * F * 7.87) * YEAR * 10
    assert work(None, know, "rate_corr")["value"] == pytest.approx(expected, rel=1e-9)


def test_the_sea_water_series_rises_from_magnesium_to_graphite():
    """The shipped series is that of its source: 48 materials, with the known exchanges of neighbours at most 0.02 V."""
    values = [float(each.E_sea) for each in seawater().values()]
    assert len(values) == 48
    assert min(values) == values[0] == -1.64
    assert max(values) == values[-1] == 0.25
    assert all(later - earlier >= -0.0201 for earlier, later in pairwise(values))


@pytest.mark.parametrize("tube", rust_tubes().values(), ids=lambda each: each.id)
def test_iron_rusts_where_air_and_water_reach_it(tube):
    know = [f"air = {'yes' if tube.air else 'no'}", f"water = {'yes' if tube.water else 'no'}"]
    assert work(None, know, "rusts")["text"] == ("it rusts" if tube.air and tube.water else "it stays bright")


def test_every_word_of_the_family_is_found_or_known():
    """``work`` reaches each word-valued name of corrosion that is not told itself."""
    found = {
        "corrodes": ["joined = Fe+Cu"], "orders": ["joined = Fe+Cu", "series = both"], "attacked": ["coating_metal = Sn"],
        "base_fate": ["coating_metal = Sn"], "protects": ["protecting_metal = Zn"], "structure_terminal": ["protecting_metal = Zn"],
        "rusts": ["air = yes", "water = yes"], "oxygen_attacks": ["E_oxygen = 0.8 V", "E_iron = -0.6 V"],
        "hydrogen_forms": ["pH = 3", "E_iron = -0.6 V"],
    }  # fmt: skip
    told = {"joined", "series", "coated", "coating_metal", "structure", "protecting_metal", "air", "water"}
    only_in_questions = {"protector"}
    words = {each.symbol for each in catalogue().quantities.values() if each.word and each.family.startswith("Corrosion")}
    assert words == set(found) | told | only_in_questions
    for name, know in found.items():
        assert work(None, know, name)["text"]


IMPOSSIBLE = [
    (["joined = Fe"], "corrodes", 'expected two metals with a plus sign; found Fe. As "joined = Fe+Cu". [joined]'),
    (["joined = Fe+Cu", "series = moon"], "corrodes", "expected series = standard, seawater or both; found moon [series]"),
    (["air = yes"], "rusts", 'expected water beside air; found none. As "water = yes". [also-needed]'),
    (["coated = Fe"], "attacked", 'expected coating_metal beside coated; found none. As "coating_metal = Li". [also-needed]'),
    (["joined = Fe+Xx"], "corrodes", "expected the symbol of a metal; found Xx [unknown-metal]"),
    (["u_anode = 1.2"], "m_block", 'u_anode = 1.2: expected u_anode above zero and up to 100 %; found 1.2. Write "u_anode = 1.2 %". [impossible]'),
]  # fmt: skip

test_what_is_impossible_is_refused_with_a_whole_sentence = refusals(IMPOSSIBLE)
