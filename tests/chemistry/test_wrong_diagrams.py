"""Which diagram is right: the right one carries every species, and none of the wrong ones says the same."""

from __future__ import annotations

import pytest

from saltbridge.chemistry.diagrams import diagram, in_reading_order, parse_diagram
from saltbridge.chemistry.wrong_diagrams import wrong_diagrams
from saltbridge.tables import sheet

ROWS = sheet("college").rows

CELLS = (
    "Zn(s) | Zn^2+(aq) || MnO4^-(aq), Mn^2+(aq), H^+(aq) | Pt(s)",
    "Zn(s) | Zn^2+(aq) || H^+(aq) | H2(g) | Pt(s)",
    "Pt(s) | Sn^2+(aq), Sn^4+(aq) || Fe^3+(aq), Fe^2+(aq) | Pt(s)",
)


@pytest.mark.parametrize("text", CELLS)
def test_no_wrong_way_is_written_like_the_right_one(text):
    cell = parse_diagram(text, ROWS)
    right = [in_reading_order(cell.side(side), side) for side in ("left", "right")]
    found = wrong_diagrams(cell)
    assert {"reversed", "without_electrode"} <= set(found)
    for name, (wrong, way) in found.items():
        written = [way.phases(wrong.side(side), side) for side in ("left", "right")]
        assert written != right or way.numbers, name


def test_hydrogen_ions_stand_in_the_right_diagram_and_in_the_wrong_ones():
    cell = parse_diagram(CELLS[0], ROWS)
    assert "H^+(aq)" in diagram(cell)
    for wrong, way in wrong_diagrams(cell).values():
        assert "H^+" in {
            species.bare for side in ("left", "right") for group in way.phases(wrong.side(side), side) for species in group
        }
