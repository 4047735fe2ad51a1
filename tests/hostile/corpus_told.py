"""Hostile tellings of ``saltbridge work``: diagrams, quantities, names, units."""

from __future__ import annotations

CELL = "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)"
HYDROGEN = "Pt(s) | H2(g, 1.0 bar) | H^+(aq) || Cu^2+(aq, 1.0) | Cu(s)"


def _known(told: str, find: str = "E_cell", cell: str = CELL) -> list[str]:
    return [cell, "--given", told, "--find", find]


def _bath(told: str, find: str = "m") -> list[str]:
    return ["--given", "metal = Cu", "--given", "t = 10 s", "--given", told, "--find", find]


def _drawn(diagram: str) -> list[str]:
    return [diagram, "--find", "E_cell"]


# Name → (arguments, the code of its fault; a code of several is one of them).
TOLD: dict[str, tuple[list[str], str]] = {
    "a diagram of brackets": (_drawn("(" * 399), "diagram-unread"),
    "a diagram of a hundred thousand letters": (_drawn("(" * 100_000), "diagram-too-long"),
    "a diagram of bars and nothing else": (_drawn("|" * 399), "diagram-unread"),
    "a diagram of one bridge": (_drawn("||"), "species-unread"),
    "a diagram of many phases": (_drawn("Zn | " * 60 + "|| Cu"), "couple-not-found"),
    "a diagram with a count beyond all": (_drawn("H999999 || Cu"), "species-unread"),
    "a diagram with script": (_drawn("<script>alert(1)</script> || <b>"), "species-unread"),
    "a diagram with code": (_drawn("__import__('os') || Cu"), "species-unread"),
    "a concentration beyond all in a diagram": (_drawn("Zn(s) | Zn^2+(aq, 1e99) || Cu^2+ | Cu(s)"), "amount-out-of-range"),
    "a concentration of zeros in a diagram": (_drawn("Zn(s) | Zn^2+(aq, " + "0" * 300 + ") || Cu^2+ | Cu(s)"), "amount-too-long"),
    "a concentration of thirteen figures in a diagram": (
        _drawn("Zn(s) | Zn^2+(aq, 0.0000316227766) || Cu^2+ | Cu(s)"),
        "amount-too-long",
    ),
    "a pH of minus four hundred": (_known("pH = -400", cell=HYDROGEN), "pH-out-of-range"),
    "a pH without end": (_known("pH = 1e999", cell=HYDROGEN), "pH-out-of-range"),
    "a pH below any end": (_known("pH = -1e999", cell=HYDROGEN), "pH-out-of-range"),
    "a pH that is no number": (_known("pH = NaN", cell=HYDROGEN), "quantity"),
    "a concentration told without end": (_known("c(Zn^2+) = 1e999 mol/L"), ""),
    "a concentration told as nothing": (_known("c(Zn^2+) = 0 mol/L"), ""),
    "a concentration told backwards": (_known("c(Zn^2+) = -1 mol/L"), ""),
    "a concentration of brackets": (_known("c(" + "(" * 79 + ") = 1 mol/L"), "species-unread"),
    "a potential told without end": (_known("E0(Cu^2+/Cu) = 1e999 V"), ""),
    "a potential of a couple of brackets": (_known("E0(" + "(" * 79 + ") = 1 V"), "couple-not-on-sheet"),
    "a temperature below all cold": (_known("T = -300 °C"), ""),
    "a temperature told without end": (_known("T = 1e999 K"), ""),
    "no temperature": (_known("T = 0 K"), ""),
    "electrons without end": (_known("n = 1e999"), ""),
    "electrons of a size beyond all use": (_known("n = 1e308"), "quantity-size"),
    "a Faraday constant of a size beyond all use": (_known("F = 1.7e308 C/mol"), "quantity-size"),
    "an amount that overflows on the way": (
        ["--given", "n_e = 1e200 mol", "--given", "F = 1e200 C/mol", "--find", "q"],
        "quantity-size",
    ),
    "half an electron": (_known("n = 0.5"), "whole"),
    "a current told without end": (_bath("I = 1e999 A"), ""),
    "a current told backwards": (_bath("I = -1 A"), ""),
    "a current told in code": (_bath("I = __import__('os')"), "quantity"),
    "a current told in a unit of letters": (_bath("I = 1 " + "A" * 150), "quantity"),
    "a current in figures of another script told": (_bath("I = ١ A"), "quantity"),
    "a telling of a thousand letters": (_bath("I = " + "1" * 1000), "given"),
    "a telling of nothing": (_bath("="), "given"),
    "a name of Python's told": (_bath("__class__ = 1"), "unknown-quantity"),
    "three hundred tellings of one thing": (["--given", "I = 1 A"] * 300 + ["--find", "q"], "given-twice"),
    "a name of Python's to find": ([CELL, "--find", "__class__"], "unknown-quantity"),
    "a walk to find": ([CELL, "--find", "E_cell.__class__"], ""),
    "a name of ten thousand letters to find": ([CELL, "--find", "x" * 10_000], "unknown-quantity"),
    "an answer in no unit at all": ([*_bath("I = 1 A")[:-1], "q", "--in", ""], "no-unit"),
    "names of a bank that is not there": (["--list", "--bank", "nowhere"], "no-bank"),
    "an answer told in kilograms": ([CELL, "--find", "E_cell", "--in", "kg"], ""),
    "an answer in a unit without end": ([CELL, "--find", "E_cell", "--in", "V" * 1000], "unit"),
    "an answer in a unit of powers": ([CELL, "--find", "E_cell", "--in", "V999999999"], "unit"),
    "a sheet told by a path": ([CELL, "--find", "E_cell", "--sheet", "../../etc/passwd"], "unknown-sheet"),
    "a sheet told by its full path": ([CELL, "--find", "E_cell", "--sheet", "/etc/passwd"], "unknown-sheet"),
}
