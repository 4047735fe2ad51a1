"""The page that lists what is checked how names places that exist and codes that proof gives."""

from __future__ import annotations

import re
from pathlib import Path

from saltbridge.home import shipped

ROOT = Path(__file__).parents[2]
PAGE = (shipped("data") / "CHECKS.md").read_text(encoding="utf-8")
PLACES, CODES = PAGE.split("## What proof looks at")
CODE = re.compile(r"^[a-z]+(-[a-z]+)+$|^marks$|^unreal$")


def _source():
    folder = ROOT / "generator" / "saltbridge" / "deliver" / "proof"
    return "\n".join(path.read_text(encoding="utf-8") for path in folder.glob("*.py"))


def test_every_place_exists_and_every_folder_of_tests_is_named():
    named = re.findall(r"`((?:tests|data|generator)/[^`]+)`", PLACES)
    assert [place for place in named if not (ROOT / place).exists()] == []
    folders = {f"tests/{path.parent.name}" for path in (ROOT / "tests").glob("*/test_*.py")}
    folders -= {"tests/cli", "tests/draw", "tests/bank", "tests/bank_shipped", "tests/chemistry", "tests/golden"}
    assert {folder for folder in folders if folder not in PLACES} == set()


def test_every_code_is_one_that_proof_gives_and_none_of_its_hits_is_left_out():
    source = _source()
    named = {code for code in re.findall(r"`([^`]+)`", CODES) if CODE.match(code)}
    assert len(named) >= 20
    assert {code for code in named if f'"{code}"' not in source} == set()
    given = set(re.findall(r'Hit\(\s*"([a-z-]+)"', source))
    assert given - named == set()
