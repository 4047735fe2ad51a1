"""A bank with a fault of every kind: one run tells all, those of the files and those that only drawing shows."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.build import publish
from saltbridge.faults import Fault, Faulty

HERE = Path(__file__).resolve().parent
FAULTY = HERE / "faulty"
GOLDEN = HERE / "faulty-messages.txt"
DRAWN = {"unknown-name", "no-right-option", "not-derivable", "rejects-almost-every-draw", "condition-unit", "unknown-slip",
         "unknown-quantity", "dimension", "no-wrong-step"}  # fmt: skip


@pytest.fixture(scope="module")
def told(tmp_path_factory) -> tuple[Fault, ...]:
    out = tmp_path_factory.mktemp("faulty") / "out"
    with pytest.raises(Faulty) as caught, ThreadPoolExecutor(2) as threads:
        publish(FAULTY, out, executor=threads, variants=2)
    assert not out.exists()
    return caught.value.faults


def test_every_message_is_whole_and_all_are_told_at_once(told):
    """The golden file has been read: each line says where, what was expected, what stands there and what to write instead."""
    assert "\n".join(map(str, told)) + "\n" == GOLDEN.read_text("utf-8")


def test_every_message_has_its_file_line_and_key(told):
    assert [str(each) for each in told if not (each.file and each.line and each.key)] == []


def test_every_line_named_holds_the_key_or_what_was_found(told):
    """The line is the right one: it holds the last word of the key path, or the text found there."""
    for each in told:
        lines = (FAULTY / each.file).read_text("utf-8").splitlines()
        key = each.key.split(".")[-1].partition("[")[0]
        line = lines[each.line - 1]
        inside_list = "[" in each.key.split(".")[-1]
        assert key in line or each.found.strip("`") in line or inside_list or each.key.startswith("text"), str(each)


def test_faults_of_files_and_of_draws_stand_together(told):
    codes = {each.code for each in told}
    assert codes >= DRAWN
    assert {"unknown-word", "unknown-key", "duplicate-key", "quantity-kind", "raw-html", "bad-number"} <= codes
    assert [(each.file, each.line) for each in told] == sorted((each.file, each.line) for each in told)


def test_reading_alone_tells_the_faults_of_all_files(told):
    with pytest.raises(Faulty) as caught:
        load_bank(FAULTY)
    assert list(caught.value.faults) == [each for each in told if each.code not in DRAWN]
