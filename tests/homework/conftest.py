"""One set, made once for all tests that only read it."""

from __future__ import annotations

import pytest
from homework.sets_for_tests import FULL, PLAN, make

from saltbridge.deliver.homework.record import read_record


@pytest.fixture(scope="session")
def made_set(tmp_path_factory):
    """The folder of a set of four students and two questions, all files of each student too."""
    room = tmp_path_factory.mktemp("set")
    with pytest.MonkeyPatch.context() as patch:
        make(room, room / "out", patch, plan=PLAN + FULL)
    return room / "out"


@pytest.fixture(scope="session")
def record(made_set):
    return read_record(made_set / "record.zip")
