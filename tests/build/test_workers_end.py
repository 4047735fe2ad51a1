"""Workers end with their run, however it ends: killed alone, asked to end, or stopped by the keyboard."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from publishing import GENERATOR, HERE

from saltbridge.deliver.workers import workers

# As on a machine of two cores (one of a single core works in one process), and at a keyboard that stops what it is asked to: a
# suite that a shell started in the background would hand on that it does not.
SCRIPT = (
    "import os, signal; os.cpu_count = lambda: 2; signal.signal(signal.SIGINT, signal.default_int_handler); "
    "from saltbridge.cli import main; main(prog_name='saltbridge')"
)
COMMAND = [sys.executable, "-c", SCRIPT, "publish"]
LONGEST = 20  # seconds until the last worker must be gone; it takes a tenth of one


def _children(pid: int) -> set[int]:
    """The processes that this one began, and those that they began, from the system's list."""
    found = set()
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text().rpartition(")")[2].split()
        except OSError:  # it has just ended
            continue
        if int(fields[1]) == pid and fields[0] != "Z":
            child = int(stat.parent.name)
            found |= {child} | _children(child)
    return found


def _running(tmp_path: Path) -> tuple[subprocess.Popen[str], set[int]]:
    """A publish whose workers are at work."""
    (tmp_path / "desk").mkdir()
    environment = {**os.environ, "PYTHONPATH": str(GENERATOR), "TMPDIR": str(tmp_path / "desk")}
    command = [*COMMAND, str(HERE.parents[1] / "question_templates"), "--to", str(tmp_path / "out")]
    run = subprocess.Popen(
        command, env=environment, text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True
    )
    deadline = time.monotonic() + LONGEST * 3
    while len(children := _children(run.pid)) < 2 and run.poll() is None and time.monotonic() < deadline:
        time.sleep(0.01)
    assert len(children) >= 2
    return run, children


def _alive(pids: set[int]) -> set[int]:
    return {
        pid
        for pid in pids
        if (stat := Path(f"/proc/{pid}/stat")).exists() and stat.read_text().rpartition(")")[2].split()[0] != "Z"
    }


@pytest.mark.parametrize(("how", "code"), [(signal.SIGKILL, -9), (signal.SIGTERM, 143), (signal.SIGINT, 130)])
def test_no_worker_and_no_folder_is_left_where_the_first_process_alone_is_ended(tmp_path, how, code):
    run, children = _running(tmp_path)
    os.kill(run.pid, how)
    _, said = run.communicate(timeout=LONGEST)
    assert run.returncode == code
    assert "Traceback" not in said
    deadline = time.monotonic() + LONGEST
    while _alive(children) and time.monotonic() < deadline:
        time.sleep(0.01)
    assert _alive(children) == set()
    assert list((tmp_path / "desk").iterdir()) == []
    assert sorted(path.name for path in tmp_path.iterdir()) == ["desk"]


def test_the_keyboard_stops_the_whole_group_without_a_word_from_the_workers(tmp_path):
    run, _ = _running(tmp_path)
    os.killpg(run.pid, signal.SIGINT)
    _, said = run.communicate(timeout=LONGEST)
    assert run.returncode == 130
    assert said.splitlines()[-1] == "Stopped before it was done."
    assert "Traceback" not in said


def _stopped_at_once() -> str:
    """What a process says that is sent Ctrl-C as soon as it has begun, before it could be told to leave it to others."""
    os.kill(os.getpid(), signal.SIGINT)
    return "went on"


def test_a_worker_that_is_stopped_before_it_is_tethered_goes_on(monkeypatch):
    """The first thing that a worker does is to tether itself; here it is stopped instead."""
    monkeypatch.setattr("saltbridge.deliver.workers._tether", _stopped_at_once)
    with workers(2) as pool:
        assert list(pool.map(abs, [-1, -2])) == [1, 2]
