"""Writes a folder so that, killed at any moment, either the old or the new one is whole and nothing is lost.

Build beside (``.NAME.building``), then two renames: the old folder steps aside (``.NAME.before``), the new one takes its
name. A note (``.NAME.note``) written before the first rename tells the next run what to finish. A marker file inside
says that a folder is ours; one that has files and no marker is never touched. Nothing is read or written through a link.
"""

from __future__ import annotations

import errno
import os
import shutil
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from saltbridge.deliver.ordinary_files import naming, ordinary, plain_folder, write_new
from saltbridge.faults import Faulty, fault
from saltbridge.home import MARKER

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_MARKER_TEXT = "saltbridge writes this folder anew at every run; keep nothing of your own in it.\n"
_NOTE_TEXT = "saltbridge was exchanging a folder; its next run finishes that.\n"
_IN_USE = (errno.EACCES, errno.EPERM, errno.EBUSY)  # what systems answer where a file of the folder is open, or locked


@contextmanager
def replacing(folder: Path, parts: Sequence[str] = ()) -> Iterator[Path]:
    """An empty folder to build in; it takes the place of ``folder`` when the block ends, and is dropped if it raises.

    With ``parts``, the new folder holds an empty folder for each, marked as ours like itself. Finishes first what a killed
    run left. Raises ``Faulty`` (``folder-not-ours``, ``folder-is-a-file``, ``folder-is-a-link``, ``folder-busy``,
    ``folder-in-use``) and leaves everything as it was.
    """
    folder = named(folder)
    names = _Names(folder)
    refuse(folder)
    folder.parent.mkdir(parents=True, exist_ok=True)
    with _alone(names):
        finish(folder)
        refuse(folder, parts)
        names.building.mkdir()
        try:
            for part in ("", *parts):
                (names.building / part).mkdir(exist_ok=True)
                write_new(names.building / part / MARKER, _MARKER_TEXT.encode())
            yield names.building
            _settle(names.building)
        except BaseException as error:
            shutil.rmtree(names.building, ignore_errors=True)  # what can't be dropped now, the next run drops
            if isinstance(error, OSError) and error.filename:
                error.filename = str(error.filename).replace(str(names.building), str(folder))
            raise
        _swap(names)


def finish(folder: Path) -> None:
    """Finish or undo what a killed run left beside ``folder``; nothing happens where it left nothing.

    With a note, the new folder was whole: the swap is completed. Without one, a half-built folder is dropped. Raises
    ``Faulty`` (``folder-in-use``, ``folder-is-a-link``).
    """
    names = _Names(named(folder))
    names.refuse_odd()
    if ordinary(names.note):
        _swap_noted(names)
    elif names.building.exists():
        shutil.rmtree(names.building)


def named(folder: Path) -> Path:
    """The absolute path without ``..``, links not followed (a link is refused, and said so)."""
    named_ = Path(os.path.normpath(folder.absolute()))
    if not named_.name:
        raise fault("folder-not-ours", expected="a folder to write to", found=str(named_), hint="Name a new folder.")
    return named_


class _Names:
    """The paths beside a folder that a write uses."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.building = folder.with_name(f".{folder.name}.building")
        self.before = folder.with_name(f".{folder.name}.before")
        self.note = folder.with_name(f".{folder.name}.note")
        self.lock = folder.with_name(f".{folder.name}.lock")

    def refuse_odd(self) -> None:
        """Raise ``Faulty`` where one of them is something that saltbridge never makes, such as a link that a bank brought."""
        kinds = ((self.building, plain_folder), (self.before, plain_folder), (self.note, ordinary), (self.lock, ordinary))
        for path, is_right in kinds:
            if os.path.lexists(path) and not is_right(path):
                raise fault(
                    "folder-is-a-link" if path.is_symlink() else "folder-not-ours",
                    expected=f"nothing here, or what saltbridge keeps beside {self.folder.name} while it writes",
                    found=f"{path} is {'a link' if path.is_symlink() else 'something else'}",
                    hint="Take it away.",
                )


# ------------------------------------------------------------------ the swap


def _swap(names: _Names) -> None:
    """Exchange the folders; the new one is on the disk before the note says so."""
    write_new(names.note, _NOTE_TEXT.encode())
    _settle_file(names.note)
    _settle_folder(names.folder.parent)
    _swap_noted(names)


def _swap_noted(names: _Names) -> None:
    """From any point after the note: each move is made only if it has not been made yet."""
    try:
        if names.building.exists():
            if names.folder.exists():
                if names.before.exists():  # an older copy that the last run had no time to drop
                    shutil.rmtree(names.before)
                names.folder.rename(names.before)
            _take_place(names)
            _settle_folder(names.folder.parent)
        if names.before.exists():
            shutil.rmtree(names.before)
    except OSError as error:
        if error.errno in _IN_USE:
            raise _in_use(names.folder, error) from None
        raise
    names.note.unlink(missing_ok=True)


def _take_place(names: _Names) -> None:
    """Give the new folder its name; where the system refuses that, the old one gets it back."""
    try:
        names.building.rename(names.folder)
    except OSError:
        with suppress(OSError):
            names.before.rename(names.folder)
        raise


def _in_use(folder: Path, error: OSError) -> Faulty:
    """The new folder stands ready beside the old one, which some program holds; the note lets the next run finish."""
    return fault(
        "folder-in-use",
        expected=f"a folder {folder} that no program holds",
        found=(error.strerror or "a refusal").lower(),
        hint=f"Close the PDFs opened from {folder}, then run again.",
    )


def _settle(folder: Path) -> None:
    """Bring every file of the new folder to the disk, so that a power cut can't leave empty files under good names."""
    for root, _, files in os.walk(folder):
        for name in files:
            _settle_file(Path(root) / name)
        _settle_folder(Path(root))


def _settle_file(path: Path) -> None:
    with naming(path), path.open("rb") as file:
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


def refuse(folder: Path, parts: Sequence[str] = ()) -> None:
    """Raise ``Faulty`` where ``replacing`` would not take the folder, and write nothing.

    With ``parts``, it may hold these beside its marker, each ours or empty, and nothing else.
    """
    folder = named(folder)
    _Names(folder).refuse_odd()
    if folder.is_symlink():
        found, hint = f"{folder} is a link", "Name the folder that the link leads to."
        raise fault("folder-is-a-link", expected="a folder to write to", found=found, hint=hint)
    if not folder.exists():
        return
    if not folder.is_dir():
        raise fault("folder-is-a-file", expected="a folder to write to", found=f"{folder} is a file", hint="Name a new folder.")
    inside = {path.name for path in folder.iterdir()}
    others = inside - {MARKER, *parts} if parts else set()
    if others or (inside and not ordinary(folder / MARKER)):
        raise _not_ours(folder)
    for part in parts:
        refuse(folder / part)


def _not_ours(folder: Path) -> Faulty:
    return fault(
        "folder-not-ours",
        expected=f"a new or empty folder, or one that saltbridge wrote (it has a file {MARKER})",
        found=f"{folder} holds other files",
        hint="Name a new folder; the files in this one would be lost.",
    )


@contextmanager
def _alone(names: _Names) -> Iterator[None]:
    """Hold the lock beside the folder; the system lets go of it when its holder ends, however that ends."""
    handle = os.open(names.lock, os.O_CREAT | os.O_RDWR | getattr(os, "O_NOFOLLOW", 0))
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
