"""Options and things to order as a variant shows them: no place gives the answer away, and errors of an order are told."""

from __future__ import annotations

from pathlib import Path

import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.faults import Faulty

BANK = "format: 1\nid: pier\ntitle: Pier Bank\n"
CELL = """\
title: A cell
outcome: T4.6
level: core
scenario:
  galvanic cell: {metals: [Zn, Fe, Cu, Ag]}
text: A cell of {{ left.metal }} and {{ right.metal }}.
parts:
  - ask: How does its potential change while it runs?
    choose: It falls to zero.
    from: [It rises., It stays., It falls to zero.]
  - ask: On which side is the anode?
    choose: anode
    from: [left, right]
"""
BENCH = """\
title: Readings
outcome: T9.3
level: core
scenario:
  bench: {reference: Cu, metals: [Zn, Fe, Ag]}
must reveal: [SLIP]
text: "{{ s1.metal }} {{ s1.reading }}, {{ s2.metal }} {{ s2.reading }}, {{ s3.metal }} {{ s3.reading }}."
parts:
  - ask: Put the metals in order.
    order: metals
    by: reading
"""


def _variants(folder: Path, text: str, count: int):
    (folder / "bank.yaml").write_text(BANK, "utf-8")
    (folder / "one.yaml").write_text(text, "utf-8")
    bank = load_bank(folder)
    composer = Composer(bank.templates[0], bank, catalogue())
    return [composer.variant(number, f"try {number}") for number in range(1, count + 1)]


def test_the_right_one_of_fixed_options_changes_its_place(tmp_path):
    made = _variants(tmp_path, CELL, 30)
    assert {each.judge[0]["right"][0] for each in made} == {0, 1, 2}


def test_options_whose_answer_is_drawn_stay_as_written(tmp_path):
    made = _variants(tmp_path, CELL, 30)
    assert {each.judge[1]["right"][0] for each in made} == {0, 1}


def test_an_order_reveals_a_sign_dropped(tmp_path):
    """Silver reads above zero and less far from it than zinc, so that sizes without signs come in another order."""
    made = _variants(tmp_path, BENCH.replace("SLIP", "signs-dropped-in-ranking"), 12)
    assert all("signs-dropped-in-ranking" in next(iter(each.judge[0]["slips"].values())) for each in made)


def test_an_order_does_not_reveal_what_is_no_error_of_it(tmp_path):
    with pytest.raises(Faulty, match="rejects-almost-every-draw"):
        _variants(tmp_path, BENCH.replace("SLIP", "minutes-used-as-seconds"), 1)


def test_no_order_begins_as_the_right_one(tmp_path):
    made = _variants(tmp_path, BENCH.replace("SLIP", "signs-dropped-in-ranking"), 30)
    assert [each for each in made if list(each.judge[0]["right"]) == sorted(each.judge[0]["right"])] == []
