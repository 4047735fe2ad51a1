"""A publish that is killed leaves whole folders; one into a folder of others, or of a faulty bank, writes nothing."""

from __future__ import annotations

import os
import random
import shutil
import signal
import time
from pathlib import Path

import pytest
from publishing import HERE, contents, publish_apart, start

from saltbridge.build import publish
from saltbridge.deliver.writing import finish
from saltbridge.faults import Faulty

BANK = HERE / "bank"


@pytest.fixture(scope="module")
def published(tmp_path_factory) -> Path:
    """The trial bank, and beside it the same bank with another title, both published whole."""
    room = tmp_path_factory.mktemp("published")
    assert publish_apart(BANK, room / "old") == ""
    shutil.copytree(BANK, room / "bank")
    settings = room / "bank" / "bank.yaml"
    settings.write_text(settings.read_text("utf-8").replace("Trial bank", "Second edition"), "utf-8")
    assert publish_apart(room / "bank", room / "new") == ""
    return room


def _seconds(room: Path) -> float:
    """How long one publish takes here and now."""
    before = time.monotonic()
    assert publish_apart(room / "bank", room / "timed", variants=3) == ""
    return time.monotonic() - before


def test_killed_at_any_moment_the_folder_is_old_or_new_and_whole_and_the_next_run_finishes(published: Path, tmp_path: Path):
    """Twelve moments drawn over the run, most near its end: never a new site beside old memoranda."""
    old, new = contents(published / "old"), contents(published / "new")
    assert all(old[name] != new[name] for name in ("site/index.html", "teacher/memoranda/SAMPLE-A-4.pdf"))
    takes = _seconds(published)
    draws = random.Random(17)  # noqa: S311 - moments to be killed at, not a secret
    moments = [
        takes * share for share in (*(draws.uniform(0.1, 0.8) for _ in range(4)), *(draws.uniform(0.8, 1.05) for _ in range(8)))
    ]
    out = tmp_path / "out"
    shutil.copytree(published / "old", out)
    for moment in moments:
        running = start(published / "bank", out)
        time.sleep(moment)
        os.killpg(running.pid, signal.SIGKILL)
        running.communicate()
        left = contents(out)
        finished_by_a_note = not left and (tmp_path / ".out.note").exists()
        assert finished_by_a_note or left in (old, new), f"killed after {moment:.2f} s"
    assert publish_apart(published / "bank", out) == ""
    assert contents(out) == new
    assert sorted(path.name for path in tmp_path.iterdir()) == ["out"]


def test_killed_in_a_first_run_the_next_one_finishes(published: Path, tmp_path: Path):
    out = tmp_path / "out"
    running = start(BANK, out)
    deadline = time.monotonic() + 60
    while not (tmp_path / ".out.building").exists() and time.monotonic() < deadline and running.poll() is None:
        time.sleep(0.001)
    os.killpg(running.pid, signal.SIGKILL)
    running.communicate()
    assert publish_apart(BANK, out) == ""
    assert contents(out) == contents(published / "old")


def test_a_note_of_a_killed_run_exchanges_site_and_papers_together(published: Path, tmp_path: Path):
    """Killed right after its note: the old folder is there whole, and the next run begins by putting the new one there."""
    out = tmp_path / "out"
    shutil.copytree(published / "old", out)
    shutil.copytree(published / "new", tmp_path / ".out.building")
    (tmp_path / ".out.note").write_text("noted", "utf-8")
    finish(out)
    assert contents(out) == contents(published / "new")


# ------------------------------------------------------------------ refused


@pytest.mark.parametrize("inside", ["", "site", "teacher"])
def test_a_folder_of_others_is_refused_by_a_whole_message_and_left_alone(published: Path, tmp_path: Path, inside: str):
    """Also where only the site's or the teacher's folder holds files of others: then neither is written."""
    out = tmp_path / "out"
    if inside:
        shutil.copytree(published / "old", out)
        shutil.rmtree(out / inside)
    foreign = out / inside
    foreign.mkdir(exist_ok=True)
    (foreign / "thesis.tex").write_text("mine", "utf-8")
    before = contents(out)
    with pytest.raises(Faulty) as caught:
        publish(BANK, out, variants=1)
    assert str(caught.value) == (
        "expected a new or empty folder, or one that saltbridge wrote (it has a file .saltbridge); "
        f"found {foreign} holds other files. Name a new folder; the files in this one would be lost. [folder-not-ours]"
    )
    assert contents(out) == before


def test_a_file_and_a_link_are_refused(tmp_path: Path):
    (tmp_path / "file").write_text("mine", "utf-8")
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    for name, code in (("file", "folder-is-a-file"), ("link", "folder-is-a-link")):
        with pytest.raises(Faulty) as caught:
            publish(BANK, tmp_path / name, variants=1)
        assert [each.code for each in caught.value.faults] == [code]
    assert (tmp_path / "file").read_text("utf-8") == "mine"
    assert list((tmp_path / "real").iterdir()) == []


def test_each_folder_says_whose_it_is(published: Path):
    for part in ("", "site", "teacher"):
        marker = published / "old" / part / ".saltbridge"
        assert marker.read_text("utf-8").startswith("saltbridge writes"), part


def test_a_faulty_bank_leaves_no_folder_and_an_old_one_as_it_was(published: Path, tmp_path: Path):
    bank = tmp_path / "bank"
    shutil.copytree(BANK, bank)
    template = bank / "mass-plated.yaml"
    template.write_text(
        template.read_text("utf-8").replace("find: m", "find: K").replace("[practice, homework]", "exam"), "utf-8"
    )
    shutil.copytree(published / "old", tmp_path / "old")
    for out in (tmp_path / "new", tmp_path / "old"):
        with pytest.raises(Faulty) as caught:
            publish(bank, out, variants=1)
        assert [(each.code, each.file) for each in caught.value.faults] == [("not-derivable", "mass-plated.yaml")]
    assert not (tmp_path / "new").exists()
    assert contents(tmp_path / "old") == contents(published / "old")


def test_a_bank_changed_between_two_runs_of_one_process_is_read_again(tmp_path: Path):
    bank, out = tmp_path / "bank", tmp_path / "out"
    shutil.copytree(BANK, bank)
    publish(bank, out, variants=1)
    settings = bank / "bank.yaml"
    settings.write_text(settings.read_text("utf-8").replace("Trial bank", "Second edition"), "utf-8")
    publish(bank, out, variants=1)
    assert "Second edition" in (out / "site" / "index.html").read_text("utf-8")
