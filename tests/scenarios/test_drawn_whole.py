"""One scenario is not drawn half: electrode and salt fit, vessels last, and options that a draw does not have fall out of it."""

from __future__ import annotations

from decimal import Decimal
from textwrap import dedent

import pytest

from saltbridge.bank.bank import load_bank, survey_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.drawer import Drawer
from saltbridge.faults import Faulty
from saltbridge.render.text import question_text

BANK = "format: 1\nid: whole\ntitle: A bank for whole draws\n"
BATH = """
title: A bath
outcome: T6.4
level: core
scenario:
  salt bath: {salts: SALTS, state: aqueous, electrodes: ELECTRODES}
text: A solution of {{ salt.name }} with an anode of {{ anode.material }}. {{ caution }}
parts:
  - ask: What forms at the cathode?
    choose: product_cathode
    from: [cation.product_cathode, hydrogen.product_cathode, oxygen.product_anode]
"""


def bank_with(folder, template):
    """A bank of one template."""
    (folder / "bank.yaml").write_text(BANK, encoding="utf-8")
    (folder / "only.yaml").write_text(dedent(template).lstrip("\n"), encoding="utf-8")
    return folder


def bath(folder, salts, electrodes):
    bank = load_bank(bank_with(folder, BATH.replace("SALTS", salts).replace("ELECTRODES", electrodes)))
    return Composer(bank.templates[0], bank, catalogue(bank.folder))


def test_no_electrode_is_drawn_that_the_ions_would_attack(tmp_path):
    """Zinc in silver nitrate is coated without a current; copper in it too. IUPAC's potentials decide, as on the data sheet."""
    composer = bath(tmp_path, "[AgNO3, CuSO4, ZnSO4]", "[Zn, Cu, Ag, inert]")
    met = set()
    for number in range(60):
        drawn = composer.drawer.draw(f"practice {number}")
        met.add((drawn.situation.words["salt.name"], drawn.situation.words["anode.material"]))
        electrode = drawn.given("electrode.E0")
        assert electrode is None or Decimal(electrode.printed) >= Decimal(drawn.given("cation.E0").printed)
    assert {each for salt, each in met if salt == "silver nitrate"} == {"silver", "graphite"}
    assert {each for salt, each in met if salt == "zinc sulfate"} == {"zinc", "copper", "silver", "graphite"}


def test_where_no_electrode_fits_the_teacher_is_told(tmp_path):
    composer = bath(tmp_path, "[AgNO3]", "[Zn]")
    with pytest.raises(Faulty) as caught:
        composer.drawer.draw("practice 1")
    assert "electrodes" in str(caught.value)


def test_an_option_that_a_draw_does_not_have_falls_out_of_it(tmp_path):
    """In sulfuric acid there is no metal ion; the other two options stay."""
    composer = bath(tmp_path, "[CuSO4, H2SO4]", "[inert]")
    counts = {}
    for number in range(1, 21):
        variant = composer.variant(number, f"practice {number}")
        question = composer.question(variant)
        counts.setdefault("sulfuric" in question_text(question, variant), set()).add(len(question.parts[0].field.options))
    assert counts == {True: {2}, False: {3}}


def test_a_name_that_nothing_explains_does_not_fall_out(tmp_path):
    """A slip of the pen must be told, not pass for an option that this draw lacks."""
    folder = bank_with(
        tmp_path, BATH.replace("SALTS", "[CuSO4]").replace("ELECTRODES", "[inert]").replace("hydrogen.", "hydrogne.")
    )
    bank = load_bank(folder)
    seldom = Drawer(bank.templates[0], bank, catalogue(folder)).seldom_there
    assert seldom == {"parts[1]": ("cation.product_cathode", "oxygen.product_anode")}


def test_a_vessel_that_water_attacks_is_refused(tmp_path):
    template = """
    title: A vessel
    outcome: T3.4
    level: core
    scenario:
      reaction to judge: {metals: [Zn, Na, Cu]}
    text: A solution with {{ cathode.ion }} is kept in a vessel of {{ anode.metal }}.
    parts:
      - ask: Does it keep?
        choose: keeps
        from: ["yes", "no"]
    """
    _, faults = survey_bank(bank_with(tmp_path, template))
    told = (
        "only.yaml:5: scenario.reaction to judge.metals[2]: expected a metal that does not react with water, as a vessel or a strip in a "
        "solution; found `Na`. Known: `Mg`, `Al`, `Mn`, `Zn`, `Cr`, `Fe`, `Cd`, `Co`, `Ni`, `Sn`, `Pb`, `Cu`, `Ag`, `Au`. [R-WATER]"
    )
    assert [str(each) for each in faults] == [told]
