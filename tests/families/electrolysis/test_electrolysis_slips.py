"""Each slip of electrolysis gives the value of its own formula, worked out apart from right and wrong as teachers describe them."""

from __future__ import annotations

import pytest
from families.family_slips import own_formulas

from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.tables import sheet

SHEET = sheet("college")
F, R = (float(SHEET.constants[name].printed) for name in ("F", "R"))
MASS = {symbol: float(text) for symbol, text in SHEET.atomic_masses.items()}
E0 = {row.couple: float(row.E0) for row in SHEET.rows}
Q = 0.50 * 1200  # C, of 0.50 A for 20 min
BATH = ["I = 0.50 A", "t = 20 min"]
GAS = ["gas = O2", *BATH, "T = 25 °C", "p_gas = 100 kPa"]
V_M = R * 298.15 / 100

CASES = {
    # slip: (told, asked, right, wrong) with plain formulas
    "gas-electrons-per-atom": (GAS, "V_gas", V_M * Q / (4 * F) * 1000, V_M * Q / (2 * F) * 1000),
    "molar-volume-for-wrong-conditions": (GAS, "V_gas", V_M * Q / (4 * F) * 1000, 22.4 * Q / (4 * F) * 1000),
    "series-cells-equal-mass": (
        ["metal = Cu", "m = 1.20 g", "second = Ag"], "m_2", 1.20 * MASS["Ag"] / (MASS["Cu"] / 2), 1.20,
    ),
    "plated-area-one-face": (
        ["coating = Ag", *BATH, "A_face = 25 cm2", "faces = 2"], "thickness",
        Q * MASS["Ag"] / F / (10.5 * 2 * 25) * 1e4, Q * MASS["Ag"] / F / (10.5 * 25) * 1e4,
    ),
    "efficiency-upside-down-in-energy": (
        ["metal = Al", "U_bath = 4.2 V", "efficiency = 90 %"], "w_el",
        3 * F * 4.2 / (3600 * MASS["Al"] * 0.90), 3 * F * 4.2 * 0.90 / (3600 * MASS["Al"]),
    ),
    "minimum-voltage-negative": (
        ["salt = CuSO4", "state = aqueous", "electrodes = inert"], "U_min",
        abs(E0["O2/H2O"] - E0["Cu^2+/Cu"]), -abs(E0["O2/H2O"] - E0["Cu^2+/Cu"]),
    ),
    "minutes-used-as-seconds": (["metal = Cu", *BATH], "m", Q * MASS["Cu"] / (2 * F), 0.50 * 20 * MASS["Cu"] / (2 * F)),
    "no-electron-ratio": (["metal = Cu", *BATH], "m", Q * MASS["Cu"] / (2 * F), Q * MASS["Cu"] / F),
    "multiply-by-charge-number": (["metal = Cu", *BATH], "m", Q * MASS["Cu"] / (2 * F), Q * MASS["Cu"] * 2 / F),
    "milliamp-as-amp": (["metal = Cu", "I = 500 mA", "t = 1200 s"], "q", Q, 500 * 1200.0),
    "efficiency-upside-down": (
        ["metal = Cu", *BATH, "efficiency = 90 %"], "m", 0.90 * Q * MASS["Cu"] / (2 * F), Q * MASS["Cu"] / (2 * F * 0.90),
    ),
    "mass-proportional-to-voltage": (["metal = Ag", *BATH, "voltage_factor = 2"], "m", Q * MASS["Ag"] / F, 2 * Q * MASS["Ag"] / F),
}  # fmt: skip

test_a_slip_gives_the_value_of_its_own_formula = own_formulas(CASES)


@pytest.mark.parametrize(
    ("slip", "know", "find"),
    [
        ("no-electron-ratio", ["metal = Ag", *BATH], "m"),
        ("multiply-by-charge-number", ["metal = Ag", *BATH], "m"),
        ("series-cells-equal-mass", ["metal = Cu", "m = 1.20 g", "second = Cu"], "m_2"),
        ("plated-area-one-face", ["coating = Cu", *BATH, "A_face = 25 cm2", "faces = 1"], "thickness"),
        ("efficiency-upside-down", ["metal = Cu", *BATH, "efficiency = 100 %"], "m"),
        ("molar-volume-for-wrong-conditions", ["gas = O2", *BATH, "V_m = 22.4 dm3/mol"], "V_gas"),
        ("gas-electrons-per-atom", ["metal = Cu", *BATH], "m"),
    ],
)
def test_a_slip_that_gives_the_right_answer_is_dropped(slip, know, find):
    assert slip not in {each["id"] for each in work(None, know, find)["slips"]}


def test_a_silver_anode_beside_copper_still_counts_faces_and_grams():
    """Equal masses at both electrodes is told as the twin of equal masses in series."""
    slips = catalogue().slips
    assert slips["series-cells-equal-mass"].twins == ("equal-masses-both-electrodes",)
    assert slips["equal-masses-both-electrodes"].hint == slips["series-cells-equal-mass"].hint
