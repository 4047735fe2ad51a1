"""Spoiled templates the whole way to their page: a page or faults, never anything else; ``fuzz.py`` runs many more by hand."""

from __future__ import annotations

import fuzz
import pytest
from fuzz_moves import spoiled
from hostile_samples import SAMPLES, page_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from saltbridge.faults import Faulty

COUNT, SLICE = 1000, 250


@pytest.mark.parametrize("first", range(0, COUNT, SLICE))
def test_a_thousand_spoiled_templates_end_in_a_page_or_in_faults(first):
    """In slices, so that no worker is held up by all of them; many more are tried by hand."""
    endings = [fuzz.run(number) for number in range(first, first + SLICE)]

    assert [ending for ending in endings if ending.kind == "crash"] == []
    assert sum(ending.kind == "page" for ending in endings) > SLICE / 20, "the moves spoil nearly everything"
    assert len({ending.told for ending in endings}) > 25, "the moves meet few kinds of faults"


@settings(deadline=None, max_examples=100, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(st.randoms(use_true_random=False))
def test_any_spoiled_template_ends_in_a_page_or_in_faults(chance):
    """The same moves with the choices made by hypothesis, which finds the least of them that does harm."""
    faults, page = (), ""
    try:
        page = page_of(spoiled(chance))
    except Faulty as trouble:
        faults = trouble.faults

    assert page.startswith("<!") or faults
    assert all(fault.code and fault.expected and fault.found for fault in faults)


def test_the_templates_that_are_spoiled_are_right_themselves():
    assert all(page_of(text.encode()) for text in SAMPLES.values())


def test_a_crash_is_told_with_the_number_that_makes_it_again(monkeypatch):
    """The fuzzer itself: what is neither page nor fault is a crash with its place."""
    monkeypatch.setattr(fuzz, "page_of", lambda raw: raw.index(b"never there"))

    ending = fuzz.run(7)

    assert (ending.number, ending.kind) == (7, "crash")
    assert "ValueError" in ending.told
    assert "test_fuzzed_templates.py" in ending.told
