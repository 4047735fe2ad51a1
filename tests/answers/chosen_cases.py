"""Cases of choices and orders that follow from earlier answers; each verdict was worked with pencil from the rule."""

from __future__ import annotations

TWO = {"decimals": 2}
# Three strips against copper at +0.34 V: red lead on a +0.44 V, on b -0.80 V, on c -2.70 V, so E = +0.78, -0.46, -2.36 V.
STRIPS = {
    "given": {"ref": 0.34, "a.U": 0.44, "b.U": -0.80, "c.U": -2.70},
    "graph": [
        *({"node": f"{name}.E", "tree": ["+", f"{name}.U", "ref"]} for name in "abc"),
        {"node": "ranking", "tree": ["order", "rising", {"a": "a.E", "b": "b.E", "c": "c.E"}]},
        {"node": "first", "tree": ["lowest", {"a": "a.E", "b": "b.E", "c": "c.E"}]},
    ],
}
BY_SIZE = {"ranking": ["order", "rising", {name: ["abs", f"{name}.E"] for name in "abc"}]}
# The potentials of zinc and silver; the lower is the anode, the other one the cathode, where metal is deposited.
CELL = {
    "given": {"left.E0": -0.76, "right.E0": 0.80},
    "graph": [
        {"node": "anode", "tree": ["lowest", {"left": "left.E0", "right": "right.E0"}]},
        {"node": "cathode", "tree": ["pick", "anode", {"left": ["text", "right"], "right": ["text", "left"]}]},
        {"node": "heavier", "tree": "cathode"},
    ],
}
KEYS: dict[str, dict[str, object]] = {
    # (a) asked for the potential of strip a
    "strips in order": {
        "kind": "order", "node": "ranking", "values": ["b", "a", "c"], "right": [2, 0, 1], "earlier": [["a", "a.E", TWO]],
        "slips": {"0,1,2": ["by-size"]}, "errors": [{"id": "by-size", "put": BY_SIZE}], **STRIPS,
    },
    "strips in order, highest first": {
        "kind": "order", "node": "ranking", "falling": True, "values": ["b", "a", "c"], "right": [1, 0, 2],
        "earlier": [["a", "a.E", TWO]], "slips": {"2,1,0": ["by-size"]}, "errors": [{"id": "by-size", "put": BY_SIZE}], **STRIPS,
    },
    "strips in order again": {
        "kind": "order", "node": "ranking", "values": ["c", "b", "a"], "right": [0, 1, 2], "earlier": [["a", "ranking"]], "slips": {}, **STRIPS,
    },
    # (a) asked for the anode
    "electrode that grows": {
        "kind": "choice", "node": "heavier", "values": ["left", "right"], "right": [1], "earlier": [["a", "anode"]],
        "slips": {"0": ["anode-grows", "other-anode"]},
        "errors": [
            {"id": "anode-grows", "put": {"heavier": "anode"}},
            {"id": "other-anode", "put": {"anode": ["highest", {"left": "left.E0", "right": "right.E0"}]}},
        ],
        **CELL,
    },
    # the words stand for the electrodes in this variant: zinc for the left one, silver for the right one, gold for none
    "metal that grows": {
        "kind": "choice", "node": "heavier", "values": ["left", None, "right"], "right": [2], "earlier": [["a", "left.E0", TWO]],
        "slips": {"0": ["anode-grows"]}, "errors": [{"id": "anode-grows", "put": {"heavier": "anode"}}], **CELL,
    },
    "potential of what the metal is": {
        "kind": "number", "node": "E", "unit": "V", "figures": None, "decimals": 2, "value": "0.80", "exact": "0.8", "lo": "0.795",
        "hi": "0.805", "place": "0.01", "earlier": [["b", "heavier"]], "given": CELL["given"],
        "graph": [*CELL["graph"], {"node": "E", "tree": ["pick", "heavier", {"left": "left.E0", "right": "right.E0"}]}], "routes": [],
    },
    # (a) asked for the amount, (b) for the metal that fits the own molar mass m / n = 1.31 g / 0.02 mol
    "metal of the own amount": {
        "kind": "choice", "node": "metal", "values": ["zinc", "copper", "silver", "magnesium"], "right": [0], "earlier": [["a", "n", {"figures": 3}]],
        "given": {"n": 0.0200, "m": 1.308}, "slips": {"3": ["halved"]},
        "graph": [
            {"node": "M", "tree": ["/", "m", "n"]},
            {"node": "metal", "tree": ["lowest", {
                "zinc": ["abs", ["-", "M", 65.38]], "copper": ["abs", ["-", "M", 63.55]], "silver": ["abs", ["-", "M", 107.87]],
                "magnesium": ["abs", ["-", "M", 24.31]],
            }]},
        ],
        "errors": [{"id": "halved", "put": {"M": ["/", ["/", "m", "n"], 2]}}],
    },
}  # fmt: skip

PAIRS = {
    "strips in order": "number -> order", "strips in order, highest first": "number -> order", "strips in order again": "order -> order",
    "electrode that grows": "choice -> choice", "metal that grows": "number -> choice", "metal of the own amount": "number -> choice",
    "potential of what the metal is": "choice -> number",
}  # fmt: skip

# (key, chosen, earlier, verdict, why, slips, part named, own value)
Case = tuple[str, object, dict[str, object], str, list[str], list[str], list[str], object]
CASES: list[Case] = [
    ("strips in order", [2, 0, 1], {}, "right", [], [], [], "c<b<a"),
    ("strips in order", [0, 1, 2], {}, "slip", [], ["by-size"], [], "b<a<c"),
    ("strips in order", [1, 0, 2], {}, "not-yet", ["other-way-round"], [], [], "a<b<c"),
    ("strips in order", [2, 1, 0], {}, "not-yet", ["two-neighbours"], [], [], "c<a<b"),
    # a taken as -0.78 V stands between c and b
    ("strips in order", [2, 1, 0], {"a": -0.78}, "follows", [], [], ["a"], "c<a<b"),
    ("strips in order", [2, 0, 1], {"a": -0.78}, "right", [], [], [], "c<b<a"),
    ("strips in order", [2, 1, 0], {"a": 0.78}, "not-yet", ["two-neighbours"], [], [], "c<a<b"),
    # a taken as +0.10 V keeps its place, but by size it comes first: a, b, c
    ("strips in order", [1, 0, 2], {"a": 0.10}, "slip-on-own", [], ["by-size"], ["a"], "a<b<c"),
    ("strips in order", [1, 0, 2], {"a": 0.78}, "not-yet", ["other-way-round"], [], [], "a<b<c"),
    ("strips in order, highest first", [0, 1, 2], {"a": -0.78}, "follows", [], [], ["a"], "c<a<b"),
    ("strips in order, highest first", [1, 0, 2], {"a": -0.78}, "right", [], [], [], "c<b<a"),
    ("strips in order, highest first", [2, 0, 1], {"a": 0.10}, "slip-on-own", [], ["by-size"], ["a"], "a<b<c"),
    ("strips in order again", [0, 2, 1], {"a": "c<a<b"}, "follows", [], [], ["a"], "c<a<b"),
    ("strips in order again", [0, 2, 1], {"a": "c<b<a"}, "not-yet", ["two-neighbours"], [], [], "c<a<b"),
    ("electrode that grows", [0], {"a": "right"}, "follows", [], [], ["a"], "left"),
    ("electrode that grows", [1], {"a": "right"}, "right", [], [], [], "right"),
    # the anode was named right, so only the error at this part itself is left
    ("electrode that grows", [0], {"a": "left"}, "slip", [], ["anode-grows"], [], "left"),
    ("electrode that grows", [0], {}, "slip", [], ["anode-grows", "other-anode"], [], "left"),
    # an own potential of +1.00 V makes the left electrode the cathode
    ("metal that grows", [0], {"a": 1.00}, "follows", [], [], ["a"], "left"),
    ("metal that grows", [0], {"a": -0.76}, "slip", [], ["anode-grows"], [], "left"),
    ("metal that grows", [1], {"a": 1.00}, "not-yet", [], [], [], None),
    ("metal that grows", [2], {"a": 1.00}, "right", [], [], [], "right"),
    # n = 0.0206 mol: M = 63.5 g/mol, copper; n = 0.0121 mol: 108 g/mol, silver
    ("metal of the own amount", [1], {"a": 0.0206}, "follows", [], [], ["a"], "copper"),
    ("metal of the own amount", [2], {"a": 0.0121}, "follows", [], [], ["a"], "silver"),
    ("metal of the own amount", [2], {"a": 0.0200}, "not-yet", [], [], [], "silver"),
    # halved 32.7 g/mol is nearest to magnesium; half of the own 108 g/mol to copper
    ("metal of the own amount", [3], {}, "slip", [], ["halved"], [], "magnesium"),
    ("metal of the own amount", [1], {"a": 0.0121}, "slip-on-own", [], ["halved"], ["a"], "copper"),
    ("metal of the own amount", [1], {"a": 0.0200}, "not-yet", [], [], [], "copper"),
    # the metal that grows was named: zinc, behind which the left electrode stands
    ("potential of what the metal is", "-0.76", {"b": "left"}, "follows", [], [], ["b"], -0.76),
    ("potential of what the metal is", "-0.76", {"b": "right"}, "not-yet", [], [], [], -0.76),
    ("potential of what the metal is", "-0.76", {}, "not-yet", [], [], [], -0.76),
]
