"""A kind of scenario that is added to the data folder, or to a bank, without a line of Python is seen by schema, publish, proof and work."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
import yaml
from jsonschema import Draft7Validator
from test_added_data import House

KIND = """
worn ring:
  is: A ring that goes into solution at a steady current.
  families: [Faraday's laws]
  draws:
    metals: {one of: metals, as: product, under: metal, needed: true, means: Metals of the ring.}
    current: {quantity: I, needed: true, means: The current.}
    time: {quantity: t, means: How long it flows.}
    mass: {quantity: m, means: The mass that is lost.}
  either: [time, mass]
  things: {product: dissolving metal}
  words: {ring: product}
  examples:
    - {metals: [Zn, Fe], current: 0.50 A, time: 20 min}
"""
WORD = """
ring: {name: metal of a ring, base: ring, unit: "", word: true, family: Rings}
"""
TEMPLATE = """
title: A ring that wears
outcome: T3.4
level: core
use: [practice]
scenario:
  worn ring: {metals: [Zn, Fe], current: 0.50 A, time: {from: [20 min, 30 min]}}
text: A ring of {{ product.metal }} gives {{ I }} for {{ t }}.
parts:
  - ask: What mass does it lose?
    find: m
"""


@pytest.fixture(scope="module", params=["data", "bank"])
def house(request, tmp_path_factory):
    """The kind in the data folder of a copy of the program, then in a bank."""
    found = House(tmp_path_factory.mktemp("house"))
    in_data = request.param == "data"
    found.write(found.folder / "data" / "scenarios" / "corrosion.yaml" if in_data else found.bank / "scenarios.yaml", KIND)
    found.write(found.folder / "data" / "quantities" / "corrosion.yaml" if in_data else found.bank / "quantities.yaml", WORD)
    found.write(found.bank / "ring.yaml", TEMPLATE)
    found.in_data = in_data
    return found


def test_publish_prints_it(house):
    page = house.page("ring.html")
    assert "A ring of" in page
    assert "0.50" in page


def test_its_names_are_listed(house):
    told = json.loads(house.run("names", "worn ring", "--json", *([] if house.in_data else ["--bank", str(house.bank)])))
    assert "product" in json.dumps(told)
    assert '"m"' in json.dumps(told)


def test_proof_has_no_fault_with_it(house):
    proof = json.loads(house.run("proof", str(house.bank), "--draws", "10", "--json"))
    assert [each for each in proof["findings"] if each["weight"] != "note"] == []


def test_the_command_line_tells_it_in_a_word(house):
    told = ["--given", "ring = Zn", "--given", "I = 0.50 A", "--given", "t = 30 min", "--find", "m", "--json"]
    found = json.loads(house.run("work", *told, *([] if house.in_data else ["--bank", str(house.bank)])))
    assert found["value"] == pytest.approx(0.50 * 1800 / 96485.33 / 2 * 65.38, rel=1e-3)


def test_an_editor_completes_it(house):
    """In step with what the program reads: the template is valid, a key that it does not know is not."""
    code = f"import json; from pathlib import Path; from saltbridge.bank.schema import bank_schema; print(json.dumps(bank_schema(Path({str(house.bank)!r}))))"
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": str(house.folder / "generator")},
    )
    schema, template = json.loads(done.stdout), yaml.safe_load(TEMPLATE)
    assert [*Draft7Validator(schema).iter_errors(template)] == []
    template["scenario"]["worn ring"]["curent"] = "1 A"
    assert [[*each.absolute_path] for each in Draft7Validator(schema).iter_errors(template)] == [["scenario", "worn ring"]]
