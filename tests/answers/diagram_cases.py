"""Cases of typed cell diagrams: some by hand, the others made; the verdict of each is known from how it is made.

What is wrong about a diagram: IUPAC Green Book, 3rd edition, section 2.13.1 (from memory).
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence

from writings import Case, Made, bare, braced, raised

Half = list[list[str]]
CELLS: tuple[tuple[Half, Half], ...] = (
    ([["Zn"], ["Zn^2+"]], [["Cu^2+"], ["Cu"]]),
    ([["Ni"], ["Ni^2+"]], [["Ag^+"], ["Ag"]]),
    ([["Al"], ["Al^3+"]], [["Pb^2+"], ["Pb"]]),
    ([["Pt"], ["Fe^2+", "Fe^3+"]], [["Ag^+"], ["Ag"]]),
    ([["Pt"], ["H2"], ["H^+"]], [["Cu^2+"], ["Cu"]]),
    ([["Zn"], ["Zn^2+"]], [["Cl^-"], ["Cl2"], ["Pt"]]),
    ([["Pt"], ["Sn^2+", "Sn^4+"]], [["MnO4^-", "Mn^2+", "H^+"], ["Pt"]]),
    ([["Ag"], ["AgCl"], ["Cl^-"]], [["Fe^3+", "Fe^2+"], ["Pt"]]),
    ([["Pb"], ["PbSO4"], ["SO4^2-"]], [["Cu^2+"], ["Cu"]]),
    ([["Cd"], ["Cd^2+"]], [["Au^3+"], ["Au"]]),
)
"""Both halves from left to right, phase by phase."""


def line(halves: Sequence[Half], bar: str = "|", bridge: str = "||", comma: str = ",", write: Callable[[str], str] = str) -> str:
    return bridge.join(bar.join(comma.join(map(write, phase)) for phase in half) for half in halves)


def with_state(species: str) -> str:
    state = "aq" if "^" in species else "g" if species in {"H2", "Cl2"} else "s"
    return f"{species}({state})"


def inert(species: str, other: str = "Pt") -> str:
    return other if species == "Pt" else species


def right_writings(cell: tuple[Half, Half], dice: random.Random) -> list[str]:
    forms = [
        line(cell, " | ", " || ", ", "),
        line(cell, "|", "||", ",", bare),
        line(cell, " / ", " // ", ", ", bare),
        line(cell, " ¦ ", " ¦¦ ", "; ", raised),
        line(cell, "|", "‖", ",", with_state),
        line(cell, " │ ", " ∥ ", " , ", braced),
        line(cell, "∣", " | | ", ",", bare),
        line(cell, "|", "|| KNO3(aq) ||", ",", bare),
        line(cell, "|", "||", ",", lambda species: inert(bare(species), dice.choice(["C", "graphite", "C(graphite)", "Au(s)"]))),
        line([half if side else [phase[::-1] for phase in half] for side, half in enumerate(cell)], "\u202f|\u00a0", "||", ", "),
    ]
    return dice.sample(forms, 8)


def no_clash(cell: tuple[Half, Half]) -> bool:
    """Whether gold takes part, so that it is no inert conductor there."""
    return all("Au" not in species for half in cell for phase in half for species in phase)


def diagrams(dice: random.Random) -> Iterator[tuple[str, Case, list[Made]]]:
    for number, cell in enumerate(CELLS):
        name = f"diagram {number}"
        key: Case = {"kind": "diagram", "right": line(cell, " | ", " || ", ", ", with_state), "slips": {}}
        yield name, key, [(name, text, verdict, why) for text, verdict, why in _diagrams_of(cell, dice)]


def _diagrams_of(cell: tuple[Half, Half], dice: random.Random) -> Iterator[tuple[str, str, list[str]]]:
    left, right = cell
    for text in right_writings(cell, dice):
        yield text, "right", []
    turned = (right[::-1], left[::-1])
    yield line(turned), "not-yet", ["diagram-reversed"]
    yield line(turned, " / ", " // ", ",", bare), "not-yet", ["diagram-reversed"]
    yield line((left[::-1], right)), "not-yet", ["electrode-outside"]
    yield line([left + right], "|", "||", ",", bare), "not-yet", ["bridge-missing"]
    yield line([left + right], " | ", " || ", ", ", with_state), "not-yet", ["bridge-missing"]
    yield line(([[species for phase in left for species in phase]], right)), "not-yet", ["comma-between-phases"]
    yield line((left, [*right, ["K^+"]])), "not-yet", ["species-extra"]
    yield line(([*left[:-1]], right)) if len(left) > 2 else line((left, right[1:])), "not-yet", ["species-missing"]
    yield "2" + line(cell, "|", "||", ",", bare), "not-yet", ["numbers"]
    yield line(cell, "|", "||", ",", lambda species: f"2 {species}"), "not-yet", ["numbers"]
    yield line(cell) + " |", "unread", ["diagram-gap"]
    yield line((left, right, left)), "unread", ["diagram-bridges"]
    yield line(cell).replace("|", "§"), "unread", ["diagram-character"]
    if without := [[phase for phase in half if phase != ["Pt"]] for half in cell]:
        yield (line(without), "not-yet", ["electrode-left-out"]) if without != list(cell) else (line(without), "right", [])
    if any(len(phase) > 1 for half in cell for phase in half):
        apart = [[[species] for phase in half for species in phase] for half in cell]
        yield line(apart), "not-yet", ["bar-in-phase"]


DIAGRAM_KEYS: dict[str, Case] = {
    "diagram with amounts": {
        "kind": "diagram", "right": "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)", "amounts": True, "states": True, "slips": {}, "mark": ".",
    },
    "diagram of one couple": {
        "kind": "diagram", "right": "Zn(s) | Zn^2+(aq, 0.010) || Zn^2+(aq, 1.0) | Zn(s)", "amounts": True, "mark": ",",
        "slips": {"Zn(s) | Zn^2+(aq, 1.0) || Zn^2+(aq, 0.010) | Zn(s)": ["turned-round"]},
    },
    "diagram with a gas": {
        "kind": "diagram", "right": "Pt(s) | H2(g, 0.50 bar) | H^+(aq, 0.10) || Fe^3+(aq, 0.20), Fe^2+(aq, 0.05) | Pt(s)", "slips": {},
    },
    "diagram by its anode": {
        "kind": "diagram", "right": "Zn(s) | Zn^2+(aq) || Ag^+(aq) | Ag(s)",
        "slips": {"Ag(s) | Ag^+(aq) || Zn^2+(aq) | Zn(s)": ["notation-order-reversed"], "Zn(s) | Zn^2+(aq) || 2Ag^+(aq) | 2Ag(s)": ["coefficients-in-notation"]},
        "earlier": [["a", "anode"]], "given": {"anode": "left"}, "graph": [],
        "led": [[{"anode": "right"}, "Ag(s) | Ag^+(aq) || Zn^2+(aq) | Zn(s)", {"2Ag(s) | 2Ag^+(aq) || Zn^2+(aq) | Zn(s)": ["coefficients-in-notation"]}]],
    },
}  # fmt: skip

DIAGRAM_CASES: tuple[tuple[str, object, str, list[str]], ...] = (
    ("diagram with amounts", "Zn(s)|Zn2+(aq, 0.10 mol/L)||Cu2+(aq, 1.0 mol/L)|Cu(s)", "right", []),
    ("diagram with amounts", "Zn(s)|Zn2+(aq, 0,10 M)||Cu2+(aq, 1 M)|Cu(s)", "right", []),
    ("diagram with amounts", "Zn(s) | Zn2+(aq; c = 0.1) || Cu2+(aq)(1.0) | Cu(s)", "right", []),
    ("diagram with amounts", "Zn(s) | Zn2+(aq, 100 mmol/L) || Cu2+(aq, 1.0 mol dm-3) | Cu(s)", "right", []),
    ("diagram with amounts", "Zn(s) | Zn2+(aq, 1×10^-1 mol/dm^3) || Cu2+(aq, 1e0) | Cu(s)", "right", []),
    ("diagram with amounts", "Zn|Zn2+(0.10)||Cu2+(1.0)|Cu", "right-but", ["states"]),
    ("diagram with amounts", "Zn(s)|Zn2+(aq)||Cu2+(aq)|Cu(s)", "right-but", ["amounts"]),
    ("diagram with amounts", "Zn|Zn2+||Cu2+|Cu", "right-but", ["states", "amounts"]),
    ("diagram with amounts", "Zn(s)|Zn2+(l, 0.10)||Cu2+(aq, 1.0)|Cu(s)", "right-but", ["states"]),
    ("diagram with amounts", "Zn(s)|Zn2+(aq, 1.0)||Cu2+(aq, 0.10)|Cu(s)", "not-yet", ["amounts-differ"]),
    ("diagram with amounts", "Zn(s)|Zn2+(aq, 0.20)||Cu2+(aq, 1.0)|Cu(s)", "not-yet", ["amounts-differ"]),
    ("diagram with amounts", "Zn(s)|Zn2+(aq, viel)||Cu2+(aq, 1.0)|Cu(s)", "unread", ["amount"]),
    ("diagram with amounts", "Zn(s)|Zn2+(aq, 0.10 V)||Cu2+(aq, 1.0)|Cu(s)", "unread", ["amount"]),
    ("diagram with amounts", "Zn(s)|Zn2+(AQ)||Cu2+(aq)|Cu(s)", "unread", ["state-case"]),
    ("diagram with amounts", "ZN|ZN2+||Cu2+|Cu", "unread", ["element-case"]),
    ("diagram with amounts", "zinc|zinc ions||copper ions|copper", "unread", ["species"]),
    ("diagram with amounts", "Zn(II)|Zn||Cu|Cu(II)", "unread", ["roman"]),
    ("diagram with amounts", "Zn|Zn2+||S2-|S", "unread", ["charge-unclear"]),
    ("diagram with amounts", "I don't know", "unread", ["diagram-bridges"]),
    ("diagram with amounts", "||", "unread", ["diagram-gap"]),
    ("diagram with amounts", "", "unread", ["empty"]),
    ("diagram with amounts", {"repeat": ["Zn|", 200]}, "unread", ["too-long"]),
    ("diagram with amounts", {"repeat": ["|", 399]}, "unread", ["diagram-bridges"]),
    ("diagram with amounts", {"repeat": ["(", 399]}, "unread", ["diagram-bridges"]),
    ("diagram with amounts", {"repeat": ["Zn,", 100]}, "unread", ["diagram-bridges"]),
    ("diagram with amounts", "Zn|" + "Zn,," * 20 + "||Cu", "unread", ["diagram-gap"]),
    ("diagram with amounts", "Zn|" + "Zn," * 30 + "Cu||Cu", "unread", ["too-long"]),
    ("diagram with amounts", 5, "unread", ["empty"]),
    ("diagram with amounts", ["Zn"], "unread", ["empty"]),
    ("diagram of one couple", "Zn|Zn2+(0,010)||Zn2+(1,0)|Zn", "right", []),
    ("diagram of one couple", "Zn(s)|Zn2+(aq, 10 mM)||Zn2+(aq, 1,0 M)|Zn(s)", "right", []),
    ("diagram of one couple", "Zn|Zn2+||Zn2+|Zn", "not-yet", ["amounts"]),
    ("diagram of one couple", "Zn|Zn2+(0,010)||Zn2+|Zn", "not-yet", ["amounts"]),
    ("diagram of one couple", "Zn|Zn2+(0,5)||Zn2+(1,0)|Zn", "not-yet", ["amounts-differ"]),
    ("diagram with a gas", "Pt | H2 | H+ || Fe3+, Fe2+ | Pt", "right", []),
    ("diagram with a gas", "Pt(s) | H2(g, 50 kPa) | H3O+(aq, 0.10) || Fe2+, Fe3+ | C(gr)", "right", []),
    ("diagram with a gas", "Pt | H2 | H+, H2O || Fe3+, Fe2+ | Pt", "right", []),
    ("diagram with a gas", "Pt | H2(0.50 atm) | H+ || Fe3+, Fe2+ | Pt", "not-yet", ["amounts-differ"]),
    ("diagram with a gas", "Pt | H+ | H2 || Fe3+, Fe2+ | Pt", "not-yet", ["order-of-phases"]),
    ("diagram with a gas", "Pt, H2 | H+ || Fe3+, Fe2+ | Pt", "not-yet", ["comma-between-phases"]),
    ("diagram with a gas", "H2 | H+ || Fe3+ | Fe2+", "not-yet", ["electrode-left-out", "bar-in-phase"]),
    ("diagram with a gas", "Fe2+, Fe3+ || H+ | H2", "not-yet", ["diagram-reversed", "electrode-left-out"]),
    ("diagram with a gas", "Fe | H2 | H+ || Fe3+, Fe2+ | Fe", "not-yet", ["electrode-left-out", "species-extra"]),
    ("diagram by its anode", "Pt | Zn | Zn2+ || Ag+ | Ag | Pt", "right", []),
)
"""By hand."""

DIAGRAM_FOLLOWING: tuple[tuple[str, object, dict[str, object], str, list[str], list[str], list[str]], ...] = (
    ("diagram of one couple", "Zn|Zn2+(1,0)||Zn2+(0,010)|Zn", {}, "slip", [], ["turned-round"], []),
    ("diagram by its anode", "Ag|Ag+||Zn2+|Zn", {}, "slip", [], ["notation-order-reversed"], []),
    ("diagram by its anode", "Ag|Ag+||Zn2+|Zn", {"a": "left"}, "slip", [], ["notation-order-reversed"], []),
    ("diagram by its anode", "Ag|Ag+||Zn2+|Zn", {"a": "right"}, "follows", [], [], ["a"]),
    ("diagram by its anode", "Ag / Ag⁺ // Zn²⁺ / Zn", {"a": "right"}, "follows", [], [], ["a"]),
    ("diagram by its anode", "2Ag|2Ag+||Zn2+|Zn", {"a": "right"}, "slip-on-own", [], ["coefficients-in-notation"], ["a"]),
    ("diagram by its anode", "Zn|Zn2+||2Ag+|2Ag", {}, "slip", [], ["coefficients-in-notation"], []),
    ("diagram by its anode", "Zn|Zn2+||Ag+|Ag", {"a": "right"}, "right", [], [], []),
)
