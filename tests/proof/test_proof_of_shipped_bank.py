"""The shipped bank has no faults and no warnings, and every number in it has a second route."""

from __future__ import annotations

import pytest

from saltbridge.deliver.proof.proof_run import prove
from saltbridge.home import shipped

DRAWS = 60  # enough for the checks that count draws


@pytest.fixture(scope="module")
def proof():
    return prove(shipped("question_templates"), DRAWS)


def test_the_shipped_bank_has_no_faults_and_no_warnings(proof):
    assert [str(each.fault) for each in proof.findings if each.weight != "note"] == []


def test_every_number_of_it_is_independently_checked(proof):
    assert [str(each.fault) for each in proof.findings if each.fault.code == "not-checked"] == []


def test_every_template_of_it_is_drawn_as_often_as_wanted(proof):
    assert {each.template.id: each.tally.draws for each in proof.templates if each.tally.draws != DRAWS} == {}
