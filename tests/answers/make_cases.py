"""Writes cases.json: the hand-written cases and more than a thousand made ones. Run it after changing either.

The verdict of a made case is known from how it is made, in exact decimals; the judge is never asked.
"""

from __future__ import annotations

import json
import random
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import chosen_cases
import equation_cases
import following_cases
import list_cases
import notation_cases
import step_cases
import table_cases
import written_cases
from core_cases import CASES, KEYS, READS, ROUNDED, TREES

PLACE = Path(__file__).parent / "cases.json"
RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")

Case = dict[str, object]


def case(key: str, typed: object, verdict: str, **more: object) -> Case:
    return {"key": key, "typed": typed, "earlier": {}, "verdict": verdict, "why": [], "slips": [], "parts": []} | more


def told(key: str, typed: object, earlier: object, verdict: str, why: object, slips: object, parts: object = ()) -> Case:
    """A case written by hand."""
    return case(key, typed, verdict, why=why, slips=slips, earlier=earlier, parts=parts or [])


# ------------------------------------------------------------------ numbers


def potentials(dice: random.Random, number: int) -> tuple[dict[str, object], list[Case]]:
    """A cell potential E = cathode - anode to two decimals, with a slip (added) and an earlier part (the anode's potential)."""
    name = f"potential {number}"
    while True:
        cathode, anode = (Decimal(dice.randint(-2500, 1500)) / 1000 for _ in range(2))
        exact, added = cathode - anode, cathode + anode
        apart = (abs(exact - added), abs(exact + added), abs(added))
        if Decimal("0.2") < exact < 3 and min(apart) > Decimal("0.2"):
            break
    place, half = Decimal("0.01"), Decimal("0.005")
    value = exact.quantize(place, ROUND_HALF_UP)
    key = {
        "kind": "number", "node": "E", "unit": "V", "figures": None, "decimals": 2, "mark": dice.choice(".,"),
        "value": str(value), "exact": str(exact), "lo": str(value - half), "hi": str(value + half), "place": "0.01",
        "earlier": [["a", "anode"]], "given": {"cathode": float(cathode), "anode": float(anode)},
        "graph": [{"node": "E", "tree": ["-", "cathode", "anode"]}], "routes": [],
        "slips": [{"id": "added", "put": {"E": ["+", "cathode", "anode"]}}],
        "slip_ranges": {"added": [str(added - half), str(added + half)]},
    }  # fmt: skip
    own = anode + Decimal(dice.choice([-1, 1])) * Decimal(dice.randint(400, 900)) / 10000
    made = [*writings(name, value, dice), *remarks(name, value, exact), *misses(name, value, exact, added, dice)]
    earlier = {"a": float(own)}
    made.append(case(name, f"{cathode - own:.4f}", "follows", earlier=earlier, parts=["a"]))
    made.append(case(name, f"{cathode + own:.4f} V", "slip-on-own", slips=["added"], earlier=earlier, parts=["a"]))
    made.append(case(name, str(value), "right", earlier=earlier))
    if key["mark"] == ",":  # a point before three digits would be refused there
        made = [each | {"typed": str(each["typed"]).replace(".", ",")} for each in made]
    return key, made


def writings(name: str, value: Decimal, dice: random.Random) -> list[Case]:
    """The right number in several writings, all of them right."""
    milli = f"{value * 1000:f}".split(".")[0]
    power = dice.randint(1, 4)
    mantissa = value.scaleb(power)
    mantissa = f"{mantissa:f}"
    comma = str(value).replace(".", ",")
    raised = f"-{power}".translate(RAISED)
    forms = [
        str(value),
        comma,
        f"+{value}",
        f"{value} V",
        f"{comma}V",
        f"  {value}\u202fV ",
        f"{milli} mV",
        f"{value.scaleb(-3):f} kV",
    ]
    forms += [f"{mantissa}e-{power}", f"{mantissa}×10^-{power}", f"{mantissa} · 10{raised} V", f"{mantissa}*10**-{power}"]
    return [case(name, form, "right") for form in dice.sample(forms, 7)]


def remarks(name: str, value: Decimal, exact: Decimal) -> list[Case]:
    """Accepted, with something to mend."""
    made = [
        case(name, f"{value} A", "not-yet", why=["unit"]),
        case(name, f"{value} mV", "not-yet", why=["unit"]),
        case(name, f"{value} v", "right-but", why=["unit-case"]),
        case(name, f"{exact:f}" if exact.as_tuple().exponent < -2 else f"{value}0", "right"),
    ]
    if str(value).endswith("0"):
        made.append(case(name, str(value)[:-1], "right-but", why=["decimals"]))
    drifted = value - Decimal("0.0049") if exact > value else value + Decimal("0.0049")
    if abs(drifted - exact) > Decimal("0.005"):
        made.append(case(name, f"{drifted:f}", "right-but", why=["rounding"]))
    return made


def misses(name: str, value: Decimal, exact: Decimal, added: Decimal, dice: random.Random) -> list[Case]:
    """Not accepted: sign, prefix, the slip, and a number that nothing explains."""
    odd = value + Decimal(dice.choice([-1, 1])) * Decimal(dice.randint(2, 9)) / 100
    mine = f"{odd:.2f}"
    made = [
        case(name, f"-{value}", "not-yet", why=["sign"]),
        case(name, f"−{value} V", "not-yet", why=["sign"]),
        case(name, f"{value * 1000:f}".split(".")[0], "not-yet", why=["prefix"]),
        case(name, f"{added:f}", "slip", slips=["added"]),
        case(name, mine, "not-yet"),
    ]
    cut = exact.quantize(Decimal("0.1"), ROUND_HALF_UP)
    if abs(cut - value) > Decimal("0.005"):
        made.append(case(name, str(cut), "right-but", why=["decimals"]))
    return made


def masses(dice: random.Random, number: int) -> tuple[dict[str, object], list[Case]]:
    """A mass in grams to three figures; any prefix is right, fewer figures are told."""
    name = f"mass {number}"
    exact = Decimal(dice.randint(1000, 9989)) / Decimal(10) ** dice.randint(2, 5)
    place = Decimal((0, (1,), exact.adjusted() - 2))
    value = exact.quantize(place, ROUND_HALF_UP)
    key = {
        "kind": "number", "node": "m", "unit": "g",
        "figures": 3, "decimals": None, "value": str(value), "exact": str(exact), "place": str(place),
        "lo": str(value - place / 2), "hi": str(value + place / 2), "graph": [], "given": {}, "slips": [], "slip_ranges": {},
    }  # fmt: skip
    scientific = f"{value:e}".lower()
    made = [
        case(name, form, "right")
        for form in (str(value), f"{value} g", f"{value.scaleb(3):f} mg", f"{value.scaleb(-3):f} kg", scientific)
    ]
    made.append(case(name, f"{value.scaleb(2):f}", "not-yet"))
    made.append(case(name, f"-{value}", "not-yet", why=["sign"]))
    made.append(case(name, f"{value + 3 * place:f}", "not-yet"))
    short = exact.quantize(Decimal((0, (1,), exact.adjusted() - 1)), ROUND_HALF_UP)
    made.append(case(name, f"{short:e}", "right-but", why=["figures"]))
    return key, made


# ------------------------------------------------------------------ orders, choices


def orders(dice: random.Random, number: int) -> tuple[dict[str, object], list[Case]]:
    name = f"order {number}"
    right = list(range(dice.randint(3, 6)))
    dice.shuffle(right)
    made = [case(name, right, "right"), case(name, right[::-1], "not-yet", why=["other-way-round"])]
    at = dice.randrange(len(right) - 1)
    swapped = [*right[:at], right[at + 1], right[at], *right[at + 2 :]]
    if swapped != right[::-1]:
        made.append(case(name, swapped, "not-yet", why=["two-neighbours"]))
    rotated = right[1:] + right[:1]
    made.append(case(name, rotated, "slip", slips=["rotated"]))
    made.append(case(name, right[:-1], "unread", why=["empty"]))
    return {"kind": "order", "right": right, "slips": {",".join(map(str, rotated)): ["rotated"]}}, made


def choices(dice: random.Random, number: int) -> tuple[dict[str, object], list[Case]]:
    name = f"choice {number}"
    count = dice.randint(2, 5)
    right, known = dice.sample(range(count), 2)
    values = [f"metal {index}" for index in range(count)]
    key = {
        "kind": "choice", "node": "anode", "values": values, "right": [right], "slips": {str(known): ["other-one"]},
        "earlier": [["a", "anode"]], "given": {}, "graph": [],
    }  # fmt: skip
    made = []
    for index in range(count):
        verdict = "right" if index == right else "slip" if index == known else "not-yet"
        made.append(case(name, [index], verdict, slips=["other-one"] if index == known else []))
        if index != right:
            made.append(case(name, [index], "follows", earlier={"a": values[index]}, parts=["a"]))
    return key, made


# ------------------------------------------------------------------ equations

# coefficient and species of either side, as balanced in any textbook; the tests of the chemistry room check the balance
EQUATIONS = (
    ("1 Zn, 1 Cu^2+", "1 Zn^2+, 1 Cu"),
    ("1 Zn, 2 Ag^+", "1 Zn^2+, 2 Ag"),
    ("2 Al, 3 Cu^2+", "2 Al^3+, 3 Cu"),
    ("2 Al, 3 Pb^2+", "2 Al^3+, 3 Pb"),
    ("1 Mg, 2 H^+", "1 Mg^2+, 1 H2"),
    ("1 Cu, 2 Fe^3+", "1 Cu^2+, 2 Fe^2+"),
    ("1 Cl2, 2 Br^-", "2 Cl^-, 1 Br2"),
    ("5 Fe^2+, 1 MnO4^-, 8 H^+", "5 Fe^3+, 1 Mn^2+, 4 H2O"),
    ("6 Fe^2+, 1 Cr2O7^2-, 14 H^+", "6 Fe^3+, 2 Cr^3+, 7 H2O"),
    ("2 H2, 1 O2", "2 H2O"),
    ("4 Fe^2+, 1 O2, 4 H^+", "4 Fe^3+, 2 H2O"),
    ("3 Cu, 2 NO3^-, 8 H^+", "3 Cu^2+, 2 NO, 4 H2O"),
    ("1 I2, 2 S2O3^2-", "2 I^-, 1 S4O6^2-"),
    ("1 Pb, 1 PbO2, 4 H^+, 2 SO4^2-", "2 PbSO4, 2 H2O"),
    ("1 Zn, 2 [Ag(NH3)2]^+", "1 Zn^2+, 2 Ag, 4 NH3"),
)
# what cancels when put on both sides, foreign to all of the above
SPECTATORS = ("K^+", "Na^+", "ClO4^-")

Side = list[tuple[int, str]]


def side_of(text: str) -> Side:
    return [(int(term.split()[0]), term.split()[1]) for term in text.split(", ")]


def written(left: Side, right: Side, dice: random.Random | None = None) -> str:
    """The equation as text; with dice, in a writing of its own."""
    arrow = dice.choice(["->", "→", "=", "⇌", "<=>"]) if dice else "->"
    gap = dice.choice(["", " "]) if dice else ""
    raise_it = bool(dice) and dice.random() < 0.3
    sides = [
        " + ".join((f"{n}{gap}" if n > 1 else "") + (raised(name) if raise_it else name) for n, name in side)
        for side in (left, right)
    ]
    return f"{sides[0]} {arrow} {sides[1]}"


def raised(name: str) -> str:
    formula, caret, charge = name.partition("^")
    lowered = formula.translate(str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉"))
    return lowered + charge.translate(str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")) if caret else lowered


def equations(dice: random.Random, number: int) -> tuple[dict[str, object], list[Case]]:
    name = f"equation {number}"
    left, right = map(side_of, EQUATIONS[number])
    key = {"kind": "equation", "right": written(left, right), "states": False, "slips": {}}

    def shuffled(side: Side, times: int = 1, extra: Side | None = None) -> Side:
        terms = [(n * times, species) for n, species in side] + (extra or [])
        return dice.sample(terms, len(terms))

    spectators = [(dice.randint(1, 4), dice.choice(SPECTATORS))]
    electrons = [(dice.randint(2, 6), "e-")]
    made = [case(name, written(shuffled(left), shuffled(right), dice), "right") for _ in range(4)]
    multiples = [written(shuffled(left, times), shuffled(right, times), dice) for times in (2, 3)]
    made += [case(name, multiple, "right-but", why=["reduce"]) for multiple in multiples]
    made.append(case(name, written(shuffled(right), shuffled(left), dice), "not-yet", why=["reversed"]))
    both = written(shuffled(left, 1, spectators), shuffled(right, 1, spectators), dice)
    made.append(case(name, both, "right-but", why=["cancel"]))
    both = written(shuffled(left, 1, electrons), shuffled(right, 1, electrons), dice)
    made.append(case(name, both, "not-yet", why=["electrons-left"]))
    # One species counted once too often: its atoms no longer fit, and its charge does not where it has one.
    (count, species), *rest = left
    more = written([(count + 1, species), *rest], right, dice)
    made.append(case(name, more, "not-yet", why=["atoms", "charge"] if "^" in species else ["atoms"]))
    made.append(case(name, written(left, right).replace(" -> ", " "), "unread", why=["arrow"]))
    return key, made


Followed = list[tuple[str, str, dict[str, object], str, list[str], float | None]]


def followed_equation(number: int) -> tuple[str, dict[str, object], Followed]:
    """An equation that stands the other way round for who took the other electrode as anode, and its multiples."""
    name = f"followed equation {number}"
    left, right = map(side_of, EQUATIONS[number])
    key = {
        "kind": "equation", "node": "equation.factor", "right": written(left, right), "states": False,
        "slips": {written(right, left): ["the-other-way-round"]}, "earlier": [["a", "anode"]], "given": {"anode": "left"},
        "graph": [], "led": [[{"anode": "right"}, written(right, left)]],
    }  # fmt: skip
    made: Followed = []
    for times in (1, 2, 3):
        forward, back = (
            written(*([(n * times, species) for n, species in side] for side in sides))
            for sides in ((left, right), (right, left))
        )
        fits = "right" if times == 1 else "right-but"
        made += [(name, forward, {}, fits, [], times), (name, forward, {"a": "left"}, fits, [], times)]
        made += [(name, forward, {"a": "right"}, fits, [], -times), (name, back, {"a": "right"}, "follows", [], times)]
        made.append((name, back, {}, "slip", ["the-other-way-round"], -times))
    return name, key, made


# ------------------------------------------------------------------ all of them


PAIRS: dict[str, str] = {}
for each_file in (following_cases, chosen_cases, equation_cases, list_cases, notation_cases, step_cases):
    PAIRS |= each_file.PAIRS


def all_cases() -> dict[str, object]:
    keys: dict[str, object] = dict(KEYS)
    keys |= following_cases.KEYS | chosen_cases.KEYS | list_cases.KEYS
    chosen = [each[:-1] for each in (*chosen_cases.CASES, *list_cases.CASES)]
    cases = [told(*each) for each in (*CASES, *following_cases.FOLLOWING, *chosen, *step_cases.CASES)]
    for maker, times in ((potentials, 40), (masses, 30), (orders, 20), (choices, 20), (equations, len(EQUATIONS))):
        dice = random.Random(f"saltbridge {maker.__name__}")  # noqa: S311 - made cases, no secrets
        for number in range(times):
            key, made = maker(dice, number)
            keys[str(made[0]["key"])] = key
            cases += made
    keys |= equation_cases.KEYS | written_cases.KEYS | notation_cases.KEYS | table_cases.KEYS | step_cases.KEYS
    for maker in notation_cases.MAKERS:
        for name, key, made in maker(random.Random(f"saltbridge {maker.__name__}")):  # noqa: S311 - made cases, no secrets
            keys[name] = key
            cases += [case(*each[:3], why=each[3]) for each in made]
    cases += [case(*each[:3], why=each[3]) for each in notation_cases.BY_HAND]
    cases += [told(*each) for each in notation_cases.FOLLOWING]
    chosen_owns = [
        (key, typed, earlier, verdict, slips, own)
        for key, typed, earlier, verdict, _, slips, _, own in (*chosen_cases.CASES, *list_cases.CASES)
    ]
    followed = []
    for number in range(len(EQUATIONS)):
        name, key, made_here = followed_equation(number)
        keys[name] = key
        followed += made_here
    return {
        "keys": keys,
        "cases": cases,
        "reads": [{"typed": typed, "mark": mark, **wanted} for typed, mark, wanted in READS],
        "owns": [
            {"key": key, "typed": typed, "earlier": earlier, "verdict": verdict, "slips": slips, "own": own}
            for key, typed, earlier, verdict, slips, own in (*equation_cases.CASES, *followed, *chosen_owns)
        ],
        "marked": [
            {"key": key, "typed": typed, "earlier": earlier, "verdict": verdict, "slips": slips, "own": own, "marks": marks}
            for key, typed, earlier, verdict, slips, own, marks in written_cases.CASES
        ],
        "tables": [
            {
                "key": key,
                "typed": typed,
                "earlier": earlier,
                "verdict": verdict,
                "why": why,
                "slips": slips,
                "own": own,
                "cells": cells,
            }
            for key, typed, earlier, verdict, why, slips, own, cells in table_cases.CASES
        ],
        "pairs": PAIRS,
        "trees": [{"tree": tree, "given": given, "value": value} for tree, given, value in TREES],
        "rounded": [{"value": value, "rounding": rounding, "rounded": rounded} for value, rounding, rounded in ROUNDED],
    }


def as_text() -> str:
    """One case a line, so that a change shows as its line."""
    groups = all_cases()
    lines = []
    for name, group in groups.items():
        items = group.items() if isinstance(group, dict) else [(None, each) for each in group]
        body = ",\n".join((json.dumps(key) + ": " if key else "") + json.dumps(item, ensure_ascii=True) for key, item in items)
        opening, closing = "{}" if isinstance(group, dict) else "[]"
        lines.append(f"{json.dumps(name)}: {opening}\n{body}\n{closing}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    PLACE.write_text(as_text(), encoding="utf-8")
