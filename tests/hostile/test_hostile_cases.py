"""Each hostile bank and telling ends in its named fault within the guard, touches nothing outside and runs nothing."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from corpus_told import TOLD
from hostile_corpus import CASES

HERE = Path(__file__).parent


@pytest.fixture(scope="module")
def endings(tmp_path_factory):
    """All cases run by ``guarded.py`` in a process of its own: name → how it ended."""
    folder = tmp_path_factory.mktemp("hostile")
    paths = os.pathsep.join(path for path in sys.path if path)
    done = subprocess.run(
        [sys.executable, str(HERE / "guarded.py"), str(folder)],
        capture_output=True, text=True, check=False, env={**os.environ, "PYTHONPATH": paths, "PYTHONDONTWRITEBYTECODE": "1"}, cwd=folder,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr[-3000:]
    return json.loads((folder / "report.json").read_text(encoding="utf-8"))


def test_every_hostile_bank_ends_in_its_named_fault(endings):
    """Exit code 1 and the fault by its code, among others; never a traceback, never a fault of the program's own."""
    wrong = {
        case.name: endings[case.name]["said"][:300] + endings[case.name]["raised"]
        for case in CASES
        if endings[case.name]["exit"] != 1 or f"[{case.code}]" not in endings[case.name]["said"]
    }
    assert wrong == {}


def test_every_hostile_telling_ends_in_a_named_fault(endings):
    wrong = {
        name: endings[name]["said"][:300] + endings[name]["raised"]
        for name, (_, code) in TOLD.items()
        if endings[name]["exit"] != 1 or (f"[{code}]" if code else "]") not in endings[name]["said"]
    }
    assert wrong == {}


def test_none_ends_in_a_traceback_or_in_a_fault_of_the_program(endings):
    bad = {
        name: each["said"][:300]
        for name, each in endings.items()
        if "Traceback" in each["said"] or "[own-fault]" in each["said"] or each["raised"]
    }
    assert bad == {}


def test_none_touches_anything_outside_or_runs_anything(endings):
    """The audit hook saw no file outside bank, output, program and libraries, no code from a text, no process, no socket."""
    assert {name: each["seen"][:5] for name, each in endings.items() if each["seen"]} == {}


def test_no_secret_of_the_neighbour_is_told_and_nothing_is_published(endings):
    assert not [name for name, each in endings.items() if "secret-of-the-neighbour" in each["said"]]
    assert not [case.name for case in CASES if endings[case.name]["wrote"]]


def test_what_is_said_can_do_nothing_to_a_terminal(endings):
    """No escape and no mark that turns the writing reaches the terminal, though file names and texts hold them."""
    bad = [name for name, each in endings.items() if any(not mark.isprintable() and mark != "\n" for mark in each["said"])]
    assert bad == []


def test_the_watch_sees_what_it_should(tmp_path):
    """The hook itself: a file beside, code from a text and a process are seen."""
    program = (
        "import sys, pathlib; sys.argv = ['x']; sys.path.insert(0, sys.path[0])\n"
        f"sys.path.insert(0, {str(HERE)!r})\n"
        "import guarded, subprocess\n"
        "watch = guarded.Watch()\n"
        "with guarded.watched(watch, pathlib.Path('mine')):\n"
        "    open('secret', 'w').close(); exec(compile('1', '<text>', 'exec')); subprocess.run(['true']); open('mine', 'w').close()\n"
        "print('\\n'.join(watch.seen))\n"
    )
    paths = os.pathsep.join(path for path in sys.path if path)
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": paths},
    )
    seen = done.stdout
    assert "open 'secret'" in seen
    assert "exec of <text>" in seen
    assert "subprocess.Popen" in seen
    assert "open 'mine'" not in seen


def test_there_are_more_than_four_hundred_cases_and_each_is_another():
    names = [*(case.name for case in CASES), *TOLD]
    assert len(names) > 400
    assert len(set(names)) == len(names)
