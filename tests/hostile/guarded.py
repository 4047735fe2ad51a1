"""Puts hostile banks and tellings through the command line in one process that watches itself.

``python guarded.py FOLDER 2 6`` takes the third of six slices of them, writes the banks into FOLDER, publishes each, and writes
FOLDER/report.json: for each case its exit code and what it said; and everything that Python's audit hook saw that no bank may cause: a file or folder touched outside the bank, the
output, the program and its libraries; code run from a text; a process begun; a socket.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from click.testing import CliRunner
from corpus_told import TOLD
from hostile_cases import template
from hostile_corpus import CASES
from hostile_samples import write_bank

from saltbridge.cli import main
from saltbridge.home import shipped

# A fork is the program's own worker; what a bank could want of one would be a process or a code, which are watched in it too.
GUARD = 60  # seconds for one case; the limits themselves are counts
NEVER = ("socket.", "subprocess.", "os.system", "os.exec", "os.posix_spawn", "os.spawn", "os.kill", "webbrowser.", "urllib.", "ctypes.", "pty.", "ftplib.", "smtplib.", "http.")  # fmt: skip
PATHS = ("open", "os.listdir", "os.scandir", "os.remove", "os.rename", "os.mkdir", "os.rmdir", "os.link", "os.symlink", "os.chmod", "os.truncate", "shutil.")  # fmt: skip


class Watch:
    """What the audit hook sees while a case runs; ``allowed`` are the places that the case may touch."""

    def __init__(self) -> None:
        self.on = False
        self.allowed: tuple[str, ...] = ()
        self.seen: list[str] = []
        self.libraries = tuple(
            {
                os.path.realpath(place)
                for place in (sys.prefix, sys.base_prefix, shipped("data").parent, Path(shipped("site")).parent)
            }
            | {"/dev/null", "/dev/urandom"}
        )
        sys.addaudithook(self.hook)

    def hook(self, event: str, args: tuple[Any, ...]) -> None:
        """Note what no bank may cause. Never raises: a refusal could be swallowed, a note can't."""
        if not self.on:
            return
        if event.startswith(NEVER):
            self.seen.append(f"{event} {args!r:.200}")
        elif event.startswith(PATHS):
            self.seen.extend(
                f"{event} {each!r}"
                for each in args[:2]
                if isinstance(each, str | bytes | os.PathLike) and not self.fine(event, each)
            )
        elif event == "exec" and not str(args[0].co_filename).startswith((*self.libraries, "<frozen")):
            self.seen.append(f"exec of {args[0].co_filename}")

    def fine(self, event: str, path: str | bytes | os.PathLike[str]) -> bool:
        """Whether a place is the case's own, the program's or a library's; the second word of an open is its mode."""
        name = os.fsdecode(path)
        if event == "open" and name in {"r", "rb", "w", "wb", "x", "xb", "r+", "a"}:
            return True
        where = str(Path(os.path.realpath(Path(name).parent)) / Path(name).name)
        return any(where == root or where.startswith(root + os.sep) for root in (*self.allowed, *self.libraries))


@contextmanager
def watched(watch: Watch, *places: Path) -> Iterator[None]:
    """A case under watch and under the guard."""

    def stop(_signal: int, _frame: object) -> None:
        raise TimeoutError(f"more than {GUARD} s")

    signal.signal(signal.SIGALRM, stop)
    watch.allowed = tuple(os.path.realpath(place) for place in places)
    watch.seen = []
    signal.alarm(GUARD)
    watch.on = True
    try:
        yield
    finally:
        watch.on = False
        signal.alarm(0)


def run(watch: Watch, arguments: list[str], *places: Path) -> dict[str, Any]:
    """One command line, watched."""
    start = time.monotonic()
    with watched(watch, *places):
        done = CliRunner().invoke(main, arguments)
    seconds = time.monotonic() - start
    return {
        "exit": done.exit_code,
        "said": done.output,
        "seen": watch.seen,
        "seconds": seconds,
        "raised": repr(done.exception) if done.exc_info and done.exc_info[0] is not SystemExit else "",
    }


def begin(folder: Path) -> None:
    """Publish a right bank unwatched, so that whatever is loaded late is loaded."""
    import sympy  # noqa: F401, PLC0415 - loaded before the watch begins

    bank = write_bank(folder / "right", {"lamp.yaml": template(use="[practice, homework]")})
    done = CliRunner().invoke(main, ["publish", str(bank), "--to", str(folder / "right-out")])
    worked = CliRunner().invoke(main, ["work", "Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)", "--find", "E_cell"])
    if done.exit_code or worked.exit_code:
        raise SystemExit(done.output + worked.output)


def report(folder: Path, own: slice) -> dict[str, Any]:
    """The cases of a slice: name → ending."""
    desk = folder / "desk"
    desk.mkdir()
    tempfile.tempdir = str(desk)
    begin(folder)
    watch = Watch()
    endings: dict[str, Any] = {}
    for number, case in enumerate(CASES[own]):
        place = folder / f"case-{number}"
        place.mkdir()
        bank, out = case.write(place / "bank"), place / "out"
        endings[case.name] = run(watch, ["publish", str(bank), "--to", str(out)], bank, out, desk) | {"wrote": out.exists()}
    for name, (arguments, _) in list(TOLD.items())[own]:
        endings[name] = run(watch, ["work", *arguments])
    return endings


if __name__ == "__main__":
    here, first, step = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
    (here / "report.json").write_text(json.dumps(report(here, slice(first, None, step))), encoding="utf-8")
