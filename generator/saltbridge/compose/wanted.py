"""How exactly a number is wanted, in words that stand at its box and in its verdict."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.compose.printing import Printer
from saltbridge.graph.routes import Asked


def wanted(asked: Asked, unit: str, printer: Printer) -> str:
    """``3 significant figures``, ``to 0.01 V``, ``to the nearest mV`` or ``a whole number``, in the bank's language."""
    words = printer.words
    if asked.whole:
        return words("a whole number")
    if asked.decimals is None:
        figures = asked.figures or 3
        return words("1 significant figure") if figures == 1 else words("{figures} significant figures", figures=figures)
    shown = printer.unit(unit)
    if asked.decimals > 0:
        return words("to {step}", step=printer.quantity(Decimal(1).scaleb(-asked.decimals), unit).plain)
    return words("to the nearest {unit}", unit=shown.plain) if shown else words("to the nearest whole number")
