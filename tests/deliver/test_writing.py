"""Folders are replaced as a whole: a run that dies at any step loses nothing, and the next run finishes its work."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

from saltbridge.deliver import writing
from saltbridge.deliver.ordinary_files import write_new
from saltbridge.deliver.writing import finish, replacing
from saltbridge.faults import Faulty
from saltbridge.home import MARKER

OLD, NEW = {"a.txt": "old", "sub/b.txt": "old"}, {"a.txt": "new", "c.txt": "new"}


def write(folder: Path, files) -> None:
    with replacing(folder) as staging:
        for name, words in files.items():
            (staging / name).parent.mkdir(parents=True, exist_ok=True)
            write_new(staging / name, words.encode())


def read(folder: Path):
    return {
        file.relative_to(folder).as_posix(): file.read_text()
        for file in sorted(folder.rglob("*"))
        if file.is_file() and file.name != MARKER
    }


def beside(folder: Path):
    return sorted(path.name for path in folder.parent.iterdir())


# ------------------------------------------------------------------ a run that goes well


def test_a_new_folder_is_written_with_its_marker(tmp_path):
    write(tmp_path / "deep" / "out", NEW)
    assert read(tmp_path / "deep" / "out") == NEW
    assert (tmp_path / "deep" / "out" / MARKER).is_file()
    assert beside(tmp_path / "deep" / "out") == ["out"]


def test_an_old_folder_of_ours_is_replaced_and_nothing_of_it_stays(tmp_path):
    write(tmp_path / "out", OLD)
    write(tmp_path / "out", NEW)
    assert read(tmp_path / "out") == NEW
    assert beside(tmp_path / "out") == ["out"]


def test_an_empty_folder_may_be_taken(tmp_path):
    (tmp_path / "out").mkdir()
    write(tmp_path / "out", NEW)
    assert read(tmp_path / "out") == NEW


def test_a_fault_while_building_leaves_the_old_folder_and_nothing_else(tmp_path):
    write(tmp_path / "out", OLD)
    with pytest.raises(ValueError, match="null"):
        write(tmp_path / "out", {"half": "half", "\0": "no file can have this name"})
    assert read(tmp_path / "out") == OLD
    assert beside(tmp_path / "out") == ["out"]


# ------------------------------------------------------------------ what is refused


@pytest.mark.parametrize(
    ("prepare", "code"),
    [
        (lambda out: (out.mkdir(), (out / "thesis.txt").write_text("mine")), "folder-not-ours"),
        (lambda out: (out.mkdir(), (out / ".hidden").write_text("mine")), "folder-not-ours"),
        (lambda out: out.write_text("mine"), "folder-is-a-file"),
        (lambda out: out.symlink_to(out.parent, target_is_directory=True), "folder-is-a-link"),
    ],
)
def test_what_is_not_ours_is_refused_and_left_as_it_is(tmp_path, prepare, code):
    out = tmp_path / "out"
    prepare(out)
    before = sorted((str(path), path.is_file() and path.read_text()) for path in tmp_path.rglob("*"))
    with pytest.raises(Faulty, match=rf"\[{code}\]"):
        write(out, NEW)
    assert sorted((str(path), path.is_file() and path.read_text()) for path in tmp_path.rglob("*")) == before


def test_the_root_of_the_disk_is_refused():
    with pytest.raises(Faulty, match="folder-not-ours"):
        write(Path("/"), NEW)


def test_a_second_run_at_the_same_time_is_refused(tmp_path):
    with replacing(tmp_path / "out") as staging:
        (staging / "a.txt").write_text("first")
        with pytest.raises(Faulty, match="folder-busy"):
            write(tmp_path / "out", NEW)
    assert read(tmp_path / "out") == {"a.txt": "first"}


def test_a_lock_file_left_by_a_dead_run_does_not_bar_the_next(tmp_path):
    (tmp_path / ".out.lock").write_text(str(os.getpid()))
    write(tmp_path / "out", NEW)
    assert beside(tmp_path / "out") == ["out"]


# ------------------------------------------------------------------ a run that dies


class Died(BaseException):
    """Stands for a kill: nothing may catch it and tidy up."""


STEPS = {
    "mkdir": (Path, "mkdir"),
    "write": (writing, "write_new"),
    "rename": (Path, "rename"),
    "unlink": (Path, "unlink"),
    "rmtree": (shutil, "rmtree"),
}


def _dying(monkeypatch, at: int, *, late: bool):
    """Let the ``at``-th change on disk be the last thing that happens: nothing after it runs, tidying included."""
    state = {"count": 0, "dead": False}

    def watched(original):
        def step(*arguments, **options):
            if state["dead"]:
                raise Died
            state["count"] += 1
            if state["count"] == at:
                if late:
                    original(*arguments, **options)
                state["dead"] = True
                raise Died
            return original(*arguments, **options)

        return step

    for owner, name in STEPS.values():
        monkeypatch.setattr(owner, name, watched(getattr(owner, name)))
    return state


def _steps_of_a_run(tmp_path) -> int:
    with pytest.MonkeyPatch.context() as patch:
        write(tmp_path / "count", OLD)
        state = _dying(patch, 10**6, late=False)
        write(tmp_path / "count", NEW)
    return state["count"]


def test_killed_before_or_after_any_step_one_whole_folder_is_there_and_the_next_run_finishes(tmp_path):
    steps = _steps_of_a_run(tmp_path)
    assert steps >= 12
    finished = set()
    for at in range(1, steps + 1):
        for late in (False, True):
            out = tmp_path / f"run{at}{late}" / "out"
            write(out, OLD)
            with pytest.MonkeyPatch.context() as patch:
                _dying(patch, at, late=late)
                with pytest.raises(Died):
                    write(out, NEW)
            assert _whole_copies(out), (at, late)
            finish(out)
            assert read(out) in (OLD, NEW), (at, late)
            finished.add(read(out)["a.txt"])
            write(out, {"d.txt": "third"})
            assert read(out) == {"d.txt": "third"}
            assert beside(out) == ["out"], (at, late)
    assert finished == {"old", "new"}


def _whole_copies(out: Path):
    places = [out, *(out.with_name(f".out.{state}") for state in ("building", "before"))]
    return [place for place in places if place.is_dir() and read(place) in (OLD, NEW)]


def test_a_rename_in_the_middle_leaves_no_folder_but_the_next_run_puts_the_new_one_there(tmp_path, monkeypatch):
    out = tmp_path / "out"
    write(out, OLD)
    renames = []
    original = Path.rename

    def second_fails(self, target):
        renames.append(target)
        if len(renames) == 2:
            raise Died
        return original(self, target)

    monkeypatch.setattr(Path, "rename", second_fails)
    with pytest.raises(Died):
        write(out, NEW)
    monkeypatch.undo()
    assert not out.exists()
    finish(out)
    assert read(out) == NEW
    assert beside(out) == ["out"]


VICTIM = """
import sys, time
from pathlib import Path
from saltbridge.deliver.writing import replacing
number = 0
while True:
    number += 1
    with replacing(Path(sys.argv[1])) as staging:
        for name in range(12):
            (staging / f"{name}.txt").write_text(str(number))
    print(number, flush=True)
"""


def test_a_killed_process_leaves_one_whole_folder_or_a_note_to_finish_by(tmp_path):
    out = tmp_path / "out"
    for round_number in range(8):
        victim = subprocess.Popen([sys.executable, "-c", VICTIM, str(out)], stdout=subprocess.PIPE)
        victim.stdout.readline()
        time.sleep(0.003 * round_number + 0.001)
        victim.kill()
        victim.wait()
        victim.stdout.close()
        finish(out)
        files = read(out)
        assert len(files) == 12
        assert len(set(files.values())) == 1
    write(out, NEW)
    assert beside(out) == ["out"]


def test_files_reach_the_disk_before_the_note_is_written(tmp_path, monkeypatch):
    events = []
    monkeypatch.setattr(writing, "_settle_file", lambda path: events.append(path.name))
    write(tmp_path / "out", NEW)
    assert set(events[:-1]) == {"a.txt", "c.txt", MARKER}
    assert events[-1] == ".out.note"
