"""What is added to the data folder, or to a bank, without a line of Python is used by work, publish and proof."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from textwrap import dedent

import pytest

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty
from saltbridge.home import shipped

ROOT = Path(__file__).resolve().parents[2]
COMMAND = "from saltbridge.cli import main; main()"
FACT = """
flat_cell:
  family: Around the loop
  name: what a flat cell lacks
  statement: A flat cell has reached equilibrium.
  why: Nothing drives its electrons any more.
  right: a driving force
  wrong:
    - says: electrons
      shows: flat-cell-has-no-electrons
      hint: Are there fewer electrons in the metal than before?
      source: made up for this test
    - says: ions
  hint: What is the cell potential at equilibrium?
  source: made up for this test
"""
TEMPLATE = """
title: A cell that is flat
outcome: T3.4
level: core
use: [practice]
scenario:
  galvanic cell: {metals: [Zn, Cu, Ag]}
text: A cell of {{ left.couple }} and {{ right.couple }} is flat.
parts:
  - ask: What does it lack?
    choose: flat_cell
    from: [a driving force, electrons, ions]
"""
BANK = """
format: 1
id: added
title: A bank for what was added
data sheet: school
"""


class House:
    """A copy of the program with a data folder of its own, and a bank."""

    def __init__(self, folder: Path):
        self.folder, self.bank = folder, folder / "bank"
        shutil.copytree(ROOT / "generator", folder / "generator", ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copytree(shipped("data"), folder / "data")
        for name in ("site", "question_templates", "pyproject.toml"):
            (folder / name).symlink_to(ROOT / name)
        self.bank.mkdir()
        self.write(self.bank / "bank.yaml", BANK)

    def write(self, path: Path, text: str) -> None:
        """Lay a text into a file, after what stands there."""
        before = path.read_text(encoding="utf-8") + "\n" if path.exists() else ""
        path.write_text(before + dedent(text).lstrip("\n"), encoding="utf-8")

    def run(self, *arguments: str) -> str:
        """What the program prints; its exit code must be 0."""
        environment = {**os.environ, "PYTHONPATH": str(self.folder / "generator"), "COLUMNS": "200"}
        done = subprocess.run(
            [sys.executable, "-c", COMMAND, *arguments],
            capture_output=True,
            text=True,
            env=environment,
            cwd=self.folder,
            check=False,
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    def page(self, name: str) -> str:
        """A page of the published bank."""
        self.run("publish", str(self.bank), "--to", str(self.folder / "out"))
        return (self.folder / "out" / "site" / name).read_text(encoding="utf-8")

    def place(self, kind: str, *, where: str) -> Path:
        """The file of a kind, in the data folder or in the bank."""
        return (self.folder / "data" if where == "data" else self.bank) / f"{kind}.yaml"


@pytest.fixture
def house(tmp_path):
    """A house in a folder of its own."""
    return House(tmp_path)


def _told(house: House, *arguments: str, where: str) -> dict:
    return json.loads(house.run("work", *arguments, "--json", *(("--bank", str(house.bank)) if where == "bank" else ())))


@pytest.mark.parametrize("where", ["data", "bank"])
def test_a_fact_is_found_without_python(house, where):
    house.write(house.place("facts", where=where), FACT)
    house.write(house.bank / "flat.yaml", TEMPLATE)
    told = _told(house, "Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)", "--find", "flat_cell", where=where)
    assert told["text"] == "a driving force"
    page = house.page("flat.html")
    assert "A flat cell has reached equilibrium. Nothing drives its electrons any more." in page
    assert "What is the cell potential at equilibrium?" in page
    assert "Are there fewer electrons in the metal than before?" in page
    proof = json.loads(house.run("proof", str(house.bank), "--draws", "10", "--json"))
    assert "flat-cell-has-no-electrons" in json.dumps(proof)


QUANTITY = """
r_disch: {name: rate of discharge, base: r, sub: dis, unit: 1/s, range: positive}
"""
RELATION = """
discharge-rate:
  family: "Batteries: capacity"
  equation: r_disch = I/q_cap
  say: The rate of discharge is the current for each coulomb of capacity.
  valid: steady current
  source: made up for this test
  cases:
    - {r_disch: 0.5, I: 2, q_cap: 4, source: made up for this test}
    - {r_disch: 0.25, I: 1, q_cap: 4, source: made up for this test}
"""
BATTERY = """
title: How fast a battery is emptied
outcome: T7.4
level: core
use: [practice]
scenario:
  battery: {batteries: [nickel-metal-hydride], capacity: {from: [2000 mAh, 2500 mAh]}, current: {from: [0.50 A, 1.00 A]}}
text: |
  {{ caution }}

  A battery of {{ q_cap }} gives {{ I }}.
parts:
  - ask: Calculate the rate of discharge.
    find: r_disch
"""


@pytest.mark.parametrize("where", ["data", "bank"])
def test_a_relation_and_its_quantity_are_found_without_python(house, where):
    house.write(house.place("quantities", where=where), QUANTITY)
    house.write(house.place("relations", where=where), RELATION)
    house.write(house.bank / "rate.yaml", BATTERY)
    told = _told(house, "--given", "I = 0.50 A", "--given", "q_cap = 2000 mAh", "--find", "r_disch", where=where)
    assert told["value"] == pytest.approx(0.5 / 7200)
    assert "r_disch" in house.run("work", "--list", *(("--bank", str(house.bank)) if where == "bank" else ()))
    page = house.page("rate.html")
    assert "The rate of discharge is the current for each coulomb of capacity." in page
    proof = json.loads(house.run("proof", str(house.bank), "--draws", "10", "--json"))
    assert [each["found"] for each in proof["findings"] if each["code"] == "not-checked"] == ["none to r_disch"]


RULE = """
steadier metal:
  gives: steadier
  family: Around the loop
  name: which metal holds its electrons more firmly
  like: highest
  inputs: [left.E0, right.E0]
  keys: [left, right]
  say: The metal of the higher potential holds its electrons more firmly.
  hint: Which of the two metals is harder to oxidise?
  wrong:
    - takes: other
      shows: low-potential-holds-firmly
      hint: Does a metal of low potential give its electrons away, or keep them?
      source: made up for this test
"""
FIRM = """
title: Firmly held
outcome: T3.4
level: core
use: [practice]
scenario:
  galvanic cell: {metals: [Zn, Cu, Ag]}
text: A cell of {{ left.couple }} and {{ right.couple }} gives current.
must reveal: [low-potential-holds-firmly]
parts:
  - ask: Which metal holds its electrons more firmly?
    choose: steadier
    from: [left.metal, right.metal]
"""


@pytest.mark.parametrize("where", ["data", "bank"])
def test_a_rule_with_a_common_error_is_found_without_python(house, where):
    house.write(house.place("rules", where=where), RULE)
    house.write(house.bank / "firm.yaml", FIRM)
    told = _told(house, "Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)", "--find", "steadier", where=where)
    assert told["text"] == "right"
    page = house.page("firm.html")
    assert "The metal of the higher potential holds its electrons more firmly." in page
    assert "Which of the two metals is harder to oxidise?" in page
    assert "Does a metal of low potential give its electrons away, or keep them?" in page
    proof = json.loads(house.run("proof", str(house.bank), "--draws", "10", "--json"))
    assert "low-potential-holds-firmly" in json.dumps(proof)


ADDED = """
printed order:
  adds to: metal-that-corrodes
  ways:
    first in print: key 1
  wrong:
    - takes: first in print
      shows: first-named-corrodes
      hint: Does it matter which of the two metals is named first?
      source: made up for this test
"""
JOINED = """
title: Joined in the wet
outcome: T8.2
level: core
use: [practice]
scenario:
  joined metals: {metals: [Fe, Cu, Zn, Sn]}
text: A rivet of {{ one.metal }} holds a sheet of {{ other.metal }}.
must reveal: [first-named-corrodes]
parts:
  - ask: Which metal corrodes?
    choose: corrodes
    from: [one.metal, other.metal]
"""


def test_a_bank_adds_a_common_error_to_a_rule_of_ours(house):
    house.write(house.place("rules", where="bank"), ADDED)
    house.write(house.bank / "joined.yaml", JOINED)
    page = house.page("joined.html")
    assert "Does it matter which of the two metals is named first?" in page
    assert "first-named-corrodes" in json.dumps(json.loads(house.run("proof", str(house.bank), "--draws", "10", "--json")))


@pytest.mark.parametrize(
    ("instead", "code", "hint"),
    [
        (("metal-that-corrodes", "metal-that-corodes"), "unknown-rule", "Did you mean metal-that-corrodes?"),
        (("first in print: key 1", "other: key 1"), "redefined", "Give your way a name of its own."),
        (("shows: first-named-corrodes", "shows: nobler-partner-corrodes"), "repeated", "Leave its hint and source out here, or give it another id."),
        (("  ways:", "  say: Look at the metals.\n  ways:"), "unknown-key", "Known keys: adds to, ways, wrong."),
    ],
)  # fmt: skip
def test_what_is_wrong_with_an_added_error_is_told(tmp_path, instead, code, hint):
    (tmp_path / "rules.yaml").write_text(ADDED.replace(*instead), encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        catalogue(tmp_path)
    found = caught.value.faults[0]
    assert (found.code, found.hint, found.file) == (code, hint, "rules.yaml")
