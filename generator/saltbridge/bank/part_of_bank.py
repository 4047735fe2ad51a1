"""Which template a file of a bank is, and which bank a path lies in."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from pathlib import Path

from saltbridge.bank.bank import BANK_FILE, DEEPEST_FOLDER, OWN_FILES, OWN_FOLDERS, no_bank
from saltbridge.faults import fault, nearest

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def concerns(path: Path, folder: Path) -> str | None:
    """The id of the template that a file is; empty where the whole bank hangs on it, ``None`` where nothing does."""
    if not path.is_relative_to(folder):
        return None
    parts = path.relative_to(folder).parts
    if not parts or any(part.startswith(".") for part in parts) or path.suffix.lower() not in {".yaml", ".yml", ".csv"}:
        return None
    own = len(parts) == 1 and parts[0] in OWN_FILES
    placed_so = len(parts) == 1 or (len(parts) == DEEPEST_FOLDER and parts[0] not in OWN_FOLDERS)
    return path.stem if placed_so and not own and path.suffix == ".yaml" and _ID.fullmatch(path.stem) else ""


@dataclass(frozen=True, slots=True)
class PartOfBank:
    """A bank's folder, and the ids of the templates that are meant; ``None`` where all are."""

    folder: Path
    templates: frozenset[str] | None = None


def part_of_bank(path: Path) -> PartOfBank:
    """What a path names: a bank, or one template or a folder of templates in a bank. Settings and data of a bank stand for all of it.

    Raises ``Faulty`` (``no-such-file``, ``no-bank``, ``no-template``).
    """
    if not path.exists():
        beside = [each.name for each in path.parent.iterdir()] if path.parent.is_dir() else []
        hint = nearest(path.name, beside, "`")
        raise fault("no-such-file", expected="a bank, or a template or a folder in one", found=f"nothing at `{path}`", hint=hint)
    if path.is_dir() and (path / BANK_FILE).is_file():
        return PartOfBank(path)
    whole = Path(os.path.normpath(path.absolute()))  # `bank/..` lies in no bank
    folder = next((each for each in whole.parents if (each / BANK_FILE).is_file()), None)
    if folder is None:
        raise no_bank(path)
    files = sorted(whole.glob("*.yaml")) if whole.is_dir() else [whole]
    meant = {concerns(each, folder) for each in files}
    if whole.is_file() and meant == {""}:
        return PartOfBank(folder)
    ids = frozenset(each for each in meant if each)
    if not ids:
        raise fault(
            "no-template", expected="a template, or a folder with templates", found=f"`{path}`", hint=f"The bank is `{folder}`."
        )
    return PartOfBank(folder, ids)
