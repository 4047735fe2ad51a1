"""Folders of the compiler that a killed run left are cleared by the next one; those of others and of the living stay."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from saltbridge.render.desks import PREFIX, clear_abandoned, desk

GENERATOR = Path(__file__).parents[2] / "generator"
RUN = "import time; from saltbridge.render.desks import desk; desk(); print('set', flush=True); time.sleep(60)"


@pytest.fixture
def room(tmp_path, monkeypatch):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def _killed_run(room: Path) -> Path:
    """A process that is killed at its desk."""
    environment = {**os.environ, "PYTHONPATH": str(GENERATOR), "TMPDIR": str(room)}
    with subprocess.Popen([sys.executable, "-c", RUN], env=environment, stdout=subprocess.PIPE, text=True) as run:
        assert run.stdout is not None
        assert run.stdout.readline() == "set\n"
        left = next(room.glob(f"{PREFIX}{run.pid}-*"))
        assert clear_abandoned() == ()
        os.kill(run.pid, signal.SIGKILL)
    return left


def test_the_desk_of_a_killed_run_is_cleared_and_that_of_the_living_stays(room):
    left, mine = _killed_run(room), desk()
    assert clear_abandoned() == (left,)
    assert [*room.iterdir()] == [mine]


def test_links_files_and_other_names_are_left_alone(room):
    (room / "thesis").mkdir()
    (room / f"{PREFIX}999999999-link").symlink_to(room / "thesis")
    (room / f"{PREFIX}999999999-file").write_text("mine")
    (room / f"{PREFIX}mine").mkdir()
    before = sorted(room.iterdir())
    assert clear_abandoned() == ()
    assert sorted(room.iterdir()) == before
