"""A derivation of four relations (E° of the cell, Q, Nernst, ΔG) against plain floats and against SymPy.

The plain function does the same arithmetic and the same choice of the anode, as a programmer would write it for this one
question; SymPy solves the same four equations one after the other.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import log

import sympy
from measure import Ratio, seconds

from saltbridge.algebra.rearrange import solve
from saltbridge.catalogue.catalogue import catalogue, read_catalogue
from saltbridge.chemistry.diagrams import parse_diagram
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, Situation, instance
from saltbridge.graph.planner import plan
from saltbridge.graph.routes import Asked
from saltbridge.graph.slips import slip_points
from saltbridge.graph.solved import outcome
from saltbridge.scenarios.cell.galvanic import CellOptions, galvanic
from saltbridge.scenarios.joining import join
from saltbridge.tables import sheet

DIAGRAM = "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)"
WORK = "run, four relations"


def plain(E0_left: float, E0_right: float, c_left: float, c_right: float, n: float, R: float, T: float, F: float) -> float:
    """Gibbs energy in J/mol of a cell of two metals in their own ions."""
    if E0_left < E0_right:
        E0_cathode, E0_anode, Q = E0_right, E0_left, c_left / c_right
    else:
        E0_cathode, E0_anode, Q = E0_left, E0_right, c_right / c_left
    E0_cell = E0_cathode - E0_anode
    E_cell = E0_cell - R * T / (n * F) * log(Q)
    return -n * F * E_cell


def by_sympy() -> float:
    """Solve the four relations one after the other with SymPy, each for its one unknown, numbers put in; ΔG in J/mol."""
    names = "E0_cell E0_cathode E0_anode Q c_anode c_cathode E_cell R T n F dG"
    E0_cell, E0_cathode, E0_anode, Q, c_anode, c_cathode, E_cell, R, T, n, F, dG = sympy.symbols(names)
    known = {E0_cathode: 0.34, E0_anode: -0.762, c_anode: 0.1, c_cathode: 1.0, R: 8.314, T: 298.15, n: 2.0, F: 96485.0}
    relations = {
        E0_cell: sympy.Eq(E0_cell, E0_cathode - E0_anode),
        Q: sympy.Eq(Q, c_anode / c_cathode),
        E_cell: sympy.Eq(E_cell, E0_cell - R * T / (n * F) * sympy.log(Q)),
        dG: sympy.Eq(dG, -n * F * E_cell),
    }
    for unknown, relation in relations.items():
        known[unknown] = sympy.solve(relation.subs(known), unknown)[0]
    return float(known[dG])


def ratios() -> Iterator[Ratio]:
    """Run and planning against their rivals."""
    college, shipped = sheet("college"), catalogue()
    cell = parse_diagram(DIAGRAM, college.rows)
    situation = galvanic(cell, college, shipped, options=CellOptions(nernst="ln"))
    join(situation, shipped, "galvanic cell", "ln")
    graph = Graph(plan(situation, ["dG"]))
    start = graph.start(situation.given)
    known = [start[graph.index[name]] for name in ("left.E0", "right.E0", "left.c", "right.c")]
    others = [graph.value(graph.run(start), name) for name in ("n", "R", "T", "F")]
    values = [float(value) for value in (*known, *others)]
    if abs(plain(*values) - graph.value(graph.run(start), "dG")) > 1e-6:
        raise SystemExit("the derivation and the plain floats differ; a benchmark of unlike things says nothing")
    ours = seconds(lambda: graph.run(start))
    yield Ratio(WORK, ours, "plain floats", seconds(lambda: plain(*values)), "≤ 10 ×")
    yield Ratio(WORK, ours, "SymPy's solve", seconds(by_sympy, rounds=2), "≥ 100 × as fast")
    points = slip_points(graph, "dG", shipped, situation.flat_quotients)
    asked = Asked(figures=3)
    judged = seconds(lambda: outcome(graph, start, "dG", asked, points))
    yield Ratio(f"answer, accepted range and {len(points)} slips", judged, "one run", ours)
    planned = seconds(lambda: Graph(plan(situation, ["dG"])))
    yield Ratio("plan and compile, once for each shape", planned, "one run", ours)
    yield Ratio("plan each name of every relation, cold", _plan_all(), "plan and compile", planned)
    aim = "≤ 1 s with the line before"
    yield Ratio("read and check the shipped relations and slips, cold", _cold(), "plan and compile", planned, aim)


def _plan_all() -> float:
    """Every relation solved for every name, among all laws, with nothing remembered."""
    relations = catalogue().relations.values()
    laws = [instance(relation) for relation in relations]
    wanted = [(relation.symbols, unknown) for relation in relations for unknown in relation.symbols]

    def search() -> None:
        solve.cache_clear()
        for symbols, unknown in wanted:
            given = {name: Given(1.0, "", "1") for name in symbols if name != unknown}
            plan(Situation(given=given, laws=list(laws)), [unknown])

    return seconds(search, rounds=2)


def _cold() -> float:
    def read() -> None:
        read_catalogue.cache_clear()
        catalogue()

    return seconds(read, rounds=2)
