"""Writes and looks at single files so that a link, pipe or device which a stranger has laid there is never followed.

A new text goes to a draft under a name that nobody can guess, made only where nothing stands, and then takes the file's
place in one step. Whose a file is, is read from its first bytes.
"""

from __future__ import annotations

import os
import secrets
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from saltbridge.faults import Fault, Faulty

HEAD = 4096  # bytes at the start of a file that tell whose it is
_NO_LINKS = getattr(os, "O_NOFOLLOW", 0)  # Windows has neither, and no links that anyone may make
_NO_WAITING = getattr(os, "O_NONBLOCK", 0)


def ordinary(path: Path) -> bool:
    """Whether an ordinary file stands there: no link, folder, pipe or device; False where nothing stands."""
    return _kind_is(path, stat.S_ISREG)


def plain_folder(path: Path) -> bool:
    """Whether a folder stands there that is no link."""
    return _kind_is(path, stat.S_ISDIR)


def _kind_is(path: Path, kind: Callable[[int], bool]) -> bool:
    try:
        return kind(path.lstat().st_mode)
    except (FileNotFoundError, NotADirectoryError):
        return False


def head_of(path: Path) -> bytes | None:
    """The first 4096 bytes of the file, None where nothing stands. Raises ``Faulty`` (``not-a-file``) for anything but a file."""
    if not os.path.lexists(path):
        return None
    if not ordinary(path):
        raise _not_a_file(path)
    handle = os.open(path, os.O_RDONLY | _NO_LINKS | _NO_WAITING | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise _not_a_file(path)
        return file.read(HEAD)


def replace_file(path: Path, text: str) -> None:
    """Put the text there in one step, as UTF-8. Raises ``Faulty`` (``not-a-file``) where a link, folder, pipe or device stands."""
    head_of(path)
    draft = path.with_name(f".{path.name}.{secrets.token_hex(8)}")
    try:
        write_new(draft, text.encode())
        draft.replace(path)
    except BaseException as error:
        draft.unlink(missing_ok=True)
        if isinstance(error, OSError):
            error.filename = str(path)
        raise


def write_new(path: Path, content: bytes) -> None:
    """Write a file where none stands; raises ``OSError`` with its name where something does, or where the disk is full."""
    with naming(path):
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_LINKS | getattr(os, "O_BINARY", 0), 0o666)
        with os.fdopen(handle, "wb") as file:
            file.write(content)


@contextmanager
def naming(path: Path) -> Iterator[None]:
    """Let an ``OSError`` of the block tell which file it is about: a full disk does not."""
    try:
        yield
    except OSError as error:
        error.filename = error.filename or str(path)
        raise


def _not_a_file(path: Path) -> Faulty:
    kind = "a link" if path.is_symlink() else "a folder" if path.is_dir() else "a pipe or a device"
    return Faulty([Fault("not-a-file", "an ordinary file", f"{path} is {kind}", "Take it away, or name another file.")])
