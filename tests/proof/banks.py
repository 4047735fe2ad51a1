"""Small sound banks for the tests of this room."""

from __future__ import annotations

import shutil
from pathlib import Path

from planted import BATH, BENCH, CELL

from saltbridge.home import shipped

BANK = "format: 1\nid: pier\ntitle: Pier Bank\n"
OWN_SHEET = "data sheet: sheets/ours.yaml\n"


def small_bank(folder: Path, *, settings: str = "", sheet: bool = False, **templates: str) -> Path:
    """A bank of a cell, a bath and a bench, or of the templates given by name; with ``sheet`` its own copy of the school sheet."""
    chosen = templates or {"cell": CELL, "bath": BATH, "bench": BENCH}
    for name, text in chosen.items():
        write(folder / f"{name.replace('_', '-')}.yaml", text.replace("{title}", name.capitalize()))
    write(folder / "bank.yaml", BANK + (OWN_SHEET if sheet else "") + settings)
    if sheet:
        write(folder / "sheets" / "ours.yaml", (shipped("data") / "sheets" / "school.yaml").read_text(encoding="utf-8"))
    return folder


def lamp_bank(folder: Path) -> Path:
    """A copy of the small bank that has relations of its own."""
    return Path(shutil.copytree(Path(__file__).parents[1] / "build" / "own_bank", folder))


def write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def change(path: Path, old: str, new: str) -> None:
    """Replace one text of a file; it must be there once."""
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1, old
    path.write_text(text.replace(old, new), encoding="utf-8")
