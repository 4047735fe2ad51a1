"""The metal that fits a potential worked out before: a choice among metals of the sheet, by the number and not by what was drawn.

So a student's own potential leads to the metal that fits it.
"""

from __future__ import annotations

from saltbridge.bank.parts import ChoosePart
from saltbridge.bank.template import Template
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.graph.laws import Given, Rule, Situation
from saltbridge.graph.node_names import ROLES
from saltbridge.scenarios.half_names import couple_label
from saltbridge.tables import Metal, Sheet, SheetRow, metals


def fitting_node(part: ChoosePart) -> str:
    """The name of the choice by the potential."""
    return f"{part.choose} that fits"


def add_rows(template: Template, situation: Situation, sheet: Sheet) -> None:
    """The potentials of the metals among which such choices are made, with the names of their couples."""
    for metal, row in (each for part in _choices(template) for each in _metals(part, sheet)):
        owner = metal.symbol
        situation.given[f"{owner}.E0"] = Given(float(row.E0), "V", row.E0, "read", sheet.title)
        situation.labels[f"{owner}.couple"] = couple_label(*parse_half_reaction(row.half_reaction).principal, situation.say)
        situation.about[f"{owner}.E0"] = f"{owner}.couple"


def fitting_nodes(template: Template, situation: Situation, sheet: Sheet) -> list[str]:
    """Add the choices where the potential of that electrode is to be found, and give their nodes."""
    found = []
    for part in _choices(template):
        role, fitting = part.choose.partition(".")[0], _metals(part, sheet)
        if fitting and role in situation.given:
            inputs = (f"E0_{role}", *(f"{metal.symbol}.E0" for metal, _ in fitting))
            keys = tuple(metal.name for metal, _ in fitting)
            situation.laws.append(Rule(fitting_node(part), "metal-that-fits", inputs, keys=keys))
            found.append(fitting_node(part))
    return found


def _choices(template: Template) -> tuple[ChoosePart, ...]:
    """The choices of a question turned round; of any other none."""
    return tuple(part for part in template.parts if isinstance(part, ChoosePart)) if template.given else ()


def _metals(part: ChoosePart, sheet: Sheet) -> list[tuple[Metal, SheetRow]]:
    """The options as metals with their rows; none where one is no metal of the sheet, or something else is chosen."""
    role, _, what = part.choose.partition(".")
    names = {metal.name: metal for metal in metals().values()}
    rows = {row.couple: row for row in sheet.rows}
    options = [names.get(option.text) for option in part.options]
    found = [(metal, rows[metal.couple]) for metal in options if metal is not None and metal.couple in rows]
    return found if role in ROLES and what == "metal" and len(found) == len(options) else []
