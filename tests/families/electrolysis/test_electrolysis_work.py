"""At the command line every quantity of electrolysis is known and found, each relation solved for each of its names."""

from __future__ import annotations

import pytest

from saltbridge.api import known_names, work, working_out
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.faults import Faulty

FAMILY = [relation for relation in catalogue().relations.values() if relation.family.startswith("Electrolysis:")]
CONSTANT = {"F", "R"}
WAYS = [
    (relation.id, unknown)
    for relation in FAMILY
    for unknown in relation.symbols
    if unknown not in CONSTANT and not catalogue().quantities[unknown].constant
]


@pytest.mark.parametrize(("name", "unknown"), WAYS)
def test_each_relation_is_solved_for_each_unknown(name, unknown):
    """The values of its first outside case, all but one told; the last comes back."""
    relation = catalogue().relations[name]
    values = relation.cases[0].values
    know = [
        f"{symbol} = {values[symbol]:f} {catalogue().quantities[symbol].unit}".strip() for symbol in values if symbol != unknown
    ]
    know = [_whole(text) for text in know if text.split(" = ")[0] not in CONSTANT]
    quantity = catalogue().quantities[unknown]
    found = work(None, know, unknown, quantity.unit or None)
    share = 100 if quantity.show == "%" else 1
    assert found["value"] == pytest.approx(values[unknown] * share, rel=3e-3)


def _whole(text):
    name = text.split(" = ")[0]
    return text.replace(".000000", "") if catalogue().quantities[name].whole else text


def test_every_quantity_of_the_family_is_listed():
    shown = known_names()
    for symbol in {symbol for relation in FAMILY for symbol in relation.symbols}:
        assert f"  {symbol} " in shown, symbol
    for word in (
        "gas",
        "second",
        "coating",
        "salt",
        "state",
        "electrodes",
        "impurity",
        "product_cathode",
        "bath_equation",
        "runs",
    ):
        assert f"  {word} " in shown, word


@pytest.mark.parametrize(
    ("find", "know"),
    [
        ("pH", ["c_salt = 0.10 mol/L"]),
        ("c_salt", ["c_bath = 0.10 mol/L"]),
        ("V_bath", ["V_gas = 24 dm3", "V_m = 24 dm3/mol"]),
        ("thickness", ["V_gas = 24 dm3", "A_plated = 1 cm2"]),
        ("U_bath", ["U_supply = 3 V", "q = 10 C"]),
        ("E_cell", ["U_bath = 3 V"]),
        ("m_2", ["m = 1 g"]),
        ("I", ["j_plate = 1 A/dm2", "A_face = 1 cm2"]),
    ],
)
def test_no_nonsense_path_is_planned(find, know):
    """Quantities that share a letter but not a meaning are never joined."""
    with pytest.raises(Faulty) as caught:
        work(None, know, find)
    assert {each.code for each in caught.value.faults} == {"not-derivable"}


REFUSED = {
    ("U_min", "E0_cell = 1.10 V"): "expected U_min not below zero; found -1.10 V from what is given [impossible]",
    ("V_gas", "gas = H2", "q = 100 C", "T = 20 °C"): (
        "expected enough to derive V_gas; found q and T. Also give one of V_m, p_gas. [not-derivable]"
    ),
    ("V_gas", "gas = Hx", "q = 100 C"): (
        "expected the formula of a product; found Hx. Did you mean H2? [unknown-product]"
    ),
    ("m", "gas = H2", "metal = Cu", "q = 100 C"): (
        "expected one product; found a metal and gas = H2. Write second = … [two-products]"
    ),
    ("c_left", "metal = Ag", "q = 9650 C", "c_bath = 0.10 mol/L", "V_bath = 500 mL"): (
        "expected c_left not below zero; found -0.100 mol/L from what is given [impossible]"
    ),
    ("product_cathode", "salt = CuSO4", "electrodes = inert"): (
        "expected state = molten or state = aqueous; found no state. Products depend on it. [R-STATE]"
    ),
    ("product_cathode", "salt = CuSO4", "state = aqueous"): (
        "expected electrodes = inert, or the metal of the anode; found none. An active anode dissolves; an inert one does not. [R-STATE]"
    ),
    ("product_cathode", "salt = CuSO4", "state = molten"): (
        "expected a salt that is electrolysed as a melt; found CuSO4. It decomposes, or no one electrolyses it so. "
        "Take state = aqueous. [salt-state]"
    ),
    ("product_cathode", "salt = Al2O3", "state = aqueous", "electrodes = inert"): (
        "expected a salt that dissolves and lasts in water; found Al2O3. Take state = molten. [salt-state]"
    ),
    ("product_anode", "salt = CuSO4", "state = aqueous", "electrodes = Na"): (
        "expected an anode that lasts in water; found sodium: reacts violently with water. "
        "Take electrodes = inert, or copper, silver, nickel or zinc. [R-WATER]"
    ),
    ("product_anode", "salt = CuSO3", "state = aqueous", "electrodes = inert"): (
        "expected the formula of a salt of the table; found CuSO3. Near: CuSO4, Cu(NO3)2. [unknown-salt]"
    ),
    ("impurity_fate", "impurity = Zn"): 'expected metal beside impurity; found none. As "metal = Cu". [also-needed]',
    ("impurity_fate", "metal = Cu", "impurity = Cu"): (
        "expected impurity_fate to exist; found the values are equal, so neither can be chosen [undefined]"
    ),
    ("n_B", "n_left = -1 mol", "n_bath = 2 mol"): "n_left = -1 mol: expected n_left not below zero; found -1 mol [impossible]",
    ("product_anode", "salt = NaCl", "state = aqueous", "electrodes = inert"): (
        "expected enough to derive product_anode; found nothing that leads there. Also give one of c_halide, c_salt. [not-derivable]"
    ),
}  # fmt: skip


@pytest.mark.parametrize("asked", REFUSED, ids=" ".join)
def test_what_cannot_be_is_refused_in_one_sentence(asked):
    find, *know = asked
    with pytest.raises(Faulty) as caught:
        work(None, know, find)
    assert str(caught.value) == REFUSED[asked]


def test_a_strong_supply_is_no_slip_of_the_pen():
    """Twelve volts of a supply are fine where twelve volts of a cell are not."""
    know = ["salt = CuSO4", "state = aqueous", "electrodes = inert"]
    assert work(None, [*know, "U_supply = 12 V"], "runs")["text"] == "yes"
    assert work(None, [*know, "U_supply = 0.50 V"], "runs")["text"] == "no"


def test_zinc_deposits_and_says_why():
    """The sentence on overpotential stands where potentials alone would mislead a reader."""
    found = work(None, ["salt = ZnSO4", "state = aqueous", "electrodes = inert"], "product_cathode")
    assert found["text"] == "Zn"
    assert any("overpotential" in step["say"] for step in found["steps"])


def test_words_are_not_told_for_nothing():
    """Words that a theme reads are not listed as unused."""
    text = working_out(None, ["salt = CuSO4", "state = aqueous", "electrodes = inert"], "product_cathode").text()
    assert "Not needed" not in text


def test_a_caution_does_not_say_what_forms():
    """Two concentrations of brine give chlorine or oxygen; both are cautioned alike, and neither product is named."""
    brine = ["salt = NaCl", "state = aqueous", "electrodes = inert"]
    first, second = (working_out(None, [*brine, f"c_salt = {each} mol/L"], "product_anode") for each in ("4.0", "0.0010"))
    assert first.data["text"] != second.data["text"]
    assert first.notes == second.notes
    assert not [note for note in first.notes if "chlorine" in note.lower() or "oxygen" in note.lower()]


@pytest.mark.parametrize(
    ("know", "said"),
    [
        (["salt = NaCl", "state = aqueous", "electrodes = inert", "c_salt = 4.0 mol/L"], "never at home"),
        (["salt = NaCl", "state = molten"], "by the teacher only"),
        (["salt = KI", "state = aqueous", "electrodes = inert"], "fume cupboard"),
        (["salt = NiSO4", "state = aqueous", "electrodes = Ni"], "gloves"),
        (["salt = H2SO4", "state = aqueous", "electrodes = inert"], "toxic or burns"),
        (["salt = CuSO4", "state = aqueous", "electrodes = Cu"], "toxic or burns"),
    ],
)
def test_a_bath_says_its_caution_and_defers_to_local_rules(know, said):
    text = " ".join(working_out(None, know, "product_anode").text().split())
    assert said in text
    assert "rules of your school come first." in text
