"""Cases of typed expressions for Q: some by hand, the others made; the verdict of each is known from how it is made.

Products over reactants, each to its coefficient, without solids and water: any textbook of general chemistry.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator

from writings import RAISED, Case, Made, bare, braced, raised

Factors = dict[str, int]
QUOTIENTS: tuple[tuple[Factors, Factors, tuple[str, ...]], ...] = (
    ({"Zn^2+": 1}, {"Ag^+": 2}, ("Zn(s)", "Ag(s)")),
    ({"Al^3+": 2}, {"Pb^2+": 3}, ("Al(s)", "Pb(s)")),
    ({"Mg^2+": 1, "H2": 1}, {"H^+": 2}, ("Mg(s)",)),
    ({"Cu^2+": 1, "Fe^2+": 2}, {"Fe^3+": 2}, ("Cu(s)",)),
    ({"Cl^-": 2}, {"Cl2": 1, "Br^-": 2}, ("Br2(l)",)),
    ({"Fe^3+": 5, "Mn^2+": 1}, {"Fe^2+": 5, "MnO4^-": 1, "H^+": 8}, ("H2O(l)",)),
    ({"Cr^3+": 2, "Fe^3+": 6}, {"Cr2O7^2-": 1, "Fe^2+": 6, "H^+": 14}, ("H2O(l)",)),
    ({"Cd^2+": 1}, {"H^+": 2, "O2": 2}, ("Cd(s)", "H2O(l)")),
    ({"SO4^2-": 3}, {"Au^3+": 2}, ("Pb(s)", "PbSO4(s)")),
)
"""Powers above and below, and what is left out."""
GASES = {"H2", "Cl2", "O2"}


def held(species: str, write: Callable[[str], str] = bare, letter: str = "") -> str:
    if species in GASES:
        return f"p({write(species)})"
    return f"{letter}({write(species)})" if letter else f"[{write(species)}]"


def product(
    factors: Factors, sign: str, power: Callable[[int], str], write: Callable[[str], str] = bare, letter: str = ""
) -> str:
    return sign.join(held(name, write, letter) + power(size) for name, size in factors.items())


def caret(size: int) -> str:
    return f"^{size}" if size != 1 else ""


def fraction(
    above: Factors, below: Factors, sign: str = "·", power: Callable[[int], str] = caret, write: Callable[[str], str] = bare, letter: str = ""
) -> str:  # fmt: skip
    under = product(below, sign, power, write, letter)
    return f"{product(above, sign, power, write, letter)}/" + (f"({under})" if len(below) > 1 else under)


def times(factors: Factors, by: int) -> Factors:
    return {name: size * by for name, size in factors.items()}


def expressions(_dice: random.Random) -> Iterator[tuple[str, Case, list[Made]]]:
    for number, (above, below, outside) in enumerate(QUOTIENTS):
        name = f"expression {number}"
        key: Case = {
            "kind": "expression", "right": fraction(above, below, write=str), "left_out": list(outside), "slips": {},
        }  # fmt: skip
        yield name, key, [(name, text, verdict, why) for text, verdict, why in _expressions_of(above, below, outside[0])]


def _expressions_of(above: Factors, below: Factors, solid: str) -> Iterator[tuple[str, str, list[str]]]:
    ones = dict.fromkeys(above | below, 1)
    for text in (
        fraction(above, below),
        "Q = " + fraction(above, below, " * ", write=raised),
        "K=" + fraction(above, below, " x ", lambda size: f"^{{{size}}}", write=braced),
        fraction(above, below, "", lambda size: str(size).translate(RAISED), letter="c"),
        fraction(above, below, " × ", lambda size: f" ** {size}", letter="a"),
        f"{product(above, '', caret)} / {product(below, '', caret)}",
        product(above, "·", caret) + "·" + product(below, "·", lambda size: f"^-{size}"),
        fraction(
            above,
            below,
            "",
            lambda size: f"^({size})",
            write=lambda species: f" {species}(aq) " if species not in GASES else species,
        ),
        fraction(above, below)
        .replace("[", "([")
        .replace("]", "]/c°)")
        .replace("p(", "(p(")
        .replace(")^", ")/p0)^")
        .replace("/c°)/p0)", "/c°)")
        if not GASES & (above | below).keys()
        else fraction(above, below),
    ):
        yield text, "right", []
    yield fraction(below, above), "not-yet", ["upside-down"]
    yield "Q = " + fraction(below, above, "*", letter="c"), "not-yet", ["upside-down"]
    yield fraction(times(above, 2), times(below, 2)), "right-but", ["multiple"]
    if any(size != 1 for size in (above | below).values()):
        flat = (dict.fromkeys(above, 1), dict.fromkeys(below, 1))
        if len({*above.values(), *below.values()}) > 1:
            yield fraction(*flat), "not-yet", ["powers"]
            counted = product(above, "·", lambda _: "", write=bare), product(below, "·", lambda _: "", write=bare)
            yield f"3{counted[0]}/({counted[1]})", "not-yet", ["number-as-factor"]
    yield f"2{product(above, '·', caret)}/({product(below, '·', caret)})", "not-yet", ["number-as-factor"]
    yield f"{product(above, '·', caret)}·[{solid}]/({product(below, '·', caret)})", "not-yet", ["solids-in"]
    yield f"{product(above, '·', caret)}·[e-]/({product(below, '·', caret)})", "not-yet", ["electrons-in"]
    yield f"{product(above, '·', caret)}·[K+]/({product(below, '·', caret)})", "not-yet", ["factor-extra"]
    yield product(above, "·", caret), "not-yet", ["factor-missing"]
    if len(below) > 1:
        yield f"{product(above, '·', caret)}/({product(below, ' + ', caret)})", "not-yet", ["plus-for-times"]
        yield f"{product(above, '·', caret)}/{product(below, '·', caret)}", "unread", ["below-unclear"]
    if GASES & ones.keys():
        yield (
            fraction(above, below).replace("p(H2)", "[H2]").replace("p(Cl2)", "[Cl2]").replace("p(O2)", "[O2]"),
            "right-but",
            ["gas-by-pressure"],
        )
    yield fraction(above, below).replace("[", "p(").replace("]", ")"), "right-but", ["dissolved-by-concentration"]
    yield fraction(above, below) + " = 5", "unread", ["expression"]
    yield (
        fraction(above, below).replace("^", "") if any(size != 1 for size in (above | below).values()) else "[",
        "unread",
        ["power-sign"],
    )


FORMS = {"Zn + Ag^+ -> Zn^2+ + Ag": "[Zn^2+]/[Ag^+]"}
EXPRESSION_KEYS: dict[str, Case] = {
    "expression of the own equation": {
        "kind": "expression", "right": "[Zn^2+]/[Ag^+]^2", "left_out": ["Zn(s)", "Ag(s)"], "power": "equation.way", "forms": FORMS,
        "slips": {"[Ag^+]^2/[Zn^2+]": ["quotient-turned-over"], "[Zn^2+]/[Ag^+]": ["quotient-without-powers"], "[Zn^2+]/(2[Ag^+])": ["coefficients-as-factors"]},
        "earlier": [["a", "anode"], ["b", "equation.factor"]], "given": {"anode": "left", "equation.factor": 1},
        "graph": [{"node": "equation.way", "tree": ["pick", "anode", {"left": "equation.factor", "right": ["neg", "equation.factor"]}]}],
    },
}  # fmt: skip
EXPRESSION_CASES: tuple[tuple[str, object, str, list[str]], ...] = (
    ("expression 0", "[Zn2+]^(1/2)/[Ag+]", "right-but", ["multiple"]),
    ("expression 0", "[Zn2+]^0.5/[Ag+]", "right-but", ["multiple"]),
    ("expression 0", "[Zn2+]·c0/[Ag+]^2", "right", []),
    ("expression 0", "[Zn2+]/c°/([Ag+]/c^0)^2", "right", []),
    ("expression 0", "[Zn2+]/c°/[Ag+]^2", "right-but", ["standards"]),
    ("expression 0", "[Zn2+]/[2Ag+]^2", "not-yet", ["number-as-factor"]),
    ("expression 0", "[Zn2+]+[Ag+]", "not-yet", ["plus-for-times", "sides"]),
    ("expression 0", "1/[Ag+]^2", "not-yet", ["factor-missing"]),
    ("expression 0", "[Ag+]/[Zn2+]", "not-yet", ["upside-down", "powers"]),
    ("expression 2", "[Mg2+]·pH2/[H3O+]^2", "right", []),
    ("expression 2", "[Mg2+]·p_H2/[H+]^2", "right", []),
    ("expression 2", "[Mg2+]·p_{H2}/[H+]^2", "right", []),
    ("expression 2", "([Mg2+]/c°)(p(H2)/p°)/([H+]/c°)^2", "right", []),
    ("expression 2", "[Mg2+] p(H2) / [H+]²", "right", []),
    ("expression 0", "[zinc]/[silver]^2", "unread", ["species"]),
    ("expression 0", "[S2-]", "unread", ["charge-unclear"]),
    ("expression 0", "Zn2+/Ag+", "unread", ["expression"]),
    ("expression 0", "0.10/0.5", "unread", ["expression"]),
    ("expression 0", "products over reactants", "unread", ["expression"]),
    ("expression 0", "[Zn2+]/[Ag+]^", "unread", ["expression"]),
    ("expression 0", "[Zn2+]/[Ag+]^2)", "unread", ["expression"]),
    ("expression 0", "([Zn2+]/[Ag+]^2", "unread", ["expression"]),
    ("expression 0", "[Zn2+]/[Ag+", "unread", ["expression"]),
    ("expression 0", "[Zn2+] § [Ag+]", "unread", ["expression-character"]),
    ("expression 0", "", "unread", ["empty"]),
    ("expression 0", {"repeat": ["(", 400]}, "unread", ["expression"]),
    ("expression 0", {"repeat": ["[", 400]}, "unread", ["expression"]),
    ("expression 0", {"repeat": ["[Zn2+]", 70]}, "unread", ["too-long"]),
    ("expression 0", "((([Zn2+]^99)^99)^99)", "unread", ["too-long"]),
    ("expression 0", "999999[Zn2+]", "unread", ["expression"]),
    ("expression 0", "(99[Zn2+])^99", "unread", ["too-long"]),
    ("expression 0", "[Zn2+]^9999", "unread", ["expression"]),
    ("expression 0", [0], "unread", ["empty"]),
)
EXPRESSION_FOLLOWING: tuple[tuple[str, object, dict[str, object], str, list[str], list[str], list[str]], ...] = (
    ("expression of the own equation", "[Ag+]^2/[Zn2+]", {}, "slip", [], ["quotient-turned-over"], []),
    ("expression of the own equation", "[Ag+]^2/[Zn2+]", {"a": "right"}, "follows", [], [], ["a"]),
    ("expression of the own equation", "[Ag+]^2/[Zn2+]", {"b": -1}, "follows", [], [], ["b"]),
    ("expression of the own equation", "[Zn2+]^3/[Ag+]^6", {"b": 3}, "right-but", ["multiple"], [], []),
    ("expression of the own equation", "[Ag+]^4/[Zn2+]^2", {"a": "right", "b": 2}, "follows", [], [], ["b"]),
    ("expression of the own equation", "[Ag+]/[Zn2+]", {"a": "right"}, "slip-on-own", [], ["quotient-without-powers"], ["a"]),
    ("expression of the own equation", "2[Ag+]/[Zn2+]", {"a": "right"}, "slip-on-own", [], ["coefficients-as-factors"], ["a"]),
    ("expression of the own equation", "[Zn2+]/[Ag+]", {}, "slip", [], ["quotient-without-powers"], []),
    ("expression of the own equation", "[Zn2+]/[Ag+]", {"b": "Zn + Ag^+ -> Zn^2+ + Ag"}, "follows", [], [], ["b"]),
    ("expression of the own equation", "[Zn2+]/2[Ag+]", {}, "slip", [], ["coefficients-as-factors"], []),
    ("expression of the own equation", "[Zn2+]/[Ag+]²", {"a": "right"}, "right", [], [], []),
    ("expression of the own equation", "[Zn2+]/[Ag+]^9", {"b": 900}, "not-yet", ["powers"], [], []),
)
