"""Each slip of standard potentials, the bench and the loop gives the value of its own formula, worked out apart."""

from __future__ import annotations

import math

import pytest
import yaml
from families.family_bank import ids, keys, samples
from families.family_slips import own_formulas

from saltbridge.api import work
from saltbridge.home import shipped

CHAIN = ["n_first = 1", "E0_first = 0.771 V", "n_second = 2", "E0_second = -0.447 V"]
METER = ["E_cell = 0.9 V", "R_int = 1700 ohm", "R_meter = 20000 ohm"]
SPEC = ["spec_rel = 0.5 %", "U_measured = 0.735 V", "k_digits = 3", "U_step = 0.001 V"]
UNSURE = ["u_red = 0.03 V", "u_black = 0.05 V"]
REPEATS = ["repeats = 0.74 0.75 0.73 0.92 0.74"]
NUMBERS = {
    # slip: (told, asked, right, wrong) with plain formulas
    "add-potentials-of-steps": (CHAIN, "E0_chain", (0.771 + 2 * -0.447) / 3, 0.771 - 0.447),
    "plain-average-of-steps": (CHAIN, "E0_chain", (0.771 + 2 * -0.447) / 3, (0.771 - 0.447) / 2),
    "steps-subtracted-the-other-way": (CHAIN, "E0_dispro", -0.447 - 0.771, 0.771 + 0.447),
    "reference-shift-added": (["E0 = 0.34 V", "E_ref = 0.241 V"], "E0_vs", 0.34 - 0.241, 0.34 + 0.241),
    "reference-metal-is-zero": (["E0 = 0.34 V", "E_ref = 0.241 V"], "E0_vs", 0.34 - 0.241, 0.34),
    "cells-rounded-down": (["U_wanted = 6.0 V", "E0_cell = 1.10 V"], "k_cells", 6, 5),
    "meter-draws-no-current": (METER, "U_meter", 0.9 * 20000 / 21700, 0.9),
    "share-of-the-cell-read": (METER, "U_meter", 0.9 * 20000 / 21700, 0.9 * 1700 / 21700),
    "digits-left-out": (SPEC, "u_meter", 0.735 * 0.005 + 0.003, 0.735 * 0.005),
    "digits-taken-as-volts": (SPEC, "u_meter", 0.735 * 0.005 + 0.003, 0.735 * 0.005 + 3),
    "uncertainties-subtract": (UNSURE, "u_gap", 0.08, 0.02),
    "uncertainties-subtract-in-squares": (UNSURE, "u_gap_random", math.sqrt(0.03**2 + 0.05**2), 0.02),
    "outlier-kept": (REPEATS, "U_mean", 0.74, 3.88 / 5),
    "divided-by-all-repeats": (REPEATS, "U_mean", 0.74, 2.96 / 5),
    "whole-range-as-uncertainty": (REPEATS, "u_mean", 0.01, 0.02),
    "percent-error-wrong-base": (
        ["U_measured = 0.488 V", "U_accepted = 0.463 V"], "d_rel", (0.488 / 0.463 - 1) * 100, (1 - 0.463 / 0.488) * 100,
    ),
    "millivolt-as-volt": (
        ["U_measured = 735 mV", "U_accepted = 0.80 V"], "d_rel", (0.735 / 0.80 - 1) * 100, (735 / 0.80 - 1) * 100,
    ),
}  # fmt: skip

test_a_slip_gives_its_own_formula = own_formulas(NUMBERS)


def test_a_slip_that_gives_the_right_answer_is_dropped():
    """Equal steps: the plain average is right then, and is no slip."""
    same = ["n_first = 1", "E0_first = 0.153 V", "n_second = 1", "E0_second = 0.521 V"]
    assert "plain-average-of-steps" not in {each["id"] for each in work(None, same, "E0_chain")["slips"]}


def test_equal_masses_are_caught_unless_both_electrodes_weigh_alike_for_each_electron():
    found = work("Zn(s) | Zn^2+(aq) || Ag^+(aq) | Ag(s)", ["m_lost = 0.50 g"], "m_gained")
    told = {each["id"]: each["value"] for each in found["slips"]}
    assert told.get("series-cells-equal-mass", told.get("equal-masses-both-electrodes")) == pytest.approx(0.50)


def _wrong_choices(family):
    """Every slip that a choice or an order of the family's templates leads to."""
    found = set()
    for template in ids(family):
        for _, question, variant in samples(family, template):
            for _, key in keys(question, variant):
                if key["kind"] in {"choice", "order"}:
                    found |= {slip for slips in key["slips"].values() for slip in slips}
    return found


@pytest.mark.parametrize("family", ["galvanic", "standards", "bench"])
def test_every_slip_of_a_rule_is_met_in_some_choice(family):
    """A slip that no template of its family can meet would be dead data."""

    rules = set(_errors_told(family))
    in_numbers = {"cells-rounded-down", "stronger-solution-is-anode"}  # the second in the potential of a concentration cell
    in_shipped_bank = {"row-beside-the-value"}  # the strip without a label
    in_drawings = _wrong_choices("figures") if family == "galvanic" else set()  # what carries the charge at a letter
    assert rules <= _wrong_choices(family) | in_numbers | in_shipped_bank | in_drawings


def _errors_told(family):
    """The common errors that stand with the rules of a family."""
    entries = yaml.safe_load((shipped("data") / "rules" / f"{family}.yaml").read_text(encoding="utf-8")).values()
    return [error["shows"] for entry in entries for error in entry.get("wrong", ()) if "hint" in error]
