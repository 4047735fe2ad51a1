"""Each question form of electrolysis is a template without Python: drawn, composed, judged, its slips caught."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from families.family_bank import keys, must_be_caught, prints_whole, right_answers, samples, slips_told

from saltbridge.answers import judge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.chemistry import bath_realism
from saltbridge.chemistry.realism import RULES
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import Faulty

test_the_right_answer_is_judged_right = right_answers("electrolysis")
test_slips_are_recognised = slips_told("electrolysis")
test_what_must_be_caught_is_caught = must_be_caught("electrolysis")
test_a_question_prints_without_holes = prints_whole("electrolysis")


def test_spare_electrons_on_a_cation_are_recognised():
    """The half-equation turned round at the cathode has a hint of its own."""
    for _, question, variant in samples("electrolysis", "melt-products"):
        key = dict(zip("abcde", (key for _, key in keys(question, variant)), strict=True))["b"]
        (wrong,) = (text for text, slips in key["slips"].items() if slips == ["cation-carries-spare-electrons"])
        assert judge(key, wrong).slips == ("cation-carries-spare-electrons",)
        assert key["hints"]["cation-carries-spare-electrons"] == catalogue().slips["cation-carries-spare-electrons"].hint


def test_supply_rule_counts_what_the_bath_holds():
    """Drawn baths keep R-SUPPLY: never more than 60 % of what they hold."""
    for drawn, _, _ in samples("electrolysis", "bath-left"):
        values = {name: drawn.cells[place] for name, place in drawn.graph.index.items()}
        assert values["n_B"] <= 0.60 * values["n_bath"]


FACTS = {
    "R-SUPPLY": (
        Facts(values={"n_B": 0.07, "n_bath": 0.10}), "0.07 mol of 0.1 mol in the bath would be deposited, more than 60%",
    ),
    "R-PLATE": (Facts(values={"thickness": 0.01}), "a coat of 100 µm is outside 1 to 50 µm"),
    "R-PLANT": (Facts(values={"I": 2.0}), "a plant runs on kiloamperes, not on 2 A"),
    "R-GAS": (Facts(values={"p_gas": 900.0}), "a pressure of 900 kPa is outside 10 to 500 kPa"),
    "R-CL": (
        Facts(salt="NaCl", state="aqueous", electrodes="inert", values={"c_halide": 0.1}),
        "chloride at 0.1 mol/L lies between 0.01 and 1 mol/L, where chlorine and oxygen form together",
    ),
    "R-STATE": (Facts(salt="NaCl"), "whether NaCl is molten or in water is not given"),
}  # fmt: skip
FINE = {
    "R-SUPPLY": Facts(values={"n_B": 0.07, "n_bath": 0.10}, renewed=True),
    "R-PLATE": Facts(values={"thickness": 10e-4, "j_plate": 0.02}),
    "R-PLANT": Facts(values={"I": 1e5, "t": 86400.0, "efficiency": 0.95}),
    "R-GAS": Facts(values={"p_gas": 100.0, "T": 298.15}),
    "R-CL": Facts(salt="NaCl", state="aqueous", electrodes="inert", values={"c_halide": 2.0}),
    "R-STATE": Facts(salt="NaCl", state="aqueous", electrodes="inert"),
}


@pytest.mark.parametrize("code", FACTS)
def test_a_rule_turns_down_what_could_not_be(code):
    facts, sentence = FACTS[code]
    assert RULES[code].check(facts) == sentence
    assert RULES[code].check(FINE[code]) is None


def test_other_limits_of_plates_plants_and_gases():
    """The second and third limit of each rule, each with its sentence."""
    assert bath_realism.plate(Facts(values={"j_plate": 0.5})) == "a current density of 50 A/dm2 is outside 0.5 to 10 A/dm2"
    assert bath_realism.plant(Facts(values={"t": 60.0})) == "a plant runs for hours, not for 1 min"
    assert bath_realism.plant(Facts(values={"efficiency": 0.5})) == "a current efficiency of 50% is outside 85 to 98 %"
    assert bath_realism.gas(Facts(values={"T": 400.0})) == "a temperature of 127 °C is outside 15 to 35 °C"


BAD = {
    "melt of a nitrate": ("    salts: [KNO3]\n    state: molten\n", "expected salts that are electrolysed molten; found `KNO3`. Take it out. [salt-state]"),
    "chloride without strength": ("    salts: [NaCl]\n    state: aqueous\n", "expected `concentration` beside `NaCl`; found none. As `concentration: {from: [2.0, 4.0]}`, see rule R-CL. [R-CL]"),
    "sodium anode": ("    salts: [CuSO4]\n    state: aqueous\n    electrodes: [Na]\n", "expected an anode that lasts in water; found `Na`. Take it out. [R-WATER]"),
    "metal anode in a melt": ("    salts: [NaCl]\n    state: molten\n    electrodes: [Cu]\n", "expected `electrodes: [inert]` in a melt; found a metal. Leave `electrodes` out. [electrodes]"),
}  # fmt: skip


@pytest.mark.parametrize("case", BAD)
def test_an_impossible_bath_is_refused_when_read(case, tmp_path):
    scenario, message = BAD[case]
    source = Path(__file__).parent / "bank"
    (tmp_path / "bank.yaml").write_text((source / "bank.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    good = (source / "cathode-in-water.yaml").read_text(encoding="utf-8")
    start, end = good.index("    salts:"), good.index("rules:")
    (tmp_path / "bad.yaml").write_text(good[:start] + scenario + good[end:], encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        load_bank(tmp_path)
    assert [each.split(": ", 2)[2] for each in str(caught.value).splitlines()] == [message]


def test_numbers_follow_plain_formulas():
    """Coats, gases and energies of every draw, worked out from the drawn values by one-line formulas."""
    for drawn, question, variant in samples("electrolysis", "coat-thickness"):
        g = {name: each.value for name, each in drawn.situation.given.items()}
        mass = g["efficiency:%"] / 100 * g["I"] * g["t:min"] * 60 * g["M"] / (g["z"] * g["F"])
        micrometres = mass / g["density"] / (2 * g["A_face"]) * 1e4
        key = dict(zip("ab", (key for _, key in keys(question, variant)), strict=True))["b"]
        assert Decimal(key["lo"]) <= Decimal(repr(micrometres)) <= Decimal(key["hi"])
    for drawn, question, variant in samples("electrolysis", "energy-per-kilogram"):
        g = {name: each.value for name, each in drawn.situation.given.items()}
        M = g["M"] if "M" in g else 2 * g["A.Cl"]
        energy = g["z"] * g["F"] * g["U_bath"] / (3600 * M * g["efficiency:%"] / 100)
        (_, key), *_ = keys(question, variant)
        assert Decimal(key["lo"]) <= Decimal(repr(energy)) <= Decimal(key["hi"])
