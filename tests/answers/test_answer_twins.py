"""Texts thrown together at random are read and judged alike by Python and by the page's scripts, and never raise."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from saltbridge.answers import Unread, judge, read_number, unit_table
from saltbridge.home import shipped
from saltbridge.render.pages import JUDGES

KEYS: dict[str, Any] = json.loads((Path(__file__).parent / "cases.json").read_text(encoding="utf-8"))["keys"]
NUMBERS = [
    *"0123456789012345.,+-−–eE×x*·^/()  ",
    "10",
    "10^",
    "⁻",
    "³",
    "1.10",
    "1,234",
    " V",
    " mV",
    "kJ",
    "mol^-1",
    "/",
    "\u202f",
    "**",
    "°C",
    "%",
]
TERMS = [
    "Zn",
    "Zn^2+",
    "Zn2+",
    "Ag^+",
    "Ag+",
    "2",
    "3",
    " + ",
    " -> ",
    "→",
    "=",
    "e-",
    "(aq)",
    "(s)",
    "(",
    ")",
    "[",
    "]",
    "^",
    "-",
    "SO4",
    "SO42-",
]
TERMS += ["H2O", "·5H2O", ".", "²⁺", "₄", "Fe", "Xx", " ", "+", "1/2", "0", "K^+", "Cu2+", "MnO4-", "12", "–"]


@pytest.fixture(scope="module")
def page(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A page opened from disk with the scripts."""
    file = tmp_path_factory.mktemp("twins") / "scripts.html"
    scripts = "".join(f'<script src="{(shipped("site") / "scripts" / name).as_uri()}"></script>' for name in JUDGES)
    file.write_text(
        f'<!doctype html><html lang="en"><meta charset="utf-8"><title>Scripts</title>{scripts}</html>', encoding="utf-8"
    )
    opened = browser.new_page()
    opened.goto(file.as_uri())
    yield opened
    opened.close()


def thrown(pieces: list[str], count: int, seed: str) -> list[str]:
    dice = random.Random(seed)  # noqa: S311 - test texts, not secrets
    return ["".join(dice.choices(pieces, k=dice.randint(1, 12))) for _ in range(count)]


@pytest.mark.parametrize("mark", [".", ","])
def test_thrown_numbers_are_read_alike(page: Page, mark: str):
    texts = thrown(NUMBERS, 3000, "numbers" + mark)
    found = page.evaluate("([texts, mark]) => texts.map((text) => saltbridgeAnswers.readNumber(text, mark))", [texts, mark])
    read = 0
    for text, theirs in zip(texts, found, strict=True):
        mine = read_number(text, mark)
        if isinstance(mine, Unread):
            assert theirs.get("why") == mine.why, text
            assert tuple(theirs["readings"]) == mine.readings, text
            continue
        read += 1
        assert "why" not in theirs, text
        assert (theirs["value"], theirs["unit"]) == (mine.value, mine.unit), text
        assert theirs["figures"] == (list(mine.figures) if mine.figures else None), text
        assert theirs["places"] == (list(mine.places) if mine.places else None), text
    assert read > 100


def test_thrown_equations_are_judged_alike(page: Page):
    texts = thrown(TERMS, 2000, "equations")
    dice = random.Random("sides")  # noqa: S311 - test texts, not secrets
    species = [term for term in TERMS if term[0].isalpha() and term != "Xx"]
    sides = [
        " + ".join(dice.choice(["", "2", "3 "]) + dice.choice(species) for _ in range(dice.randint(1, 3))) for _ in range(2000)
    ]
    texts += [f"{left} -> {right}" for left, right in zip(sides[::2], sides[1::2], strict=True)]
    for name in ("cell reaction", "cell reaction with states", "half-reaction"):
        key = KEYS[name]
        found = page.evaluate("([key, texts]) => texts.map((text) => saltbridgeAnswers.judge(key, text, {}))", [key, texts])
        mine = [judge(key, text).as_json() for text in texts]
        assert [(text, a, b) for text, a, b in zip(texts, mine, found, strict=True) if a != b] == []
        assert sum(result["verdict"] == "not-yet" for result in mine) > 200


def test_thrown_values_are_judged_alike_against_every_number_key(page: Page):
    keys = [key for key in KEYS.values() if key["kind"] == "number"][:24]
    dice = random.Random("values")  # noqa: S311 - test texts, not secrets
    asked = []
    for key in keys:
        middle = float(key["value"])
        for _ in range(150):
            size = middle * dice.choice([1, 1, 1, -1, 1000, 0.001, dice.uniform(-2, 2)]) + dice.choice([0, 1, -1, 0.5]) * float(
                key["place"]
            )
            text = f"{size:.{dice.randint(0, 8)}{dice.choice('eg')}}" + dice.choice(["", "", " V", " mV", " kJ/mol", " x"])
            asked.append([key, text, {"a": dice.choice([-0.8, 0.9, "left", "right", None]), "b": dice.choice([None, -0.8])}])
    found = page.evaluate(
        "([asked, units]) => asked.map(([key, text, own]) => saltbridgeAnswers.judge(key, text, own, units))",
        [asked, unit_table()],
    )
    mine = [judge(key, text, own).as_json() for key, text, own in asked]
    assert [(ask[1:], a, b) for ask, a, b in zip(asked, mine, found, strict=True) if a != b] == []
    assert len({result["verdict"] for result in mine}) >= 5
