"""Ten papers solved again from what stands in print: the text of the papers and of the data sheet, and plain formulas of ``check``."""

from __future__ import annotations

import csv
import io
import re
import subprocess
import unicodedata

import pytest
from homework.sets_for_tests import PLAN, make
from pdf_reading import opened

from saltbridge.check.formulas import FARADAY
from saltbridge.check.resolve import resolve

ROWS = tuple(f"{at:03d},F{at},S{at},11B" for at in range(1, 11))
METALS = {
    "zinc": "Zn", "copper": "Cu", "silver": "Ag", "nickel": "Ni", "tin": "Sn", "iron": "Fe", "lead": "Pb", "magnesium": "Mg",
    "cobalt": "Co", "chromium": "Cr", "manganese": "Mn", "cadmium": "Cd", "aluminium": "Al",
}  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    room = tmp_path_factory.mktemp("back")
    with pytest.MonkeyPatch.context() as patch:
        make(room, room / "out", patch, plan=PLAN + "each: yes\n", rows=ROWS)
    return room / "out"


def printed(path):
    """The text of a PDF in the order of its tags, levels on the line, all blanks alike."""
    with opened(path.read_bytes()) as file:
        assert len(file.pages) >= 1
    done = subprocess.run(["pdftotext", "-raw", str(path), "-"], capture_output=True, check=True)
    return " ".join(unicodedata.normalize("NFKC", done.stdout.decode()).replace("\u2212", "-").split())


@pytest.fixture(scope="module")
def sheet(folder):
    """Couple → potential in volts, and element → relative atomic mass, as the data sheet prints them."""
    text = printed(folder / "cells-week-3-data-sheet.pdf")
    rows = re.findall(r"([A-Z][a-z]?)(\d?)\+\(aq\) \+ \d?e- ⇌ ([A-Z][a-z]?)\(s\) ([+-]\d\.\d+)", text)
    potentials = {(symbol, int(charge or 1)): float(volts) for symbol, charge, metal, volts in rows if symbol == metal}
    masses = {symbol: float(mass) for symbol, mass in re.findall(r"\b([A-Z][a-z]?) (\d{1,3}\.\d+)\b", text)}
    assert len(potentials) > 10
    return potentials, masses


def key(folder, code):
    rows = csv.DictReader(io.StringIO((folder / "key.csv").read_text("utf-8-sig")))
    return {(row["question"], row["part"]): row for row in rows if row["code"] == code}


def codes(folder):
    return [path.stem for path in sorted((folder / "papers").iterdir())]


def test_two_metals_from_the_print(folder, sheet):
    potentials, _ = sheet
    seen = 0
    for code in codes(folder):
        text = printed(folder / "papers" / f"{code}.pdf")
        left, right = re.search(r"electrode is (\w+) in a solution of .*?electrode is (\w+) in", text).groups()
        found = {
            name: potentials[METALS[name], int(re.search(rf"{METALS[name]}(\d?)\+", text)[1] or 1)] for name in (left, right)
        }
        anode, cathode = sorted(found, key=found.get)
        told = key(folder, code)
        assert told["1", "a"]["answer"].partition(": ")[2] == anode
        worked = resolve("E0_cell", {"E0_cathode": found[cathode], "E0_anode": found[anode]})
        assert float(told["1", "b"]["answer"]) == pytest.approx(worked, abs=0.005001)
        seen += 1
    assert seen == 10


def test_a_mass_from_the_print(folder, sheet):
    _, masses = sheet
    seen = 0
    for code in codes(folder):
        text = printed(folder / "papers" / f"{code}.pdf")
        current, minutes = re.search(r"current of (\d\.\d+) ?A flows for (\d+) ?min", text).groups()
        symbol, charge = re.search(r"bath holds ([A-Z][a-z]?)(\d?)\+ ions", text).groups()
        known = {"I": float(current), "t": 60 * float(minutes), "z": float(charge or 1), "M": masses[symbol], "F": FARADAY}
        told = key(folder, code)
        for part, name in (("b", "q"), ("c", "n_e"), ("d", "m")):
            row = told["2", part]
            assert float(row["low"]) <= resolve(name, known) <= float(row["high"]), (code, name)
        seen += 1
    assert seen == 10


def test_no_two_of_them_have_the_same_answers(folder):
    every = [tuple(row["answer"] for (number, _), row in key(folder, code).items() if number == "2") for code in codes(folder)]
    assert len(set(every)) == len(every) == 10
