"""Searches the laws for the shortest path from what is given to what is asked.

Every law is an edge from its inputs to one name; a relation offers one edge for each name that it can be solved for. The
search is Knuth's generalisation of Dijkstra's shortest path to such graphs (D. E. Knuth, Information Processing Letters 6
(1977) 1-5, from memory). Ties go by the order of the laws.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import NamedTuple

from saltbridge.algebra.expression import Tree
from saltbridge.algebra.rearrange import solve
from saltbridge.catalogue.catalogue import Fact, Quantity, catalogue
from saltbridge.faults import Faulty, fault, nearest
from saltbridge.graph.laws import Balance, Conversion, How, Instance, Law, Rule, Situation, flags_of
from saltbridge.graph.node_names import told_name, told_names

_GUESS_COST = 10_000


@dataclass(frozen=True, slots=True)
class Step:
    """How one node is got: from ``inputs`` by ``law``; ``tree`` is the law solved for the node where it is an equation."""

    node: str
    how: How
    inputs: tuple[str, ...]
    law: Law | None = None
    tree: Tree | None = None

    @property
    def law_id(self) -> str:
        """The relation's or fact's id, the rule's name, or the units of a conversion."""
        match self.law:
            case Instance():
                return self.law.law
            case Rule():
                return self.law.rule
            case Fact():
                return self.law.id
            case Balance():
                return self.law.kind
            case Conversion():
                return f"{self.law.unit_from} -> {self.law.unit_to}"
            case None:
                return self.how


class _Edge(NamedTuple):
    """A way to one name; ``needs`` are its inputs, each once."""

    node: str
    inputs: tuple[str, ...]
    needs: frozenset[str]
    law: Law


@dataclass(slots=True)
class _Search:
    cost: dict[str, int] = field(default_factory=dict)
    by: dict[str, _Edge] = field(default_factory=dict)


def plan(
    situation: Situation, targets: Sequence[str], extras: Iterable[str] = (), quantities: Mapping[str, Quantity] | None = None
) -> tuple[Step, ...]:
    """The steps, in the order of a working, that lead from the situation's givens to all ``targets``.

    ``extras`` are planned too where they can be reached; ``quantities`` (the shipped ones) say by their flags what is named where something
    is missing. Raises ``Faulty`` (code ``not-derivable``) naming what is missing.
    """
    search = _shortest(situation, dict.fromkeys(situation.given, 0))
    unreached = [target for target in targets if target not in search.cost]
    if unreached:
        known = catalogue().quantities if quantities is None else quantities
        raise Faulty(error for target in unreached for error in _missing(situation, target, known).faults)
    wanted = [*targets, *(extra for extra in extras if extra in search.cost)]
    return tuple(_walk_back(situation, search, wanted))


def reachable(situation: Situation) -> tuple[str, ...]:
    """Every name that is given or can be derived."""
    return tuple(_shortest(situation, dict.fromkeys(situation.given, 0)).cost)


@lru_cache(maxsize=4096)
def _edges(law: Law) -> tuple[_Edge, ...]:
    """A law's edges, found once: a situation of the command line holds every relation."""
    match law:
        case Instance():
            ways = []
            for name in law.symbols:
                others = tuple(other for other in law.symbols if other != name)
                ways.append((name, (*others, law.power) if law.power and name == law.subject else others))
        case Rule() | Balance() | Fact():
            ways = [(law.node, law.inputs)]
        case Conversion():
            ways = [(law.node, (law.source,))]
    return tuple(_Edge(name, inputs, frozenset(inputs), law) for name, inputs in ways)


def _shortest(situation: Situation, start: Mapping[str, int]) -> _Search:
    edges: list[_Edge] = []
    ranks: list[int] = []
    feeding: dict[str, list[int]] = {}
    for rank, law in enumerate(situation.laws):
        for edge in _edges(law):
            for name in edge.needs:
                feeding.setdefault(name, []).append(len(edges))
            edges.append(edge)
            ranks.append(rank)
    waiting = [len(edge.needs) for edge in edges]
    search = _Search()
    heap: list[tuple[int, int, str, _Edge | None]] = [(cost, -1, name, None) for name, cost in start.items()]
    heap += [(1, rank, edge.node, edge) for rank, edge in zip(ranks, edges, strict=True) if not edge.inputs]
    heapq.heapify(heap)
    while heap:
        cost, _, name, chosen = heapq.heappop(heap)
        if name in search.cost:
            continue
        search.cost[name] = cost
        if chosen is not None:
            search.by[name] = chosen
        for place in feeding.get(name, ()):
            waiting[place] -= 1
            if waiting[place] == 0 and edges[place].node not in search.cost:
                total = _cost(edges[place].law) + sum(search.cost[each] for each in edges[place].inputs)
                heapq.heappush(heap, (total, ranks[place], edges[place].node, edges[place]))
    return search


def _cost(law: Law) -> int:
    """How many steps a law counts as: a relation as many as the catalogue says, so that a roundabout one is the last resort."""
    return law.cost if isinstance(law, Instance) else 1


def _walk_back(situation: Situation, search: _Search, targets: Iterable[str]) -> Iterator[Step]:
    done: set[str] = set()
    for target in targets:
        yield from _visit(situation, search, target, done)


def _visit(situation: Situation, search: _Search, name: str, done: set[str]) -> Iterator[Step]:
    if name in done:
        return
    done.add(name)
    if name not in search.by:
        known = situation.given.get(name)
        yield Step(name, known.how if known else "given", ())
        return
    edge = search.by[name]
    for each in edge.inputs:
        yield from _visit(situation, search, each, done)
    yield _step(edge)


def _step(edge: _Edge) -> Step:
    match edge.law:
        case Instance():
            return Step(edge.node, edge.law.how, edge.inputs, edge.law, solve(edge.law.subject, edge.law.tree, edge.node))
        case Rule() | Balance():
            return Step(edge.node, edge.law.how, edge.inputs, edge.law)
        case Conversion():
            return Step(edge.node, "convert", edge.inputs, edge.law)
        case Fact():
            return Step(edge.node, "rule", (), edge.law)


def _missing(situation: Situation, target: str, quantities: Mapping[str, Quantity]) -> Faulty:
    """Says what would have to be given too: any one name that is enough, or a cheapest set, in the names that are typed."""
    names = dict.fromkeys(name for law in situation.laws for name in _all_names(law))
    shown = told_name(situation, target, quantities) or target
    if target not in names:
        facts = {law.node for law in situation.laws if isinstance(law, Fact)}  # true whatever is told, so no help here
        found = told_names(situation, [name for name in reachable(situation) if name not in facts], quantities)
        hint = nearest(shown, found) or (f"Can be found here: {', '.join(found)}." if found else "")
        return fault("not-derivable", expected="a quantity that follows from what is given", found=shown, hint=hint)
    start = dict.fromkeys(situation.given, 0)
    enough = [name for name in _enough(situation, target, start) if name in names]
    single = [name for name in told_names(situation, enough, quantities) if name != shown]
    near = replace(situation, laws=situation.laws[: situation.own_laws])
    cheapest = _cheapest_set(near, target, names, quantities) or _cheapest_set(situation, target, names, quantities)
    several = told_names(situation, cheapest, quantities)
    several = [name for name in several if name != shown]
    ways = [_one_of(single)] if single else []
    if several and not set(several) & set(single):
        metal = {"M", "z"} <= set(several)
        ways.append(_and([*(name for name in several if name not in {"M", "z"}), "metal (or M and z)"] if metal else several))
    told = told_names(situation, [name for name, known in situation.given.items() if known.how == "given"], quantities)
    return fault(
        "not-derivable",
        expected=f"enough to derive {shown}",
        found=_and(told) or "nothing that leads there",
        hint=f"Also give {', or '.join(ways)}." if ways else f"Nothing leads to {shown} here; it can only be given.",
    )


def _enough(situation: Situation, target: str, start: Mapping[str, int]) -> list[str]:
    """The names of which any single one, told too, opens a path to the target; in the order of the laws."""
    reached = _shortest(situation, start).cost
    every = (edge for law in situation.laws for edge in _edges(law))
    closed = [(edge.node, set(edge.needs.difference(reached))) for edge in every if edge.node not in reached]
    feeding: dict[str, list[int]] = {}
    for place, (_, lacking) in enumerate(closed):
        for name in sorted(lacking):
            feeding.setdefault(name, []).append(place)
    names = dict.fromkeys(name for law in situation.laws for name in _all_names(law))
    return [name for name in names if name not in reached and name != target and target in _opened(name, closed, feeding)]


def _opened(name: str, closed: Sequence[tuple[str, set[str]]], feeding: Mapping[str, Sequence[int]]) -> set[str]:
    """What can be derived too once ``name`` is told."""
    opened, waiting = {name}, [name]
    lacking: dict[int, int] = {}
    while waiting:
        for place in feeding.get(waiting.pop(), ()):
            node, needs = closed[place]
            lacking[place] = lacking.get(place, len(needs)) - 1
            if lacking[place] == 0 and node not in opened:
                opened.add(node)
                waiting.append(node)
    return opened


def _one_of(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else "one of " + ", ".join(names)


def _and(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else "".join(names)


def _bare(name: str) -> str:
    return name.split(":", 1)[0]


def _cheapest_set(situation: Situation, target: str, names: Iterable[str], quantities: Mapping[str, Quantity]) -> list[str]:
    """The fewest names to be given besides; what is usually worked out on the way counts as more than what is measured.

    The target in another unit is the target still, and no answer.
    """
    bare = _bare(target)
    cost = {name: _GUESS_COST * (7 if flags_of(name, quantities).seldom_given else 2) for name in names}
    guessed = {name: each for name, each in cost.items() if _bare(name) != bare}
    search = _shortest(situation, guessed | dict.fromkeys(situation.given, 0))
    if target not in search.cost:
        return []
    return sorted(
        {step.node for step in _walk_back(situation, search, [target]) if step.law is None and step.node not in situation.given}
    )


def _all_names(law: Law) -> tuple[str, ...]:
    match law:
        case Instance():
            return law.symbols
        case Rule() | Balance() | Fact():
            return (law.node, *law.inputs)
        case Conversion():
            return (law.node, law.source)
