"""Every kind of scenario has a template in the tests, and every name that it draws is described, printed and of use."""

from __future__ import annotations

from functools import cache

import pytest
from snapshot.taking import banks

from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.naming import explain
from saltbridge.compose.context import Context
from saltbridge.compose.printing import Printer
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.misfits import OF_PRINT, mentions
from saltbridge.draw.seeds import practice_seed
from saltbridge.forms.conditions import NAME
from saltbridge.graph.laws import Fact, Given, Rule, quantity_of
from saltbridge.scenarios.coded import CODED
from saltbridge.scenarios.joining import DIAGRAM

KINDS = catalogue().scenarios
DRAWS = 8
"""Of each template, so that what only some draws have is met too."""


@cache
def drawn(kind: str) -> tuple[tuple[Template, Drawn, Printer], ...]:
    """Some variants of every template of a kind."""
    found = []
    for bank in banks().values():
        known = catalogue(bank.folder)
        for template in bank.templates:
            if template.scenario.kind == kind:
                drawer = Drawer(template, bank, known)
                printer = Printer(bank.settings, known)
                found += [(template, drawer.draw(practice_seed(number)), printer) for number in range(1, DRAWS + 1)]
    return tuple(found)


def names_of(each: Drawn) -> set[str]:
    """What a template may print, ask, choose or order here: labels, words, lists, choices and quantities."""
    situation = each.situation
    choices = {law.node for law in situation.laws if isinstance(law, Rule | Fact)}
    numbers = {name.split(":")[0] for name in situation.given} | {name.split(":")[0] for name in each.graph.index}
    quantities = {name for name in numbers if quantity_of(name, each.catalogue.quantities) is not None}
    return {name for name in {*situation.labels, *situation.words, *each.lists, *choices, *quantities} if NAME.fullmatch(name)}


def test_a_kind_stands_in_data_or_keeps_code():
    """A kind without draws has a model and a drawing in code; the cell told by its diagram needs neither."""
    assert {kind for kind, entry in KINDS.items() if not entry.draws} == {*CODED, DIAGRAM}


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != DIAGRAM])
def test_every_kind_has_a_template_in_the_tests(kind):
    assert drawn(kind)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != DIAGRAM])
def test_every_name_that_is_drawn_or_used_is_described(kind):
    there = {name for _, each, _ in drawn(kind) for name in names_of(each)}
    used = {
        name for template, each, _ in drawn(kind) for _, names in mentions(template) for name in names if name not in each.extra
    }
    asked = {
        name for name in there | used - OF_PRINT if not name.startswith(("row.", "each."))
    }  # words of a table's row are the table's own, and a row of an answer stands for a described thing
    assert sorted(name for name in asked if not explain(name, KINDS[kind], catalogue())) == []


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != DIAGRAM])
def test_every_name_that_is_described_is_drawn(kind):
    """By itself, with a number behind it, or as the owner of a part."""
    there = {name for _, each, _ in drawn(kind) for name in names_of(each)}
    met = {short for name in there for short in _shorter(name)}
    other = KINDS[kind].names_as_in
    assert sorted(KINDS[kind].names.keys() - met - (KINDS[other].names.keys() if other else set())) == []


def _shorter(name: str) -> set[str]:
    """A name, its owners, and each without numbers."""
    parts = name.split(".")
    owners = {".".join(parts[:count]) for count in range(1, len(parts) + 1)}
    plain = {".".join(part.rstrip("0123456789") for part in each.split(".")) for each in owners}
    return owners | plain


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != DIAGRAM])
def test_every_name_that_is_drawn_is_printed(kind):
    """Labels, words and quantities that are known read as something; a choice reads by what it comes out as."""
    for _, each, printer in drawn(kind):
        context = Context(printer, each)
        for name in names_of(each):
            if name in each.situation.labels or name in each.situation.words or isinstance(each.given(name), Given):
                if isinstance(getattr(each.given(name), "value", None), str):
                    continue
                assert context.shown(name)
