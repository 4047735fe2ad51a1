"""Cases of short words and of tables; each verdict was worked with pencil from the rule."""

from __future__ import annotations

from chosen_cases import CELL

TWO = {"decimals": 2}
WORD = {
    "kind": "word", "node": None, "words": [["chlorine", "chlorinegas", "cl2"], ["oxygen"]], "right": [0], "values": [],
    "slips": {"1": ["water-reacts"]}, "near": {"chloride": "It was there before.", "oxygen": "That is the answer for a thin solution."},
}  # fmt: skip
# The metal at the anode, as a word: zinc on the left, silver on the right.
ANODE = {
    "kind": "word", "node": "anode", "words": [["zinc", "zn"], ["silver", "ag"]], "right": [0], "values": ["left", "right"],
    "slips": {"1": ["higher-is-oxidised"]}, "near": {"brass": "An alloy."}, "earlier": [],
}  # fmt: skip
GROWS = {
    "kind": "choice", "node": "heavier", "values": ["left", "right"], "right": [1], "slips": {}, "errors": [],
    "earlier": [["c.1", "anode"]], **CELL,
}  # fmt: skip
_E = {
    "kind": "number", "node": "E", "unit": "V", "figures": None, "decimals": 2, "value": "0.46", "exact": "0.46", "lo": "0.455", "hi": "0.465",
    "place": "0.01", "earlier": [], "routes": [], "slips": [{"id": "added"}], "slip_ranges": {"added": ["1.135", "1.145"]}, "label": "c.1", "row": 0,
}  # fmt: skip
_TWICE = {
    "kind": "number", "node": "U", "unit": "V", "figures": None, "decimals": 2, "value": "0.92", "exact": "0.92", "lo": "0.915", "hi": "0.925",
    "place": "0.01", "earlier": [["c.1", "E", TWO]], "routes": [], "slips": [], "slip_ranges": {}, "label": "c.2", "row": 0,
    "graph": [{"node": "E", "tree": "given.E"}, {"node": "U", "tree": ["*", 2, "E"]}], "given": {"given.E": 0.46},
}  # fmt: skip
_WORD = {**WORD, "label": "c.3", "row": 1}
KEYS: dict[str, dict[str, object]] = {
    "gas at the anode": WORD,
    "metal at the anode": ANODE,
    "two cells in a row, and a gas": {"kind": "table", "mark": "cell", "cells": [_E, _TWICE, _WORD]},
    "the same, by rows": {"kind": "table", "mark": "row", "cells": [_E, _TWICE, _WORD]},
    "the same, as a whole": {"kind": "table", "mark": "whole", "cells": [_E, _TWICE, _WORD]},
    "anode, and what grows": {
        "kind": "table",
        "mark": "cell",
        "cells": [{**ANODE, "label": "c.1", "row": 0}, {**GROWS, "label": "c.2", "row": 0}],
    },
}
_THREE = "two cells in a row, and a gas"
_RIGHT, _GROWN = ["0.46", "0.92 V", "chlorine"], "anode, and what grows"
EMPTY = ("unread", ["empty"], [])

# key, typed, earlier, verdict, why, slips, own, cells as (verdict, why, slips)
CASES = [
    ("gas at the anode", "chlorine", {}, "right", [], [], None, None),
    ("gas at the anode", "  Chlorine Gas. ", {}, "right", [], [], None, None),
    ("gas at the anode", "CHLORINE-GAS", {}, "right", [], [], None, None),
    ("gas at the anode", "chlor\u00adine", {}, "right", [], [], None, None),
    ("gas at the anode", "Cl\u2082", {}, "right", [], [], None, None),
    ("gas at the anode", "chloride", {}, "not-yet", ["near"], [], None, None),
    ("gas at the anode", "Oxygen", {}, "not-yet", ["near"], [], None, None),
    ("gas at the anode", "hydrogen", {}, "not-yet", [], [], None, None),
    ("gas at the anode", "", {}, "unread", ["empty"], [], None, None),
    ("gas at the anode", " - _ ", {}, "unread", ["empty"], [], None, None),
    ("gas at the anode", "x" * 201, {}, "unread", ["too-long"], [], None, None),
    ("gas at the anode", 5, {}, "unread", ["empty"], [], None, None),
    ("gas at the anode", ["chlorine"], {}, "unread", ["empty"], [], None, None),
    ("gas at the anode", "constructor", {}, "not-yet", [], [], None, None),
    ("gas at the anode", "__proto__", {}, "not-yet", [], [], None, None),
    ("metal at the anode", "Zinc", {}, "right", [], [], "left", None),
    ("metal at the anode", "ag", {}, "slip", [], ["higher-is-oxidised"], "right", None),
    ("metal at the anode", "brass", {}, "not-yet", ["near"], [], None, None),
    (_THREE, _RIGHT, {}, "right", [], [], None, [("right", [], [])] * 3),
    (_THREE, ["0.46", "0.92 v", "chlorine"], {}, "right-but", [], [], None, [("right", [], []), ("right-but", ["unit-case"], []), ("right", [], [])]),
    (_THREE, ["1.14", "2.28", "chlorine"], {}, "not-yet", ["cells-right"], [], None, [("slip", [], ["added"]), ("follows", [], []), ("right", [], [])]),
    (_THREE, [None, "0.92", "oxygen"], {}, "not-yet", ["cells-right", "cells-empty"], [], None, [EMPTY, ("right", [], []), ("not-yet", ["near"], [])]),
    (_THREE, ["0.46", "", []], {}, "not-yet", ["cells-right", "cells-empty"], [], None, [("right", [], []), EMPTY, EMPTY]),
    (_THREE, ["x", "0.92", "chlorine"], {}, "not-yet", ["cells-right"], [], None, [("unread", ["not-a-number"], []), ("right", [], []), ("right", [], [])]),
    (_THREE, [None, "", []], {}, "unread", ["empty"], [], None, None),
    (_THREE, [], {}, "unread", ["empty"], [], None, None),
    (_THREE, ["0.46"], {}, "unread", ["empty"], [], None, None),
    (_THREE, "0.46", {}, "unread", ["empty"], [], None, None),
    (_THREE, None, {}, "unread", ["empty"], [], None, None),
    (_THREE, {"0": "0.46"}, {}, "unread", ["empty"], [], None, None),
    ("the same, by rows", ["0.46", "1", "chlorine"], {}, "not-yet", ["rows-right"], [], None, [("right", [], []), ("not-yet", [], []), ("right", [], [])]),
    ("the same, as a whole", ["0.46", "1", "chlorine"], {}, "not-yet", ["cells-right"], [], None, [("right", [], []), ("not-yet", [], []), ("right", [], [])]),
    (_GROWN, ["zinc", [1]], {}, "right", [], [], None, [("right", [], [])] * 2),
    (_GROWN, ["silver", [0]], {}, "not-yet", ["cells-right"], [], None, [("slip", [], ["higher-is-oxidised"]), ("follows", [], [])]),
    (_GROWN, ["silver", [1]], {}, "not-yet", ["cells-right"], [], None, [("slip", [], ["higher-is-oxidised"]), ("right", [], [])]),
    (_GROWN, ["gold", [0]], {}, "not-yet", ["cells-right"], [], None, [("not-yet", [], []), ("not-yet", [], [])]),
    (_GROWN, ["zinc", [7]], {}, "not-yet", ["cells-right"], [], None, [("right", [], []), ("not-yet", [], [])]),
]  # fmt: skip
