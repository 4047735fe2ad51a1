"""Reads the outside cases of this folder and judges a value at the precision that a book prints."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from saltbridge.check.chemistry import quotient
from saltbridge.check.factors import to_coherent

HERE = Path(__file__).resolve().parent


@cache
def cases(name: str, key: str) -> tuple[dict[str, Any], ...]:
    """The cases under ``key`` of a file beside this one."""
    return tuple(yaml.safe_load((HERE / name).read_text(encoding="utf-8"))[key])


def printed(value: float, like: str, figures: int | None = None) -> Decimal:
    """``value`` rounded to the last printed place of ``like``, half away from zero after twelve significant digits."""
    shown = Decimal(like)
    place = int(shown.as_tuple().exponent) if figures is None else shown.adjusted() - figures + 1
    return Decimal(f"{value:.11e}").quantize(Decimal(1).scaleb(place), rounding=ROUND_HALF_UP)


def as_printed(value: float, like: str, figures: int | None = None) -> bool:
    """Whether ``value`` rounds to ``like``."""
    rounded = printed(value, like, figures)
    return rounded == printed(float(like), like, figures)


def plain_values(know: list[str], equation: str | None = None, activities: dict[str, float] | None = None) -> dict[str, float]:
    """What the independent route is told: ``name = value unit`` lines in coherent units, and Q from an equation."""
    values = {}
    for line in know:
        name, _, quantity = line.partition(" = ")
        number, _, unit = quantity.partition(" ")
        values[name] = to_coherent(float(number), unit)
    if equation:
        values["Q"] = quotient(equation, activities or {})
    return values
