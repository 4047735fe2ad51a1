"""Cases of typed species, with those of diagrams and expressions: the verdict of each is known from how it is made."""

from __future__ import annotations

import random
from collections.abc import Iterator

from diagram_cases import DIAGRAM_CASES, DIAGRAM_FOLLOWING, DIAGRAM_KEYS, diagrams
from expression_cases import EXPRESSION_CASES, EXPRESSION_FOLLOWING, EXPRESSION_KEYS, expressions
from writings import Case, Made

SPECIES = (
    ("Zn^2+", "aq", ["Zn2+", "Zn²⁺", "Zn^{2+}", "Zn+2", "Zn++"], ["Zn^+", "Zn^3+", "Zn"], ["Zn2^2+"], ["ZnO", "Zn(OH)2"]),
    ("Fe^3+", "aq", ["Fe3+", "Fe³⁺", "Fe^{3+}", "Fe+3"], ["Fe^2+", "Fe"], ["Fe3^3+"], ["FeCl3", "Fe2O3"]),
    ("Cl2", "g", ["Cl2(g)", "Cl₂"], ["Cl2^-"], ["Cl", "Cl^-", "Cl3"], ["HCl", "ClO^-"]),
    ("SO4^2-", "aq", ["SO42-", "SO₄²⁻", "SO4^{2-}", "O4S^2-"], ["SO4^-", "SO4"], ["SO3^2-", "SO2"], ["H2S", "SF6"]),
    ("MnO4^-", "aq", ["MnO4-", "MnO₄⁻"], ["MnO4^2-", "MnO4"], ["MnO2"], ["Mn", "Mn^2+"]),
    ("[Ag(NH3)2]^+", "aq", ["Ag(NH3)2^+", "[Ag(NH3)2]+", "[Ag(NH3)2]⁺"], ["[Ag(NH3)2]^2+"], ["[Ag(NH3)4]^+"], ["Ag", "AgCl"]),
    ("H^+", "aq", ["H+", "H⁺", "H3O+", "H3O^+"], ["H", "H^-"], ["H2"], []),
    ("Cu", "s", ["Cu(s)"], ["Cu^2+", "Cu+"], ["Cu2"], ["CuO", "CuSO4"]),
    ("OH^-", "aq", ["OH-", "HO^-", "OH⁻"], ["OH", "OH^+"], ["H2O", "O2H^-"], []),
)  # fmt: skip
"""The right one with its state, other writings, wrong charges, wrong counts of the right elements, others with its element."""


def species(_dice: random.Random) -> Iterator[tuple[str, Case, list[Made]]]:
    for number, (right, state, writings, charges, counts, others) in enumerate(SPECIES):
        for asked in (False, True):
            name = f"species {number}{' with its state' if asked else ''}"
            key: Case = {"kind": "species", "right": f"{right}({state})", "states": asked, "slips": {}}
            made: list[tuple[str, str, list[str]]] = [(f"{right}({state})", "right", []), (f" {right} ({state})", "right", [])]
            for text in (right, *writings):
                told = text.endswith((")", "]+")) and text.endswith(f"({state})")
                made.append((text, "right", []) if told or not asked else (text, "right-but", ["states"]))
            wrong = "(l)"
            made.append((right + wrong, "right-but" if asked else "right", ["states"] if asked else []))
            made.append((f"2{right}({state})", "right-but", ["counted"]))
            made += [(text, "not-yet", ["species-charge"]) for text in charges]
            made += [(text, "not-yet", ["species-formula"]) for text in counts]
            made += [(text, "not-yet", ["species-element"]) for text in others]
            made += [("Kr", "not-yet", []), ("e-", "not-yet", []), (right + "§", "unread", ["species-character"])]
            yield name, key, [(name, *each) for each in made]


SPECIES_KEYS: dict[str, Case] = {
    "ion by its anode": {
        "kind": "species", "right": "Zn^2+(aq)", "slips": {"Cu^2+(aq)": ["other-electrode"]}, "values": {"Zn^2+(aq)": "left", "Cu^2+(aq)": "right"},
        "node": "anode", "earlier": [["a", "anode"]], "given": {"anode": "left"}, "graph": [], "led": [[{"anode": "right"}, "Cu^2+(aq)"]],
    },
}  # fmt: skip
SPECIES_CASES: tuple[tuple[str, object, str, list[str]], ...] = (
    ("species 0", "zinc", "unread", ["species"]),
    ("species 0", "ZN2+", "unread", ["element-case"]),
    ("species 0", "Zn(II)", "unread", ["roman"]),
    ("species 0", "Zn2+(AQ)", "unread", ["state-case"]),
    ("species 0", "½Zn", "unread", ["species-character"]),
    ("species 0", "1/2 Zn", "unread", ["whole-numbers"]),
    ("species 2", "Cl2-", "unread", ["charge-unclear"]),
    ("species 0", "Zn -> Zn2+", "unread", ["species"]),
    ("species 0", "", "unread", ["empty"]),
    ("species 0", "   ", "unread", ["empty"]),
    ("species 0", None, "unread", ["empty"]),
    ("species 0", {"repeat": ["Zn", 41]}, "unread", ["too-long"]),
    ("species 0", {"repeat": ["(", 80]}, "unread", ["species"]),
    ("species 0", {"repeat": ["9", 80]}, "unread", ["species"]),
)
SPECIES_FOLLOWING: tuple[tuple[str, object, dict[str, object], str, list[str], list[str], list[str]], ...] = (
    ("ion by its anode", "Cu2+", {"a": "right"}, "follows", [], [], ["a"]),
    ("ion by its anode", "Cu2+", {}, "slip", [], ["other-electrode"], []),
    ("ion by its anode", "Cu2+", {"a": "left"}, "slip", [], ["other-electrode"], []),
    ("ion by its anode", "Cu+", {"a": "right"}, "not-yet", [], [], []),
)

# ------------------------------------------------------------------ all of them

KEYS = DIAGRAM_KEYS | SPECIES_KEYS | EXPRESSION_KEYS
BY_HAND = (*DIAGRAM_CASES, *SPECIES_CASES, *EXPRESSION_CASES)
FOLLOWING = (*DIAGRAM_FOLLOWING, *SPECIES_FOLLOWING, *EXPRESSION_FOLLOWING)
PAIRS = {
    "diagram by its anode": "choice -> diagram", "ion by its anode": "choice -> species",
    "expression of the own equation": "equation -> expression",
}  # fmt: skip
MAKERS = (diagrams, species, expressions)
