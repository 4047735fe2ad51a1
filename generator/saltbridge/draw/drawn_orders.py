"""Things to put in order: in which order a variant shows them, which is right, and what the usual errors make of it."""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge.bank.parts import OrderPart
from saltbridge.catalogue.catalogue import Catalogue, Slip
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.seeds import Seed
from saltbridge.faults import fault
from saltbridge.forms.conditions import Measured
from saltbridge.graph.laws import Rule, Undefined

BY_SIZE, OTHER_WAY = "rising magnitude", "other"
OPPOSITE = {"ascending": "descending", "descending": "ascending"}


def owners_of(part: OrderPart, drawn: Drawn) -> tuple[str, ...]:
    """The things to be put in order, a name that stands for a list taken apart."""
    return tuple(owner for name in part.order for owner in drawn.lists.get(name, (name,)))


def shown_owners(part: OrderPart, drawn: Drawn) -> tuple[str, ...]:
    """The things in a drawn order, never in the right one: whoever touches nothing has not answered.

    Raises ``Faulty`` as ``right_order`` does.
    """
    items = Seed("order", part.by, drawn.seed).shuffle("items", owners_of(part, drawn))
    untouched = _ranked([_value(part, owner, drawn) for owner in items], part.direction) == list(range(len(items)))
    return (*items[1:], items[0]) if untouched else items


def right_order(part: OrderPart, drawn: Drawn) -> list[int]:
    """The places of the things shown, in the right order.

    Raises ``Faulty`` (``unknown-name``, ``not-a-number``, ``undefined``) where a thing has no number to be ranked by.
    """
    return _ranked([_value(part, owner, drawn) for owner in shown_owners(part, drawn)], part.direction)


def slipped_order(part: OrderPart, way: str, drawn: Drawn) -> list[int]:
    """The order that a slip leads to, by its ``way``: sizes without signs, or the other end first."""
    values = [_value(part, owner, drawn) for owner in shown_owners(part, drawn)]
    direction = OPPOSITE[part.direction] if way == OTHER_WAY else part.direction
    return _ranked([abs(value) for value in values] if way == BY_SIZE else values, direction)


def ranking_slips(part: OrderPart, drawn: Drawn, catalogue: Catalogue) -> list[tuple[Slip, str]]:
    """Slips of the rule that ranks by this quantity, with the way each takes."""
    inputs = {f"{owner}.{part.by}" for owner in owners_of(part, drawn)}
    laws = drawn.situation.laws
    rules = [law.rule for law in laws if isinstance(law, Rule) and inputs <= set(law.inputs)]
    ranked = [name for name in rules if catalogue.rules[name].macro == "rising"]
    found = [(slip, slip.rules[name].what) for slip in catalogue.slips.values() for name in ranked if name in slip.rules]
    return [(slip, way) for slip, way in found if way in {BY_SIZE, OTHER_WAY}]


def order_reveals(part: OrderPart, drawn: Drawn, catalogue: Catalogue, slip: str) -> bool:
    """Whether a slip leads to another order than the right one in this variant."""
    right = right_order(part, drawn)
    return any(
        each.id == slip and slipped_order(part, way, drawn) != right for each, way in ranking_slips(part, drawn, catalogue)
    )


def _value(part: OrderPart, owner: str, drawn: Drawn) -> float:
    name = f"{owner}.{part.by}"
    if name not in drawn.graph.index:
        if not drawn.has(name):
            raise drawn.unknown(name)
        hint = "Things are put in order by a number."
        raise fault("not-a-number", expected=f"a number for {name}", found=f"`{_told(name, drawn)}`", hint=hint)
    value = drawn.graph.value(drawn.cells, name)
    if isinstance(value, float):
        return value
    found = value.why if isinstance(value, Undefined) else f"`{value}`"
    raise fault("undefined", expected=f"a number for {name}", found=found)


def _told(name: str, drawn: Drawn) -> str:
    value = drawn.lookup(name)
    return f"{value.value:g} {value.unit}".strip() if isinstance(value, Measured) else str(value)


def _ranked(values: Sequence[float], direction: str) -> list[int]:
    return sorted(range(len(values)), key=values.__getitem__, reverse=direction == "descending")
