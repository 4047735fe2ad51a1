"""Every rule, its wrong ways and thrown arithmetic give the same in Python, where they are compiled, and in the page, which walks them."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from saltbridge.algebra.programs import bare
from saltbridge.answers.run import evaluate, run
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.macros import MacroError
from saltbridge.catalogue.rules import RuleEntry
from saltbridge.home import shipped

KEYS = ("a.oxidised", "b.reduced", "c.oxidised", "d.reduced", "e.oxidised", "f.reduced")
A_FORM = 220  # cases of each rule and of each of its wrong ways
ARITHMETIC = 8000
ONE = ("neg", "ln", "lg", "exp", "exp10", "sqrt", "abs")
SEVERAL = ("+", "-", "*", "/", "^", "min", "max", "median", "lcm")
SCRIPTS = ("units.js", "numbers.js", "trees.js")


@pytest.fixture(scope="module")
def page(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A page opened from disk with the interpreter and what it needs."""
    file = tmp_path_factory.mktemp("trees") / "scripts.html"
    scripts = "".join(f'<script src="{(shipped("site") / "scripts" / name).as_uri()}"></script>' for name in SCRIPTS)
    file.write_text(
        f'<!doctype html><html lang="en"><meta charset="utf-8"><title>Scripts</title>{scripts}</html>', encoding="utf-8"
    )
    opened = browser.new_page()
    opened.goto(file.as_uri())
    yield opened
    opened.close()


def forms() -> Iterator[tuple[str, RuleEntry, str]]:
    """Every macro with no way, and with each of its wrong ways."""
    for name, entry in catalogue().rules.items():
        if entry.macro != name:
            continue
        for way in ("", *entry.ways):
            yield f"{name}, {way}" if way else name, entry, way


def uses(entry: RuleEntry, way: str) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """The inputs and keys, few and many, that a rule's macro fits."""
    found = []
    for count in range(9):
        for keys in range(7):
            inputs = tuple(f"x{place}" for place in range(1, count + 1))
            try:
                tree = entry.way(way, inputs, KEYS[:keys]) if way else entry.program(inputs, KEYS[:keys])
            except MacroError:
                continue
            if tree is not None:
                found.append((inputs, KEYS[:keys]))
    return found


def words_at(tree: Any) -> dict[str, set[str]]:
    """The words that a name is asked for: the keys that it picks among, and what it is compared with."""
    found: dict[str, set[str]] = {}

    def look(part: Any) -> None:
        if isinstance(part, dict):
            for each in part.values():
                look(each)
        if not isinstance(part, list) or not part or part[0] == "text":
            return
        if part[0] == "pick" and isinstance(part[1], str):
            found.setdefault(part[1], set()).update(part[2])
        if part[0] == "==" and isinstance(part[1], str) and isinstance(part[2], list) and part[2][0] == "text":
            found.setdefault(part[1], set()).update((part[2][1], "another word"))
        for each in part[1:]:
            look(each)

    look(tree)
    return found


def thrown_value(dice: random.Random, words: set[str]) -> Any:
    if dice.random() < 0.01:
        return dice.choice([None, "a word", 0.0])
    if words:
        return dice.choice(sorted(words))
    size = dice.choice(
        [0.0, 1.0, -1.0, 2.0, 3.0, round(dice.uniform(-3, 3), 1), round(dice.uniform(-3, 3), 2), dice.uniform(0, 1)]
    )
    return size + dice.choice([0.0, 0.0, 0.0, 0.0, 1e-11, -1e-11])


def rule_cases() -> dict[str, list[list[Any]]]:
    """Trees and values of every form of every rule."""
    dice = random.Random("rules")  # noqa: S311 - test values, not secrets
    made = {}
    for name, entry, way in forms():
        fitting, made[name] = uses(entry, way), []
        for _ in range(A_FORM):
            inputs, keys = dice.choice(fitting)
            tree = bare(entry.way(way, inputs, keys) if way else entry.program(inputs, keys))
            asked = words_at(tree)
            made[name].append([tree, {each: thrown_value(dice, asked.get(each, set())) for each in inputs}])
    return made


def thrown_tree(dice: random.Random, depth: int) -> Any:
    if depth == 0 or dice.random() < 0.2:
        return dice.choice(["x1", "x2", "x3", 2, 0.5, round(dice.uniform(-4, 4), 2)])
    match dice.randrange(8):
        case 0 | 1 | 2 | 3:
            head = dice.choice(SEVERAL)
            count = 2 if head in "+-*/^" else dice.randint(1, 4)
            return [head, *(thrown_tree(dice, depth - 1) for _ in range(count))]
        case 4:
            return [dice.choice(ONE), thrown_tree(dice, depth - 1)]
        case 5:
            return [dice.choice(("floor", "ceil")), ["*", dice.choice(["x1", "x2"]), 0.25]]
        case 6:
            condition = [dice.choice(["<", ">"]), dice.choice(["x1", "x2"]), dice.choice(["x3", 0.75])]
            return ["if", condition, thrown_tree(dice, depth - 1), thrown_tree(dice, depth - 1)]
        case _:
            return ["at", "x1", [thrown_tree(dice, depth - 1) for _ in range(3)]]


def agrees(mine: object, theirs: object) -> bool:
    if isinstance(mine, float) and isinstance(theirs, int | float):
        return math.isclose(mine, theirs, rel_tol=1e-9, abs_tol=1e-12)
    return mine == theirs


def unlike(page: Page, cases: list[list[Any]]) -> list[Any]:
    """The cases that the two sides answer differently."""
    asked = "(cases) => cases.map(([tree, given]) => saltbridgeTrees.evaluate(tree, new Map(Object.entries(given))))"
    found = page.evaluate(asked, cases)
    mine = [evaluate(tree, given) for tree, given in cases]
    return [(case, a, b) for case, a, b in zip(cases, mine, found, strict=True) if not agrees(a, b)]


def test_every_rule_and_wrong_way_has_a_form_for_the_page_that_gives_the_same(page: Page):
    made = rule_cases()
    assert unlike(page, [case for cases in made.values() for case in cases]) == []
    for name, cases in made.items():
        told = [value for tree, given in cases if (value := evaluate(tree, given)) is not None]
        assert name == "untold" or len(told) >= 5, name


def test_thrown_arithmetic_gives_the_same_on_both_sides(page: Page):
    dice = random.Random("arithmetic")  # noqa: S311 - test values, not secrets
    cases = [
        [thrown_tree(dice, 4), {each: round(dice.uniform(-3, 3), 2) for each in ("x1", "x2", "x3")}] for _ in range(ARITHMETIC)
    ]
    assert unlike(page, cases) == []
    assert sum(evaluate(tree, given) is not None for tree, given in cases) > ARITHMETIC / 4


def test_there_are_twenty_thousand_cases_at_least():
    assert sum(map(len, rule_cases().values())) + ARITHMETIC >= 20_000


def test_a_graph_stops_at_its_target_on_both_sides(page: Page):
    graph = [{"node": "b", "tree": ["+", "a", 1]}, {"node": "c", "tree": ["*", "b", 2]}, {"node": "d", "tree": ["neg", "c"]}]
    asked = "([graph]) => [...saltbridgeTrees.run(graph, {a: 1.24}, {}, {figures: 2}, 'c')]"
    assert dict(page.evaluate(asked, [graph])) == run(graph, {"a": 1.24}, {}, {"figures": 2}, "c")
    assert run(graph, {"a": 1.24}, {}, {"figures": 2}, "c") == {"a": 1.24, "b": 2.2, "c": 4.4}
