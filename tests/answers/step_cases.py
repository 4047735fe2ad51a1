"""Cases of a wrong step to pick and of a size or sign to estimate; each verdict was worked with pencil from the rule."""

from __future__ import annotations

# q = I t, n = q / F, m = n M: the size of m is 100 plus the power of ten below it, with its sign.
MASS = {
    "given": {"I": 0.5, "t:min": 20.0, "M": 63.5},
    "graph": [
        {"node": "t", "tree": ["*", "t:min", 60]},
        {"node": "q", "tree": ["*", "I", "t"]},
        {"node": "m", "tree": ["*", ["/", "q", 192970], "M"]},
        {"node": "size of m", "tree": ["*", ["if", ["<", "m", 0], -1, 1], ["+", ["floor", ["lg", ["abs", "m"]]], 100]]},
    ],
}
SIGN = {
    "given": {"a": 0.34, "b": -0.76},
    "graph": [
        {"node": "E", "tree": ["-", "b", "a"]},
        {
            "node": "sign of E",
            "tree": ["if", ["==", "E", 0], ["text", "zero"], ["if", [">", "E", 0], ["text", "positive"], ["text", "negative"]]],
        },
    ],
}
KEYS: dict[str, dict[str, object]] = {
    "wrong step": {
        "kind": "choice", "node": None, "values": [], "right": [2], "slips": {}, "otherwise": "How many electrons?",
        "whys": {"0": "step-right", "1": "step-right", "3": "step-right", "4": "step-follows"},
    },
    # (a) asked for the charge; 0.197 g lies from 0.1 to 1 g, and 0.003 29 g where minutes are taken for seconds
    "size of the mass": {
        "kind": "choice", "node": "size of m", "values": [97.0, 98.0, 99.0, 100.0], "right": [2], "earlier": [["a", "q", {"figures": 3}]],
        "slips": {"0": ["minutes-used-as-seconds"]}, "errors": [{"id": "minutes-used-as-seconds", "put": {"t": "t:min"}}], **MASS,
    },
    # (a) asked for the second potential
    "sign of the potential": {
        "kind": "choice", "node": "sign of E", "values": ["positive", "negative"], "right": [1], "earlier": [["a", "a", {"decimals": 2}]],
        "slips": {"0": ["turned-round"]}, "errors": [{"id": "turned-round", "put": {"E": ["-", "a", "b"]}}], **SIGN,
    },
}  # fmt: skip
PAIRS: dict[str, str] = {"size of the mass": "number -> choice", "sign of the potential": "number -> choice"}

# key, choice, earlier answers, verdict, reasons, errors, parts
CASES = [
    ("wrong step", [2], {}, "right", [], [], []),
    ("wrong step", [0], {}, "not-yet", ["step-right"], [], []),
    ("wrong step", [3], {}, "not-yet", ["step-right"], [], []),
    ("wrong step", [4], {}, "not-yet", ["step-follows"], [], []),
    ("wrong step", [9], {}, "not-yet", [], [], []),
    ("wrong step", [0, 4], {}, "not-yet", [], [], []),
    ("wrong step", [], {}, "unread", ["empty"], [], []),
    ("wrong step", "2", {}, "unread", ["empty"], [], []),
    ("size of the mass", [2], {}, "right", [], [], []),
    ("size of the mass", [0], {}, "slip", [], ["minutes-used-as-seconds"], []),
    ("size of the mass", [1], {}, "not-yet", [], [], []),
    # an own charge of 6000 C leads to 1.97 g, one of 60 C to 0.0197 g
    ("size of the mass", [3], {"a": 6000.0}, "follows", [], [], ["a"]),
    ("size of the mass", [1], {"a": 60.0}, "follows", [], [], ["a"]),
    ("size of the mass", [2], {"a": 60.0}, "right", [], [], []),
    ("size of the mass", [3], {"a": 600.0}, "not-yet", [], [], []),
    # the charge was got right, so the minutes were minded
    ("size of the mass", [0], {"a": 600.0}, "not-yet", [], [], []),
    # a mass below zero has no option of its own sign here
    ("size of the mass", [2], {"a": -600.0}, "right", [], [], []),
    ("size of the mass", [1], {"a": -60.0}, "not-yet", [], [], []),
    ("sign of the potential", [1], {}, "right", [], [], []),
    ("sign of the potential", [0], {}, "slip", [], ["turned-round"], []),
    ("sign of the potential", [0], {"a": -1.00}, "follows", [], [], ["a"]),
    ("sign of the potential", [0], {"a": 0.34}, "slip", [], ["turned-round"], []),
]
