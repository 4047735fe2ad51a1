"""The page for the metals practical: readings grow a line, are put in order, against any metal, beside the table."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

READINGS = {"Mg": "-1350", "Zn": "−750 mV", "Al": "- 500", "Fe": "-400", "Ag": "+120"}


@pytest.fixture
def bench(opened):
    page = opened("bench.html", viewport={"width": 360, "height": 800})
    for metal, reading in READINGS.items():
        page.fill(f"[data-metal={metal}]", reading)
    return page


def order(page):
    return page.locator("[data-order] li").all_inner_texts()


def test_readings_are_put_in_order_with_the_reference_at_zero(bench):
    assert order(bench) == [
        "magnesium: −1350 mV",
        "zinc: −750 mV",
        "aluminium: −500 mV",
        "iron: −400 mV",
        "copper: 0 mV",
        "silver: +120 mV",
    ]
    assert bench.locator(".bench-line circle").count() == 6
    assert bench.locator("tr:has([data-metal=Cu])").is_hidden()


def test_against_another_metal_every_reading_shifts_alike(bench):
    bench.select_option("[data-against]", "Zn")
    assert order(bench)[:2] == ["magnesium: −600 mV", "zinc: 0 mV"]
    assert order(bench)[-1] == "silver: +870 mV"


def test_metals_out_of_place_are_told(bench):
    told = bench.locator("[data-turned] p").all_inner_texts()
    assert told == ["The other way round in the table of standard potentials: zinc and aluminium. What may be the cause?"]
    bench.fill("[data-metal=Al]", "-900")
    expect(bench.locator("[data-turned]")).to_have_text(
        "These metals stand in the same order in the table of standard potentials."
    )


@pytest.mark.parametrize("typed", ["0.75", "abc", "-99999", "1e3", "-0,75"])
def test_what_is_no_whole_millivolt_is_marked_and_left_out(bench, typed):
    bench.fill("[data-metal=Zn]", typed)
    assert bench.get_attribute("[data-metal=Zn]", "aria-invalid") == "true"
    assert not any(each.startswith("zinc") for each in order(bench))


def test_the_metal_on_the_black_lead_may_be_another(bench):
    bench.select_option("[data-lead]", "Fe")
    assert bench.locator("tr:has([data-metal=Fe])").is_hidden()
    assert "iron: 0 mV" in order(bench)


def test_a_large_view_for_the_class(bench):
    bench.click("[data-big]")
    assert bench.locator("[data-bench] > .grid").is_hidden()
    assert bench.get_attribute("[data-big]", "aria-pressed") == "true"


def test_the_page_does_not_scroll_sideways(bench):
    assert bench.evaluate("document.documentElement.scrollWidth <= innerWidth")
