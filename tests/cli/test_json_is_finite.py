"""Plain data is JSON by its standard: never Infinity or NaN, whatever is told."""

from __future__ import annotations

import json
from itertools import product

import pytest
from click.testing import CliRunner

from saltbridge.cli import main

CELL = "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)"
TOLD = ("n = {}", "F = {} C/mol", "R = {} J/(mol K)", "T = {} K", "E_cathode = {} V")
SIZES = ("1e308", "1.7e308", "-1e308", "1e-320", "9e30", "1e30", "1e-30", "0")


def _refuse(constant):
    raise AssertionError(constant)


@pytest.mark.parametrize(("told", "size"), [*product(TOLD, SIZES)])
def test_a_cell_told_with_any_size_gives_finite_numbers_or_a_named_fault(told, size):
    done = CliRunner().invoke(main, ["work", CELL, "--given", told.format(size), "--find", "E_cell", "--json"])
    if done.exit_code == 0:
        json.loads(done.stdout, parse_constant=_refuse)
    else:
        assert done.exit_code == 1
        assert "own-fault" not in done.output
        assert "]" in done.output


@pytest.mark.parametrize("size", SIZES)
def test_a_charge_of_any_size_too(size):
    done = CliRunner().invoke(main, ["work", "--given", f"I = {size} A", "--given", f"t = {size} s", "--find", "q", "--json"])
    if done.exit_code == 0:
        json.loads(done.stdout, parse_constant=_refuse)
    else:
        assert "own-fault" not in done.output
