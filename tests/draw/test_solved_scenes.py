"""A drawer that has drawn much gives what a new one gives: what it keeps changes the time alone."""

from __future__ import annotations

import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.draw import solved_scenes
from saltbridge.draw.drawer import Drawer
from saltbridge.home import shipped

BANK = load_bank(shipped("question_templates"))


def _told(drawn):
    """All that a draw says, apart from the print of its names."""
    situation = drawn.situation
    outcomes = {
        node: (each.right, each.rounded, [(slip.point.slip.id, slip.printed) for slip in each.slips])
        for node, each in drawn.outcomes.items()
    }
    return situation.given, situation.laws, situation.words, situation.labels, drawn.extra, drawn.written, outcomes


@pytest.mark.parametrize("name", [each.id for each in BANK.templates])
def test_a_used_drawer_draws_as_a_new_one(name):
    template = BANK.template(name)
    used = Drawer(template, BANK, catalogue())
    for number in range(40):
        used.draw(f"used {number}")

    for seed in ("used 3", "one", "two", "three", "four", "used 39"):
        assert _told(used.draw(seed)) == _told(Drawer(template, BANK, catalogue()).draw(seed))


def test_what_is_kept_is_bounded_and_nothing_hangs_on_it(monkeypatch):
    template = BANK.template("unequal-charges")
    freely = [_told(Drawer(template, BANK, catalogue()).draw(f"bound {number}")) for number in range(12)]
    monkeypatch.setattr(solved_scenes, "MOST_KEPT", 2)
    drawer = Drawer(template, BANK, catalogue())

    assert [_told(drawer.draw(f"bound {number}")) for number in range(12)] == freely
    assert len(drawer._solved._kept) <= 2


def test_a_draw_that_the_numbers_of_its_scene_refuse_counts_for_them_alone():
    template = BANK.template("unequal-charges")
    drawer = Drawer(template, BANK, catalogue())
    for number in range(60):
        drawer.draw(f"refused {number}")
    refused = dict(drawer.log.lines())
    electrons = next(reason for reason in refused if reason.what == "n_cathode != n_anode")

    assert electrons.key == "keep only if[1]"
    assert refused[electrons] > drawer.log.rejected / 3
    assert sum(refused.values()) >= drawer.log.rejected
