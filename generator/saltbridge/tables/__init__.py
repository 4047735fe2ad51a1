"""Reads and checks ``data/`` and a bank's own sheet: every value comes with its source."""

from __future__ import annotations

from saltbridge.tables.own_couples import OwnCouples, read_own_couples, temperature_coefficient, with_own_couples
from saltbridge.tables.potentials import Couple, potentials, read_potentials
from saltbridge.tables.sheets import CONSTANTS, ORDERS, Order, Sheet, SheetRow, ordered, read_sheet, sheet, sheet_names
from saltbridge.tables.substances import (
    Constant,
    Element,
    Metal,
    constant,
    constants,
    elements,
    metals,
    read_constants,
    read_elements,
    read_metals,
)

__all__ = [
    "CONSTANTS",
    "ORDERS",
    "Constant",
    "Couple",
    "Element",
    "Metal",
    "Order",
    "OwnCouples",
    "Sheet",
    "SheetRow",
    "constant",
    "constants",
    "elements",
    "metals",
    "ordered",
    "potentials",
    "read_constants",
    "read_elements",
    "read_metals",
    "read_own_couples",
    "read_potentials",
    "read_sheet",
    "sheet",
    "sheet_names",
    "temperature_coefficient",
    "with_own_couples",
]
