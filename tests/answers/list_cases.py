"""Cases of situations told in words, of a choice with its reason, of several ticked things, and of steps put in order.

Each verdict was worked with pencil from the rule.
"""

from __future__ import annotations

TWO = {"decimals": 2}
# Metals at -2.37, -0.76, +0.34 and -0.14 V beside iron at -0.45 V: the first two lie below it.
IRON = {
    "given": {"a.E0": -2.37, "b.E0": -0.76, "c.E0": 0.34, "d.E0": -0.14, "iron.E0": -0.45},
    "graph": [
        {"node": "below", "tree": ["those", {name: ["<", f"{name}.E0", "iron.E0"] for name in "abcd"}]},
        {"node": "protectors", "tree": "below"},
    ],
}
ABOVE = {"below": ["those", {name: [">", f"{name}.E0", "iron.E0"] for name in "abcd"}]}
CELL = {
    "given": {"left.E0": -0.76, "right.E0": 0.80},
    "graph": [
        {"node": "anode", "tree": ["lowest", {"left": "left.E0", "right": "right.E0"}]},
        {"node": "heavier", "tree": ["pick", "anode", {"left": ["text", "right"], "right": ["text", "left"]}]},
    ],
}
WORTH = {"marks": 2, "right": 1, "wrong": 1}

KEYS: dict[str, dict[str, object]] = {
    "three faults on the bench": {
        "kind": "cases",
        "rows": [
            {"right": 1, "slips": {"0": ["dead-cell"], "2": ["swapped"]}},
            {"right": 0, "slips": {"1": ["contact"]}},
            {"right": 2, "slips": {}},
        ],
    },
    "electrode that grows, and why": {
        "kind": "reasoned", "node": "heavier", "values": ["left", "right"], "right": [1], "earlier": [["a", "anode"]],
        "slips": {"0": ["anode-grows"]}, "errors": [{"id": "anode-grows", "put": {"heavier": "anode"}}],
        "reason": {"right": 2, "slips": {"0": ["electrons-have-mass"], "1": ["anode-grows"]}}, **CELL,
    },
    "metals that protect iron": {
        "kind": "several", "node": "protectors", "values": ["a", "b", "c", "d"], "right": [0, 1], "none": 4, "worth": WORTH,
        "slips": {"2,3": ["above"]}, "beliefs": {}, "errors": [{"id": "above", "put": ABOVE}], "earlier": [["a", "iron.E0", TWO]], **IRON,
    },
    "metals that protect, named before": {
        "kind": "several", "node": "protectors", "values": ["a", "b", "c", "d"], "right": [0, 1], "worth": WORTH,
        "slips": {}, "earlier": [["a", "below"]], **IRON,
    },
    "metals that protect, in a drawn order": {
        "kind": "several", "node": "protectors", "values": ["d", "b", "c", "a"], "things": ["a", "b", "c", "d"], "right": [1, 3],
        "worth": WORTH, "slips": {"0,2": ["above"]}, "errors": [{"id": "above", "put": ABOVE}], "earlier": [["a", "iron.E0", TWO]], **IRON,
    },
    "what iron needs to rust": {
        "kind": "several", "right": [0, 2, 3], "worth": {"marks": 3, "right": 1, "wrong": 1}, "slips": {},
        "beliefs": {"1": ["salt-is-needed"], "4": ["acid-is-needed"]},
    },
    "steps at the bench": {
        "kind": "sequence", "right": [2, 0, 3, 1, 4], "stage": [1, 2, 0, 1, 3], "slips": {"1": ["read-too-early"]},
    },
}  # fmt: skip

PAIRS = {
    "electrode that grows, and why": "choice -> reasoned", "metals that protect iron": "number -> several",
    "metals that protect, named before": "several -> several", "metals that protect, in a drawn order": "number -> several",
}  # fmt: skip

# (key, chosen, earlier, verdict, why, slips, part named, own value)
Case = tuple[str, object, dict[str, object], str, list[str], list[str], list[str], object]
CASES: list[Case] = [
    ("three faults on the bench", [1, 0, 2], {}, "right", [], [], [], None),
    ("three faults on the bench", [0, 0, 2], {}, "slip", ["case-again"], ["dead-cell"], [], None),
    ("three faults on the bench", [2, 1, 2], {}, "slip", ["case-again"], ["swapped"], [], None),
    ("three faults on the bench", [1, 1, 0], {}, "slip", ["case-again"], ["contact"], [], None),
    ("three faults on the bench", [1, 0, 1], {}, "not-yet", ["case-again"], [], [], None),
    ("three faults on the bench", [1, 0, 7], {}, "not-yet", ["case-again"], [], [], None),
    ("three faults on the bench", [1, None, 2], {}, "unread", ["every-case"], [], [], None),
    ("three faults on the bench", [None, None, None], {}, "unread", ["empty"], [], [], None),
    ("three faults on the bench", [1, 0], {}, "unread", ["empty"], [], [], None),
    ("three faults on the bench", [1, 0, -2], {}, "unread", ["empty"], [], [], None),
    ("three faults on the bench", [1, 0, "2"], {}, "unread", ["empty"], [], [], None),
    ("electrode that grows, and why", [1, 2], {}, "right", [], [], [], "right"),
    ("electrode that grows, and why", [1, 0], {}, "slip", ["reason-again"], ["electrons-have-mass"], [], "right"),
    ("electrode that grows, and why", [1, 3], {}, "not-yet", ["reason-again"], [], [], "right"),
    ("electrode that grows, and why", [0, 2], {}, "slip", ["choice-again"], ["anode-grows"], [], "left"),
    ("electrode that grows, and why", [0, 1], {}, "slip", ["both-again"], ["anode-grows"], [], "left"),
    ("electrode that grows, and why", [0, 0], {}, "slip", ["both-again"], ["electrons-have-mass", "anode-grows"], [], "left"),
    ("electrode that grows, and why", [0, 3], {}, "slip", ["both-again"], ["anode-grows"], [], "left"),
    # the right electrode was taken for the anode in (a), so the left one grows there
    ("electrode that grows, and why", [0, 2], {"a": "right"}, "follows", [], [], ["a"], "left"),
    ("electrode that grows, and why", [0, 0], {"a": "right"}, "slip", ["reason-again"], ["electrons-have-mass"], [], "left"),
    ("electrode that grows, and why", [1, 2], {"a": "right"}, "right", [], [], [], "right"),
    ("electrode that grows, and why", [None, 2], {}, "unread", ["both-tiers"], [], [], None),
    ("electrode that grows, and why", [1, None], {}, "unread", ["both-tiers"], [], [], None),
    ("electrode that grows, and why", [1], {}, "unread", ["empty"], [], [], None),
    ("metals that protect iron", [1, 0], {}, "right", [], [], [], "a+b"),
    ("metals that protect iron", [3, 2], {}, "slip", [], ["above"], [], "c+d"),
    ("metals that protect iron", [0], {}, "not-yet", ["some-missing", "earns"], [], [], "a"),
    ("metals that protect iron", [0, 1, 3], {}, "not-yet", ["some-strange", "earns"], [], [], "a+b+d"),
    ("metals that protect iron", [0, 3], {}, "not-yet", ["some-right"], [], [], "a+d"),
    ("metals that protect iron", [2], {}, "not-yet", [], [], [], "c"),
    ("metals that protect iron", [4], {}, "not-yet", [], [], [], "none"),
    ("metals that protect iron", [0, 1, 4], {}, "unread", ["none-and-more"], [], [], None),
    # iron taken as -1.00 V: only the first lies below; as +0.45 V: all do; as -3.00 V: none does
    ("metals that protect iron", [0], {"a": -1.00}, "follows", [], [], ["a"], "a"),
    ("metals that protect iron", [0, 1, 2, 3], {"a": 0.45}, "follows", [], [], ["a"], "a+b+c+d"),
    ("metals that protect iron", [4], {"a": -3.00}, "follows", [], [], ["a"], "none"),
    ("metals that protect iron", [1, 2, 3], {"a": -1.00}, "slip-on-own", [], ["above"], ["a"], "b+c+d"),
    ("metals that protect iron", [0, 1], {"a": -1.00}, "right", [], [], [], "a+b"),
    ("metals that protect, named before", [0], {"a": "a"}, "follows", [], [], ["a"], "a"),
    ("metals that protect, named before", [0], {"a": "a+b"}, "not-yet", ["some-missing", "earns"], [], [], "a"),
    ("metals that protect, in a drawn order", [3, 1], {}, "right", [], [], [], "a+b"),
    ("metals that protect, in a drawn order", [3], {"a": -1.00}, "follows", [], [], ["a"], "a"),
    ("metals that protect, in a drawn order", [2, 0], {}, "slip", [], ["above"], [], "c+d"),
    ("what iron needs to rust", [0, 2, 3], {}, "right", [], [], [], None),
    ("what iron needs to rust", [3, 0, 2, 1], {}, "slip", ["some-strange", "earns"], ["salt-is-needed"], [], None),
    ("what iron needs to rust", [4, 1], {}, "slip", [], ["salt-is-needed"], [], None),
    ("what iron needs to rust", [0, 4], {}, "slip", ["some-right"], ["acid-is-needed"], [], None),
    ("what iron needs to rust", [0, 2], {}, "not-yet", ["some-missing", "earns"], [], [], None),
    ("what iron needs to rust", [0, 0], {}, "unread", ["empty"], [], [], None),
    ("what iron needs to rust", [], {}, "unread", ["empty"], [], [], None),
    ("steps at the bench", [2, 0, 3, 1, 4], {}, "right", [], [], [], None),
    ("steps at the bench", [2, 3, 0, 1, 4], {}, "right", [], [], [], None),
    ("steps at the bench", [2, 1, 0, 3, 4], {}, "slip", ["neighbours"], ["read-too-early"], [], None),
    ("steps at the bench", [0, 2, 3, 1, 4], {}, "not-yet", ["neighbours"], [], [], None),
    ("steps at the bench", [4, 1, 3, 0, 2], {}, "not-yet", ["other-way-round"], [], [], None),
    ("steps at the bench", [4, 1, 0, 3, 2], {}, "not-yet", ["other-way-round"], [], [], None),
    ("steps at the bench", [2, 0, 3, 1], {}, "unread", ["empty"], [], [], None),
    ("steps at the bench", [2, 0, 3, 1, 5], {}, "unread", ["empty"], [], [], None),
]
