"""The shipped bank has no faults, and every number in it has a second route."""

from __future__ import annotations

import pytest

from saltbridge.deliver.proof.proof_run import prove
from saltbridge.home import shipped


@pytest.fixture(scope="module")
def proof():
    return prove(shipped("question_templates"), 40)


def test_the_shipped_bank_has_no_faults(proof):
    assert [str(each.fault) for each in proof.weighing("fault")] == []


def test_every_number_of_it_is_independently_checked(proof):
    assert [str(each.fault) for each in proof.findings if each.fault.code == "not-checked"] == []


def test_every_template_of_it_is_drawn_as_often_as_wanted(proof):
    assert {each.template.id: each.tally.draws for each in proof.templates if each.tally.draws != 40} == {}
