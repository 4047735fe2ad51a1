"""Links, pipes and odd files that a stranger's bank lays where saltbridge writes: nothing outside is touched, and each is told."""

from __future__ import annotations

import errno
import os
from datetime import date
from pathlib import Path

import pytest

from saltbridge.deliver import writing
from saltbridge.deliver.ordinary_files import HEAD, head_of, replace_file, write_new
from saltbridge.deliver.proof.signoff import SIGNED_FILE, Signature, write
from saltbridge.deliver.writing import finish, refuse, replacing
from saltbridge.faults import Faulty
from saltbridge.home import MARKER

DAY = date(2026, 11, 25)


@pytest.fixture
def victim(tmp_path):
    """A file outside that must stay as it is, and a folder of it."""
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "thesis.txt").write_text("mine")
    return tmp_path / "outside" / "thesis.txt"


def _code(action) -> str:
    with pytest.raises(Faulty) as caught:
        action()
    return caught.value.faults[0].code


def _build(out: Path) -> None:
    with replacing(out, ("site", "teacher")) as staging:
        write_new(staging / "site" / "a.html", b"a")


@pytest.mark.parametrize("name", [".out.building", ".out.before", ".out.note", ".out.lock"])
@pytest.mark.parametrize("to", ["file", "folder", "nothing"])
def test_a_link_beside_the_folder_is_refused_and_not_followed(tmp_path, victim, name, to):
    target = {"file": victim, "folder": victim.parent, "nothing": tmp_path / "nowhere"}[to]
    (tmp_path / name).symlink_to(target)
    assert _code(lambda: _build(tmp_path / "out")) == "folder-is-a-link"
    assert _code(lambda: finish(tmp_path / "out")) == "folder-is-a-link"
    assert victim.read_text() == "mine"
    assert not (tmp_path / "nowhere").exists()
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("inside", ["", "site", "teacher"])
def test_a_marker_that_is_a_link_marks_nothing_and_is_not_written_through(tmp_path, victim, inside):
    out = tmp_path / "out"
    _build(out)
    (out / inside / MARKER).unlink()
    (out / inside / MARKER).symlink_to(victim)
    assert _code(lambda: _build(out)) == "folder-not-ours"
    assert victim.read_text() == "mine"


@pytest.mark.parametrize("part", ["site", "teacher"])
def test_a_part_that_is_a_link_is_refused(tmp_path, victim, part):
    out = tmp_path / "out"
    _build(out)
    for each in sorted((out / part).iterdir()):
        each.unlink()
    (out / part).rmdir()
    (out / part).symlink_to(victim.parent)
    assert _code(lambda: _build(out)) == "folder-is-a-link"
    assert victim.read_text() == "mine"


def test_what_a_teacher_lays_beside_site_and_papers_is_never_lost(tmp_path):
    _build(tmp_path / "out")
    (tmp_path / "out" / "notes.txt").write_text("mine")
    assert _code(lambda: _build(tmp_path / "out")) == "folder-not-ours"
    assert (tmp_path / "out" / "notes.txt").read_text() == "mine"


def test_a_path_is_made_plain_before_anything_is_marked(tmp_path, victim):
    """``foreign/missing/..`` is the foreign folder itself."""
    assert _code(lambda: _build(victim.parent / "missing" / "..")) == "folder-not-ours"
    assert sorted(path.name for path in victim.parent.iterdir()) == ["thesis.txt"]


def test_a_draft_has_a_name_that_nobody_can_guess_and_is_never_written_through_a_link(tmp_path, victim, monkeypatch):
    (tmp_path / ".signed.yaml.draft").symlink_to(victim)
    replace_file(tmp_path / "signed.yaml", "new")
    assert victim.read_text() == "mine"
    monkeypatch.setattr("saltbridge.deliver.ordinary_files.secrets.token_hex", lambda _: "guessed")
    (tmp_path / ".signed.yaml.guessed").symlink_to(victim)
    with pytest.raises(FileExistsError):
        replace_file(tmp_path / "signed.yaml", "third")
    assert victim.read_text() == "mine"
    assert (tmp_path / "signed.yaml").read_text() == "new"


def test_a_link_is_not_replaced_by_a_signature_or_a_report(tmp_path, victim):
    (tmp_path / SIGNED_FILE).symlink_to(victim)
    signature = Signature(
        "A. Moderator", DAY.isoformat(), dict.fromkeys(("template", "data sheet", "relations", "settings"), "0")
    )
    bank = type("Folder", (), {"folder": tmp_path})()
    assert _code(lambda: write(bank, {"cell": signature})) == "not-a-file"
    assert victim.read_text() == "mine"


@pytest.mark.parametrize("kind", ["pipe", "device", "folder", "link to a device"])
def test_whose_a_file_is_is_never_asked_of_a_pipe_or_a_device(tmp_path, kind):
    """A pipe would hang and a device never end."""
    path = tmp_path / "proof.html"
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "folder":
        path.mkdir()
    elif kind == "link to a device":
        path.symlink_to("/dev/zero")
    else:
        path = Path("/dev/zero")
    assert _code(lambda: head_of(path)) == "not-a-file"


def test_no_more_than_the_head_of_a_file_is_read(tmp_path):
    with (tmp_path / "endless.html").open("wb") as file:
        file.truncate(10**10)  # a hole: reading it whole would take the memory of ten such files
    assert head_of(tmp_path / "endless.html") == bytes(HEAD)


# ------------------------------------------------------------------ open files, full disks


@pytest.mark.parametrize("which", [1, 2])
@pytest.mark.parametrize("number", [errno.EACCES, errno.EBUSY])
def test_an_open_file_is_told_with_its_cure_and_the_next_run_finishes(tmp_path, monkeypatch, which, number):
    """As Windows answers where a PDF of the folder is open, at either rename: the old folder stays, the new one follows."""
    out, renames, rename = tmp_path / "out", [], Path.rename
    _build(out)

    def refusing(self, target):
        renames.append(target)
        if len(renames) == which:
            raise PermissionError(number, os.strerror(number), str(self))
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", refusing)
    with pytest.raises(Faulty) as caught, replacing(out, ("site", "teacher")) as staging:
        write_new(staging / "site" / "b.html", b"b")
    assert str(caught.value) == (
        f"expected a folder {out} that no program holds; found {os.strerror(number).lower()}. "
        f"Close the PDFs opened from {out}, then run again. [folder-in-use]"
    )
    assert [path.name for path in (out / "site").glob("*.html")] == ["a.html"]
    monkeypatch.undo()
    finish(out)
    assert [path.name for path in (out / "site").glob("*.html")] == ["b.html"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["out"]


def test_a_full_disk_names_the_file_by_the_place_it_was_meant_for(tmp_path, monkeypatch):
    """The system's own refusal of a write names no file."""
    _build(tmp_path / "out")

    def full(_folder):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(writing.os, "fsync", full)
    with pytest.raises(OSError, match="No space left") as caught:
        _build(tmp_path / "out")
    assert str(caught.value.filename).startswith(str(tmp_path / "out") + os.sep)
    monkeypatch.undo()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["out"]
    refuse(tmp_path / "out", ("site", "teacher"))
