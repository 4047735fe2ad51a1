"""A student who writes every result down with three figures, or as many as are asked, is inside every accepted range."""

from __future__ import annotations

import pytest
from snapshot.taking import SEEDS, banks, places

from saltbridge.bank.parts import FindPart
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.seeds import practice_seed
from saltbridge.sigfigs import figures_of, to_figures

CALCULATED = [
    (name, template)
    for name, template in places()
    if any(isinstance(part, FindPart) for part in banks()[name].template(template).parts)
]


def results_of_a_rounding_student(drawn):
    """Part after part with the student's own numbers: every result, an earlier answer too, rounded and used on."""
    graph, own = drawn.graph, {}
    for target, outcome in drawn.outcomes.items():
        figures = max(3, figures_of(str(outcome.right.printed)))
        cells = list(drawn.start)
        for place, law, numeric in graph.program:
            value = own.get(graph.steps[place].node)
            if value is None:
                value = law(cells)
                if numeric and isinstance(value, float):
                    value = float(to_figures(value, figures))
            cells[place] = value
        own[target] = cells[graph.index[target]]
    return own


@pytest.mark.parametrize(("name", "template"), CALCULATED, ids=lambda each: each)
def test_rounding_every_result_stays_inside_the_accepted_range(name, template):
    bank = banks()[name]
    drawer = Drawer(bank.template(template), bank, catalogue(bank.folder))

    outside = []
    for number in range(1, SEEDS + 1):
        drawn = drawer.draw(practice_seed(number))
        for node, value in results_of_a_rounding_student(drawn).items():
            right = drawn.outcomes[node].right
            if not float(right.lo) <= value <= float(right.hi):
                outside.append(f"variant {number}: {node} = {value}, accepted {right.lo} to {right.hi}")

    assert outside == []
