"""Folders that the compiler works in: each names its process, so that the next run clears those that a killed one left."""

from __future__ import annotations

import os
import re
import shutil
import sys
import time
from pathlib import Path
from tempfile import gettempdir, mkdtemp

PREFIX = "saltbridge-papers-"
_NAME = re.compile(re.escape(PREFIX) + r"([0-9]{1,10})-\w+")
_DAY = 86_400.0  # seconds


def desk() -> Path:
    """A new folder of this process in the system's place for such."""
    return Path(mkdtemp(prefix=f"{PREFIX}{os.getpid()}-"))


def clear_abandoned() -> tuple[Path, ...]:
    """Remove the folders of processes of ours that have ended, and tell which they were. Nothing is followed out of them."""
    found = []
    for path in sorted(Path(gettempdir()).glob(f"{PREFIX}*")):
        named = _NAME.fullmatch(path.name)
        if named and _is_ours(path) and not _works(int(named[1]), path):
            shutil.rmtree(path, ignore_errors=True)
            found.append(path)
    return tuple(found)


def _is_ours(path: Path) -> bool:
    """Whether it is a folder, no link, and of the one who runs this."""
    if path.is_symlink() or not path.is_dir():
        return False
    return sys.platform == "win32" or path.stat().st_uid == os.getuid()


def _works(process: int, path: Path) -> bool:
    """Whether a process is still there; where that can't be asked without ending it, a folder of the last day counts as in use."""
    if sys.platform == "win32":
        return time.time() - path.stat().st_mtime < _DAY
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:  # somebody else's process took the number
        return False
    return True
