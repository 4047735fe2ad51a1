"""The chains that DEVELOPERS.md tells, from a key of YAML to what is seen: each file is there, and each function in it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PLACES = (ROOT / "generator" / "saltbridge", ROOT / "site")
STEP = re.compile(r"`([\w/]+\.(?:py|js|typ)):(\w+)`")
DEFINED = {
    ".py": r"^\s*(?:def|class) {name}\b",
    ".js": r"\b(?:function {name}\b|const {name}\b)",
    ".typ": r"#?let {name}\b",
}


def chains():
    """The rows of the table below the heading, by their key."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").partition("## From YAML to pixel")[2].partition("\n## ")[0]
    rows = [line.split("|") for line in text.splitlines() if line.startswith("| `")]
    return {row[1].strip(): STEP.findall(row[2]) for row in rows}


def test_six_keys_are_followed():
    assert len(chains()) == 6
    assert all(len(steps) >= 4 for steps in chains().values())


@pytest.mark.parametrize(("key", "file", "name"), [(key, *step) for key, steps in chains().items() for step in steps])
def test_each_step_of_a_chain_exists(key, file, name):
    found = [place / file for place in PLACES if (place / file).is_file()]
    assert found, f"{key}: there is no file {file}"
    text = found[0].read_text(encoding="utf-8")
    assert re.search(DEFINED[found[0].suffix].format(name=name), text, flags=re.MULTILINE), f"{key}: {file} defines no {name}"
