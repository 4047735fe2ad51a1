"""Relations join by family: each is found in some scenario, once, where its condition holds, and by the cheaper way."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import saltbridge
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.check.resolve import resolve
from saltbridge.faults import Faulty
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Instance, Rule, Situation
from saltbridge.graph.planner import plan
from saltbridge.scenarios.bath.electrolysis import add_faraday
from saltbridge.scenarios.joining import bind, join
from saltbridge.scenarios.situations import add_given

KNOWN = catalogue()
RELATION = """
lamp-rate:
  family: Lamps
  equation: I = q/t
  say: A sentence.
  valid: always
  source: made up
  cases:
    - {I: 2, q: 4, t: 2, source: made up}
    - {I: 1, q: 4, t: 4, source: made up}
"""


def _joined(kind, given=(), words=None):
    situation = Situation(words=dict(words or {}))
    for name, printed, unit in given:
        add_given(situation, KNOWN, name, printed, unit)
    join(situation, KNOWN, kind, "ln")
    return situation


def _ids(situation):
    return [law.law for law in situation.laws if isinstance(law, Instance)]


@pytest.mark.parametrize("relation", KNOWN.relations.values(), ids=lambda relation: relation.id)
def test_every_relation_is_of_a_family_that_a_scenario_joins(relation):
    """Else only the command line without a diagram would find it, and no template."""
    assert relation.family in {family for kind in KNOWN.scenarios.values() for family in kind.families}


@pytest.mark.parametrize("relation", KNOWN.relations.values(), ids=lambda relation: relation.id)
def test_every_relation_has_its_row_in_the_independent_route(relation):
    """A plain formula written apart leads to what the relation gives; the outside cases compare the values of the two."""
    rest = {name: value for name, value in relation.cases[0].values.items() if name != relation.subject}
    assert resolve(relation.subject, rest) is not None


def test_every_quantity_is_used():
    """In a relation or fact, or by name in a scenario that gives or chooses it, alone or for a role (``M_lost`` of ``M``)."""
    room = Path(saltbridge.__file__).parent
    code = "\n".join(path.read_text(encoding="utf-8") for path in sorted((room / "scenarios").rglob("*.py")))
    named = set(re.findall(r"[A-Za-z_][A-Za-z0-9_]*", code)) | {fact.node for fact in KNOWN.facts.values()}
    for kind in KNOWN.scenarios.values():
        named |= {*kind.words, *(use.node for use in kind.rules), *(name for key in kind.draws for name in key.called)}
    named |= {rule.gives for rule in KNOWN.rules.values()}
    named |= {symbol for relation in KNOWN.relations.values() for symbol in relation.symbols}
    assert {name for name in KNOWN.quantities if name not in named and name.rpartition("_")[0] not in named} == set()


def test_a_scenario_gets_all_of_its_families_and_nothing_else():
    found = _ids(_joined("run-down concentration cell"))
    assert found == ["reactant-left", "product-made", "flat-cell", "level-solutions"]


def test_a_relation_that_does_not_hold_here_is_left_out():
    """Only where as many ions go in as come out can the ions of a flat cell be shared out so."""
    assert "flat-cell" in _ids(_joined("run-down concentration cell", [("nu_anode", "1", ""), ("nu_cathode", "1", "")]))
    assert "flat-cell" not in _ids(_joined("run-down concentration cell", [("nu_anode", "1", ""), ("nu_cathode", "2", "")]))
    assert "gas-volume" not in _ids(_joined("electrolytic cells in series", words={"product.gas": "no"}))


def test_a_new_relation_of_a_bound_family_joins_its_bath_once_and_only_where_it_holds(tmp_path):
    """Faraday's laws stand in a bath with names of its own (q_used): a relation that is laid beside them comes with them."""
    text = RELATION.replace("family: Lamps", "family: Faraday's laws\n  where: {metal: Cu}").lstrip("\n")
    (tmp_path / "relations.yaml").write_text(text, encoding="utf-8")
    known = catalogue(tmp_path)
    for words, times in (({}, 1), ({"metal": "Cu"}, 1), ({"metal": "Zn"}, 0)):
        situation = Situation(words=words)
        add_faraday(situation, known, with_efficiency=False)
        join(situation, known, "electrolysis", "ln")
        assert _ids(situation).count("lamp-rate") == times
        assert _ids(situation)[:4] == ["charge", "electron-amount", "product-amount", "mass"]


def test_what_the_scenario_binds_or_rules_does_not_join_again():
    situation = Situation(laws=[Rule("E_titrant", "same", ("E0_titrant",))])
    bind(situation, KNOWN, "Batteries: capacity", {"q_usable": "q_cap"})
    assert _ids(situation) == ["running-time"]
    join(situation, KNOWN, "titration curve", "ln")
    join(situation, KNOWN, "battery", "ln")
    assert _ids(situation).count("running-time") == 1
    assert "titrant-at-pH" not in _ids(situation)


def test_of_two_ways_the_cheaper_is_taken():
    """The voltage under load by what is lost inside, as a teacher works it; by the load only where nothing else is told."""
    loaded = [("E_cell", "1.50", "V"), ("R_int", "0.20", "ohm"), ("R_load", "2.80", "ohm")]
    assert "terminal-voltage" in {step.law_id for step in plan(_joined("loaded cell", loaded), ["U_term"])}
    measured = [("I", "0.50", "A"), ("R_load", "2.80", "ohm")]
    graph = Graph(plan(_joined("loaded cell", measured), ["U_term"]))
    assert graph.step("U_term").law_id == "load-voltage"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("  cost: none\n", "relations.yaml:3: lamp-rate.cost: expected a whole number from 1 to 20; found none [bad-value]"),
        ("  where: [1]\n", "relations.yaml:3: lamp-rate.where: expected a mapping; found something else [bad-shape]"),
        ("  when: {n: 1}\n",
         "relations.yaml:3: lamp-rate.when: expected a key of this kind of entry; found when. Did you mean where? [unknown-key]"),
    ],
)  # fmt: skip
def test_a_bad_condition_or_cost_is_told_at_its_line(tmp_path, line, said):
    text = RELATION.replace("  equation", line + "  equation").lstrip("\n")
    (tmp_path / "relations.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(Faulty) as raised:
        catalogue(tmp_path)
    assert str(raised.value) == said
