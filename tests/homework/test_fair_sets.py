"""Fairness over sets: nothing that the site shows worked, nothing that an earlier set of the folder gave out, and it is said where that can't be."""

from __future__ import annotations

import shutil

import pytest
from homework.sets_for_tests import PLAN, make

from saltbridge.bank.bank import load_bank
from saltbridge.deliver.homework.loads import table
from saltbridge.deliver.homework.pools import site_keys
from saltbridge.deliver.homework.record import read_record
from saltbridge.faults import Faulty
from saltbridge.home import shipped

BANK = load_bank(shipped("question_templates"))


def draws(record, template):
    return [draw for entry in record.entries for draw in entry.draws if draw.template == template]


@pytest.mark.parametrize("template", ["two-metals", "mass-deposited"])
def test_nothing_stands_on_the_site(record, template):
    shown = site_keys(BANK, BANK.template(template))
    assert len(shown) > 10
    assert not {draw.key for draw in draws(record, template)} & shown.keys()


def test_an_earlier_set_of_the_folder_does_not_come_again(tmp_path, made_set, record, monkeypatch):
    (tmp_path / "earlier").mkdir()
    shutil.copy(made_set / "record.zip", tmp_path / "earlier" / "week-2.zip")
    seen = []
    make(tmp_path, tmp_path / "out", monkeypatch, secret="ab" * 16, plan=PLAN + "avoid: earlier\n", look=seen.append)
    later = read_record(tmp_path / "out" / "record.zip")
    for template in ("two-metals", "mass-deposited"):
        assert not {draw.key for draw in draws(later, template)} & {draw.key for draw in draws(record, template)}
    assert seen[0].loads[0].earlier == 4


def test_situations_and_templates_can_be_avoided_too(tmp_path, made_set, record, monkeypatch):
    (tmp_path / "earlier").mkdir()
    shutil.copy(made_set / "record.zip", tmp_path / "earlier" / "week-2.zip")
    make(tmp_path, tmp_path / "out", monkeypatch, secret="cd" * 16, plan=PLAN + "avoid: {folder: earlier, by: situation}\n")
    later = read_record(tmp_path / "out" / "record.zip")
    before = {draw.situation for draw in draws(record, "two-metals")}
    assert not {draw.situation for draw in draws(later, "two-metals")} & before
    with pytest.raises(Faulty) as told:
        make(tmp_path / "b", tmp_path / "other", plan=PLAN + "avoid: {folder: ../earlier, by: template}\n")
    assert [(each.code, each.key) for each in told.value.faults] == [
        ("set-before", "questions[1]"),
        ("set-before", "questions[2]"),
    ]


def test_a_folder_that_there_is_not_is_told(tmp_path):
    with pytest.raises(Faulty, match=r"plan.yaml:8: avoid: expected the folder of earlier records; found no folder `gone`"):
        make(tmp_path, tmp_path / "out", plan=PLAN + "avoid: gone\n")


MANY = tuple(f"{at:03d},F{at},S{at},11B" for at in range(1, 61))


def test_where_keys_run_out_they_are_shared_evenly_and_it_is_said_before_anything_is_written(tmp_path, monkeypatch):
    there = []

    def look(made):
        there.append(((tmp_path / "out").exists(), made))

    plan = PLAN[: PLAN.index("questions:")] + "questions:\n  - template: gibbs-energy\n"
    make(tmp_path, tmp_path / "out", monkeypatch, plan=plan, rows=MANY, look=look)
    ((existed, made),) = there
    assert not existed
    load = made.loads[0]
    assert load.given < 60
    assert load.shared_by <= -(-60 // load.given) + 1
    assert {"shared-keys"} <= {each.code for each in made.notes}
    assert f"up to {load.shared_by}" in table(made.loads)


def test_versions_of_a_class_match_and_the_table_says_how(made_set, tmp_path, monkeypatch):
    seen = []
    make(tmp_path, tmp_path / "out", monkeypatch, look=seen.append)
    load = seen[0].loads[1]
    assert load.likeness.steps
    assert load.likeness.signs
    assert load.likeness.charges
    assert load.likeness.factor <= 5.001
    assert "steps, signs, charges alike" in table(seen[0].loads)
