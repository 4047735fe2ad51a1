"""Begins a bank: its settings, three questions out of the worked ones, and what an editor needs to complete keys and names.

The schemas are laid beside ``bank.yaml``, so that completion works wherever the bank lies.
"""

from __future__ import annotations

import json
import os
import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from saltbridge.bank.bank import BANK_FILE, OWN_FOLDERS, require_bank
from saltbridge.bank.schema import bank_schema
from saltbridge.deliver.ordinary_files import plain_folder, replace_file, write_new
from saltbridge.deliver.writing import named
from saltbridge.faults import fault
from saltbridge.home import shipped

WORKED = "worked"
"""The folder in ``data`` with the worked templates, a bank itself."""
FIRST = ("cells/cell-potential.yaml", "cells/anode-of-two.yaml", "electrolysis/linked-coating.yaml")
"""The three that a new bank begins with: small, middle, linked."""
SCHEMAS = BANK_SCHEMA, TEMPLATE_SCHEMA = "bank.schema.json", "template.schema.json"
EDITOR_SETTINGS = ".vscode/settings.json"
INDENTS = ".editorconfig"
LONGEST_ID = 40  # characters
_INDENTS = "root = true\n\n[*.yaml]\ncharset = utf-8\nindent_style = space\nindent_size = 2\n"


@dataclass(frozen=True, slots=True)
class NewBank:
    """Where it is, and its files from there."""

    folder: Path
    files: tuple[str, ...]


def new_bank(folder: Path) -> NewBank:
    """Write a bank into a new or empty folder. Raises ``Faulty`` (``folder-not-empty``, ``folder-is-a-file``, ``folder-is-a-link``)."""
    folder = named(folder)
    _refuse(folder)
    files = _questions(folder.name) | _of_editor(_shipped(TEMPLATE_SCHEMA), topics())
    _write(folder, files, lambda path, text: write_new(path, text.encode()))
    return NewBank(folder, tuple(files))


def editor_again(folder: Path) -> NewBank:
    """Write the schemas of a bank anew, its own kinds of scenario and names among them, and settings where there are none.

    Raises ``Faulty`` as the bank's own files do, and where there is no bank.
    """
    folder = named(folder)
    require_bank(folder)
    found = {path.parent.name for path in folder.glob("*/*.yaml")} - OWN_FOLDERS
    files = _of_editor(json.dumps(bank_schema(folder), indent=1, ensure_ascii=False) + "\n", tuple(sorted(found)))
    wanted = {name: text for name, text in files.items() if name in SCHEMAS or not os.path.lexists(folder / name)}
    _write(folder, wanted, replace_file)
    return NewBank(folder, tuple(wanted))


def _write(folder: Path, files: Mapping[str, str], write: Callable[[Path, str], None]) -> None:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.parent != folder and not plain_folder(path.parent):
            raise fault(
                "folder-is-a-link", expected="a folder of the bank", found=f"{path.parent} is a link", hint="Take it away."
            )
        write(path, text)


def topics() -> tuple[str, ...]:
    """The topic folders that a new bank has."""
    return tuple(dict.fromkeys(name.partition("/")[0] for name in FIRST))


def _refuse(folder: Path) -> None:
    if folder.is_symlink():
        raise fault(
            "folder-is-a-link", expected="a new or empty folder", found=f"{folder} is a link", hint="Name another folder."
        )
    if folder.exists() and not folder.is_dir():
        raise fault(
            "folder-is-a-file", expected="a new or empty folder", found=f"{folder} is a file", hint="Name another folder."
        )
    if around := next((each for each in folder.parents if (each / BANK_FILE).is_file()), None):
        raise fault(
            "bank-in-a-bank", expected="a folder that lies in no bank", found=f"{around} is a bank", hint="Name another folder."
        )
    if folder.is_dir() and (inside := sorted(path.name for path in folder.iterdir())):
        is_bank = BANK_FILE in inside
        hint = "It is a bank already; `--editor` sets up its editor again." if is_bank else "Name a new folder."
        raise fault("folder-not-empty", expected="a new or empty folder", found=f"{folder} holds {inside[0]}", hint=hint)


def _questions(name: str) -> dict[str, str]:
    """The settings and the three questions, with the way to their schema from where they are laid."""
    home = shipped("data") / WORKED
    texts = {
        file: (home / file).read_text(encoding="utf-8").replace("$schema=../", "$schema=", 1) for file in (BANK_FILE, *FIRST)
    }
    texts[BANK_FILE] = _called(texts[BANK_FILE], name)
    return texts


def _called(settings: str, name: str) -> str:
    """The settings with an id and a title after the folder's name."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    bank_id = "-".join(re.findall(r"[a-z0-9]+", plain))[:LONGEST_ID].strip("-")
    title = name if re.fullmatch(r"[^\W\d_][\w .-]*\w", name) else (bank_id or "our bank").replace("-", " ").capitalize()
    told = {"id": bank_id or "bank", "title": title}
    return re.sub(r"^(id|title): .*$", lambda line: f"{line[1]}: {told[line[1]]}", settings, flags=re.MULTILINE)


def _shipped(schema: str) -> str:
    return (shipped("data") / schema).read_text(encoding="utf-8")


def _of_editor(template_schema: str, folders: tuple[str, ...]) -> dict[str, str]:
    """The schemas, which files they are of, and that YAML is indented by spaces."""
    schemas = {f"./{BANK_SCHEMA}": BANK_FILE, f"./{TEMPLATE_SCHEMA}": [f"{folder}/*.yaml" for folder in folders]}
    settings = {"yaml.schemas": schemas, "[yaml]": {"editor.insertSpaces": True, "editor.tabSize": 2}}
    return {
        BANK_SCHEMA: _shipped(BANK_SCHEMA),
        TEMPLATE_SCHEMA: template_schema,
        EDITOR_SETTINGS: json.dumps(settings, indent=2) + "\n",
        INDENTS: _INDENTS,
    }
