"""An old name of a key or a quantity is refused, and the fault says what it is called now."""

import shutil
from pathlib import Path

import pytest

from saltbridge.api import work
from saltbridge.bank.bank import load_bank
from saltbridge.bank.template import TemplateKeys
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.forms.validation_messages import nearest
from saltbridge.renamed import KEYS, NAMES, now_called
from saltbridge.scenarios.coded import CODED
from saltbridge.scenarios.declared_models import model_of

KINDS = catalogue().scenarios


def _keys() -> set[str]:
    """Every key of a template, of its scenario, and of what stands under a kind."""
    declared = (model_of(each) for each in KINDS.values() if each.draws)
    models = (TemplateKeys, *declared, *(each.model for each in CODED.values()))
    return {*KINDS, *(field.alias or name for model in models for name, field in model.model_fields.items())}


@pytest.mark.parametrize("old", KEYS)
def test_an_old_key_is_told_with_the_new_one(old):
    assert nearest(old, _keys()) == f"It is now called `{KEYS[old]}`."


def test_no_kind_of_scenario_bears_an_old_name():
    assert KINDS.keys().isdisjoint(KEYS)
    assert {KEYS[old] for old in ("works", "cells in series", "levelled cell", "scratched coat", "rust tubes")} <= KINDS.keys()


QUANTITIES = sorted(old for old, new in NAMES.items() if new in catalogue().quantities)


def test_quantities_are_among_the_names():
    assert len(QUANTITIES) == 13


@pytest.mark.parametrize("old", QUANTITIES)
def test_an_old_quantity_is_refused_at_the_command_line_with_the_new_one(old):
    with pytest.raises(Faulty) as caught:
        work(None, [f"{old} = 1"], "q")
    assert str(caught.value.faults[0]) == (
        f"{old} = 1: expected the name of a quantity; found {old}. It is now called {now_called(old)}. [unknown-quantity]"
    )


def test_an_old_word_of_an_option_is_told_with_the_new_one(tmp_path):
    """`minus` and `plus` stood for the signs of plates before."""
    shutil.copytree(Path(__file__).parents[1] / "families" / "batteries" / "bank", tmp_path / "bank")
    file = tmp_path / "bank" / "plates-on-charge.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("[negative, positive]", "[minus, plus]"), encoding="utf-8")
    bank = load_bank(tmp_path / "bank")
    with pytest.raises(Faulty) as raised:
        Composer(bank.template("plates-on-charge"), bank, catalogue()).variant(1, practice_seed(1))
    assert raised.value.faults[0].hint == "`minus` is now called `negative`. `plus` is now called `positive`."
