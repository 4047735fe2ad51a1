"""Joins to a situation what the catalogue knows of it: the relations, facts and rules of the families that its scenario names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from saltbridge.catalogue.catalogue import Catalogue, Fact, Relation
from saltbridge.catalogue.rules import RuleEntry
from saltbridge.graph.laws import Instance, Rule, Situation, instance
from saltbridge.scenarios.situations import is_25
from saltbridge.tables.benches import cautions
from saltbridge.words import holes

DIAGRAM = "cell diagram"
"""The scenario of a cell told by its diagram at the command line."""


def join(situation: Situation, catalogue: Catalogue, kind: str, nernst: str) -> None:
    """Add the relations, facts and rules of the scenario's families, then a bank's own, which may join any scenario or none.

    What the scenario has bound itself stays as it is: a relation joins once, and neither a relation nor a fact where a rule of
    the scenario gives what it would.
    """
    entry = catalogue.scenarios.get(kind)
    families = entry.families if entry else ()
    own, own_facts = set(catalogue.own), set(catalogue.own_facts)
    there = {law.law for law in situation.laws if isinstance(law, Instance)} | _ruled(situation, catalogue)
    for relation in catalogue.relations.values():
        joins = relation.family in families or relation.id in own
        if joins and relation.id not in there and holds(situation, relation):
            situation.laws.append(_joined(situation, relation, nernst))
    join_facts(situation, (fact for fact in catalogue.facts.values() if fact.family in families or fact.id in own_facts))
    own_rules = set(catalogue.own_rules)
    join_rules(situation, (rule for rule in catalogue.rules.values() if rule.family in families or rule.id in own_rules))


def defer_to_rules(situation: Situation, kind: str) -> None:
    """Offer the usual ``caution`` where hands are at work and the scenario has none of its own."""
    if kind in cautions():
        situation.words.setdefault("caution", cautions()[kind].line)


def bind(situation: Situation, catalogue: Catalogue, family: str, binding: Mapping[str, str]) -> None:
    """Add the relations of a family that hold a name which is another here (``{"q_usable": "q_cap"}``), under that other name.

    A relation that holds both names says how they differ, and is left to join as it is.
    """
    for relation in catalogue.relations.values():
        if relation.family != family:
            continue
        bound = {name: to for name, to in binding.items() if name in relation.symbols}
        if bound and not set(bound.values()) & set(relation.symbols):
            situation.laws.append(instance(relation, bound, say=_sentence(situation, relation)))


def _ruled(situation: Situation, catalogue: Catalogue) -> set[str]:
    """The relations whose subject a rule or fact of the scenario gives: there it is no matter of calculation."""
    nodes = situation.decided()
    return {relation.id for relation in catalogue.relations.values() if relation.subject in nodes}


def holds(situation: Situation, relation: Relation) -> bool:
    """Whether nothing is known here that would be otherwise than the relation says under ``where``."""
    known = {name: given.printed for name, given in situation.given.items()} | situation.words
    return all(known.get(name, wanted) == wanted for name, wanted in relation.where.items())


def looked_at(catalogue: Catalogue) -> frozenset[str]:
    """The givens whose values decide which relations join and in which form; of all others only that they are given."""
    return frozenset(name for relation in catalogue.relations.values() for name in relation.where) | {"T", "T:°C"}


def join_facts(situation: Situation, facts: Iterable[Fact]) -> None:
    """Add facts, each where no other law gives its node."""
    given = situation.decided()
    situation.laws += [fact for fact in facts if fact.node not in given]


def join_rules(situation: Situation, rules: Iterable[RuleEntry]) -> None:
    """Add the rules that give something by themselves, each where no other law gives it."""
    there = situation.decided()
    for rule in rules:
        if rule.gives and rule.gives not in there:
            situation.laws.append(Rule(rule.gives, rule.id, rule.inputs, keys=rule.keys))


def _joined(situation: Situation, relation: Relation, nernst: str) -> Instance:
    """The relation under its own names, in the bank's form where that holds, with the sentence that names what is known here."""
    mild = bool(relation.forms) and is_25(situation)
    form = nernst if mild and any(each.id == nernst for each in relation.forms) else ""
    return instance(relation, say=_sentence(situation, relation), form=form, other_forms=mild)


def _sentence(situation: Situation, relation: Relation) -> str:
    """The sentence that names what is known here, where all of it is known."""
    known = situation.labels.keys() | situation.words.keys() | situation.given.keys()
    return relation.say_here if relation.say_here and holes(relation.say_here) <= known else relation.say
