"""Cases of what follows from earlier answers, written by hand: each verdict was worked with pencil from the rule, not by the judge."""

from __future__ import annotations

OTHER = {"left": "right side", "right": "left side"}

# (a) q = I t in C, (b) n = q / F in mmol, (c) m = n M in g; all to three figures. I = 2.00 A, t = 965 s: q = 1930 C, n = 20.0 mmol,
# m = 0.02 mol · 65.4 g/mol = 1.308 g for z = 1.
CHAIN = {
    "given": {"I": 2.0, "t": 965.0, "F": 96500.0, "M": 65.4},
    "graph": [
        {"node": "q", "tree": ["*", "I", "t"]},
        {"node": "n", "tree": ["*", 1000, ["/", "q", "F"]]},
        {"node": "m", "tree": ["/", ["*", "n", "M"], 1000]},
    ],
}
THREE = {"figures": 3}

KEYS = {
    "mass after charge and amount": {
        "kind": "number", "node": "m", "unit": "g", "figures": 3, "decimals": None, "value": "1.31", "exact": "1.308",
        "lo": "1.305", "hi": "1.315", "place": "0.01", "earlier": [["a", "q", THREE], ["b", "n", THREE]], **CHAIN,
        "routes": [{"put": {}, "round": {"figures": 3}}],
        "slips": [
            {"id": "divided", "put": {"m": ["/", "n", "M"]}},
            {"id": "two-electrons", "put": {"n": ["*", 500, ["/", "q", "F"]]}},
        ],
        "slip_ranges": {"divided": ["0.3055", "0.3065"], "two-electrons": ["0.6535", "0.6545"]},
    },
    # of a metal with two electrons: 20.0 mmol of electrons, 10.0 mmol of metal
    "amount of electrons": {
        "kind": "number", "node": "n", "unit": "mmol", "figures": 3, "decimals": None, "value": "20.0", "exact": "20",
        "lo": "19.95", "hi": "20.05", "place": "0.1", "earlier": [["a", "q", THREE]],
        "given": {"I": 2.0, "t": 965.0, "F": 96500.0, "z": 2.0}, "graph": CHAIN["graph"][:2], "routes": [],
        "slips": [{"id": "amount-of-metal", "put": {"n": ["*", 1000, ["/", "q", ["*", "z", "F"]]]}}],
        "slip_ranges": {"amount-of-metal": ["9.995", "10.005"]},
    },
    # K = 10^(n E / 0.0592): E = +0.50 V asked in (a) to two decimals
    "E and minus E": {
        "kind": "number", "node": "dG", "unit": "kJ/mol", "figures": None, "decimals": 0, "value": "-96", "exact": "-96.485",
        "lo": "-96.5", "hi": "-95.5", "place": "1", "earlier": [["a", "E", {"decimals": 2}], ["b", "n"]],
        "given": {"E0_right": 0.80, "E0_left": 0.30, "n": 2.0, "F": 96.485},
        "graph": [
            {"node": "E", "tree": ["-", "E0_right", "E0_left"]},
            {"node": "dG", "tree": ["neg", ["*", ["*", "n", "F"], "E"]]},
        ],
        "routes": [], "slips": [], "slip_ranges": {},
    },
    # an anode named in (a); the error about the anode gives -0.46 V, adding gives +1.14 V
    "potential after a named anode": {
        "kind": "number", "node": "E0_cell", "unit": "V", "figures": None, "decimals": 2, "value": "0.46", "exact": "0.46",
        "lo": "0.455", "hi": "0.465", "place": "0.01", "earlier": [["a", "anode"]],
        "given": {"left.E0": 0.34, "right.E0": 0.80, "left side": "left", "right side": "right"},
        "graph": [
            {"node": "anode", "tree": ["lowest", {"left": "left.E0", "right": "right.E0"}]},
            {"node": "cathode", "tree": ["pick", "anode", OTHER]},
            {"node": "E0_anode", "tree": ["pick", "anode", {"left": "left.E0", "right": "right.E0"}]},
            {"node": "E0_cathode", "tree": ["pick", "cathode", {"left": "left.E0", "right": "right.E0"}]},
            {"node": "E0_cell", "tree": ["-", "E0_cathode", "E0_anode"]},
        ],
        "routes": [],
        "slips": [
            {"id": "higher-is-anode", "put": {"anode": ["highest", {"left": "left.E0", "right": "right.E0"}]}},
            {"id": "anode-minus-cathode", "put": {"E0_cell": ["-", "E0_anode", "E0_cathode"]}},
            {"id": "added", "put": {"E0_cell": ["+", "E0_cathode", "E0_anode"]}},
        ],
        "slip_ranges": {"higher-is-anode": ["-0.465", "-0.455"], "added": ["1.135", "1.145"]},
    },
    "metal that fits": {
        "kind": "choice", "node": "metal", "values": ["zinc", "copper", "silver"], "right": [1], "slips": {"2": ["heaviest"]},
        "earlier": [["a", "M", THREE]], "given": {"M": 63.55},
        "graph": [
            {"node": "metal", "tree": ["lowest", {
                "zinc": ["abs", ["-", "M", 65.38]], "copper": ["abs", ["-", "M", 63.55]], "silver": ["abs", ["-", "M", 107.87]],
            }]},
        ],
    },
    "whole number of electrons": {
        "kind": "number", "node": "n", "unit": "", "figures": None, "decimals": 0, "whole": True, "value": "2", "exact": "2",
        "lo": "1.5", "hi": "2.5", "place": "1", "earlier": [["a", "z"]], "given": {"z": 2.0},
        "graph": [{"node": "n", "tree": "z"}], "routes": [], "slips": [{"id": "halved"}], "slip_ranges": {"halved": ["0.5", "1.5"]},
    },
    # n = slope / reading, measured: 59.2 mV / 29.9 mV = 1.98, so 2; with an own slope of 88 mV it is 2.94, so 3
    "whole from measured numbers": {
        "kind": "number", "node": "n", "unit": "", "figures": None, "decimals": 0, "whole": True, "value": "2", "exact": "1.97993",
        "lo": "1.5", "hi": "2.5", "place": "1", "earlier": [["a", "slope", {"figures": 3}]], "given": {"slope": 59.2, "reading": 29.9},
        "graph": [{"node": "n", "tree": ["/", "slope", "reading"]}], "routes": [], "slips": [], "slip_ranges": {},
    },
    "oxidation number": {
        "kind": "number", "node": "ox", "unit": "", "figures": None, "decimals": 0, "whole": True, "value": "-3", "exact": "-3",
        "lo": "-3.5", "hi": "-2.5", "place": "1", "slips": [], "slip_ranges": {},
    },
    "millivolts": {
        "kind": "number", "node": "E", "unit": "mV", "figures": None, "decimals": 0, "value": "350", "exact": "349.6",
        "lo": "349.5", "hi": "350.5", "place": "1", "slips": [{"id": "no-effect"}, {"id": "volt-as-millivolt"}],
        "slip_ranges": {"no-effect": ["-0.5", "0.5"]},
    },
    "joules for kilojoules": {
        "kind": "number", "node": "dG", "unit": "kJ/mol", "figures": 3, "decimals": None, "value": "-212", "exact": "-212.3",
        "lo": "-212.5", "hi": "-211.5", "place": "1", "slips": [{"id": "joule-written-as-kilojoule"}],
        "slip_ranges": {"joule-written-as-kilojoule": ["-212500", "-211500"]},
    },
    "seconds": {
        "kind": "number", "node": "t", "unit": "s", "figures": 3, "decimals": None, "value": "2660", "exact": "2661",
        "lo": "2655", "hi": "2665", "place": "10", "slips": [], "slip_ranges": {},
    },
    "litres": {
        "kind": "number", "node": "V", "unit": "L", "figures": 3, "decimals": None, "value": "0.250", "exact": "0.25",
        "lo": "0.2495", "hi": "0.2505", "place": "0.001", "slips": [], "slip_ranges": {},
    },
    "percentage": {
        "kind": "number", "node": "eta", "unit": "%", "figures": 3, "decimals": None, "value": "87.5", "exact": "87.5",
        "lo": "87.45", "hi": "87.55", "place": "0.1", "slips": [], "slip_ranges": {},
    },
    "temperature": {
        "kind": "number", "node": "T", "unit": "K", "figures": 3, "decimals": None, "value": "298", "exact": "298.15",
        "lo": "297.5", "hi": "298.5", "place": "1", "slips": [], "slip_ranges": {},
    },
}  # fmt: skip

PAIRS = {
    "mass after charge and amount": "number -> number", "E and minus E": "number -> number", "potential after a named anode": "choice -> number",
    "metal that fits": "number -> choice", "whole number of electrons": "number -> number", "whole from measured numbers": "number -> number",
}  # fmt: skip

# (key, typed, earlier, verdict, why, slips, part named)
MASS, FREE, NAMED = "mass after charge and amount", "E and minus E", "potential after a named anode"
FOLLOWING: list[tuple[str, object, dict[str, object], str, list[str], list[str], list[str]]] = [
    (MASS, "1.31", {}, "right", [], [], []),
    (MASS, "1.31", {"a": 1930.0, "b": 20.0}, "right", [], [], []),
    # (a) taken in minutes, 32.17 C, told as 32.2: n = 0.3333 mmol, m = 0.0218 g
    (MASS, "0.0218", {"a": 32.2}, "follows", [], [], ["a"]),
    (MASS, "0.0218", {"a": 32.2, "b": 20.0}, "follows", [], [], ["a"]),
    (MASS, "0.0218", {"a": 32.2, "b": 0.333}, "follows", [], [], ["b"]),
    (MASS, "0.022", {"a": 32.2}, "follows", ["figures"], [], ["a"]),
    (MASS, "-0.0218", {"a": 32.2}, "not-yet", ["sign"], [], []),
    # (b) told as 41.4 mmol, its digits kept (41.449): m = 2.7108 g against 2.7076 g from the rounded one
    (MASS, "2.71", {"b": 41.4}, "follows", [], [], ["b"]),
    (MASS, "2.711", {"b": 41.4}, "follows", [], [], ["b"]),
    (MASS, "2.72", {"b": 41.449}, "not-yet", [], [], []),
    (MASS, "2.71", {"b": 41.449}, "follows", [], [], ["b"]),
    # (b) right, but with a digit more than asked for and used so: nothing to say
    (MASS, "1.31", {"b": 20.02}, "right", [], [], []),
    # the error of two electrons on an own charge of 32.2 C: m = 0.0109 g; it can't be where (b) is answered right
    (MASS, "0.0109", {"a": 32.2}, "slip-on-own", [], ["two-electrons"], ["a"]),
    (MASS, "0.654", {}, "slip", [], ["two-electrons"], []),
    (MASS, "0.654", {"b": 20.0}, "not-yet", [], [], []),
    (MASS, "0.654", {"b": 10.0}, "follows", [], [], ["b"]),
    (MASS, "0.306", {"b": 20.0}, "slip", [], ["divided"], []),
    (MASS, "0.153", {"b": 10.0}, "slip-on-own", [], ["divided"], ["b"]),
    (MASS, "1.31 kg", {}, "not-yet", ["unit"], [], []),
    (MASS, "1.31 C", {}, "not-yet", ["unit"], [], []),
    (MASS, "1310 mg", {}, "right", [], [], []),
    (MASS, "1310", {}, "not-yet", ["prefix"], [], []),
    (MASS, "1.31 grams", {}, "right", [], [], []),
    (MASS, "1.3", {"b": 20.0}, "right-but", ["figures"], [], []),
    (MASS, "1", {}, "right-but", ["figures"], [], []),
    # half of the electrons is the metal; from an own charge of 32.2 C it is 0.167 mmol of metal, 0.334 mmol of electrons
    ("amount of electrons", "20.0", {"a": 1930.0}, "right", [], [], []),
    ("amount of electrons", "10.0", {"a": 1930.0}, "slip", [], ["amount-of-metal"], []),
    ("amount of electrons", "10.0", {}, "slip", [], ["amount-of-metal"], []),
    ("amount of electrons", "0.334", {"a": 32.2}, "follows", [], [], ["a"]),
    ("amount of electrons", "0.167", {"a": 32.2}, "slip-on-own", [], ["amount-of-metal"], ["a"]),
    # +0.50 V is right, -0.50 V the student's own: -96 and +96 kJ/mol may follow, 0 may not
    (FREE, "96", {"a": -0.50}, "follows", [], [], ["a"]),
    (FREE, "-96", {"a": -0.50}, "right", [], [], []),
    (FREE, "0", {"a": -0.50}, "not-yet", [], [], []),
    (FREE, "50", {"a": -0.50}, "not-yet", [], [], []),
    (FREE, "-48", {"b": 1.0}, "follows", [], [], ["b"]),
    (FREE, "48", {"a": -0.50, "b": 1.0}, "follows", [], [], ["b"]),
    (FREE, "48", {"b": 1.0}, "not-yet", ["sign"], [], []),
    (FREE, "-96000", {}, "not-yet", ["prefix"], [], []),
    (FREE, "-96 kJ", {}, "not-yet", ["unit"], [], []),
    (FREE, "-96 kilojoules per mole", {}, "right", [], [], []),
    (FREE, "-97", {"a": 0.50}, "not-yet", [], [], []),
    # the anode was named right: no hint about it
    (NAMED, "-0.46", {}, "slip", [], ["higher-is-anode"], []),
    (NAMED, "-0.46", {"a": "left"}, "slip", [], ["anode-minus-cathode"], []),
    (NAMED, "-0.46", {"a": "right"}, "follows", [], [], ["a"]),
    (NAMED, "1.14", {"a": "left"}, "slip", [], ["added"], []),
    (NAMED, "1.14", {"a": "right"}, "slip", [], ["added"], []),
    (NAMED, "0.46", {"a": "right"}, "right", [], [], []),
    (NAMED, "0.5", {"a": "left"}, "right-but", ["decimals"], [], []),
    ("metal that fits", [1], {"a": 63.5}, "right", [], [], []),
    ("metal that fits", [0], {"a": 65.1}, "follows", [], [], ["a"]),
    ("metal that fits", [2], {"a": 127.0}, "follows", [], [], ["a"]),
    ("metal that fits", [2], {"a": 63.5}, "slip", [], ["heaviest"], []),
    ("metal that fits", [0], {"a": 63.5}, "not-yet", [], [], []),
    *[("whole number of electrons", typed, {}, "right", [], [], []) for typed in ("2", "+2", "2.0", "2,0", "2.00", "4/2", "n = 2", "2.")],
    ("whole number of electrons", "2.2", {}, "not-yet", ["whole"], [], []),
    ("whole number of electrons", "-2", {}, "not-yet", ["sign"], [], []),
    ("whole number of electrons", "1", {}, "slip", [], ["halved"], []),
    ("whole number of electrons", "3", {"a": 3.0}, "follows", [], [], ["a"]),
    ("whole number of electrons", "2.5", {"a": 3.0}, "not-yet", ["whole"], [], []),
    ("whole number of electrons", "2 V", {}, "not-yet", ["unit"], [], []),
    ("whole from measured numbers", "2", {}, "right", [], [], []),
    ("whole from measured numbers", "1.98", {}, "not-yet", ["whole"], [], []),
    ("whole from measured numbers", "3", {"a": 88.0}, "follows", [], [], ["a"]),
    ("whole from measured numbers", "4", {"a": 88.0}, "not-yet", [], [], []),
    *[("oxidation number", typed, {}, "right", [], [], []) for typed in ("-3", "−3", "–3", "－3", "-3.0", "- 3")],
    ("oxidation number", "3", {}, "not-yet", ["sign"], [], []),
    ("oxidation number", "+3", {}, "not-yet", ["sign"], [], []),
    ("oxidation number", "-3.2", {}, "not-yet", ["whole"], [], []),
    ("oxidation number", "-2", {}, "not-yet", [], [], []),
    # the right number in another prefix is one, also where an error lies near zero
    ("millivolts", "0.350", {}, "not-yet", ["prefix"], [], []),
    ("millivolts", "0.350 V", {}, "right", [], [], []),
    ("millivolts", "350", {}, "right", [], [], []),
    ("millivolts", "349.6", {}, "right", [], [], []),
    ("millivolts", "0.4", {}, "slip", [], ["no-effect"], []),
    ("millivolts", "350 V", {}, "not-yet", ["unit"], [], []),
    ("millivolts", "350 millivolts", {}, "right", [], [], []),
    ("millivolts", "400", {}, "right-but", ["decimals"], [], []),
    ("millivolts", "0", {}, "slip", [], ["no-effect"], []),
    ("millivolts", "1000", {}, "not-yet", [], [], []),
    ("joules for kilojoules", "-212000", {}, "slip", [], ["joule-written-as-kilojoule"], []),
    ("joules for kilojoules", "-212000 J/mol", {}, "right", [], [], []),
    ("joules for kilojoules", "-212 J/mol", {}, "not-yet", ["unit"], [], []),
    ("joules for kilojoules", "-200", {}, "right-but", ["figures"], [], []),
    ("joules for kilojoules", "-0.212", {}, "not-yet", ["prefix"], [], []),
    ("seconds", "44 min 20 s", {}, "right", [], [], []),
    ("seconds", "44 minutes and 20 seconds", {}, "right", [], [], []),
    ("seconds", "0 h 44 min 20 s", {}, "right", [], [], []),
    ("seconds", "45 min 20 s", {}, "not-yet", [], [], []),
    ("seconds", "44.3 min", {}, "right", [], [], []),
    ("seconds", "44.3", {}, "not-yet", ["prefix"], [], []),
    ("seconds", "2660 seconds", {}, "right", [], [], []),
    ("seconds", "2660 min", {}, "not-yet", ["unit"], [], []),
    ("seconds", "2700", {}, "right-but", ["figures"], [], []),
    ("seconds", "2700 s.", {}, "right-but", ["figures"], [], []),
    ("seconds", "2.7e3", {}, "right-but", ["figures"], [], []),
    ("litres", "250 mL", {}, "right", [], [], []),
    ("litres", "250 cm3", {}, "right", [], [], []),
    ("litres", "250 cm³", {}, "right", [], [], []),
    ("litres", "250 cm^{3}", {}, "right", [], [], []),
    ("litres", "0.250 dm^3", {}, "right", [], [], []),
    ("litres", "0.250 litres", {}, "right", [], [], []),
    ("litres", "0.250 liters", {}, "right", [], [], []),
    ("litres", "0.250 l", {}, "right", [], [], []),
    ("litres", "0.250 mL", {}, "not-yet", ["unit"], [], []),
    ("litres", "250", {}, "not-yet", ["prefix"], [], []),
    ("litres", "0.250 g", {}, "not-yet", ["unit"], [], []),
    ("percentage", "87.5 %", {}, "right", [], [], []),
    ("percentage", "87.5 percent", {}, "right", [], [], []),
    ("percentage", "0.875", {}, "not-yet", ["prefix"], [], []),
    ("percentage", "88", {}, "right-but", ["figures"], [], []),
    ("temperature", "298 K", {}, "right", [], [], []),
    ("temperature", "298 kelvin", {}, "right", [], [], []),
    ("temperature", "298 °C", {}, "not-yet", ["unit"], [], []),
    ("temperature", "25 °C", {}, "not-yet", ["unit"], [], []),
    *[("emf", typed, {}, "right", [], [], []) for typed in (
        "1.10 volts", "1.10 volt", "1.10 Volts", "1100 millivolts", "1.10 J/C", "1.10 J C^-1", "1.10 joules per coulomb", "E = 1.10 V",
        "E°(cell) = 1.10 V", "1.10 V.", "1.10.", "= 1.10", "1\u200b.10", "\ufeff1.10", "1.10×10^{0}", "110×10^{-2}", "E ≈ 1.10 V",
        "1.10000000000000", "1.1000000000000000000", "01.10",
    )],
    *[("emf", typed, {}, "not-yet", ["sign"], [], []) for typed in ("–1.10", "—1.10", "－1.10", "﹣1.10", "‒1.10", "―1.10")],
    *[("charge", typed, {}, "right", [], [], []) for typed in (
        "1800 coulombs", "1800 ampere seconds", "0.500 A h", "0.500 ampere hours", "500 mA h", "1.80 kilocoulombs", "30.0 A min",
    )],
    ("charge", "1800 V", {}, "not-yet", ["unit"], [], []),
    ("charge", "1800 A", {}, "not-yet", ["unit"], [], []),
    ("charge", "1800 Ah", {}, "not-yet", ["unit"], [], []),
    ("charge", "0.500", {}, "not-yet", ["prefix"], [], []),
    ("emf", "1.10 blorps", {}, "right-but", ["unit"], [], []),
    ("emf", "1.1 blorps", {}, "right-but", ["unit", "decimals"], [], []),
    # equations: arrows, charges and states as students write them; read alike whether right or wrong
    *[("cell reaction", f"Zn + 2Ag^+ {arrow} Zn^2+ + 2Ag", {}, "right", [], [], []) for arrow in (
        "->", "-->", "--->", "=>", "==>", "=", "→", "⟶", "➔", "➜", "⇒", "⇌", "<=>", "<->", "↔", "—>", "–>",
    )],
    *[("cell reaction", f"Zn + 2{silver} -> {zinc} + 2Ag", {}, "right", [], [], [])
      for silver in ("Ag+", "Ag^+", "Ag^{+}", "Ag+1", "Ag^1+", "Ag⁺")
      for zinc in ("Zn2+", "Zn^{2+}", "Zn+2", "Zn^+2", "Zn++", "Zn²⁺", "Zn{2+}", "Zn2+(aq)", "Zn+2(aq)")],
    *[("cell reaction", f"{metal} + 2Ag^+ -> {ion} + 2Ag", {}, "not-yet", ["species-differ"], [], [])
      for metal, ion in (("Fe", "Fe2+"), ("Cu", "Cu+2"), ("Ni", "Ni++"), ("Pb", "Pb^{2+}"), ("Mg", "Mg²⁺"))],
    *[("cell reaction", typed, {}, "unread", [why], [], []) for typed, why in (
        ("ZN + 2Ag^+ -> Zn^2+ + 2Ag", "element-case"), ("Zn + 2AG^+ -> Zn^2+ + 2Ag", "element-case"), ("CU2+ + Zn -> Cu + Zn2+", "element-case"),
        ("CU²⁺ + Zn -> Cu + Zn²⁺", "element-case"), ("Zn + 2AG⁺ -> Zn²⁺ + 2Ag", "element-case"),
        ("CU + 2Ag^+ -> Cu^2+ + 2Ag", "element-case"), ("Zn(S) + 2Ag^+ -> Zn^2+ + 2Ag", "state-case"),
        ("Zn + 2Ag^+(AQ) -> Zn^2+ + 2Ag", "state-case"), ("Zn + Cu(II) -> Zn^2+ + Cu", "roman"), ("Zn + 2Ag(I) -> Zn(II) + 2Ag", "roman"),
        ("½Zn + Ag^+ -> ½Zn^2+ + Ag", "whole-numbers"), ("0.5Zn + Ag^+ -> 0.5Zn^2+ + Ag", "whole-numbers"),
        ("0,5 Zn + Ag^+ -> 0,5 Zn^2+ + Ag", "whole-numbers"), ("Zn + O2- -> ZnO + 2e-", "charge-unclear"), ("I3- -> I2", "charge-unclear"),
        ("Zn + 2Ag^+ -> Zn^2+ + 2Ag!", "species"), ("Zn + €", "character"),
    )],
    *[("half-reaction", f"{ion} + 8{proton} + 5e- -> {made} + 4H2O", {}, "right", [], [], [])
      for ion in ("MnO4-", "MnO4^-", "MnO4^{-}", "MnO4-1", "MnO₄⁻")
      for proton in ("H+", "H^+", "H^{+}", "H⁺") for made in ("Mn2+", "Mn^2+", "Mn+2", "Mn++")],
]  # fmt: skip
