"""Texts thrown together at random are read and judged alike by Python and by the page's scripts, and never raise."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from saltbridge.answers import Unread, judge, read_number, unit_table
from saltbridge.home import shipped
from saltbridge.render.pages import JUDGES
from saltbridge.tables.kinds import inert_conductors

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


DIAGRAM_PIECES = [
    "Zn",
    "Zn2+",
    "Zn^2+",
    "Cu²⁺",
    "Cu",
    "Pt",
    "C(graphite)",
    "Fe2+",
    "Fe3+",
    "|",
    "|",
    "|",
    "||",
    "//",
    "‖",
    ",",
    ";",
    " ",
    "(aq)",
    "(s)",
]
DIAGRAM_PIECES += [
    "(aq, 0.10)",
    "(0,5 M)",
    "(1e400)",
    "2",
    "H2",
    "H+",
    "H2O",
    "(",
    ")",
    "/",
    "¦",
    "?",
    "[",
    "KNO3",
    "(g, 50 kPa)",
    "Au",
    "Au3+",
    "e-",
]
FACTOR_PIECES = [
    "[Zn2+]",
    "[Zn^2+]",
    "[Ag+]",
    "[Ag⁺]",
    "p(H2)",
    "pH2",
    "c(Ag+)",
    "[Zn]",
    "[e-]",
    "[",
    "]",
    "(",
    ")",
    "/",
    "/",
    "·",
    "*",
    "**",
    "^2",
    "²",
]
FACTOR_PIECES += [
    "^",
    "^{2}",
    "^(1/2)",
    "^-1",
    "⁻¹",
    "2",
    "10",
    " ",
    "+",
    " + ",
    "c°",
    "/c0",
    "p°",
    "Q = ",
    "=",
    "1",
    "x",
    " x ",
    "^0.5",
    "K",
    "0",
    ":",
    "§",
]


def linked(pieces: list[str], signs: list[str], seed: str) -> list[str]:
    """Species with signs between them, as somebody types who knows the notation but not the answer."""
    dice = random.Random(seed)  # noqa: S311 - test texts, not secrets
    named = [piece for piece in pieces if any(letter.isupper() for letter in piece)]
    lines = [[dice.choice(named) for _ in range(dice.randint(3, 5))] for _ in range(1500)]
    return ["".join(piece + dice.choice(signs) for piece in line[:-1]) + line[-1] for line in lines]


def test_thrown_species_diagrams_and_expressions_are_judged_alike(page: Page):
    for pieces, signs, names in (
        (TERMS, [""], ("species 0", "species 3 with its state")),
        (
            DIAGRAM_PIECES,
            ["|", "|", "||", ",", " // "],
            ("diagram 0", "diagram 3", "diagram with amounts", "diagram of one couple", "diagram by its anode"),
        ),
        (FACTOR_PIECES, ["/", "·", "", "^2/", "^2", "+"], ("expression 0", "expression 2", "expression of the own equation")),
    ):
        texts = thrown(pieces, 1500, names[0]) + linked(pieces, signs, names[0])
        for name in names:
            earlier = {"a": "right", "b": 2}
            found = page.evaluate(
                "([key, texts, own]) => texts.map((text) => saltbridgeAnswers.judge(key, text, own))",
                [KEYS[name], texts, earlier],
            )
            mine = [judge(KEYS[name], text, earlier).as_json() for text in texts]
            assert [(text, a, b) for text, a, b in zip(texts, mine, found, strict=True) if a != b] == []
            assert sum(each["verdict"] != "unread" for each in mine) > 100, name


def test_the_script_knows_the_same_inert_conductors():
    script = (shipped("site") / "scripts" / "diagrams.js").read_text(encoding="utf-8")
    assert set(re.search(r'CONDUCTORS = "([^"]+)"', script)[1].split("|")) == set(inert_conductors())
