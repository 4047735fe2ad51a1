"""Situations that several tests of the derivation use."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.chemistry.diagrams import parse_diagram
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Situation
from saltbridge.graph.solved import graph_of
from saltbridge.scenarios.bath.electrolysis import electrolysis, metal_deposit
from saltbridge.scenarios.cell.galvanic import CellOptions, Temperature, galvanic
from saltbridge.scenarios.joining import join
from saltbridge.scenarios.situations import add_print_unit
from saltbridge.tables import metals, sheet
from saltbridge.units import Quantity

CHARGES = {"Ag": 1, "Cu": 2, "Zn": 2, "Ni": 2, "Fe": 2, "Sn": 2, "Pb": 2, "Mg": 2, "Al": 3, "Cr": 3}


def two_metals(left: str, right: str, left_amount: str = "1.0", right_amount: str = "1.0") -> str:
    """The diagram of two metals in solutions of their ions, in mol/L."""
    ions = [metals()[metal].ion for metal in (left, right)]
    return f"{left}(s) | {ions[0]}(aq, {left_amount}) || {ions[1]}(aq, {right_amount}) | {right}(s)"


def cell(text: str, page: str = "college", temperature: Temperature | None = None, **options: Any) -> Situation:
    """The situation of a cell, with the families that a galvanic cell joins."""
    known, chosen = sheet(page), CellOptions(**options)
    situation = galvanic(parse_diagram(text, known.rows), known, catalogue(), temperature, chosen)
    join(situation, catalogue(), "galvanic cell", chosen.nernst)
    return situation


def bath(metal: str, page: str = "college", **quantities: str) -> Situation:
    """Electrolysis of a metal's usual ion: ``I="2.50 A"``, ``t="30 min"``."""
    told = {name: Quantity(*text.split(" ", 1)) for name, text in quantities.items()}
    known = sheet(page)
    return electrolysis(*metal_deposit(metal, known), told, known, catalogue())


@dataclass
class Solved:
    """A graph with its givens and values."""

    situation: Situation
    graph: Graph
    start: list[Any]
    cells: list[Any]

    def __getitem__(self, node: str) -> Any:
        return self.graph.value(self.cells, node)


def solved(situation: Situation, *targets: str) -> Solved:
    """The situation's graph for these targets, run; ``dG:kJ/mol`` asks for a unit."""
    for target in targets:
        name, _, unit = target.partition(":")
        if unit and target not in situation.given and not any(getattr(law, "node", "") == target for law in situation.laws):
            add_print_unit(situation, catalogue(), name, unit)
    graph = graph_of(situation, targets, catalogue())
    start = graph.start(situation.given)
    return Solved(situation, graph, start, graph.run(start))
