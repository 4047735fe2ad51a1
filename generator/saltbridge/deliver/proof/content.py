"""What a signature is bound to: digests of a template's keys and of everything its numbers and marks follow from."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from typing import Any

from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import FindPart
from saltbridge.bank.scenario import BenchScenario, ElectrolysisScenario, GalvanicScenario
from saltbridge.bank.template import Template
from saltbridge.bank.yamlfile import read_yaml
from saltbridge.derivation.catalogue import Catalogue, Relation
from saltbridge.derivation.expression import as_text
from saltbridge.derivation.laws import Instance
from saltbridge.draw.draws import Drawer
from saltbridge.tables import metals

PARTS = ("template", "data sheet", "relations", "settings")
DIGITS = 16
_DRAWS = 8  # shapes of a template seldom differ in their relations; so many draws show them


def content_of(template: Template, bank: Bank, catalogue: Catalogue) -> dict[str, str]:
    """Digests by part. A change of layout or comments in the file changes nothing. Raises ``Faulty`` as ``Drawer.draw`` does."""
    return {
        "template": _digest(read_yaml(bank.folder / template.file, template.file).plain()),
        "data sheet": _digest(sheet_used(template, bank)),
        "relations": _digest(relations_used(template, bank, catalogue)),
        "settings": _digest(settings_used(bank)),
    }


def _digest(value: Any) -> str:
    text = json.dumps(value, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("ascii")).hexdigest()[:DIGITS]


def sheet_used(template: Template, bank: Bank) -> dict[str, str]:
    """What the template's scenario can read from the data sheet, as printed."""
    rows = {row.couple: row.E0 for row in bank.sheet.rows}
    found = {f"E0({couple})": rows[couple] for couple in couples_of(template) if couple in rows}
    if isinstance(template.scenario.body, ElectrolysisScenario):
        masses = bank.sheet.atomic_masses
        found |= {f"A({symbol})": masses[symbol] for symbol in template.scenario.body.metals if symbol in masses}
    return found | {symbol: bank.sheet.constants[symbol].printed for symbol in ("F", "R", "slope", "T")}


def couples_of(template: Template) -> tuple[str, ...]:
    """The couples that the scenario can draw."""
    known = metals()
    match template.scenario.body:
        case GalvanicScenario(metals=symbols, couples=couples):
            return tuple(known[symbol].couple for symbol in symbols or ()) + tuple(couples or ())
        case BenchScenario(reference=reference, metals=symbols):
            return tuple(known[symbol].couple for symbol in (reference, *symbols))
        case ElectrolysisScenario(metals=symbols):
            return tuple(known[symbol].couple for symbol in symbols)


def relations_used(template: Template, bank: Bank, catalogue: Catalogue) -> dict[str, str]:
    """The relations on the way to the template's answers, with all their forms, as text."""
    drawer = Drawer(template, bank, catalogue)
    found: dict[str, str] = {}
    for number in range(1, _DRAWS + 1):
        drawn = drawer.draw(f"content {number}")
        for part in template.parts:
            if isinstance(part, FindPart):
                for step in drawn.graph.upstream(drawer.find(part).node):
                    if isinstance(step.law, Instance) and step.law.law in catalogue.relations:
                        found[step.law.law] = _text(catalogue.relations[step.law.law])
    return found


def _text(relation: Relation) -> str:
    return "; ".join(_equations(relation))


def _equations(relation: Relation) -> Iterator[str]:
    yield f"{relation.subject} = {as_text(relation.tree)}"
    for form in relation.forms:
        yield f"{form.subject} = {as_text(form.tree)}"


def settings_used(bank: Bank) -> Mapping[str, str]:
    """The settings on which marks and workings hang."""
    settings = bank.settings
    return {"marking policy": settings.policy, "method": settings.method, "nernst form": settings.nernst}
