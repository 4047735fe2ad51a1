"""Values of examples as plain text: enough digits to recognise a quantity, in its usual unit."""

from __future__ import annotations

from saltbridge import units
from saltbridge.catalogue.catalogue import Quantity
from saltbridge.graph.laws import Given
from saltbridge.sigfigs import to_figures

_FIGURES = 3
_LONGEST = 9  # characters of a number before it is written with a power of ten


def given_value(given: Given) -> str:
    """A value as the student is given it."""
    return f"{given.printed} {given.unit}".strip()


def number_value(value: float, quantity: Quantity) -> str:
    """A result to three figures, a whole number as such."""
    if quantity.whole and abs(value - round(value)) < 1e-9:
        return f"{round(value)} {quantity.show}".strip()
    rounded = to_figures(value * units.factor(quantity.unit, quantity.show), _FIGURES)
    plain = f"{rounded:f}"
    return f"{plain if len(plain) <= _LONGEST else f'{rounded:e}'.replace('e+', 'e')} {quantity.show}".strip()
