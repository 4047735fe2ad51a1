"""A relation is worked in the units given wherever they agree, and converted where they do not."""

from __future__ import annotations

import pytest
from snapshot.taking import banks

from saltbridge.algebra.expression import parse
from saltbridge.api import plain_spaces, working_out
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.graph.trade_units import scale_of
from saltbridge.render.text import question_text


def worked(find, *known, unit=None):
    return working_out(None, known, find, unit).text()


@pytest.mark.parametrize(
    ("equation", "factors", "expected"),
    [
        ("I*t", {"I": 0.001, "t": 3600.0}, 3.6),
        ("c*V/W", {"V": 0.001, "W": 0.001}, 1.0),
        ("(a + b + c)/3", {"a": 0.001, "b": 0.001, "c": 0.001}, 0.001),
        ("a + b", {"a": 0.001}, None),
        ("1 - x", {"x": 0.01}, None),
        ("ln(a/b)", {"a": 0.001, "b": 0.001}, 1.0),
        ("ln(a)", {"a": 0.001}, None),
        ("a^2", {"a": 0.1}, 0.01),
        ("sqrt(a)", {"a": 0.01}, 0.1),
    ],
)
def test_a_scale_is_what_the_units_of_the_leaves_come_to(equation, factors, expected):
    found = scale_of(parse(equation), factors)

    assert found == (None if expected is None else pytest.approx(expected))


def test_milliamperes_times_hours_are_milliampere_hours():
    shown = worked("q", "I = 40 mA", "t = 2.5 h", unit="mAh")

    assert "= 40 × 2.5" in shown
    assert "q = 100 mAh" in shown
    assert "Convert" not in shown


def test_volts_times_milliampere_hours_are_watt_hours_in_one_step():
    shown = worked("W_batt", "U_nom = 3.7 V", "q_cap = 3000 mAh")

    assert "= 3.7 × 3.000" in shown
    assert "= 11.1 Wh" in shown
    assert "10 800" not in shown


def test_amperes_times_minutes_need_a_conversion():
    shown = worked("q", "I = 2.0 A", "t = 25 min")

    assert "t = 25 min = 1500 s" in shown
    assert "= 2.0 × 1500" in shown


@pytest.mark.parametrize(
    ("name", "template", "there", "gone"),
    [
        ("titration", "concordant", ("= (18.45 + 18.45 + 18.45)/3", "= 18.45 cm³"), ("dm³", "55.35")),
        ("equilibrium", "formation", ("= 2 × (−237.1) − 149.3", "= −623.5 kJ/mol"), ("(−474 200)", "474.2 ")),
        ("concentration", "hydrogen-electrode", ("= 0.000 − 0.0592/2 × lg(0.20) − 2/2 × 0.0592 × 2.00",), ("E(pH 0)", "s(pH)")),
        ("concentration", "ph-from-potential", ("= ((−0.527) − 0.000)/(−2/2 × 0.0592)",), ("s(pH)",)),
        ("concentration", "permanganate", ("= −14/6 × 0.0592", "(−0.138 13) × 0.50"), ()),
        ("batteries", "run-time", ("2000 mAh = 2.000 Ah", "= 1.2 × 2.000", "= 2.40 Wh", "= 2.40/0.0260"), ("7200", "8640")),
        ("concentration", "levelled", ("(200 + 250)",), ("0.250",)),
    ],
)
def test_a_working_stays_in_the_units_of_the_question(name, template, there, gone):
    bank = banks()[name]
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    variant = composer.variant(1, practice_seed(1))
    text = plain_spaces(question_text(composer.question(variant), variant))

    assert all(each in text for each in there)
    assert not any(each in text for each in gone)
