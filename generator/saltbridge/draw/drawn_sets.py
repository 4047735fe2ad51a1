"""Things to tick: the node of the graph that is their set, or the options in words that a variant shows, in which order.

The node's value names the things that meet the condition, in the order of their list (``h1+h3``); ``none`` where none does.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from saltbridge.bank.beliefs import WrongOption
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.seeds import Seed
from saltbridge.forms.conditions import Name
from saltbridge.graph.laws import Rule, Situation

RULES = {"<": "those-below", ">": "those-above"}
"""The rule that picks things by a comparison where their scenario has none of its own for it."""
BETWEEN, NOTHING = "+", "none"
PICKED = "pick of "
"""What the name of a node begins with that a part has added."""

Lists = Mapping[str, tuple[str, ...]]

# ------------------------------------------------------------------ things of the scenario


def things_of(part: SeveralPart, lists: Lists) -> tuple[str, ...]:
    """The things to choose among, a name that stands for a list taken apart."""
    return tuple(owner for option in part.tick for owner in lists.get(option.text, (option.text,)))


def compared_names(part: SeveralPart, lists: Lists) -> tuple[str, ...]:
    """The quantities that are compared: one of each thing, and that of the scenario last; none where the part is in words."""
    found = part.compared
    if found is None or not isinstance(found.left, Name) or not isinstance(found.right, Name):
        return ()
    return (*(f"{thing}.{found.left.path}" for thing in things_of(part, lists)), found.right.path)


def set_node(part: SeveralPart, situation: Situation, lists: Lists, catalogue: Catalogue) -> str:
    """The node that is the set: that of the scenario, with its sentence and common errors, or one added by the plain rule."""
    inputs, keys = compared_names(part, lists), things_of(part, lists)
    rule = RULES[part.compared.sign] if part.compared else ""
    for law in situation.laws:
        if isinstance(law, Rule) and (law.inputs, law.keys) == (inputs, keys) and catalogue.rules[law.rule].macro == rule:
            return law.node
    node = f"{PICKED}{rule}: {' '.join(inputs)}"
    situation.laws.append(Rule(node, rule, inputs, keys=keys))
    return node


def set_nodes(template: Template, situation: Situation, lists: Lists, catalogue: Catalogue, there: Collection[str]) -> list[str]:
    """The nodes of the sets asked for, where everything that is compared has a value."""
    parts = [part for part in template.parts if isinstance(part, SeveralPart) and part.where is not None]
    return [set_node(part, situation, lists, catalogue) for part in parts if set(compared_names(part, lists)) <= set(there)]


def node_of(part: SeveralPart, drawn: Drawn) -> str:
    """The node of a drawn variant. Raises ``Faulty`` (``unknown-name``) where a thing lacks the quantity."""
    missing = next((name for name in compared_names(part, drawn.lists) if name not in drawn.graph.index), None)
    if missing is not None:
        raise drawn.unknown(missing)
    return set_node(part, drawn.situation, drawn.lists, drawn.catalogue)


def things_in(value: str) -> tuple[str, ...]:
    """The things that the value of a set names."""
    return () if value == NOTHING else tuple(value.split(BETWEEN))


def none_fits(part: SeveralPart, drawn: Drawn) -> bool:
    """Whether a draw leaves nothing to tick where ``None of these`` is no option."""
    if part.where is None or part.or_none or not set(compared_names(part, drawn.lists)) <= drawn.graph.index.keys():
        return False
    return drawn.graph.value(drawn.cells, node_of(part, drawn)) == NOTHING


def shown_things(part: SeveralPart, drawn: Drawn) -> tuple[str, ...]:
    """The things in the order shown."""
    return _source(drawn.seed).shuffle("things", things_of(part, drawn.lists))


# ------------------------------------------------------------------ words


def shown_ticks(part: SeveralPart, seed: str) -> tuple[WrongOption, ...]:
    """The options in words that a variant shows, in drawn order; one of them at least is right, unless none may be."""
    right = {option.text: WrongOption(option, "") for option in part.tick}
    there = right | {each.option.text: each for each in part.leave}
    order = _source(seed).shuffle("option", tuple(there))
    shown = order[: part.draw or len(order)]
    if not part.or_none and not right.keys() & set(shown):
        shown = (*shown[:-1], next(text for text in order if text in right))
        shown = tuple(text for text in order if text in shown)
    return tuple(there[text] for text in shown)


def is_right(part: SeveralPart, option: WrongOption) -> bool:
    """Whether an option is to be ticked."""
    return any(option.option.text == each.text for each in part.tick)


def _source(seed: str) -> Seed:
    return Seed("several", "", seed)
