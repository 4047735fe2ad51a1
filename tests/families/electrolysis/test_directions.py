"""What happens at an electrode is named by the species that reacts, and by the rule that decides in water."""

from __future__ import annotations

import pytest

from saltbridge.api import work


@pytest.mark.parametrize("salt", ["NaBr", "KBr"])
def test_bromide_in_water_names_the_overpotential_of_oxygen(salt):
    """Neutral water lies at 1.229 V − 7 × 0.0592 V = 0.815 V, below bromide; bromine forms all the same (OpenStax Chemistry 2e, 17.7)."""
    told = work(None, [f"salt = {salt}", "state = aqueous", "electrodes = inert"], "product_anode")
    assert told["text"] == "Br₂"
    assert "overpotential" in told["steps"][-1]["say"]


def test_iodide_needs_no_overpotential():
    """Iodide at 0.54 V lies below oxygen at any pH up to 11."""
    told = work(None, ["salt = KI", "state = aqueous", "electrodes = inert"], "product_anode")
    assert told["text"] == "I₂"
    assert "overpotential" not in told["steps"][-1]["say"]


def test_refining_needs_the_main_metal_and_names_couples():
    told = work(None, ["metal = Cu", "impurity = Zn"], "impurity_fate")
    assert told["unused"] == []
    assert any("Zn" in step["symbolic"] and "²⁺" in step["symbolic"] for step in told["steps"])
