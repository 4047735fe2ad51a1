"""Small sets for tests: a plan and a class list in a folder, made with a fixed secret."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from saltbridge.deliver.homework import set_run
from saltbridge.deliver.homework.set_run import Wanted, make_set

SECRET = "00112233445566778899aabbccddeeff"  # noqa: S105 - made up for tests
PLAN = """\
title: Cells, week 3
list: class.csv
columns: {name: [Forename, Surname], number: Candidate, class: Group}
date: {set: 2026-12-01, due: 2026-12-05}
questions:
  - template: two-metals
  - template: mass-deposited
"""
FULL = "each: yes\nsolutions: yes\nteacher: T. Acher\nnot before: 2026-12-06\n"
HEADING = "Candidate,Forename,Surname,Group"
ROWS = ("007,Ada,Brook,11B", "012,Bo,Cliff,11B", "013,Cy,Dale,11B", "021,Di,Esker,11B")
NAMES = ("Ada Brook", "Bo Cliff", "Cy Dale", "Di Esker")


def write(folder: Path, plan: str = PLAN, rows: Iterable[str] = ROWS, heading: str = HEADING) -> Path:
    """The plan's path, its class list beside it."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "class.csv").write_text("\n".join([heading, *rows]) + "\n", "utf-8")
    path = folder / "plan.yaml"
    path.write_text(plan, "utf-8")
    return path


def make(folder: Path, to: Path, monkeypatch=None, *, secret: str = SECRET, look=None, **changes):
    """Write a set and give the notes; ``changes`` go to ``write`` and ``Wanted``."""
    texts = {key: changes.pop(key) for key in ("plan", "rows", "heading") if key in changes}
    path = write(folder, **texts)
    if monkeypatch is not None:
        monkeypatch.setattr(set_run, "new_secret", lambda: secret)
    return make_set(Wanted(path, **changes), to, lambda _stage: None, look or (lambda _made: None))


def contents(folder: Path) -> dict[str, bytes]:
    """Every file under a folder with its bytes."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
