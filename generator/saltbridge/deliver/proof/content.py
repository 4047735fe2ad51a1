"""What a signature is bound to: digests of a template's keys and of everything its numbers and marks follow from."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from saltbridge.algebra.expression import as_text
from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import FindPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue, Relation
from saltbridge.deliver.proof.counted_anew import ascii_text
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_tables import finds_of
from saltbridge.forms.strict_yaml import read_yaml
from saltbridge.graph.laws import Instance, bare_name
from saltbridge.graph.planner import Step
from saltbridge.tables import metals

PARTS = ("template", "data sheet", "relations", "settings")
DIGITS = 16
_DRAWS = 8  # shapes of a template seldom differ in their relations; so many draws show them


def content_of(template: Template, bank: Bank, catalogue: Catalogue) -> dict[str, str]:
    """Digests by part. A change of layout or comments in the file changes nothing. Raises ``Faulty`` as ``Drawer.draw`` does."""
    used = used_by(template, bank, catalogue)
    return {
        "template": _digest(_keys(template, bank)),
        "data sheet": _digest(used.sheet),
        "relations": _digest(used.relations),
        "settings": _digest(settings_used(bank)),
    }


def _keys(template: Template, bank: Bank) -> Any:
    """The keys of a template's file, and the table that fills its scenario."""
    keys = read_yaml(bank.folder / template.file, template.file).plain()
    return [keys, (bank.folder / template.rows).read_text("utf-8-sig")] if template.rows else keys


def _digest(value: Any) -> str:
    text = json.dumps(value, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("ascii")).hexdigest()[:DIGITS]


@dataclass(frozen=True, slots=True)
class Used:
    """What a template's answers follow from: texts of the data sheet by name, and equations by the id of their relation."""

    sheet: dict[str, str]
    relations: dict[str, str]


def used_by(template: Template, bank: Bank, catalogue: Catalogue) -> Used:
    """What some draws have read and worked with, and besides every row of the sheet that other draws could read."""
    drawer = Drawer(template, bank, catalogue)
    read: dict[str, str] = {}
    relations: dict[str, str] = {}
    for number in range(1, _DRAWS + 1):
        drawn = drawer.draw(f"content {number}")
        for step in _steps(template, drawer, drawn):
            if isinstance(step.law, Instance) and step.law.law in catalogue.relations:
                relations[step.law.law] = "; ".join(_equations(catalogue.relations[step.law.law]))
            given = drawn.situation.given.get(step.node)
            if given is not None and given.how == "read":
                read[_name(step.node, drawn)] = given.printed
    return Used({**_rows(template, bank, read), **read}, relations)


def _steps(template: Template, drawer: Drawer, drawn: Drawn) -> Iterator[Step]:
    """The steps on the way to what is asked; all of them where something is chosen or put in order."""
    if any(not isinstance(part, FindPart) for part in template.parts):
        yield from (step for step in drawn.graph.steps if step.node.endswith(("E0", "E_ref")))
    for part in finds_of(template, drawn.lists):
        yield from drawn.graph.upstream(drawer.find(part).node)


def _name(node: str, drawn: Drawn) -> str:
    """``E0(Zn^2+/Zn)``, ``M(Cu)``, or the constant's own symbol."""
    label = drawn.situation.labels.get(drawn.situation.about.get(node, ""))
    symbol, element = bare_name(node), node.removeprefix("A.")
    if symbol in {"E_ref", "E0"} or label is not None:
        return f"{'E0' if symbol == 'E_ref' else symbol}({ascii_text(label)})" if label is not None else symbol
    return f"A({element})" if element != node else symbol


def _rows(template: Template, bank: Bank, read: Mapping[str, str]) -> dict[str, str]:
    """Rows of the sheet that the scenario can draw, where its draws read such rows; readings on the bench are drawn from them."""
    body = template.scenario.body
    symbols = [*(getattr(body, "metals", None) or ()), *filter(None, [getattr(body, "reference", None)])]
    couples = [*(metals()[symbol].couple for symbol in symbols if symbol in metals()), *(getattr(body, "couples", None) or ())]
    rows = {row.couple: row.E0 for row in bank.sheet.rows}
    found: dict[str, str] = {}
    if hasattr(body, "reference") or any(name.startswith("E0(") for name in read):
        found |= {f"E0({couple})": rows[couple] for couple in couples if couple in rows}
    if any(name.startswith("M(") for name in read):
        masses = bank.sheet.atomic_masses
        found |= {f"M({symbol})": masses[symbol] for symbol in symbols if symbol in masses}
    return found


def _equations(relation: Relation) -> Iterator[str]:
    yield f"{relation.subject} = {as_text(relation.tree)}"
    for form in relation.forms:
        yield f"{form.subject} = {as_text(form.tree)}"


def settings_used(bank: Bank) -> Mapping[str, str]:
    """The settings on which marks and workings hang."""
    settings = bank.settings
    return {"marking policy": settings.policy, "method": settings.method, "nernst form": settings.nernst}
