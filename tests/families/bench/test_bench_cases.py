"""The bench against readings and pages that were opened; two models that never meet."""

from __future__ import annotations

import math
import statistics

import pytest
from checks.outside import cases
from families.family_bank import samples
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.check.resolve import resolve
from saltbridge.faults import Faulty
from saltbridge.graph.planner import reachable
from saltbridge.scenarios.bench.bench_situation import Strips, bench
from saltbridge.tables import metals, potentials, sheet
from saltbridge.tables.benches import bands, safety

VOLTS = st.integers(1, 2000).map(lambda millivolts: millivolts / 1000)


@pytest.mark.parametrize("case", cases("bench_cases.yaml", "numbers"), ids=lambda case: f"{case['find']} {case['value']}")
def test_a_number_agrees_with_its_source(case):
    found = work(None, case["given"], case["find"], case.get("in"))["value"]
    assert found == pytest.approx(case["value"], abs=case["within"])


@pytest.mark.parametrize("case", cases("bench_cases.yaml", "own_ions"), ids=lambda case: f"{case['red']}-{case['black']}")
def test_own_ion_paper_cells_come_close_to_the_table(case):
    expected = float(potentials()[metals()[case["red"]].couple].E0) - float(potentials()[metals()[case["black"]].couple].E0)
    assert case["measured"] == pytest.approx(expected, abs=0.04)


@pytest.mark.parametrize("case", cases("bench_cases.yaml", "salt_only"), ids=lambda case: f"{case['metal']} {case['reading']}")
def test_bands_of_salt_paper_hold_the_readings_found(case):
    band = bands()[case["metal"]]
    assert (float(band.low) <= case["reading"] <= float(band.high)) is case["inside"]


@pytest.mark.parametrize("case", cases("bench_cases.yaml", "order"))
def test_typical_readings_stand_in_the_order_seen(case):
    typical = [float(bands()[symbol].typical) for symbol in case["metals"]]
    assert typical == sorted(typical)


# ------------------------------------------------------------------ two models


def _situation(model):
    strips = Strips("Cu", {"Zn": "-0.75", "Al": "-0.50"}, ("Al", "Zn"), "Zn", model)
    return bench(strips, sheet("college"), catalogue())


def test_salt_paper_offers_no_value_on_the_hydrogen_scale():
    """Nothing joins a salt-only reading to the table: neither E of a strip nor E of the reference can be reached."""
    assert {"s1.E", "E_ref"} <= set(reachable(_situation("own ions")))
    assert not {"s1.E", "s2.E", "red.E", "E_ref"} & set(reachable(_situation("salt only")))
    assert "takes_electrons" not in reachable(_situation("own ions"))


def test_aluminium_and_zinc_change_places_on_salt_paper():
    """The typical readings have them the other way round than the table (opened: a hands-on page states the order)."""
    table = {symbol: float(potentials()[metals()[symbol].couple].E0) for symbol in ("Al", "Zn")}
    assert table["Al"] < table["Zn"]
    assert float(bands()["Al"].typical) > float(bands()["Zn"].typical)


def test_a_drawn_bench_prints_the_safety_block_with_the_lines_of_its_metals():
    for drawn, _, _ in samples("bench", "salt-paper"):
        words = drawn.situation.words
        assert words["safety.general"] == safety()["general"].line
        assert safety()["magnesium"].line in words["safety.metals"]
        assert safety()["silver"].line not in words["safety.metals"]


# ------------------------------------------------------------------ laws


@settings(deadline=None, max_examples=25)
@given(E=VOLTS, inside=st.integers(1, 9999), meter=st.integers(1, 99999))
def test_a_meter_never_shows_more_than_the_cell_has(E, inside, meter):
    shown = work(None, [f"E_cell = {E} V", f"R_int = {inside} ohm", f"R_meter = {meter} ohm"], "U_meter")["value"]
    assert 0 < shown < E
    assert shown == pytest.approx(resolve("U_meter", {"E_cell": E, "R_int": inside, "R_meter": meter}), rel=1e-9)


@settings(deadline=None, max_examples=25)
@given(one=VOLTS, other=VOLTS)
def test_the_uncertainty_of_a_difference_is_never_below_either(one, other):
    know = [f"u_red = {one} V", f"u_black = {other} V"]
    worst, random = (work(None, know, name)["value"] for name in ("u_gap", "u_gap_random"))
    assert worst >= random >= max(one, other)
    assert random == pytest.approx(math.hypot(one, other))


@settings(deadline=None, max_examples=25)
@given(values=st.lists(st.integers(70, 78), min_size=3, max_size=7), high=st.booleans())
def test_the_repeat_far_off_is_left_out(values, high):
    """Mean and half range are those of the other repeats (statistics of the standard library, run live)."""
    texts = [f"{value / 100:.2f}" for value in values]
    told = [*texts, "1.10" if high else "0.30"]
    know = [f"repeats = {' '.join(told)}"]
    kept = [float(text) for text in texts]
    assert work(None, know, "U_mean")["value"] == pytest.approx(statistics.fmean(kept))
    assert work(None, know, "u_mean")["value"] == pytest.approx((max(kept) - min(kept)) / 2, abs=1e-12)
    assert work(None, know, "outlier")["text"] == f"{told[-1]} V"


@settings(deadline=None, max_examples=25)
@given(first=VOLTS, second=VOLTS, third=VOLTS)
def test_readings_against_a_new_reference_keep_their_differences(first, second, third):
    pairs = [
        work(None, [f"reading_red = {each} V", f"reading_black = {third} V"], "reading_pair")["value"] for each in (first, second)
    ]
    assert pairs[0] - pairs[1] == pytest.approx(first - second, abs=1e-12)


UNKNOWNS = [
    ("R_meter", ["E_cell = 0.9 V", "U_meter = 0.45 V", "R_int = 2 kohm"], 2000), ("E_cell", ["U_meter = 0.5 V", "R_int = 1 kohm", "R_meter = 1 kohm"], 1.0),
    ("U_measured", ["d_rel = 10 %", "U_accepted = 1.0 V"], 1.1), ("U_accepted", ["d_rel = 10 %", "U_measured = 1.1 V"], 1.0),
    ("u_red", ["u_gap = 0.05 V", "u_black = 0.02 V"], 0.03), ("u_red", ["u_gap_random = 0.05 V", "u_black = 0.04 V"], 0.03),
    ("k_digits", ["u_meter = 0.013 V", "spec_rel = 0.5 %", "U_measured = 2 V", "U_step = 0.001 V"], 3),
    ("spec_rel", ["u_meter = 0.013 V", "k_digits = 3", "U_measured = 2 V", "U_step = 0.001 V"], 0.5),
]  # fmt: skip


@pytest.mark.parametrize(("find", "know", "value"), UNKNOWNS)
def test_each_quantity_can_be_the_unknown(find, know, value):
    assert work(None, know, find)["value"] == pytest.approx(value)


def test_two_metals_differ_only_beyond_their_uncertainty():
    far = ["reading_red = -0.40 V", "reading_black = -0.76 V", "u_red = 0.05 V", "u_black = 0.05 V"]
    near = ["reading_red = -0.72 V", "reading_black = -0.76 V", "u_red = 0.05 V", "u_black = 0.05 V"]
    assert work(None, far, "differ")["text"] == "yes"
    assert work(None, near, "differ")["text"] == "no"


@pytest.mark.parametrize("told", ["0.74", "0.74 0.75", "0.74 x 0.75", "0,74 0,75 0,73"])
def test_what_is_no_list_of_repeats_is_refused(told):
    with pytest.raises(Faulty) as caught:
        work(None, [f"repeats = {told}"], "U_mean")
    assert [(each.code, each.found, each.hint) for each in caught.value.faults] == [
        ("repeats", told, 'As "repeats = 0.74 0.75 0.73 0.92".')
    ]
