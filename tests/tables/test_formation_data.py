"""Outside check: standard potentials and their temperature coefficients, computed from formation data.

Source, read live from the installed package `chemicals`: "CRC Thermodynamic Properties of Aqueous Ions.tsv" and "CRC
Standard Thermodynamic Properties of Chemical Substances.tsv". `crc_substances.csv` beside this file only says which
registry number is which pure substance. `known_gaps.csv` names each row that the formation data don't support within
the bound of its grade, with the reason.
"""

from __future__ import annotations

import csv
import re
from functools import cache
from pathlib import Path

import chemicals
import pytest

from saltbridge.tables import potentials

HERE = Path(__file__).parent
CRC = Path(chemicals.__file__).parent
FARADAY = 96485.33212331001  # C/mol, CODATA 2022, exact
BOUND = {"A": 0.010, "B": 0.020, "C": 0.020}  # V
SLOPE_BOUND = 0.03  # mV/K
ELEMENT = re.compile(r"[A-Z][a-z]?2?\((s|l|g)\)")
GRAY_TIN = {
    "Sn(s)": (0.0, 51.2)
}  # J/mol, J/(mol K): white tin is the reference state; the table only has gray tin (entropy from memory)


def table(*parts: str) -> list[dict[str, str]]:
    with CRC.joinpath(*parts).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream, delimiter="\t"))


def own_table(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def number(text: str) -> float | None:
    return float(text) if text else None


@cache
def formation() -> dict[str, tuple[float | None, float | None]]:
    """Gibbs energy of formation in J/mol and standard entropy in J/(mol K) by species as we write it, with phase."""
    found: dict[str, tuple[float | None, float | None]] = {}
    for row in table("Electrolytes", "CRC Thermodynamic Properties of Aqueous Ions.tsv"):
        core, sign, size = re.fullmatch(r"(.*?)([+-])(\d*)", row["Formula"]).groups()
        ion = f"{core}^{size}{sign}(aq)"
        found[ion] = number(row["Gf(aq)"]), number(row["S(aq)"])
        found[f"[{core}]^{size}{sign}(aq)"] = found[ion]
    named = {
        row["CAS"]: row for row in table("Heat Capacity", "CRC Standard Thermodynamic Properties of Chemical Substances.tsv")
    }
    for entry in own_table("crc_substances.csv"):
        species, row = entry["species"], named[entry["CAS"]]
        phase = species[-2]
        gibbs = number(row["Gf" + phase])
        if gibbs is None and ELEMENT.fullmatch(species):
            gibbs = 0.0  # an element in its reference state: the table leaves the zero out
        found[species] = gibbs, number(row["S0" + phase])
    return found | GRAY_TIN


def terms(side: str) -> list[tuple[int, str]]:
    found = [re.fullmatch(r"(?:(\d+) )?(\S+)", term).groups() for term in side.split(" + ")]
    return [(int(count or 1), species) for count, species in found if species != "e-"]


def change(half_reaction: str, which: int) -> float | None:
    """Products less reactants of formation()[which], None where a species has no value there."""
    left, right = half_reaction.split(" -> ")
    parts = [(-count, species) for count, species in terms(left)] + terms(right)
    values = [(count, formation().get(species, (None, None))[which]) for count, species in parts]
    return None if any(value is None for _, value in values) else sum(count * value for count, value in values)


def computed_E0() -> dict[str, float]:
    found = {name: change(couple.half_reaction, 0) for name, couple in potentials().items()}
    return {name: -value / (potentials()[name].n * FARADAY) for name, value in found.items() if value is not None}


def computed_slopes() -> dict[str, float]:
    """In mV/K; each electron stands for half a hydrogen molecule less a hydrogen ion, at every temperature."""
    half_hydrogen = formation()["H2(g)"][1] / 2 - formation()["H^+(aq)"][1]
    found = {name: change(couple.half_reaction, 1) for name, couple in potentials().items()}
    return {
        name: 1e3 * (value - potentials()[name].n * half_hydrogen) / (potentials()[name].n * FARADAY)
        for name, value in found.items()
        if value is not None
    }


def gaps() -> dict[tuple[str, str], float]:
    return {(row["id"], row["quantity"]): float(row["bound"]) for row in own_table("known_gaps.csv")}


def report(what: str, unit: str, far: dict[str, float]) -> None:
    ranked = sorted(far.items(), key=lambda item: -abs(item[1]))
    print(f"{what}: {len(far)} rows; farthest " + ", ".join(f"{name} {value:+.4f} {unit}" for name, value in ranked[:8]))


def test_at_least_sixty_rows_can_be_computed():
    assert len(computed_E0()) >= 60
    assert len(computed_slopes()) >= 60


def test_shipped_potentials_agree_with_formation_data_within_their_grade():
    far = {name: float(potentials()[name].E0) - value for name, value in computed_E0().items()}
    report("E0 shipped less computed", "V", far)
    allowed = {name: gaps().get((name, "E0/V"), BOUND[potentials()[name].grade]) for name in far}
    assert {name: round(gap, 4) for name, gap in far.items() if abs(gap) > allowed[name] + 5e-5} == {}


def test_the_crc_column_is_what_the_crc_tables_give():
    told = {
        name: couple.sources["crc_formation/V"] for name, couple in potentials().items() if "crc_formation/V" in couple.sources
    }
    far = {name: float(text) - computed_E0()[name] for name, text in told.items()}
    report("column crc_formation less computed", "V", far)
    assert max(abs(gap) for gap in far.values()) <= 6e-5
    assert told.keys() == computed_E0().keys()


def test_shipped_slopes_agree_with_standard_entropies_within_their_grade():
    shipped = {name: couple.dEdT for name, couple in potentials().items()}
    far = {name: float(shipped[name]) - value for name, value in computed_slopes().items() if shipped[name] is not None}
    report("dE0/dT shipped less computed", "mV/K", far)
    assert len(far) >= 60
    allowed = {name: gaps().get((name, "dE0dT/(mV/K)"), SLOPE_BOUND) for name in far}
    assert {name: round(gap, 3) for name, gap in far.items() if abs(gap) > allowed[name] + 5e-4} == {}


@pytest.mark.parametrize("row", own_table("known_gaps.csv"), ids=lambda row: f"{row['id']} {row['quantity']}")
def test_each_known_gap_is_needed_and_explained(row):
    couple = potentials()[row["id"]]
    potential = row["quantity"] == "E0/V"
    ours, theirs = (couple.E0, computed_E0()) if potential else (couple.dEdT, computed_slopes())
    gap = abs(float(ours) - theirs[row["id"]])
    assert gap > (BOUND[couple.grade] if potential else SLOPE_BOUND), "the gap has closed: take the row out"
    assert gap <= float(row["bound"])
    assert row["reason"]
