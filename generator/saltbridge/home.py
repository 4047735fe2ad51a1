"""Finds the shipped bank, site and data: beside the code in a checkout, else the copy inside the installed wheel."""

from __future__ import annotations

from functools import cache
from pathlib import Path

MARKER = ".saltbridge"
"""The file that says that a folder was written by saltbridge; such a folder holds no questions."""

_PACKAGE = Path(__file__).resolve().parent


@cache
def shipped(folder: str) -> Path:
    """The folder ``data``, ``site`` or ``question_templates`` as shipped.

    Raises ``FileNotFoundError`` where neither a checkout nor the wheel's copy holds it.
    """
    for root in (_PACKAGE.parent.parent, _PACKAGE / "shipped"):
        place = root / folder
        if place.is_dir() and (root != _PACKAGE.parent.parent or (root / "pyproject.toml").is_file()):
            return place
    raise FileNotFoundError(f"saltbridge is installed without its {folder} folder")
