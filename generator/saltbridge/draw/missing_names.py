"""Faults of names that lead nowhere in a scene, each at its own key: what a part puts in order, what a text prints, what is asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from saltbridge.bank.parts import OrderPart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.draw.drawn_orders import owners_of
from saltbridge.draw.drawn_sets import PICKED, compared_names
from saltbridge.draw.name_advice import advice, listing_command
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.validation_messages import nearest
from saltbridge.graph.laws import Situation, quantity_of
from saltbridge.graph.planner import reachable

_UNKNOWN = "a quantity that follows from what is given"
_SHORT = "enough to derive "


def explained(
    template: Template, error: Faulty, situation: Situation, lists: Mapping[str, tuple[str, ...]], known: Catalogue
) -> Faulty:
    """The faults of a plan that fails, in the words of the template's keys.

    What things are put in order by is told once, at the part; a name that nothing leads to with the nearest and the list of all.
    """
    kind = template.scenario.kind
    there = {*reachable(situation), *situation.labels, *situation.words}
    orders = [*_of_orders(template, there, lists, known), *_of_sets(template, there, lists, known)]
    compared = {name for part in template.parts if isinstance(part, SeveralPart) for name in compared_names(part, lists)}
    ordered = {f"{owner}.{part.by}" for part in template.parts if isinstance(part, OrderPart) for owner in owners_of(part, lists)}
    told: list[Fault] = []
    for each in error.faults:
        name = each.found if each.expected == _UNKNOWN else each.expected.removeprefix(_SHORT)
        if name in ordered | compared or name.startswith(("order of ", PICKED)):
            continue
        hint = (
            advice(name, kind, there, known, each.hint)
            if each.expected == _UNKNOWN
            else f"{each.hint} {listing_command(kind, known)}"
        )
        told.append(replace(each, hint=hint) if each.code == "not-derivable" else each)
    return Faulty([*told, *orders] or error.faults)


def strange_things(
    template: Template, situation: Situation, lists: Mapping[str, tuple[str, ...]], known: Catalogue
) -> Iterator[Fault]:
    """Rows of tables that name neither a list nor a thing of this scenario."""
    owners = {name.rpartition(".")[0] for name in (*situation.given, *situation.labels, *situation.words)} - {""}
    for at, part in enumerate(template.parts, 1):
        for name in part.table.things if isinstance(part, TablePart) else ():
            if name not in lists and name not in owners:
                hint = f"{nearest(name, (*lists, *sorted(owners)))} {listing_command(template.scenario.kind, known)}".strip()
                expected = "a list or things of this scenario"
                yield template.fault(f"parts[{at}].table.rows", "unknown-name", expected=expected, found=f"`{name}`", hint=hint)


def _of_orders(template: Template, there: set[str], lists: Mapping[str, tuple[str, ...]], known: Catalogue) -> Iterator[Fault]:
    for at, part in enumerate(template.parts, 1):
        if isinstance(part, OrderPart) and any(f"{owner}.{part.by}" not in there for owner in owners_of(part, lists)):
            yield _of_order(template, f"parts[{at}]", part, there, lists, known)


def _of_sets(template: Template, there: set[str], lists: Mapping[str, tuple[str, ...]], known: Catalogue) -> Iterator[Fault]:
    """Things to tick that there are not, and quantities that they, or the scenario, do not have."""
    owners = {name.rpartition(".")[0] for name in there} - {""}
    command = listing_command(template.scenario.kind, known)
    for at, part in enumerate(template.parts, 1):
        missing = [name for name in compared_names(part, lists) if name not in there] if isinstance(part, SeveralPart) else []
        if not isinstance(part, SeveralPart) or not missing:
            continue
        strange = next((each.text for each in part.tick if each.text not in lists and each.text not in owners), None)
        near = nearest(strange or missing[0], (*lists, *sorted(owners)) if strange else sorted(there))
        key, expected = ("tick", "a list or things of this scenario") if strange else ("where", "quantities of this scenario")
        found = f"`{strange or missing[0]}`"
        yield template.fault(
            f"parts[{at}].{key}", "unknown-name", expected=expected, found=found, hint=f"{near} {command}".strip()
        )


def _of_order(
    template: Template, key: str, part: OrderPart, there: set[str], lists: Mapping[str, tuple[str, ...]], known: Catalogue
) -> Fault:
    """What is wrong with an order: the quantity has an owner, there are no such things, or they do not have it."""
    command = listing_command(template.scenario.kind, known)
    if "." in part.by:
        hint = f"As `by: {part.by.rpartition('.')[2]}`: the things are told by `order`."
        return template.fault(f"{key}.by", "name", expected="a quantity without an owner", found=f"`{part.by}`", hint=hint)
    owners = {name.rpartition(".")[0] for name in there} - {""}
    strange = next((name for name in part.order if name not in lists and name not in owners), None)
    if strange is not None:
        hint = f"{nearest(strange, (*lists, *sorted(owners)))} {command}".strip()
        return template.fault(
            f"{key}.order", "unknown-name", expected="a list or things of this scenario", found=f"`{strange}`", hint=hint
        )
    things = owners_of(part, lists)
    shared = set.intersection(
        *({name.removeprefix(f"{thing}.") for name in there if name.startswith(f"{thing}.")} for thing in things)
    )
    numbers = sorted(
        name for name in shared if ":" not in name and (found := quantity_of(name, known.quantities)) and not found.word
    )
    hint = f"They have {', '.join(f'`{name}`' for name in numbers)}. {command}" if numbers else command
    expected = f"a quantity that {', '.join(things)} have"
    return template.fault(f"{key}.by", "unknown-name", expected=expected, found=f"`{part.by}`", hint=hint)
