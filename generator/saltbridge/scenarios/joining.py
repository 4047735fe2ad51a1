"""Joins to a situation what the catalogue knows of it: the relations and facts of the families that its scenario names."""

from __future__ import annotations

from collections.abc import Iterable

from saltbridge.catalogue.catalogue import Catalogue, Fact, Relation
from saltbridge.graph.laws import Conversion, Instance, Situation, instance
from saltbridge.scenarios.situations import is_25
from saltbridge.words import holes

DIAGRAM = "cell diagram"
"""The scenario of a cell told by its diagram at the command line."""


def join(situation: Situation, catalogue: Catalogue, kind: str, nernst: str) -> None:
    """Add the relations and facts of the scenario's families, then a bank's own, which may join any scenario.

    What the scenario has bound itself stays as it is: a relation joins once, a fact only where no other law gives its node.
    """
    families = catalogue.joins.get(kind, ())
    own, own_facts = set(catalogue.own), set(catalogue.own_facts)
    there = {law.law for law in situation.laws if isinstance(law, Instance)}
    for relation in catalogue.relations.values():
        if relation.id not in there and (relation.family in families or relation.id in own):
            situation.laws.append(_joined(situation, relation, nernst))
    join_facts(situation, (fact for fact in catalogue.facts.values() if fact.family in families or fact.id in own_facts))


def join_facts(situation: Situation, facts: Iterable[Fact]) -> None:
    """Add facts, each where no other law gives its node."""
    given = {law.node for law in situation.laws if not isinstance(law, Instance | Conversion)}
    situation.laws += [fact for fact in facts if fact.node not in given]


def _joined(situation: Situation, relation: Relation, nernst: str) -> Instance:
    """The relation under its own names, in the bank's form where that holds, with the sentence that names what is known here."""
    mild = bool(relation.forms) and is_25(situation)
    form = nernst if mild and any(each.id == nernst for each in relation.forms) else ""
    known = situation.labels.keys() | situation.words.keys() | situation.given.keys()
    say = relation.say_here if holes(relation.say_here) <= known else relation.say
    return instance(relation, say=say or relation.say, form=form, other_forms=mild)
