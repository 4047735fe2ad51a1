"""Whatever ``work --list`` names can be asked: each line has an example, and each example is worked."""

from __future__ import annotations

import re
import shlex

import pytest
from click.testing import CliRunner

from saltbridge.api import known_names, work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.listing import CONSTANTS_FAMILY, listed
from saltbridge.cli import main
from saltbridge.faults import Faulty

NAMES = [line for family, lines in listed(catalogue()).items() if family != CONSTANTS_FAMILY for line in lines]
SALT = ("state = aqueous", "electrodes = inert")


@pytest.mark.parametrize("line", NAMES, ids=lambda line: line.name)
def test_every_listed_name_is_worked_as_its_example_says(line):
    """It is found or given there, all that is given is needed, and a working leads to the answer."""
    example = line.example
    assert example is not None
    told = [each.partition("=")[0].strip() for each in example.given]
    assert line.name in {example.find, *told}
    done = work(example.diagram or None, example.given, example.find)
    assert done["text"].strip()
    assert done["unused"] == []
    assert done["steps"] or example.find in {"n", "equation"}


def test_the_list_shows_each_example_as_it_is_typed():
    shown = [line.strip() for line in known_names().splitlines() if " --find " in f" {line}"]
    assert len(shown) == len(NAMES)
    for text in (shown[0], *(each for each in shown if each.startswith('"'))):
        found = CliRunner().invoke(main, ["work", *shlex.split(text)])
        assert (found.exit_code, found.stderr) == (0, "")


# ------------------------------------------------------------------ what was listed and refused


@pytest.mark.parametrize(
    ("given", "find", "text"),
    [
        (("salt = SnCl2", *SALT), "product_cathode", "Sn"),
        (("salt = CuCl2", "c_salt = 1.0 mol/L", *SALT), "pH_change", "stays"),
        (("salt = MgCl2", "state = molten", "E0_cell = -3.7 V", "U_supply = 3.0 V"), "runs", "no"),
        (("structure = Fe", "protecting_metal = Cu, Mg, Sn"), "protector", "magnesium"),
        (("joined = Fe+Cu",), "orders", "agree"),
        (("U_pack = 12 V", "R_int = 0.2 ohm", "I = 1.0 A"), "U_term", "11.8 V"),
        (("E_cell = 12 V", "R_int = 0.2 ohm", "I = 1.0 A"), "U_term", "11.8 V"),
    ],
)
def test_what_was_refused_is_found(given, find, text):
    assert work(None, given, find)["text"] == text


def test_an_unsettled_anode_is_no_bar_to_the_cathode_and_asks_for_the_concentration():
    with pytest.raises(Faulty, match=r"Also give one of c_halide, c_salt"):
        work(None, ("salt = CuCl2", *SALT), "pH_change")


def test_the_voltage_of_a_melt_asks_for_its_own_potential():
    with pytest.raises(Faulty, match=r"hold in water, not in a melt"):
        work(None, ("salt = MgCl2", "state = molten"), "U_min")


def test_area_and_time_cancel_in_a_corrosion_rate():
    """1 microampere on a square centimetre of iron is 0.0116 mm a year (corrosion handbooks, from memory)."""
    assert work(None, ("j_corr = 1.0 uA/cm2", "metal = Fe", "density = 7.87 g/cm3"), "rate_corr")["value"] == pytest.approx(
        0.0116, abs=5e-5
    )


def test_a_mass_fraction_needs_no_flask():
    """21.40 cm3 of 0.02 mol/L permanganate take 2.14 mmol of iron(II), 0.1195 g of 0.500 g: arithmetic of the definitions."""
    told = ("V_titrant = 21.40 cm3", "c_titrant = 0.0200 mol/L", "nu_analyte = 5", "nu_titrant = 1")
    assert work(None, (*told, "M_analyte = 55.85 g/mol", "m_sample = 0.500 g"), "w_analyte")["value"] == pytest.approx(
        23.90, abs=0.005
    )


def test_a_change_told_of_a_diagram_has_its_direction_and_size():
    """A tenth of the copper ions at 25 °C: minus one slope over two electrons, 29.58 mV (OpenStax Chemistry 2e, section 17.4)."""
    daniell = "Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)"
    told = ("cell_change = dilute the cathode", "f_dilution = 10")
    assert work(daniell, told[:1], "direction")["text"] == "falls"
    assert work(daniell, told, "dE_shift")["value"] == pytest.approx(-29.58, abs=0.005)


def test_a_pressure_of_an_electrode_is_told_by_its_gas():
    with pytest.raises(Faulty, match=re.escape('"p(H2) = 0.50 bar"')):
        work("Pt(s) | H2(g) | H^+(aq) || Ag^+(aq) | Ag(s)", ("p_anode = 0.5 bar",), "E_cell")


@pytest.mark.parametrize(("volts", "allowed"), [("12 V", True), ("48 V", True), ("2000 V", False)])
def test_a_battery_of_several_cells_has_a_bound_of_its_own(volts, allowed):
    told = (f"E_cell = {volts}", "R_int = 0.2 ohm", "I = 1.0 A")
    if allowed:
        assert work(None, told, "U_term")["value"] == pytest.approx(float(volts.split()[0]) - 0.2)
    else:
        with pytest.raises(Faulty, match=r"within 1000 V, as in any battery or supply"):
            work(None, told, "U_term")


def test_one_cell_of_a_diagram_has_no_potential_of_a_battery():
    with pytest.raises(Faulty, match=r"E_cell within 10 V, as in any one cell"):
        work("Zn(s) | Zn^2+(aq, ?) || Cu^2+(aq) | Cu(s)", ("E_cell = 12 V",), "c_anode")
