"""What is told and would change the answer is used, or refused with the cure; what is not needed is listed."""

from __future__ import annotations

import pytest

from saltbridge.api import work
from saltbridge.faults import Faulty

SILVER = "Pt(s) | H2(g) | H^+(aq) || Ag^+(aq) | Ag(s)"
DANIELL = "Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)"


@pytest.mark.parametrize(
    ("diagram", "know", "find", "expected"),
    [
        # Nernst equation by hand, 25 °C: E = -(RT/F) ln(1/0.08); 0.401 + 3 x 0.05916; 0.7996 + 3 x 0.05916
        (None, ["couple = H^+/H2", "c_H = 0.08 mol/L"], "E", -0.06489),
        (None, ["couple = O2/OH^-", "pOH = 3"], "E", 0.57847),
        (None, ["couple = O2/OH^-", "c_OH = 0.0010 mol/L"], "E", 0.57847),
        (None, ["couple = O2/OH^-", "c_H = 1e-11 mol/L"], "E", 0.57847),
        (None, ["couple = H^+/H2", "pOH = 11"], "E", -0.17747),
        (SILVER, ["c_H = 0.001 mol/L"], "E_cell", 0.97707),
        ("Pt(s) | O2(g) | OH^-(aq) || Ag^+(aq) | Ag(s)", ["c_OH = 0.0010 mol/L"], "E_cell", 0.22113),
    ],
)
def test_the_acidity_told_counts(diagram, know, find, expected):
    found = work(diagram, know, find)

    assert found["value"] == pytest.approx(expected, abs=2e-5)
    assert found["unused"] == []


@pytest.mark.parametrize(
    ("diagram", "know", "find", "message"),
    [
        (
            DANIELL,
            ["E_cathode = 0.30 V"],
            "E_cell",
            (
                "E_cathode = 0.30 V: expected potentials that follow from the diagram; found E_cathode told beside it. Leave out the "
                "diagram and give E_cathode and E_anode, or tell the diagram's concentrations. [not-counted]"
            ),
        ),
        (
            DANIELL,
            ["slope = 0.0591 V", "T = 50 °C"],
            "E_cell",
            (
                "slope = 0.0591 V: expected RT ln 10/F of the temperature told; found a slope, which holds at 25 °C. Leave it out; "
                "R, T and F are used. [not-counted]"
            ),
        ),
        (
            None,
            ["couple = H^+/H2", "p_gas = 50 kPa"],
            "E",
            (
                'p_gas = 50 kPa: expected a pressure by its gas; found p_gas. Write the gas in brackets, such as "p(H2) = 50 kPa". '
                "[not-counted]"
            ),
        ),
        (
            DANIELL,
            ["c_H = 0.30 mol/L"],
            "E_cell",
            (
                "c_H = 0.30 mol/L: expected what counts in this cell; its reaction holds no H^+; found c_H. Leave it out. "
                "[not-counted]"
            ),
        ),
        (
            None,
            ["couple = Cu^2+/Cu", "pOH = 3"],
            "E",
            "pOH = 3: expected what counts in Cu^2+/Cu; its reaction holds no OH^-; found pOH. Leave it out. [not-counted]",
        ),
    ],
)
def test_what_can_not_count_is_refused_with_the_cure(diagram, know, find, message):
    with pytest.raises(Faulty) as told:
        work(diagram, know, find)

    assert [str(each) for each in told.value.faults] == [message]


def test_what_is_not_needed_is_listed():
    found = work(None, ["I = 2.0 A", "t = 30 min", "M = 63.5 g/mol"], "q")

    assert found["unused"] == ["M"]
