"""Cases of equations that follow from earlier answers, and of what follows from an equation."""

from __future__ import annotations

KEYS: dict[str, dict[str, object]] = {
    "cell by its anode": {
        "kind": "equation", "node": "equation.factor", "right": "2Ag^+ + Zn -> 2Ag + Zn^2+", "states": False,
        "slips": {"2Ag + Zn^2+ -> 2Ag^+ + Zn": ["the-other-way-round"], "Ag^+ + Zn -> Ag + Zn^2+": ["added-as-they-stand"]},
        "earlier": [["a", "anode"]], "given": {"anode": "left"}, "graph": [{"node": "cathode", "tree": ["pick", "anode", {"left": ["text", "right"], "right": ["text", "left"]}]}],
        "led": [[{"anode": "right", "cathode": "left"}, "2Ag + Zn^2+ -> 2Ag^+ + Zn"]],
    },
    "half by a potential": {
        "kind": "equation", "node": None, "right": "Zn -> Zn^2+ + 2 e-", "states": False, "slips": {},
        "earlier": [["a", "left.E0"]], "given": {"left.E0": -0.76, "right.E0": 0.80},
        "graph": [{"node": "anode", "tree": ["lowest", {"left": "left.E0", "right": "right.E0"}]}],
        "led": [[{"anode": "right"}, "Ag -> Ag^+ + e-"]],
    },
    "bath by its products": {
        "kind": "equation", "node": None, "right": "2H2O + 2Cl^- -> H2 + 2OH^- + Cl2", "states": False,
        "slips": {"2Na^+ + 2Cl^- -> 2Na + Cl2": ["water-is-a-bystander"]},
        "earlier": [["a", "cathode product"], ["b", "anode product"]], "graph": [],
        "given": {"cathode product": "hydrogen", "anode product": "anion"},
        "led": [
            [{"cathode product": "cation", "anode product": "anion"}, "2Na^+ + 2Cl^- -> 2Na + Cl2"],
            [{"cathode product": "hydrogen", "anode product": "oxygen"}, "2H2O -> 2H2 + O2"],
            [{"cathode product": "cation", "anode product": "oxygen"}, "4Na^+ + 2H2O -> 4Na + O2 + 4H^+"],
        ],
    },
    # (a) the half-equation of the cathode, (b) that of the anode, (c) their sum; five electrons of manganese, two of the peroxide
    "half of the peroxide": {
        "kind": "equation", "node": "half_oxidation", "own": "text", "right": "H2O2 -> O2 + 2H^+ + 2 e-", "states": False,
        "slips": {"O2 + 2H^+ + 2 e- -> H2O2": ["the-other-way-round"], "H2O2 -> O2 + 2H^+": ["charge-ignored"]},
    },
    "sum of own halves": {
        "kind": "equation", "node": "equation.factor", "own": "factor", "right": "2MnO4^- + 6H^+ + 5H2O2 -> 2Mn^2+ + 8H2O + 5O2",
        "states": False, "slips": {"MnO4^- + 6H^+ + H2O2 -> Mn^2+ + 4H2O + O2": ["added-as-they-stand"]},
        "earlier": [["a", "half_reduction"], ["b", "half_oxidation"]], "graph": [],
        "given": {"half_reduction": "MnO4^- + 8H^+ + 5 e- -> Mn^2+ + 4H2O", "half_oxidation": "H2O2 -> O2 + 2H^+ + 2 e-"},
        "led": [
            [
                {"half_reduction": "Mn^2+ + 4H2O -> MnO4^- + 8H^+ + 5 e-", "half_oxidation": "O2 + 2H^+ + 2 e- -> H2O2"},
                "2Mn^2+ + 8H2O + 5O2 -> 2MnO4^- + 6H^+ + 5H2O2", {},
            ],
            [
                {"half_reduction": "MnO4^- + 8H^+ + 3 e- -> Mn^2+ + 4H2O"}, "2MnO4^- + 10H^+ + 3H2O2 -> 2Mn^2+ + 8H2O + 3O2",
                {"MnO4^- + 7H^+ + 2H2O2 -> Mn^2+ + 4H2O + 2O2": ["own-sum-wrong"]},
            ],
        ],
    },
    "electrons of the own equation": {
        "kind": "number", "node": "n", "unit": "", "figures": None, "decimals": 0,
        "value": "2", "exact": "2", "lo": "1.5", "hi": "2.5", "place": "1", "earlier": [["b", "equation.factor"]],
        "given": {"equation.count": 2, "equation.factor": 1},
        "graph": [{"node": "n", "tree": ["*", "equation.count", ["abs", "equation.factor"]]}], "routes": [],
    },
    "energy of the own equation": {
        "kind": "number", "node": "dG0", "unit": "kJ/mol", "figures": 3, "decimals": None,
        "value": "-301", "exact": "-301.08", "lo": "-301.5", "hi": "-300.5", "place": "1", "earlier": [["b", "equation.factor"]],
        "given": {"equation.count": 2, "equation.factor": 1, "F": 96500, "E0_cell": 1.56},
        "graph": [
            {"node": "n", "tree": ["*", "equation.count", ["abs", "equation.factor"]]},
            {"node": "dG0", "tree": ["/", ["neg", ["*", ["*", "n", "F"], "E0_cell"]], 1000]},
        ],
        "routes": [],
    },
    "quotient of the own equation": {
        "kind": "number", "node": "Q", "unit": "", "figures": 2, "decimals": None,
        "value": "50", "exact": "50", "lo": "49.5", "hi": "50.5", "place": "1", "earlier": [["a", "anode"], ["b", "equation.factor"]],
        "given": {"anode": "left", "equation.factor": 1, "left.c": 0.50, "right.c": 0.10},
        "graph": [
            {"node": "equation.way", "tree": ["pick", "anode", {"left": "equation.factor", "right": ["neg", "equation.factor"]}]},
            {"node": "Q", "tree": ["^", ["/", "left.c", ["^", "right.c", 2]], "equation.way"]},
        ],
        "routes": [],
    },
}  # fmt: skip

PAIRS = {
    "cell by its anode": "choice -> equation", "half by a potential": "number -> equation", "bath by its products": "choice -> equation",
    "electrons of the own equation": "equation -> number", "energy of the own equation": "equation -> number",
    "quotient of the own equation": "equation -> number", "sum of own halves": "equation -> equation",
}  # fmt: skip

# (key, typed, earlier, verdict, slips, own): equations with the value that later parts follow from, and what follows from it
CASES: list[tuple[str, str, dict[str, object], str, list[str], float | str | None]] = [
    # choice to equation: the other electrode taken for the anode
    ("cell by its anode", "2Ag^+ + Zn -> 2Ag + Zn^2+", {}, "right", [], 1),
    ("cell by its anode", "4Ag^+ + 2Zn -> 4Ag + 2Zn^2+", {}, "right-but", [], 2),
    ("cell by its anode", "6Ag^+ + 3Zn -> 6Ag + 3Zn^2+", {"a": "left"}, "right-but", [], 3),
    ("cell by its anode", "2Ag + Zn^2+ -> 2Ag^+ + Zn", {}, "slip", ["the-other-way-round"], -1),
    ("cell by its anode", "2Ag + Zn^2+ -> 2Ag^+ + Zn", {"a": "left"}, "slip", ["the-other-way-round"], -1),
    ("cell by its anode", "2Ag + Zn^2+ -> 2Ag^+ + Zn", {"a": "right"}, "follows", [], 1),
    ("cell by its anode", "4Ag + 2Zn^2+ -> 4Ag^+ + 2Zn", {"a": "right"}, "follows", [], 2),
    ("cell by its anode", "2Ag^+ + Zn -> 2Ag + Zn^2+", {"a": "right"}, "right", [], -1),
    ("cell by its anode", "Ag^+ + Zn -> Ag + Zn^2+", {"a": "right"}, "slip", ["added-as-they-stand"], "Ag^+ + Zn -> Ag + Zn^2+"),
    ("cell by its anode", "Cu^2+ + Zn -> Cu + Zn^2+", {"a": "right"}, "not-yet", [], None),
    # number to choice to equation: a potential of the wrong sign
    ("half by a potential", "Zn -> Zn^2+ + 2 e-", {"a": 1.5}, "right", [], None),
    ("half by a potential", "Ag -> Ag^+ + e-", {"a": 1.5}, "follows", [], 1),
    ("half by a potential", "2Ag -> 2Ag^+ + 2 e-", {"a": 1.5}, "follows", [], 2),
    ("half by a potential", "Ag -> Ag^+ + e-", {"a": -0.5}, "not-yet", [], None),
    # two choices to one equation
    ("bath by its products", "2Na^+ + 2Cl^- -> 2Na + Cl2", {"a": "cation", "b": "anion"}, "follows", [], 1),
    (
        "bath by its products",
        "2Na^+ + 2Cl^- -> 2Na + Cl2",
        {"a": "hydrogen", "b": "anion"},
        "slip",
        ["water-is-a-bystander"],
        "2Na^+ + 2Cl^- -> 2Na + Cl2",
    ),
    ("bath by its products", "2H2O -> 2H2 + O2", {"a": "hydrogen", "b": "oxygen"}, "follows", [], 1),
    ("bath by its products", "4Na^+ + 2H2O -> 4Na + O2 + 4H^+", {"a": "cation", "b": "oxygen"}, "follows", [], 1),
    ("bath by its products", "2H2O + 2Cl^- -> H2 + 2OH^- + Cl2", {"a": "cation", "b": "oxygen"}, "right", [], None),
    # equation to equation: the sum of half-equations as they were written
    ("half of the peroxide", "H2O2 -> O2 + 2H^+ + 2 e-", {}, "right", [], "H2O2 -> O2 + 2H^+ + 2 e-"),
    ("half of the peroxide", "2H2O2 -> 2O2 + 4H^+ + 4 e-", {}, "right-but", [], "H2O2 -> O2 + 2H^+ + 2 e-"),
    ("half of the peroxide", "O2 + 2H^+ + 2 e- -> H2O2", {}, "slip", ["the-other-way-round"], "O2 + 2H^+ + 2 e- -> H2O2"),
    ("half of the peroxide", "H2O2 -> O2 + 2H^+ + e-", {}, "not-yet", [], None),
    ("sum of own halves", "2MnO4^- + 10H^+ + 3H2O2 -> 2Mn^2+ + 8H2O + 3O2", {}, "not-yet", [], None),
    (
        "sum of own halves",
        "2MnO4^- + 10H^+ + 3H2O2 -> 2Mn^2+ + 8H2O + 3O2",
        {"a": "MnO4^- + 8H^+ + 3 e- -> Mn^2+ + 4H2O"},
        "follows",
        [],
        1,
    ),
    (
        "sum of own halves",
        "4MnO4^- + 20H^+ + 6H2O2 -> 4Mn^2+ + 16H2O + 6O2",
        {"a": "MnO4^- + 8H^+ + 3 e- -> Mn^2+ + 4H2O"},
        "follows",
        [],
        2,
    ),
    (
        "sum of own halves",
        "2Mn^2+ + 8H2O + 5O2 -> 2MnO4^- + 6H^+ + 5H2O2",
        {"a": "Mn^2+ + 4H2O -> MnO4^- + 8H^+ + 5 e-", "b": "O2 + 2H^+ + 2 e- -> H2O2"},
        "follows",
        [],
        1,
    ),
    ("sum of own halves", "2MnO4^- + 6H^+ + 5H2O2 -> 2Mn^2+ + 8H2O + 5O2", {"b": "O2 + 2H^+ + 2 e- -> H2O2"}, "right", [], 1),
    ("sum of own halves", "2Mn^2+ + 8H2O + 5O2 -> 2MnO4^- + 6H^+ + 5H2O2", {"b": "O2 + 2H^+ + 2 e- -> H2O2"}, "not-yet", [], -1),
    # an error on top of an own half-equation
    (
        "sum of own halves",
        "MnO4^- + 7H^+ + 2H2O2 -> Mn^2+ + 4H2O + 2O2",
        {"a": "MnO4^- + 8H^+ + 3 e- -> Mn^2+ + 4H2O"},
        "slip-on-own",
        ["own-sum-wrong"],
        None,
    ),
    ("sum of own halves", "MnO4^- + 7H^+ + 2H2O2 -> Mn^2+ + 4H2O + 2O2", {}, "not-yet", [], None),
    # equation to number: n, energy and quotient of the reaction as it was written
    ("electrons of the own equation", "2", {"b": 1}, "right", [], 2),
    ("electrons of the own equation", "4", {"b": 2}, "follows", [], 4),
    ("electrons of the own equation", "1", {"b": 0.5}, "follows", [], 1),
    ("electrons of the own equation", "2", {"b": -1}, "right", [], 2),
    ("electrons of the own equation", "4", {"b": 1}, "not-yet", [], 4),
    ("energy of the own equation", "-602 kJ/mol", {"b": 2}, "follows", [], -602),
    ("energy of the own equation", "-903", {"b": 3}, "follows", [], -903),
    ("energy of the own equation", "-602", {"b": 1}, "not-yet", [], -602),
    ("quotient of the own equation", "2500", {"b": 2}, "follows", [], 2500),
    ("quotient of the own equation", "0.020", {"b": -1}, "follows", [], 0.02),
    ("quotient of the own equation", "0.020", {"a": "right", "b": 1}, "follows", [], 0.02),
    ("quotient of the own equation", "50", {"a": "right", "b": -1}, "right", [], 50),
    ("quotient of the own equation", "0.00040", {"a": "right", "b": 2}, "follows", [], 0.0004),
]
