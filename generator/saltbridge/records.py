"""Frozen records that the stages hand on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Settings:
    """How a bank prints and works; every field changes page, paper and working.

    ``electrons`` is the symbol for the number of electrons, ``method`` whether a calculation is worked in steps or by
    one formula, ``nernst`` which form of the Nernst equation is used at 25 °C, ``units_in_lines`` whether numbers put into a
    formula keep their units. ``answers`` is the room for working on paper, ``students`` what stands for a student at its head,
    ``print_size`` the size of letters in points (11, or in large print 18, 24 or 36).
    """

    title: str = "Electrochemistry"
    language: str = "en"
    decimal_mark: Literal[".", ","] = "."
    electrons: Literal["n", "z"] = "n"
    concentration_unit: Literal["mol/dm3", "mol/L"] = "mol/dm3"
    standard_sign: Literal["°", "⦵"] = "°"
    bridge_sign: Literal["¦¦", "‖"] = "¦¦"
    unit_style: Literal["slash", "power"] = "slash"
    potential_name: Literal["cell potential", "EMF"] = "cell potential"
    sheet: str = "school"
    policy: str = "steps"
    method: Literal["steps", "formula"] = "steps"
    nernst: Literal["lg", "ln"] = "lg"
    units_in_lines: bool = False
    paper: Literal["a4", "us-letter", "a3"] = "a4"
    answers: Literal["lines", "short", "squares", "none"] = "lines"
    students: Literal["name", "number"] = "name"
    school: str = ""
    print_size: int = 11
    licence: str = ""
