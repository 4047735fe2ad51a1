"""Writes a folder so that, killed at any moment, either the old or the new one is whole and nothing is lost.

Build beside (``.NAME.building``), then two renames: the old folder steps aside (``.NAME.before``), the new one takes its
name. A note (``.NAME.note``) written before the first rename tells the next run what to finish. A marker file inside
says that a folder is ours; one that has files and no marker is never touched.
"""

from __future__ import annotations

import json
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from saltbridge.faults import fault

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

MARKER = ".saltbridge"
_MARKER_TEXT = "saltbridge writes this folder anew at every run; keep nothing of your own in it.\n"


@contextmanager
def replacing(folder: Path) -> Iterator[Path]:
    """An empty folder to build in; it takes the place of ``folder`` when the block ends, and is dropped if it raises.

    Finishes first what a killed run left. Raises ``Faulty`` (``folder-not-ours``, ``folder-is-a-file``,
    ``folder-is-a-link``, ``folder-busy``) and leaves everything as it was.
    """
    folder = _named(folder)
    names = _Names(folder)
    _refuse_links(folder)
    folder.parent.mkdir(parents=True, exist_ok=True)
    with _alone(names):
        finish(folder)
        _refuse_foreign(folder)
        names.building.mkdir()
        try:
            yield names.building
            (names.building / MARKER).write_text(_MARKER_TEXT, encoding="utf-8")
        except BaseException:
            shutil.rmtree(names.building)
            raise
        _swap(names)


def finish(folder: Path) -> None:
    """Finish or undo what a killed run left beside ``folder``; nothing happens where it left nothing.

    With a note, the new folder was whole: the swap is completed. Without one, a half-built folder is dropped.
    """
    names = _Names(_named(folder))
    if _noted(names):
        _swap_noted(names)
    elif names.building.exists():
        shutil.rmtree(names.building)
    names.draft.unlink(missing_ok=True)


def _named(folder: Path) -> Path:
    """The absolute path without ``..``, links not followed (a link is refused, and said so)."""
    named = Path(os.path.normpath(folder.absolute()))
    if not named.name:
        raise fault("folder-not-ours", expected="a folder to write to", found=str(named), hint="Name a new folder.")
    return named


class _Names:
    """The paths beside a folder that a write uses."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.building = folder.with_name(f".{folder.name}.building")
        self.before = folder.with_name(f".{folder.name}.before")
        self.note = folder.with_name(f".{folder.name}.note")
        self.draft = folder.with_name(f".{folder.name}.note.draft")
        self.lock = folder.with_name(f".{folder.name}.lock")


# ------------------------------------------------------------------ the swap


def _swap(names: _Names) -> None:
    _settle(names.building)
    names.draft.write_text(json.dumps({"saltbridge": "swap", "folder": names.folder.name}), encoding="utf-8")
    _settle_file(names.draft)
    names.draft.replace(names.note)
    _settle_folder(names.folder.parent)
    _swap_noted(names)


def _swap_noted(names: _Names) -> None:
    """From any point after the note: each move is made only if it has not been made yet."""
    if names.building.exists():
        if names.folder.exists():
            if names.before.exists():  # an older copy that the last run had no time to drop
                shutil.rmtree(names.before)
            names.folder.rename(names.before)
        names.building.rename(names.folder)
        _settle_folder(names.folder.parent)
    if names.before.exists():
        shutil.rmtree(names.before)
    names.note.unlink(missing_ok=True)


def _noted(names: _Names) -> bool:
    return names.note.is_file()


def _settle(folder: Path) -> None:
    """Bring every file of the new folder to the disk, so that a power cut can't leave empty files under good names."""
    for root, _, files in os.walk(folder):
        for name in files:
            _settle_file(Path(root) / name)
        _settle_folder(Path(root))


def _settle_file(path: Path) -> None:
    with path.open("rb") as file:
        os.fsync(file.fileno())


def _settle_folder(path: Path) -> None:
    if os.name != "posix":  # Windows can't open a folder
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


# ------------------------------------------------------------------ what is refused


def _refuse_links(folder: Path) -> None:
    if folder.is_symlink():
        raise fault(
            "folder-is-a-link",
            expected="a folder to write to",
            found=f"{folder} is a link",
            hint="Name the folder that the link leads to.",
        )


def _refuse_foreign(folder: Path) -> None:
    if not folder.exists():
        return
    if not folder.is_dir():
        raise fault("folder-is-a-file", expected="a folder to write to", found=f"{folder} is a file", hint="Name a new folder.")
    if (folder / MARKER).is_file() or not any(folder.iterdir()):
        return
    raise fault(
        "folder-not-ours",
        expected=f"a new or empty folder, or one that saltbridge wrote (it has a file {MARKER})",
        found=f"{folder} holds other files",
        hint="Name a new folder; the files in this one would be lost.",
    )


@contextmanager
def _alone(names: _Names) -> Iterator[None]:
    """Hold the lock beside the folder; the system lets go of it when its holder ends, however that ends."""
    handle = os.open(names.lock, os.O_CREAT | os.O_RDWR)
    try:
        if not _locks(handle) or not _same_file(handle, names.lock):
            raise fault(
                "folder-busy",
                expected=f"no other run writing to {names.folder}",
                found="another run writes to it now",
                hint="Wait until the other run has ended.",
            )
        try:
            yield
        finally:
            _drop(names.lock)
    finally:
        os.close(handle)


def _locks(handle: int) -> bool:
    """Whether the lock could be taken at once."""
    try:
        if sys.platform == "win32":
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _same_file(handle: int, path: Path) -> bool:
    """Whether the locked file still has its name (another run may have dropped it between opening and locking)."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False


def _drop(lock: Path) -> None:
    with suppress(PermissionError):  # Windows keeps an open file; it stays, empty and harmless
        lock.unlink(missing_ok=True)


def refuse(folder: Path) -> None:
    """Raise ``Faulty`` where ``claim`` would, and write nothing."""
    _refuse_links(folder)
    _refuse_foreign(folder)


def claim(folder: Path) -> None:
    """Make a folder that holds several of ours, such as ``out`` with its site and papers, and mark it.

    Raises ``Faulty`` (``folder-not-ours``, ``folder-is-a-file``, ``folder-is-a-link``) where it holds files of others.
    """
    refuse(folder)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / MARKER).write_text("saltbridge writes the folders in here anew at every run.\n", encoding="utf-8")
