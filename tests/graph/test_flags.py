"""Flags of quantities: each does its work without Python, is read by code and is set by an entry."""

from __future__ import annotations

import math
import re
import shutil
from dataclasses import fields
from pathlib import Path

import pytest

import saltbridge
from saltbridge.api import working_out
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.catalogue_records import Flags
from saltbridge.catalogue.flags import COUNTED_BY, JUDGED
from saltbridge.compose.printing import Printer
from saltbridge.draw.drawer import Drawer
from saltbridge.faults import Faulty
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, How, Situation, instance, quantity_of
from saltbridge.graph.planner import plan
from saltbridge.graph.routes import Asked
from saltbridge.graph.walk import COUNTED, HALF, walk
from saltbridge.records import Settings

PLAIN = "{name: made up, base: X, unit: '', range: positive}"
RELATIONS = """
made-up:
  family: Energy and equilibrium
  equation: tau = omega*exp(phi)
  say: Put them into one another.
  valid: always
  source: made up for this test
  cases:
    - {tau: 2, omega: 2, phi: 0, source: made up for this test}
    - {tau: 3, omega: 3, phi: 0, source: made up for this test}
omega-made-up:
  family: Energy and equilibrium
  equation: omega = chi*psi
  say: Take them times one another.
  valid: always
  source: made up for this test
  cases:
    - {omega: 6, chi: 2, psi: 3, source: made up for this test}
    - {omega: 8, chi: 2, psi: 4, source: made up for this test}
"""
NAMES = ("tau", "omega", "phi", "chi", "psi")


OWN = Path(__file__).resolve().parents[1] / "build" / "own_bank"


@pytest.fixture
def bank(tmp_path: Path):
    """Writes a bank with these relations, whose quantities carry the flags given by name, and gives its folder."""

    def write(**flags: str) -> Path:
        shutil.copytree(OWN, tmp_path, dirs_exist_ok=True)
        own, relations = (OWN / f"{kind}.yaml" for kind in ("quantities", "relations"))
        lines = [f"{name}: {PLAIN[:-1]}{', ' + flags[name] if name in flags else ''}}}" for name in NAMES]
        (tmp_path / own.name).write_text(own.read_text(encoding="utf-8") + "\n".join(lines) + "\n", encoding="utf-8")
        (tmp_path / relations.name).write_text(relations.read_text(encoding="utf-8") + RELATIONS, encoding="utf-8")
        return tmp_path

    return write


def _graph(folder: Path, target: str, *given: str, read: str = "", counted: str = "") -> Graph:
    """The graph of ``target`` over the relations above, of 2 for each name given, one of them read or counted."""
    known = catalogue(folder)
    situation = Situation(laws=[instance(known.relations[name]) for name in ("made-up", "omega-made-up")])
    for name in given:
        how: How = "read" if name == read else "balance" if name == counted else "given"
        situation.given[name] = Given(2.0, "", "2.0", how, "the sheet" if how == "read" else "")
    return Graph(plan(situation, [target], (), known.quantities), known.rules, known.quantities)


def _width(folder: Path) -> float:
    low, high = working_out(None, ["omega = 2.00", "phi = 30.0"], "tau", bank=folder).data["accepted"]
    return math.log10(high / low)


def test_a_new_quantity_is_judged_by_logarithm(bank):
    """At least half of the last decimal of its lg is accepted on either side, and without the flag far less."""
    assert _width(bank()) < 0.05
    assert _width(bank(tau="judged: by logarithm")) >= 0.1 - 1e-6


def test_a_new_quantity_is_asked_in_a_question_as_it_is_judged(bank):
    folder = bank()
    path = folder / "quantities.yaml"
    text = path.read_text(encoding="utf-8")
    assert _asked(folder) == Asked(decimals=2)  # of a voltage as many as the sheet has
    for flags, asked in (
        ("range: positive, judged: by logarithm}", Asked(figures=2, log=True)),
        ("range: any, judged: to one decimal}", Asked(decimals=1)),
    ):
        path.write_text(text.replace("range: any}", flags), encoding="utf-8")
        assert _asked(folder) == asked


def _asked(folder: Path) -> Asked:
    bank = load_bank(folder)
    template = next(each for each in bank.templates if each.id == "spare")
    drawer = Drawer(template, bank, catalogue(folder))
    return drawer.find(template.parts[0]).asked


def test_a_new_quantity_is_silent(bank):
    """A value read from the data sheet has a line of its own, and none where its flag says so."""
    for flags, shown in (({}, ["omega", "tau"]), ({"omega": "silent: true"}, ["tau"])):
        graph = _graph(bank(**flags), "tau", "omega", "phi", read="omega")
        assert [step.node for step in walk(graph, "tau")] == shown


def test_a_new_number_is_counted_by_an_equation(bank):
    for flags, say in (({}, []), ({"omega": "counted by: half-equation"}, [HALF])):
        graph = _graph(bank(**flags), "tau", "omega", "phi", counted="omega")
        assert [step.say for step in walk(graph, "tau") if step.node == "omega"] == say


def test_what_is_seldom_given_is_named_last(bank):
    """Both that it is made from are named in its place."""
    assert _hint(bank()) == "Also give omega and phi."
    assert _hint(bank(omega="seldom given: true")) == "Also give chi, phi and psi."


def test_what_is_inner_is_not_named(bank):
    assert "omega" not in _hint(bank(omega="inner: true"))


def _hint(folder: Path) -> str:
    with pytest.raises(Faulty) as raised:
        _graph(folder, "tau")
    return raised.value.faults[0].hint


def test_a_numbered_name_stands_for_its_quantity(bank):
    known = catalogue(bank(omega="numbered: true")).quantities
    assert quantity_of("left.omega2", known) is quantity_of("omega", known) is known["omega"]
    assert quantity_of("left.phi2", known) is None


@pytest.mark.parametrize("flag", [each.name for each in fields(Flags)])
def test_every_flag_is_read_by_code_and_set_by_an_entry(flag: str):
    """Read as ``flags.NAME`` outside its reader; ``judged`` also by its two meanings."""
    room = Path(saltbridge.__file__).parent
    code = "\n".join(path.read_text(encoding="utf-8") for path in sorted(room.rglob("*.py")) if path.parent.name != "catalogue")
    assert re.search(rf"flags(_of\([^)]*\))?\.{flag}\b", code)
    assert [name for name, each in catalogue().quantities.items() if getattr(each.flags, flag)]


def test_every_value_of_a_flag_is_set_by_an_entry_and_has_its_sentence():
    found = [each.flags for each in catalogue().quantities.values()]
    assert {each.judged for each in found} == {"", *JUDGED}
    assert {each.counted_by for each in found} == {"", *COUNTED_BY}
    assert set(COUNTED) == set(COUNTED_BY)


@pytest.mark.parametrize(
    ("flags", "said"),
    [
        ("judged: by log", 'judged: expected one of "", by logarithm, to one decimal; found by log [bad-value]'),
        ("counted by: hand", 'counted by: expected one of "", cell equation, ion equation, half-equation, hydrogen ions; found hand [bad-value]'),
        ("silent: yes", "silent: expected true or false; found yes [bad-value]"),
        ("silnt: true", "silnt: expected a key of this kind of entry; found silnt. Did you mean silent? [unknown-key]"),
        ("whole: true, judged: by logarithm",
         "judged: expected a quantity that is not whole; found whole: true. Leave out judged: a whole number is asked whole. [bad-value]"),
        ("word: true, silent: true", "silent: expected a quantity that is a number; found word: true. Leave out silent. [bad-value]"),
    ],
)  # fmt: skip
def test_a_flag_that_cant_be_meant_is_told_at_its_line(bank, flags: str, said: str):
    folder = bank(omega=flags)
    with pytest.raises(Faulty) as raised:
        catalogue(folder)
    assert str(raised.value).splitlines()[0] == f"quantities.yaml:4: omega.{said}"


def test_judged_by_logarithm_needs_a_positive_number(tmp_path: Path):
    (tmp_path / "quantities.yaml").write_text("omega: {name: x, base: X, unit: V, judged: by logarithm}\n", encoding="utf-8")
    with pytest.raises(Faulty) as raised:
        catalogue(tmp_path)
    assert str(raised.value) == (
        "quantities.yaml:1: omega.judged: expected range: positive beside it; found any. "
        "Write range: positive, or leave out judged. [bad-value]"
    )


def test_a_numbered_name_ends_in_a_letter(tmp_path: Path):
    (tmp_path / "quantities.yaml").write_text("omega1: {name: x, base: X, unit: V, numbered: true}\n", encoding="utf-8")
    with pytest.raises(Faulty, match=r"omega1\.numbered: expected a name that numbers can follow; found omega1\. Give it a name"):
        catalogue(tmp_path)


@pytest.mark.parametrize("sign", ["n", "z"])
def test_numbers_of_electrons_are_set_in_the_sign_of_the_bank(sign):
    known = catalogue()
    printer = Printer(Settings(electrons=sign), known)
    counted = [name for name, each in known.quantities.items() if each.flags.electrons]
    assert {printer.symbol(name).base for name in counted} == {sign}
    named = [name for name, each in known.quantities.items() if each.base == "n" and "electrons" in each.name]
    assert set(named) <= set(counted)
    assert printer.symbol("n_B").base == "n"
