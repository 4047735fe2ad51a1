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
