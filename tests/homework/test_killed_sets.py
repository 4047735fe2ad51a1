"""A set that is killed at any moment leaves nothing half-written, and the next run is as if nothing had been."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time

import pytest
from homework.sets_for_tests import SECRET, contents, write

from saltbridge.deliver.homework.record import read_record

SCRIPT = """
import sys
from pathlib import Path
from saltbridge.deliver.homework import class_set
from saltbridge.deliver.homework.set_run import Wanted, make_set

class_set.new_secret = lambda: sys.argv[3]
make_set(Wanted(Path(sys.argv[1])), Path(sys.argv[2]), lambda stage: print(stage, flush=True), lambda made: None)
print("done", flush=True)
"""


def start(plan, to):
    return subprocess.Popen(
        [sys.executable, "-c", SCRIPT, str(plan), str(to), SECRET], stdout=subprocess.PIPE, text=True, env=dict(os.environ)
    )


@pytest.mark.parametrize(
    ("stage", "pause"),
    [
        ("Reading", 0.2),
        ("Choosing", 0.0),
        ("Setting papers", 0.0),
        ("Setting the memorandum", 0.0),
        ("Setting the memorandum", 0.4),
    ],
)
def test_a_killed_set_is_not_there_or_whole(tmp_path, stage, pause):
    plan, to = write(tmp_path / "in"), tmp_path / "out"
    running = start(plan, to)
    for line in running.stdout:
        if line.startswith(stage):
            time.sleep(pause)
            break
    running.send_signal(signal.SIGKILL)
    running.wait()
    running.stdout.close()
    assert not to.exists() or len(read_record(to / "record.zip").entries) == 4
    if not to.exists():
        again = start(plan, to)
        assert again.communicate(timeout=120)[0].endswith("done\n")
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".out")] == []
    assert len(contents(to)) == 13
