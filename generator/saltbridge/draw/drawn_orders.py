"""Things to put in order: the node of the graph that is their order, and in which order a variant shows them.

The node's value names the things from the lowest to the highest (``s2<s1<s3``).
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from saltbridge.bank.parts import OrderPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.seeds import Seed
from saltbridge.faults import fault
from saltbridge.forms.conditions import as_told
from saltbridge.graph.laws import Rule, Situation, Undefined

PLAIN = "order-of-values"
"""The rule that orders things where their scenario has no ranking by this quantity."""
BETWEEN = "<"


def owners_of(part: OrderPart, lists: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """The things to be put in order, a name that stands for a list taken apart."""
    return tuple(owner for name in part.order for owner in lists.get(name, (name,)))


def order_node(part: OrderPart, situation: Situation, lists: Mapping[str, tuple[str, ...]], catalogue: Catalogue) -> str:
    """The node that is the order: the ranking of the scenario, or one of these things, added by the same rule.

    So it has the sentence and the common errors of the ranking; where there is none, those of ``order-of-values``.
    """
    keys = owners_of(part, lists)
    inputs = tuple(f"{owner}.{part.by}" for owner in keys)
    rankings = [law for law in situation.laws if isinstance(law, Rule) and catalogue.rules[law.rule].macro == "rising"]
    fitting = [law for law in rankings if set(inputs) <= set(law.inputs)]
    for law in fitting:
        if (law.inputs, law.keys) == (inputs, keys):
            return law.node
    node = f"order of {part.by}: {' '.join(keys)}"
    situation.laws.append(Rule(node, fitting[0].rule if fitting else PLAIN, inputs, keys=keys))
    return node


def ordered_nodes(
    template: Template, situation: Situation, lists: Mapping[str, tuple[str, ...]], catalogue: Catalogue, there: Collection[str]
) -> list[str]:
    """The nodes of the orders asked for, where everything that is put in order has a value."""
    parts = [part for part in template.parts if isinstance(part, OrderPart)]
    parts = [part for part in parts if all(f"{owner}.{part.by}" in there for owner in owners_of(part, lists))]
    return [order_node(part, situation, lists, catalogue) for part in parts]


def node_of(part: OrderPart, drawn: Drawn) -> str:
    """The node of a drawn variant.

    Raises ``Faulty`` (``unknown-name``, ``not-a-number``, ``undefined``) where a thing has no number to be ordered by.
    """
    return drawn.once(lambda: _node_of(part, drawn), "order", part.by, *part.order)


def _node_of(part: OrderPart, drawn: Drawn) -> str:
    for owner in owners_of(part, drawn.lists):
        _refuse_without_number(f"{owner}.{part.by}", drawn)
    return order_node(part, drawn.situation, drawn.lists, drawn.catalogue)


def right_owners(part: OrderPart, drawn: Drawn) -> tuple[str, ...]:
    """The things in the order that is asked for. Raises ``Faulty`` as ``node_of`` does."""
    return _as_asked(part, str(drawn.graph.value(drawn.cells, node_of(part, drawn))))


def shown_owners(part: OrderPart, drawn: Drawn) -> tuple[str, ...]:
    """The things in a drawn order, never in the right one: whoever touches nothing has not answered.

    Raises ``Faulty`` as ``node_of`` does.
    """
    items = Seed("order", part.by, drawn.seed).shuffle("items", owners_of(part, drawn.lists))
    return (*items[1:], items[0]) if items == right_owners(part, drawn) else items


def places_of(part: OrderPart, shown: Sequence[str], value: str) -> list[int] | None:
    """The places of the things shown in the order of a value; ``None`` for a value that is no order of them."""
    things = _as_asked(part, value)
    return [shown.index(thing) for thing in things] if sorted(things) == sorted(shown) else None


def _as_asked(part: OrderPart, value: str) -> tuple[str, ...]:
    rising = tuple(value.split(BETWEEN))
    return rising[::-1] if part.direction == "descending" else rising


def _refuse_without_number(name: str, drawn: Drawn) -> None:
    if name not in drawn.graph.index:
        if not drawn.has(name):
            raise drawn.unknown(name)
        hint = "Things are put in order by a number."
        raise fault("not-a-number", expected=f"a number for {name}", found=f"`{as_told(drawn.lookup(name))}`", hint=hint)
    value = drawn.graph.value(drawn.cells, name)
    if not isinstance(value, float):
        found = value.why if isinstance(value, Undefined) else f"`{value}`"
        raise fault("undefined", expected=f"a number for {name}", found=found)
