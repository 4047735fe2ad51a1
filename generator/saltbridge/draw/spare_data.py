"""Data that are told and not needed: what a derivation uses is what lies upstream of its end."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.parts import AnyPart, BalancePart, ChoosePart
from saltbridge.bank.spare_part import SparePart
from saltbridge.bank.template import Template
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.finds import Asking, Finder
from saltbridge.draw.seeds import Seed
from saltbridge.faults import Fault, fault
from saltbridge.graph.graph import Graph
from saltbridge.scenarios.equation_laws import EQUATIONS


def needed(graph: Graph, node: str) -> frozenset[str]:
    """The names on the way to a node, in whatever unit they are given."""
    return frozenset(step.node.partition(":")[0] for step in graph.upstream(node))


def data_of(part: SparePart, drawn: Drawn) -> tuple[str, ...]:
    """The data in a drawn order, since the spare one is the same in every draw."""
    return Seed("not needed", part.find, drawn.seed).shuffle("data", part.data)


def spare_of(part: SparePart, node: str, drawn: Drawn) -> str:
    """The datum that is not needed. Raises ``Faulty`` (``no-right-option``) where not exactly one is."""
    used = needed(drawn.graph, node)
    found = [name for name in part.data if name not in used]
    if len(found) != 1:
        told = ", ".join(found) if found else "none: all are needed"
        hint = f"{part.find} is worked out from {', '.join(sorted(used & set(part.data))) or 'none of them'}."
        raise fault("no-right-option", expected=f"exactly one datum that {part.find} does not need", found=told, hint=hint)
    return found[0]


def misplaced_spares(template: Template, drawn: Drawn, finder: Finder) -> Iterator[Fault]:
    """Data called spare that the text does not tell, or that a part needs after all; and data to choose from that there are not."""
    for at, part in enumerate(template.parts, 1):
        for name in part.data if isinstance(part, SparePart) else ():
            if not drawn.has(name):
                hint = drawn.unknown_fault(name).hint
                yield template.fault(
                    f"parts[{at}].from", "unknown-name", expected="a datum of this scenario", found=f"`{name}`", hint=hint
                )
    printed = {name for text in (template.text, *(part.ask for part in template.parts)) for name in text.names}
    for at, name in enumerate(template.spare, 1):
        key = f"spare[{at}]" if f"spare[{at}]" in template.lines else "spare"
        if not drawn.has(name):
            yield template.fault(
                key, "unknown-name", expected="a datum of this scenario", found=f"`{name}`", hint=drawn.unknown_fault(name).hint
            )
            continue
        if name not in printed:
            expected, hint = f"a text that tells {name}", f"Say it in the text: `{{{{ {name} }}}}`."
            yield template.fault(key, "not-told", expected=expected, found="it stands nowhere", hint=hint)
        for place, part in enumerate(template.parts, 1):
            node = _end_of(part, drawn, finder)
            if node in drawn.graph.index and name in needed(drawn.graph, node):
                expected, found = f"a datum that no part needs, for {name}", f"part {place} follows from it"
                yield template.fault(
                    key, "spare-needed", expected=expected, found=found, hint="Name another, or draw one in `further quantities`."
                )
                break


def _end_of(part: AnyPart, drawn: Drawn, finder: Finder) -> str:
    match part:
        case ChoosePart():
            return part.choose if part.choose in drawn.graph.index else part.choose.split(".")[0]
        case BalancePart():
            return EQUATIONS[part.balance]
        case _ if isinstance(part, Asking):
            return finder.find(part).node
        case _:
            return ""
