"""A hostile case: a bank of someone who means harm, and the named fault it must end in; and shortcuts to write many."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from hostile_samples import BANK, write_bank

LAMP = {
    "title": "Lamp cell",
    "outcome": "T3.4",
    "level": "core",
    "scenario": "{galvanic cell: {metals: [Zn, Cu, Ag]}}",
    "text": "A lamp.",
    "parts": "[{ask: Find it., find: E0_cell}]",
}


@dataclass(frozen=True)
class Case:
    """``code`` is the fault that must be among those told, or empty where the bank is printed with its texts as they stand.

    ``arrange`` does to the folder what can't be written as a file: a link, a pipe, a name in odd bytes.
    """

    name: str
    files: dict[str, str | bytes]
    code: str
    arrange: Callable[[Path], None] | None = None

    def write(self, folder: Path) -> Path:
        """The bank on disk, beside a file that none of its business is."""
        (folder.parent / "secret.yaml").write_text("title: secret-of-the-neighbour\n", encoding="utf-8")
        write_bank(folder, self.files)
        if self.arrange:
            self.arrange(folder)
        return folder


def template(**changes: str) -> str:
    """The lamp template with values of keys changed (as YAML), added, or left out where empty; ``keep_only_if`` has spaces in the file."""
    values = {**LAMP, **{key.replace("_", " "): value for key, value in changes.items()}}
    return "".join(f"{key}: {value}\n" for key, value in values.items() if value)


def quoted(text: str) -> str:
    """A text as YAML in double quotes, whatever is in it."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\x7f")


def raw(rows: dict[str, tuple[str | bytes, str]]) -> Iterator[Case]:
    """Cases whose template is given whole: name → (content, code)."""
    for name, (content, code) in rows.items():
        yield Case(name, {"lamp.yaml": content}, code)


def keyed(key: str, rows: dict[str, tuple[str, str]]) -> Iterator[Case]:
    """Cases that change one key of the template: name → (YAML value, code)."""
    for name, (value, code) in rows.items():
        yield Case(name, {"lamp.yaml": template(**{key: value})}, code)


def prose(rows: dict[str, tuple[str, str]]) -> Iterator[Case]:
    """Cases of the text: name → (text, code)."""
    yield from keyed("text", {name: (quoted(text), code) for name, (text, code) in rows.items()})


def settings(rows: dict[str, tuple[str, str]]) -> Iterator[Case]:
    """Cases of bank.yaml beside a right template: name → (lines added, code)."""
    for name, (lines, code) in rows.items():
        yield Case(name, {"bank.yaml": BANK + lines, "lamp.yaml": template()}, code)
