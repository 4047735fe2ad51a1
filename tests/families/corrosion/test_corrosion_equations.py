"""What dissolves is oxidised: a block and a corroding surface have the half-equation of an anode and no other."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty

BANK = Path(__file__).parent / "bank"


def first(tmp_path, template, balance):
    """The first variant of a template that also asks for a half-equation."""
    folder = shutil.copytree(BANK, tmp_path / "bank")
    file = folder / f"{template}.yaml"
    file.write_text(file.read_text("utf-8") + f"  - ask: Write the half-equation.\n    balance: {balance}\n", "utf-8")
    bank = load_bank(folder)
    made = Composer(bank.template(template), bank, catalogue())
    return made.variant(1, practice_seed(1))


@pytest.mark.parametrize(("template", "metals"), [("life-of-block", {"Zn", "Mg"}), ("rust-loss", {"Fe"})])
def test_a_metal_that_dissolves_has_an_anode(tmp_path, template, metals):
    right = first(tmp_path, template, "anode half").judge[-1]["right"]
    assert right in {f"{metal} -> {metal}^2+ + 2 e-" for metal in metals}


@pytest.mark.parametrize("template", ["life-of-block", "rust-loss"])
def test_its_cathode_is_refused_with_what_there_is(tmp_path, template):
    with pytest.raises(Faulty) as caught:
        first(tmp_path, template, "cathode half")
    (found,) = caught.value.faults
    assert (found.code, found.found, found.hint) == ("no-equation", "balance: cathode half", "It has `balance: anode half`.")
    assert found.file == f"{template}.yaml"
