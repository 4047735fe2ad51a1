"""Laws of electrolysis at full precision: proportions, conservation, balance, and one answer for every way round."""

from __future__ import annotations

from itertools import product

import pytest
from families.family_cases import flat
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.api import work
from saltbridge.chemistry.equations import imbalance, parse_equation
from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.tables import metals, sheet
from saltbridge.tables.electrolytes import discharge_rules, electrolytes, read_discharge_rules

few = settings(max_examples=25, deadline=None)
symbols = st.sampled_from(["Cu", "Ag", "Zn", "Ni", "Cr", "Al", "Au", "Pb", "Sn"])
amperes, minutes = st.integers(1, 400), st.integers(1, 500)
CLOSE = 1e-11


def found(find, *know):
    """The value of a quantity from what is given, in its usual unit."""
    return work(None, [text for text in know if text], find)["value"]


@few
@given(symbols, amperes, minutes, st.integers(2, 9))
def test_mass_scales_with_current_and_with_time(metal, centi, time, times):
    once = found("m", f"metal = {metal}", f"I = {centi} mA", f"t = {time} min")
    assert found("m", f"metal = {metal}", f"I = {centi * times} mA", f"t = {time} min") == pytest.approx(once * times, rel=CLOSE)
    assert found("m", f"metal = {metal}", f"I = {centi} mA", f"t = {time * times} min") == pytest.approx(once * times, rel=CLOSE)


@few
@given(symbols, symbols, st.integers(1, 900))
def test_two_cells_in_series_lead_back_to_the_first(first, second, milligrams):
    """The second mass from the first, and with the places changed the first from the second."""
    there = found("m_2", f"metal = {first}", f"m = {milligrams} mg", f"second = {second}")
    back = found("m_2", f"metal = {second}", f"m = {there!r} g", f"second = {first}")
    assert back == pytest.approx(milligrams / 1000, rel=1e-9)


@few
@given(amperes, minutes, st.integers(274, 320), st.integers(50, 400))
def test_hydrogen_has_twice_the_volume_of_oxygen(current, time, kelvin, kilopascals):
    know = (f"I = {current} mA", f"t = {time} min", f"T = {kelvin} K", f"p_gas = {kilopascals} kPa")
    assert found("V_gas", "gas = H2", *know) == pytest.approx(2 * found("V_gas", "gas = O2", *know), rel=CLOSE)


@few
@given(symbols, st.integers(1, 50), st.integers(10, 900))
def test_a_coat_holds_the_mass_that_was_deposited(metal, centi, area):
    know = (f"coating = {metal}", f"I = {centi}0 mA", "t = 30 min", f"A_plated = {area} cm2")
    thickness = found("thickness", *know) * 1e-4
    assert thickness * area * float(metals()[metal].density) == pytest.approx(found("m", *know), rel=1e-9)


@few
@given(st.integers(1, 40), st.integers(1, 60))
def test_what_is_left_and_what_is_deposited_add_up(current, time):
    know = ("metal = Cu", f"I = {current}0 mA", f"t = {time} min", "c_bath = 1.0 mol/L", "V_bath = 500 mL")
    assert found("n_left", *know) + found("n_B", *know) == pytest.approx(0.5, rel=CLOSE)


@few
@given(symbols, st.integers(10, 60), st.integers(50, 99))
def test_energy_for_a_kilogram_rises_with_voltage_and_falls_with_efficiency(metal, decivolts, percent):
    plain = found("w_el", f"metal = {metal}", f"U_bath = {decivolts / 10} V", "efficiency = 100 %")
    assert found("w_el", f"metal = {metal}", f"U_bath = {decivolts / 10} V", f"efficiency = {percent} %") == pytest.approx(
        plain * 100 / percent, rel=CLOSE
    )
    assert found("w_el", f"metal = {metal}", f"U_bath = {decivolts / 20} V", "efficiency = 100 %") == pytest.approx(
        plain / 2, rel=CLOSE
    )


def test_energy_for_a_kilogram_is_energy_over_mass():
    """Two routes: charge for a gram, and charge and mass of a day's work."""
    day = ("metal = Al", "U_bath = 4.2 V", "I = 150 kA", "t = 24 h", "efficiency = 95 %")
    assert found("w_el", *day) == pytest.approx(found("W_el", *day) / (found("m", *day) / 1000), rel=1e-9)


# ------------------------------------------------------------------ products


def baths():
    """Every bath that the table allows, with chlorides concentrated and dilute."""
    for salt, state, anode in product(electrolytes().values(), ("molten", "aqueous"), ("inert", "Cu")):
        if (salt.molten if state == "molten" else salt.aqueous) and (state == "aqueous" or anode == "inert"):
            for strength in ("2.0", "0.0010") if salt.anion == "Cl^-" and state == "aqueous" else ("",):
                yield salt, state, anode, strength


ALL = list(baths())


def told(salt, state, anode, strength):
    """A bath in the words of the command line."""
    return [
        f"salt = {salt.formula}",
        f"state = {state}",
        f"electrodes = {anode}",
        f"c_salt = {strength} mol/L" if strength else "",
    ]


@pytest.mark.parametrize("bath", ALL, ids=lambda bath: "-".join([bath[0].formula, bath[1], bath[2], bath[3]]))
def test_every_bath_is_balanced_and_obeys_the_plain_rule(bath):
    """Half-equations and the overall equation balance, and the products are those of a rule written apart."""
    know = told(*bath)
    for find in ("half_cathode", "half_anode", "bath_equation"):
        assert not imbalance(parse_equation(found_text(find, know)))
    assert (flat(found_text("product_cathode", know)), flat(found_text("product_anode", know))) == plain_products(*bath)


def found_text(find, know):
    """What a rule gave, as text."""
    return work(None, [text for text in know if text], find)["text"]


E0 = {row.couple: float(row.E0) for row in sheet("college").rows}
ELEMENT = {"Cl^-": "Cl2", "Br^-": "Br2", "I^-": "I2", "F^-": "F2", "O^2-": "O2", "H^-": "H2", "OH^-": "O2"}


def plain_products(salt, state, anode, strength):
    """The products by a rule of our own: the table's highest and lowest potentials, with chloride as the exception."""
    metal = salt.cation.partition("^")[0]
    if state == "molten":
        return metal, ELEMENT[salt.anion]
    cathode = metal if metal != "H" and E0[salt.cation_couple] > E0["H2O/H2"] else "H2"
    oxygen = E0["O2/OH^-"] if salt.anion == "OH^-" else E0["O2/H2O"]
    if anode != "inert":
        assert E0[metals()[anode].couple] < oxygen or salt.anion == "OH^-"
        if E0[metals()[anode].couple] < min(oxygen, E0.get(salt.anion_couple, 9.0)):
            return cathode, metals()[anode].ion.replace("^", "")
    if strength and anode == "inert":
        return cathode, "Cl2" if float(strength) >= 1 else "O2"
    first = min((oxygen, "O2"), (E0.get(salt.anion_couple, 9.0) if salt.anion != "OH^-" else 9.0, ELEMENT.get(salt.anion, "")))
    return cathode, first[1]


@pytest.mark.parametrize("strength", ["0.011", "0.10", "0.50", "0.99"])
def test_chloride_between_the_limits_is_refused(strength):
    with pytest.raises(Faulty) as caught:
        work(None, ["salt = NaCl", "state = aqueous", "electrodes = inert", f"c_salt = {strength} mol/L"], "product_anode")
    assert str(caught.value) == (
        f"expected one product at each electrode; found {float(strength):g} mol/L lies between 0.01 and 1 mol/L, where both form. "
        "See rule R-CL. [undecided]"
    )


def test_two_chloride_ions_count_twice():
    """0.5 mol/L of calcium chloride holds 1 mol/L of chloride."""
    assert found_text("product_anode", ["salt = CaCl2", "state = aqueous", "electrodes = inert", "c_salt = 0.50 mol/L"]) == "Cl₂"


def test_every_rule_of_discharge_has_a_source():
    assert all(len(rule.source) > 20 for rule in discharge_rules().values())


@pytest.mark.parametrize(
    ("salt", "electrode", "water", "pH", "other"),
    [("ZnSO4", "cathode", "H2O/H2", 14, "Zn^2+/Zn"), ("NaBr", "anode", "O2/H2O", 0, "Br2(l)/Br^-")],
)
def test_where_overpotential_decides_the_sentence_tells_at_which_pH_the_printed_value_of_water_holds(
    salt, electrode, water, pH, other
):
    """Read as printed the two values name the product without overpotential; at pH 7 (slope 0.0592 V, Gold Book) they do not."""
    values = {each.couple: float(each.E0) for each in sheet("college").rows}
    neutral = values[water] + 0.0592 * (pH - 7)
    assert (values[water] < values[other]) != (neutral < values[other])
    steps = work(None, [f"salt = {salt}", "state = aqueous", "electrodes = inert"], f"product_{electrode}")["steps"]
    assert any(f"is that of pH {pH}." in step["say"] for step in steps)


def test_a_rule_without_a_limit_holds_no_number(tmp_path):
    """Where a potential decides, it is the data sheet's."""
    assert {each.id: each.value for each in discharge_rules().values() if each.holds == "holds"} == {
        "hydrogen overpotential": "",
        "oxygen overpotential": "",
    }
    table = tmp_path / "discharge_rules.csv"
    text = (shipped("data") / "discharge_rules.csv").read_text(encoding="utf-8")
    table.write_text(text.replace("Br^-,holds,,,", "Br^-,holds,0.82,V,"), encoding="utf-8")
    with pytest.raises(Faulty) as told:
        read_discharge_rules(table)
    assert [str(fault) for fault in told.value.faults] == [
        'discharge_rules.csv:5: value: expected empty cells for value and unit, as the rule has no limit; found "0.82" [bad-cell]'
    ]


PH = {
    ("NaCl", "inert"): "rises", ("Na2SO4", "inert"): "stays", ("CuSO4", "inert"): "falls", ("AgNO3", "inert"): "falls",
    ("KI", "inert"): "rises", ("CuCl2", "inert"): "stays", ("H2SO4", "inert"): "stays", ("HCl", "inert"): "rises", ("CuSO4", "Cu"): "stays",
}  # fmt: skip


@pytest.mark.parametrize("bath", PH)
def test_the_ph_changes_as_the_equation_tells(bath):
    """Acid or base among the products of the overall equation decides, read from the equation apart from the rule."""
    salt, electrodes = bath
    know = [f"salt = {salt}", "state = aqueous", f"electrodes = {electrodes}", "c_salt = 2.0 mol/L"]
    left, _, right = found_text("bath_equation", know).partition("->")
    made = ("OH^-" in right) + ("H^+" in left.replace("OH", "")) - ("H^+" in right.replace("OH", "")) - ("OH^-" in left)
    assert found_text("pH_change", know) == PH[bath] == {1: "rises", 0: "stays", -1: "falls"}[made]
