"""Hostile values: numbers without end, conditions, names, lists, scenarios."""

from __future__ import annotations

from collections.abc import Iterator

from hostile_cases import Case, keyed


def _bath(current: str, more: str = "") -> str:
    return f"{{electrolysis: {{metals: [Cu], current: {current}, time: 30 min{more}}}}}"


def _cell(what: str) -> str:
    return f"{{galvanic cell: {{metals: [Zn, Cu, Ag], {what}}}}}"


def _bench(what: str) -> str:
    return f"{{bench: {{reference: Cu, metals: [Zn, Ag], {what}}}}}"


_SCENARIOS = {
    "a current beyond binary numbers": (_bath("1e999 A"), "quantity-size"),
    "a current below binary numbers": (_bath("1e-999 A"), "quantity-size"),
    "no current": (_bath("0 A"), "quantity-sign"),
    "a current backwards": (_bath("-1 A"), "quantity-sign"),
    "a current that is no number": (_bath("NaN A"), "quantity"),
    "an infinite current": (_bath("inf A"), "quantity"),
    "a current in figures of another script": (_bath("١ A"), "quantity"),
    "a current of a thousand digits": (_bath("1" * 1000 + " A"), "too-long"),
    "a current in a unit to the ninth": (_bath("1 A^9"), "quantity-kind"),
    "a current in a unit to the ninety-ninth": (_bath("1 A^99"), "unit"),
    "a current in a unit of a thousand letters": (_bath("1 " + "A" * 1000), "too-long"),
    "a current in kilograms": (_bath("1 kg"), "quantity-kind"),
    "a current in code": (_bath("'__import__(\"os\")'"), "quantity"),
    "ten to the tenth values": (_bath("{between: [0.0000000001 A, 1 A], step: 0.0000000001 A}"), "drawn"),
    "more values than digits can count": (_bath("{between: [1e-30 A, 1e30 A], step: 1e-30 A}"), "drawn"),
    "a step of nothing": (_bath("{between: [0.1 A, 1 A], step: 0 A}"), "drawn"),
    "a step backwards": (_bath("{between: [0.1 A, 1 A], step: -0.1 A}"), "drawn"),
    "a step that never fits": (_bath("{between: [0.1 A, 1 A], step: 0.7 A}"), "drawn"),
    "a range upside down": (_bath("{between: [1 A, 0.1 A], step: 0.1 A}"), "drawn"),
    "a range of three": (_bath("{between: [1 A, 2 A, 3 A], step: 1 A}"), "drawn"),
    "a list of ten thousand values": (_bath("{from: [" + ", ".join(f"{n} A" for n in range(1, 9000)) + "]}"), "list-length"),
    "an efficiency without end": (_bath("1 A", ", efficiency: 1e999 %"), "quantity-size"),
    "a concentration of nothing": (_cell("concentrations: {from: [0, 0.1]}"), "quantity-sign"),
    "a concentration without end": (_cell("concentrations: 1e999"), "quantity-size"),
    "a negative concentration": (_cell("concentrations: -1 mol/L"), "quantity-sign"),
    "a temperature without end": (_cell("temperature: 1e999 K"), "quantity-size"),
    "a scatter without end": (_bench("scatter: 1e30 V"), "bench-scatter"),
    "a scatter backwards": (_bench("scatter: -0.02 V"), "bench-scatter"),
    "a scatter between the steps of a meter": (_bench("scatter: 0.0001 V"), "bench-scatter"),
    "one strip": ("{bench: {reference: Cu, metals: [Zn]}}", "list-length"),
    "a thousand metals": ("{galvanic cell: {metals: [" + ", ".join(f"M{n}" for n in range(1000)) + "]}}", "list-length"),
    "metals that are code": ("{galvanic cell: {metals: [__import__, Cu]}}", "unknown-metal"),
    "a metal twice": ("{galvanic cell: {metals: [Zn, Zn]}}", "repeated"),
    "couples that are paths": ("{galvanic cell: {couples: [../../x, /etc/passwd]}}", "unknown-couple"),
    "two scenarios": ("{galvanic cell: {metals: [Zn, Cu]}, bench: {reference: Cu, metals: [Zn, Ag]}}", "scenario-kind"),
    "no scenario": ("{}", "scenario-kind"),
    "a scenario with a dunder key": ("{__class__: {metals: [Zn]}}", "unknown-key"),
}
_CONDITIONS = {
    "a comparison that calls": ("__import__('os').system('id') == 0", "condition"),
    "a condition that walks": ("left.__class__ == 1", "condition"),
    "a condition with not": ("not E0_cell > 1 V", "condition"),
    "a condition that computes": ("E0_cell * 9**9**9 > 1 V", "condition"),
    "a condition of ten thousand letters": ("E0_cell > " + "1" * 10_000 + " V", "condition"),
    "a condition of a hundred comparisons": (" and ".join(["n > 1"] * 20), "condition"),
    "a condition of digits and dots": ("n > " + "1." * 90, "condition"),
    "a condition of constants": ("0 < 1", "condition"),
    "a condition that orders words": ('left.metal < "Zn"', "condition"),
    "a condition that nothing keeps": ("E0_cell > 1e999 V", "rejects-almost-every-draw"),
    "a condition on a thing that is not there": ("secret > 1", "unknown-name"),
    "a condition in wrong units": ("E0_cell > 1 kg", "dimension"),
    "a condition that is a list of lists": ("[[n > 1]]", "wrong-type"),
    "two thousand conditions": ("[" + ", ".join(f"n > {n}" for n in range(2000)) + "]", "list-length"),
}
_PARTS = {
    "a thousand parts": ("[" + "{ask: x, find: E0_cell}, " * 1000 + "]", "list-length"),
    "more parts than letters": ("[" + "{ask: x, find: E0_cell}, " * 27 + "]", "list-length"),
    "no part": ("[]", "list-length"),
    "a thing to find that is code": ("[{ask: x, find: '__import__(\"os\")'}]", "name"),
    "a thing to find of a thousand letters": ("[{ask: x, find: " + "E" * 1000 + "}]", "too-long"),
    "a thing to find that walks": ("[{ask: x, find: E0_cell.__class__}]", "name"),
    "a thing to find with a colon": ("[{ask: x, find: 'E0_cell:mV'}]", "name"),
    "a thing to find that is not there": ("[{ask: x, find: secret}]", "unknown-quantity"),
    "an answer in kilograms": ("[{ask: x, find: E0_cell, in: kg}]", "dimension"),
    "an answer in a unit of code": ("[{ask: x, find: E0_cell, in: '__class__'}]", "unit"),
    "ninety-nine figures": ("[{ask: x, find: E0_cell, figures: 99}]", "rounding"),
    "a million decimals": ("[{ask: x, find: E0_cell, decimals: 1000000}]", "wrong-type"),
    "marks without end": ("[{ask: x, find: E0_cell, marks: 99999999}]", "wrong-type"),
    "marks below nothing": ("[{ask: x, find: E0_cell, marks: -5}]", "wrong-type"),
    "a part of every kind": ("[{ask: x, find: E0_cell, choose: anode, from: [a, b], balance: cell equation}]", "part-kind"),
    "a thousand options": (
        "[{ask: x, choose: anode.metal, from: [" + ", ".join(f"o{n}" for n in range(1000)) + "]}]",
        "list-length",
    ),
    "a choice that nothing decides": ("[{ask: x, choose: secret, from: [a, b]}]", "unknown-name"),
    "an order of things that are not there": ("[{ask: x, order: [secret, other], by: E}]", "unknown-name"),
}
_OTHERS = {
    "outcome": {"an outcome that is a path": ("../../etc/passwd", "unknown-outcome"), "an outcome without end": ("T" * 10_000, "too-long")},
    "must reveal": {
        "slips without end": ("[" + ", ".join(f"a-{n}" for n in range(5000)) + "]", "list-length"),
        "slips that are code": ("[__import__]", "identifier"),
        "slips that nobody makes": ("[never-made]", "unknown-slip"),
    },
    "rules": {"rules that are code": ("['R-EMF; import os']", "unknown-rule")},
    "figure": {"a figure that is a path": ("../../secret.svg", "figure"), "a figure that is a drawing": ("<svg/>", "figure")},
    "context": {"context words with markup": ("['<script>', b]", "identifier"), "a context word of a megabyte": ("[" + "b" * 900_000 + "]", "too-long")},
    "given": {"a given that walks": ("[__globals__]", "name"), "a given that is not there": ("[secret]", "not-derivable")},
    "minutes": {"minutes in code": ("9**9", "wrong-type"), "minutes without end": ("9" * 5000, "wrong-type")},
    "use": {"a use that is a command": ("rm -rf /", "unknown-word")},
    "level": {"a level with markup": ("<b>core</b>", "unknown-word")},
}  # fmt: skip


def cases() -> Iterator[Case]:
    """All cases of this file."""
    yield from keyed("scenario", _SCENARIOS)
    yield from keyed("keep only if", _CONDITIONS)
    yield from keyed("parts", _PARTS)
    for key, rows in _OTHERS.items():
        yield from keyed(key, rows)
