"""The half-equations of a cell and their sum as nodes, and the electrons counted from it."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import SIDES, GalvanicCell, Side
from saltbridge.graph.laws import Situation
from saltbridge.graph.node_names import Role
from saltbridge.scenarios.equation_laws import add_electrons, add_half, add_sum, add_way, give_equation


def add_cell_equations(
    situation: Situation, catalogue: Catalogue, cell: GalvanicCell, right: Side, count: int, *, as_written: bool
) -> None:
    """The two half-equations and their sum; as written the right-hand one is the reduction, else the roles decide."""
    left: Side = "left" if right == "right" else "right"
    add_electrons(situation, catalogue, count)
    if not as_written:
        add_way(situation, catalogue, "anode", left, right)
    if cell.is_concentration_cell:
        return  # both sides hold one couple: what passes from one to the other is no equation to balance
    for side in SIDES:
        give_equation(situation, f"{side}.half", cell.side(side).half.reduction)
    kinds = ("half-at-right", "half-at-left") if as_written else ("half-at-cathode", "half-at-anode")
    roles: tuple[tuple[Role, str, Side], ...] = (("cathode", kinds[0], right), ("anode", kinds[1], left))
    for role, kind, side in roles:
        inputs = (f"{side}.half",) if as_written else (role, *(f"{each}.half" for each in SIDES))
        add_half(situation, catalogue, role, kind, inputs, () if as_written else SIDES)
    add_sum(situation, catalogue)
