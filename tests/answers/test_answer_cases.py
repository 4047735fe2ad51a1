"""One file of cases runs through Python and through the page's scripts in a real browser; both say what the file says."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from make_cases import as_text
from playwright.sync_api import Browser, Page

from saltbridge.answers import Unread, judge, merge, read_number, run, unit_table
from saltbridge.home import shipped
from saltbridge.render.pages import JUDGES

HERE = Path(__file__).parent
GROUPS: dict[str, Any] = json.loads((HERE / "cases.json").read_text(encoding="utf-8"))
GROUP_NAMES = ("keys", "cases", "owns", "reads", "trees", "rounded", "pairs", "marked", "tables")
KEYS, CASES, OWNS, READS, TREES, ROUNDED, PAIRS, MARKED, TABLES = (GROUPS[name] for name in GROUP_NAMES)
UNITS = unit_table()
NAMES = ["saltbridge" + name.removesuffix(".js").title().replace("_", "") for name in JUDGES]
JUDGED = ("verdict", "why", "slips", "parts")
HOSTILE = (
    "emf", "which is the anode", "order", "cell reaction", "three faults on the bench", "electrode that grows, and why",
    "metals that protect iron", "steps at the bench",
)  # fmt: skip


def typed_of(case: dict[str, Any]) -> Any:
    typed = case["typed"]
    return typed["repeat"][0] * typed["repeat"][1] if isinstance(typed, dict) else typed


def unlike(results: list[dict[str, Any]]) -> list[str]:
    """The cases whose result is not the one in the file."""
    pairs = zip(CASES, results, strict=True)
    return [
        f"{case['key']}: {str(case['typed'])[:60]!r} {case['earlier']}: expected {[case[name] for name in JUDGED]}, found {result}"
        for case, result in pairs
        if [case[name] for name in JUDGED] != [result[name] for name in JUDGED]
    ]


@pytest.fixture(scope="module")
def page(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A page opened from disk with the scripts, in their order, and nothing else."""
    file = tmp_path_factory.mktemp("answers") / "scripts.html"
    scripts = "".join(f'<script src="{(shipped("site") / "scripts" / name).as_uri()}"></script>' for name in JUDGES)
    file.write_text(
        f'<!doctype html><html lang="en"><meta charset="utf-8"><title>Scripts</title>{scripts}</html>', encoding="utf-8"
    )
    opened = browser.new_page()
    problems: list[str] = []
    opened.on("pageerror", lambda error: problems.append(str(error)))
    opened.goto(file.as_uri())
    yield opened
    opened.close()
    assert problems == []


@pytest.fixture(scope="module")
def from_page(page: Page) -> list[dict[str, Any]]:
    """The verdicts of the page's script."""
    asked = [[case["key"], typed_of(case), case["earlier"]] for case in CASES]
    return page.evaluate(
        "([keys, asked, units]) => asked.map(([key, typed, own]) => saltbridgeAnswers.judge(keys[key], typed, own, units))",
        [KEYS, asked, UNITS],
    )


@pytest.fixture(scope="module")
def from_python() -> list[dict[str, Any]]:
    """The verdicts of Python."""
    return [judge(KEYS[case["key"]], typed_of(case), case["earlier"]).as_json() for case in CASES]


def test_there_are_at_least_two_thousand_cases_of_every_kind_and_verdict():
    assert len(CASES) >= 2000
    assert {KEYS[case["key"]]["kind"] for case in CASES} == {
        "number",
        "choice",
        "order",
        "equation",
        "cases",
        "reasoned",
        "several",
        "sequence",
        "species",
        "diagram",
        "expression",
    }
    verdicts = {case["verdict"] for case in CASES}
    assert verdicts == {"right", "right-but", "follows", "slip", "slip-on-own", "not-yet", "unread"}


def test_the_file_is_what_its_maker_writes():
    assert (HERE / "cases.json").read_text(encoding="utf-8") == as_text()


def test_python_judges_every_case_as_told(from_python: list[dict[str, Any]]):
    assert unlike(from_python) == []


def test_the_script_judges_every_case_as_told(from_page: list[dict[str, Any]]):
    assert unlike(from_page) == []


def test_both_sides_agree_in_every_field(from_page: list[dict[str, Any]], from_python: list[dict[str, Any]]):
    differing = [(case, mine, theirs) for case, mine, theirs in zip(CASES, from_python, from_page, strict=True) if mine != theirs]
    assert differing == []


WANTED_PAIRS = {
    "number -> number", "number -> choice", "number -> order", "number -> equation", "choice -> number", "equation -> equation", "choice -> choice",
    "choice -> equation", "equation -> number", "order -> order", "choice -> reasoned", "number -> several", "several -> several",
    "choice -> diagram", "choice -> species", "equation -> expression",
}  # fmt: skip


def test_each_pair_of_kinds_has_cases_that_follow():
    """What follows from what, over both files of cases, each of which runs in Python and in the page."""
    followed = {PAIRS.get(each["key"]) for each in (*CASES, *OWNS) if each["verdict"] == "follows"}
    assert followed - {None} == WANTED_PAIRS


OWN = ("verdict", "slips", "own")


def test_python_follows_equations_and_gives_their_own_value_as_told():
    """Choice to equation, number to choice to equation, equation to number; the value is what later parts follow from."""
    found = [judge(KEYS[case["key"]], case["typed"], case["earlier"]).as_json() for case in OWNS]
    assert [(case, each) for case, each in zip(OWNS, found, strict=True) if any(case[name] != each[name] for name in OWN)] == []


def test_the_script_follows_equations_and_gives_their_own_value_as_told(page: Page):
    asked = [[case["key"], case["typed"], case["earlier"]] for case in OWNS]
    found = page.evaluate(
        "([keys, asked, units]) => asked.map(([key, typed, own]) => saltbridgeAnswers.judge(keys[key], typed, own, units))",
        [KEYS, asked, UNITS],
    )
    assert [(case, each) for case, each in zip(OWNS, found, strict=True) if any(case[name] != each[name] for name in OWN)] == []
    assert found == [judge(KEYS[case["key"]], case["typed"], case["earlier"]).as_json() for case in OWNS]


BY_A_STUDENT = ("verdict", "slips", "own", "marks")


def test_both_sides_add_up_what_a_student_has_ticked(page: Page):
    asked = [[case["key"], case["typed"]] for case in MARKED]
    found = page.evaluate(
        "([keys, asked]) => asked.map(([key, typed]) => saltbridgeAnswers.judge(keys[key], typed))", [KEYS, asked]
    )
    assert [
        (case, each) for case, each in zip(MARKED, found, strict=True) if any(case[name] != each[name] for name in BY_A_STUDENT)
    ] == []
    assert found == [judge(KEYS[case["key"]], case["typed"]).as_json() for case in MARKED]


def told(result: dict[str, Any]) -> dict[str, Any]:
    """A verdict as the cases of words and tables tell it."""
    cells = [[each["verdict"], each["why"], each["slips"]] for each in result["cells"]] if "cells" in result else None
    return {name: result[name] for name in ("verdict", "why", "slips", "own")} | {"cells": cells}


def test_both_sides_judge_words_and_tables_as_told(page: Page):
    asked = [[case["key"], case["typed"], case["earlier"]] for case in TABLES]
    found = page.evaluate(
        "([keys, asked, units]) => asked.map(([key, typed, own]) => saltbridgeAnswers.judge(keys[key], typed, own, units))",
        [KEYS, asked, UNITS],
    )
    wanted = [{name: case[name] for name in ("verdict", "why", "slips", "own", "cells")} for case in TABLES]
    assert [(case, each) for case, each, told_of in zip(TABLES, found, wanted, strict=True) if told(each) != told_of] == []
    assert found == [judge(KEYS[case["key"]], case["typed"], case["earlier"]).as_json() for case in TABLES]


def test_python_reads_numbers_as_told():
    for wanted in READS:
        number = read_number(wanted["typed"], wanted["mark"])
        if "why" in wanted:
            assert number == Unread(wanted["why"], tuple(wanted["readings"])), wanted
        else:
            assert not isinstance(number, Unread), wanted
            assert (number.value, number.unit) == (wanted["value"], wanted["unit"]), wanted


def test_the_script_reads_numbers_as_python_does(page: Page):
    found = page.evaluate("(reads) => reads.map(({typed, mark}) => saltbridgeAnswers.readNumber(typed, mark))", READS)
    for wanted, result in zip(READS, found, strict=True):
        number = read_number(wanted["typed"], wanted["mark"])
        if isinstance(number, Unread):
            assert (result["why"], tuple(result["readings"])) == (number.why, number.readings), wanted
        else:
            figures = (number.figures, number.places)
            assert (result["value"], result["unit"]) == (number.value, number.unit), wanted
            assert tuple(each and tuple(each) for each in (result["figures"], result["places"])) == figures, wanted


def agrees(mine: object, theirs: object) -> bool:
    """The same text or nothing; numbers to one part in 10^12, since functions may differ in the last bit."""
    if isinstance(mine, float) and isinstance(theirs, int | float):
        return math.isclose(mine, theirs, rel_tol=1e-12)
    return mine == theirs


def test_trees_have_their_values_on_both_sides(page: Page):
    asked = [[[{"node": "x", "tree": each["tree"]}], each["given"]] for each in TREES]
    found = page.evaluate("(asked) => asked.map(([graph, given]) => saltbridgeAnswers.run(graph, given).get('x') ?? null)", asked)
    for wanted, (graph, given), theirs in zip(TREES, asked, found, strict=True):
        mine = run(graph, given)["x"]
        assert agrees(mine, wanted["value"]), wanted
        assert agrees(mine, theirs), wanted


def test_values_written_down_on_the_way_are_rounded_alike_on_both_sides(page: Page):
    graph = [{"node": "x", "tree": "a"}, {"node": "end", "tree": "x"}]
    asked = [[{"a": each["value"]}, each["rounding"]] for each in ROUNDED]
    found = page.evaluate(
        "([graph, asked]) => asked.map(([given, rounding]) => saltbridgeAnswers.run(graph, given, {}, rounding).get('end'))",
        [graph, asked],
    )
    for wanted, (given, rounding), theirs in zip(ROUNDED, asked, found, strict=True):
        mine = run(graph, given, {}, rounding)["end"]
        assert mine == wanted["rounded"] == theirs, wanted


def test_the_last_value_is_not_rounded_on_the_way():
    assert run([{"node": "x", "tree": "a"}], {"a": 1.2345}, {}, {"decimals": 1})["x"] == 1.2345


def test_a_run_ends_at_its_target_and_leaves_it_unrounded(page: Page):
    graph = [{"node": name, "tree": tree} for name, tree in (("x", "a"), ("y", ["*", 2, "x"]), ("z", ["neg", "y"]))]
    mine = run(graph, {"a": 1.26}, {}, {"decimals": 1}, "y")
    theirs = page.evaluate(
        "(graph) => Object.fromEntries(saltbridgeAnswers.run(graph, {a: 1.26}, {}, {decimals: 1}, 'y'))", graph
    )
    assert mine == {"a": 1.26, "x": 1.3, "y": 2.6} == theirs


def test_a_tree_put_at_a_node_may_name_the_right_value_of_that_node(page: Page):
    graph = [{"node": "x", "tree": ["+", "a", 1]}, {"node": "y", "tree": ["*", 2, "x"]}]
    put = {"x": ["neg", "x"], "a": ["*", 10, "a"]}
    assert run(graph, {"a": 2}, put)["y"] == -42.0
    assert page.evaluate("([graph, put]) => saltbridgeAnswers.run(graph, {a: 2}, put).get('y')", [graph, put]) == -42


def test_shares_of_shape_and_variant_merge_alike_on_both_sides(page: Page):
    shares = [
        [{"kind": "number", "slips": [{"id": "a"}]}, {"value": "1", "slips": {"a": ["1", "2"]}}],
        [{"kind": "choice"}, {"right": [0], "slips": {"1": ["a"]}}, [{"node": "x", "tree": "a"}], {"a": 1}],
        [{"kind": "choice", "earlier": [["a", "x"]]}, {"right": [0]}, [{"node": "x", "tree": "a"}], {"a": 1}],
    ]
    found = page.evaluate("(shares) => shares.map((each) => saltbridgeAnswers.merge(...each))", shares)
    assert found == [merge(*pair) for pair in shares]
    assert [set(each) & {"graph", "given"} for each in found] == [set(), set(), {"graph", "given"}]
    assert found[0] == {"kind": "number", "value": "1", "slips": [{"id": "a"}], "slip_ranges": {"a": ["1", "2"]}}


@pytest.mark.parametrize(
    "typed", [None, 5, 1.1, True, {}, [], [[]], "\x00", "\ud800", "\u202e", "𝟏.𝟏", "1" + "\u0660", "^" * 79, "(" * 79, "10" * 40]
)
def test_hostile_input_is_unread_on_both_sides_for_every_kind(page: Page, typed: object):
    for name in HOSTILE:
        mine = judge(KEYS[name], typed, {}).as_json()
        assert mine["verdict"] == ("not-yet" if typed == "10" * 40 and name == "emf" else "unread"), name
        if typed != "\ud800":  # half a character can't be handed to the browser
            theirs = page.evaluate(
                "([key, typed, units]) => saltbridgeAnswers.judge(key, typed, {}, units)", [KEYS[name], typed, UNITS]
            )
            assert theirs["verdict"] == mine["verdict"], name
            assert theirs["why"] == mine["why"], name


def test_the_scripts_leave_one_frozen_name_each_and_touches_no_page(page: Page):
    names = page.evaluate("Object.keys(globalThis).filter((name) => name.startsWith('saltbridge')).sort()")
    assert names == sorted(NAMES)
    assert page.evaluate("(names) => names.every((name) => Object.isFrozen(globalThis[name]))", names) is True
    forbidden = re.compile(r"\b(?:document|window|navigator)\.|localStorage|\beval\(|toFixed|toLocaleString|\bfetch\(")
    for name in JUDGES:
        assert not forbidden.search((shipped("site") / "scripts" / name).read_text(encoding="utf-8")), name
