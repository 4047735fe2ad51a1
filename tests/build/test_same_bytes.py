"""Publishing the same bank gives the same bytes, wherever, whenever and by however many workers it is done."""

from __future__ import annotations

from pathlib import Path

import pytest
from publishing import HERE, contents, publish_apart

from saltbridge.home import shipped

BANK = HERE / "bank"
HOME = {"TZ": "UTC", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8", "PYTHONHASHSEED": "0"}
AWAY = {
    "TZ": "Pacific/Kiritimati",
    "LANG": "de_DE.UTF-8",
    "LC_ALL": "tr_TR.UTF-8",
    "PYTHONHASHSEED": "4711",
    "SOURCE_DATE_EPOCH": "86400",
}
POSIX = {
    "TZ": "America/St_Johns",
    "LANG": "C",
    "LC_ALL": "POSIX",
    "PYTHONHASHSEED": "7",
    "PYTHONUTF8": "0",
    "PYTHONCOERCECLOCALE": "0",
}


@pytest.fixture(scope="module")
def usual(tmp_path_factory) -> dict[str, bytes]:
    out = tmp_path_factory.mktemp("usual") / "out"
    assert publish_apart(BANK, out, workers="one process", surroundings=HOME) == ""
    found = contents(out)
    assert {"site/index.html", "site/cell-potential.html", "teacher/data-sheet.pdf", "teacher/all-papers.pdf"} <= found.keys()
    return found


@pytest.mark.parametrize(
    ("workers", "surroundings"),
    [("two processes", AWAY), ("threads", POSIX), ("own", AWAY)],
    ids=["two processes, far east and another language", "threads, no locale at all", "own workers"],
)
def test_time_zone_language_hash_seed_and_workers_change_no_byte(usual, tmp_path: Path, workers, surroundings):
    out = tmp_path / "out"
    assert publish_apart(BANK, out, workers=workers, surroundings=surroundings) == ""
    _same(usual, contents(out))


def test_the_folder_in_which_it_is_called_changes_no_byte(usual, tmp_path: Path):
    """From another folder, with the bank and the goal named by relative paths, into a folder of another name."""
    room = tmp_path / "somewhere else"
    room.mkdir()
    bank = Path("..").joinpath("copied bank")
    for name, content in contents(BANK).items():
        copy = room / bank / name
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_bytes(content)
    assert publish_apart(bank, "my site", room=room, surroundings=AWAY) == ""
    _same(usual, contents(room / "my site"))


def test_the_shipped_bank_is_the_same_from_two_workers_and_from_threads(tmp_path: Path):
    bank = shipped("question_templates")
    assert publish_apart(bank, tmp_path / "a", workers="two processes", surroundings=HOME) == ""
    assert publish_apart(bank, tmp_path / "b", workers="threads", surroundings=AWAY) == ""
    _same(contents(tmp_path / "a"), contents(tmp_path / "b"))


def test_publishing_again_over_the_old_folder_changes_no_byte(usual, tmp_path: Path):
    out = tmp_path / "out"
    for _ in range(2):
        assert publish_apart(BANK, out) == ""
    _same(usual, contents(out))


def _same(first: dict[str, bytes], second: dict[str, bytes]) -> None:
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []
