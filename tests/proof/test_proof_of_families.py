"""The families' small banks have no faults, whatever their templates ask."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from saltbridge.deliver.proof.proof_run import prove

BANKS = sorted((Path(__file__).parents[1] / "families").glob("*/bank"))


def test_every_family_has_a_bank():
    assert len(BANKS) >= 10


@pytest.mark.parametrize("bank", BANKS, ids=[bank.parent.name for bank in BANKS])
def test_a_family_bank_has_no_faults(bank):
    with ThreadPoolExecutor(1) as here:
        proof = prove(bank, 40, executor=here)
    assert [str(each.fault) for each in proof.weighing("fault")] == []
    assert {each.template.id for each in proof.templates if each.tally.draws != 40} == set()
