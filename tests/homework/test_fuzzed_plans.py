"""Plans that mean harm, and random ones: read or told, never a traceback."""

from __future__ import annotations

from contextlib import suppress

import pytest
from homework.sets_for_tests import PLAN, make, write
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from saltbridge.bank.plan import read_plan
from saltbridge.faults import Faulty

VALUES = (
    "''", "[]", "{}", "[[]]", "{a: b}", "9" * 5_000, "-1", "1e999", "null", "~", "true", "yes", "[a, a]", "../..", "/dev/zero", "'\\\\host\\x'",
    "'C:x'", "two-metals", "'#panic()'", "'=cmd|x'", '"\\u202e"', "'{{ 7*7 }}'", "*a", "&a b", "!!python/object:os.system x", "2026-12-01",
    "{template: two-metals}", "[{template: two-metals}]", "[{outcome: T3.4, marks: 0}]", "{name: [A, B, C], number: A}", "x" * 300,
)  # fmt: skip
KEYS = (
    "title", "bank", "list", "columns", "order", "names", "date", "not before", "teacher", "questions", "avoid", "each", "policy", "sheet", "paper",
    "print size", "answers", "students", "language", "decimal mark", "school", "colums", "__class__", "a.b",
)  # fmt: skip


@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.tuples(st.sampled_from(KEYS), st.sampled_from(VALUES)), min_size=1, max_size=6), st.randoms(use_true_random=False)
)
def test_a_plan_is_read_or_all_of_its_faults_are_told(tmp_path, pairs, chance):
    lines = PLAN.splitlines()
    for key, value in pairs:
        lines.insert(chance.randrange(len(lines) + 1), f"{key}: {value}")
    try:
        read_plan(write(tmp_path, "\n".join(lines)))
    except Faulty as told:
        faults = told.faults
        if any(not (each.expected and each.found and each.file == "plan.yaml") for each in faults):
            pytest.fail(str(told))


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=400))
def test_any_bytes_are_no_plan_or_one(tmp_path, raw):
    path = tmp_path / "plan.yaml"
    path.write_bytes(raw)
    with suppress(Faulty):
        assert read_plan(path).keys.title


HOSTILE = (
    ("bank: /dev", "no-bank"), ("bank: ''", "wrong-type"), ("sheet: ../../etc/passwd", "unknown-sheet"), ("avoid: /dev/null", "no-folder"),
    ("language: ../de", "language"), ("print size: 36", "print-size"), ("policy: x", "marking-policy"), ("questions: []", "list-length"),
)  # fmt: skip


@pytest.mark.parametrize(("line", "code"), HOSTILE, ids=[line for line, _ in HOSTILE])
def test_what_reaches_out_of_a_plan_is_refused(tmp_path, line, code):
    key = line.partition(":")[0]
    kept = "\n".join(each for each in PLAN.splitlines() if not each.startswith(key)) if key == "questions" else PLAN
    kept = kept.replace("  - template: two-metals\n  - template: mass-deposited", "") if key == "questions" else kept
    with pytest.raises(Faulty) as told:
        make(tmp_path, tmp_path / "out", plan=f"{line}\n{kept}")
    assert code in {each.code for each in told.value.faults}, str(told.value)
    assert {each.file for each in told.value.faults if each.code == code} <= {"plan.yaml", ""}
    assert not (tmp_path / "out").exists()


def test_a_plan_that_is_no_file_is_told(tmp_path):
    with pytest.raises(Faulty, match=r"\[not-a-file\]"):
        read_plan(tmp_path)
    with pytest.raises(Faulty, match=r"\[not-a-file\]"):
        read_plan(tmp_path / "none.yaml")
