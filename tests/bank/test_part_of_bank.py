"""A file or a folder in a bank stands for its templates, and settings and data for the whole bank."""

from __future__ import annotations

from pathlib import Path

import pytest

from saltbridge.bank.part_of_bank import PartOfBank, concerns, part_of_bank
from saltbridge.faults import Faulty

EXAMPLES = Path(__file__).parent / "examples"


@pytest.mark.parametrize(
    ("file", "wanted"),
    [
        ("bank.yaml", ""), ("cells/two-metals.yaml", "two-metals"), ("two-metals.yaml", "two-metals"), ("relations.yaml", ""),
        ("sheets/ours.yaml", ""), ("relations/cells.yaml", ""), ("rows/a.csv", ""), ("couples.csv", ""), ("a/b/c.yaml", ""),
        ("cells/Two Metals.yaml", ""), ("cells/.two-metals.yaml", None), (".git/config.yaml", None), ("proof.html", None),
        ("cells/two-metals.yaml~", None), ("out/site/index.html", None), ("../other.yaml", None),
    ],
)  # fmt: skip
def test_what_hangs_on_a_file(file, wanted):
    folder = Path("/banks/ours")
    path = folder.parent / "other.yaml" if file.startswith("..") else folder / file
    assert concerns(path, folder) == wanted


@pytest.mark.parametrize(
    ("path", "templates"),
    [
        ("", None),
        ("cells", {"lamp-cell", "silver-twice"}),
        ("cells/lamp-cell.yaml", {"lamp-cell"}),
        ("rail-plating.yaml", {"rail-plating"}),
        ("bank.yaml", None),
    ],
)
def test_a_path_stands_for_its_templates(path, templates):
    found = part_of_bank(EXAMPLES / path)
    assert found == PartOfBank(EXAMPLES, None if templates is None else frozenset(templates))


def test_a_path_from_within_the_bank_finds_it(monkeypatch):
    monkeypatch.chdir(EXAMPLES / "cells")
    assert part_of_bank(Path("lamp-cell.yaml")) == PartOfBank(EXAMPLES, frozenset({"lamp-cell"}))
    assert part_of_bank(Path()).templates == {"lamp-cell", "silver-twice"}


@pytest.mark.parametrize(
    ("path", "told"),
    [
        (
            "cells/lamp-cel.yaml",
            "expected a bank, or a template or a folder in one; found nothing at `{path}`. Did you mean `lamp-cell.yaml`? [no-such-file]",
        ),
        ("nowhere/at/all", "expected a bank, or a template or a folder in one; found nothing at `{path}` [no-such-file]"),
        ("..", "expected a folder with a `bank.yaml`; found `{path}`. Give the folder of the bank. [no-bank]"),
        (
            "../test_part_of_bank.py",
            "expected a folder with a `bank.yaml`; found `{path}`. Give the folder of the bank. [no-bank]",
        ),
    ],
)
def test_what_is_no_part_of_a_bank_is_told(path, told):
    with pytest.raises(Faulty) as error:
        part_of_bank(EXAMPLES / path)
    assert str(error.value) == told.format(path=EXAMPLES / path)


def test_a_folder_without_templates_is_told(tmp_path):
    (tmp_path / "bank.yaml").write_text("format: 1\n", encoding="utf-8")
    (tmp_path / "notes").mkdir()
    with pytest.raises(Faulty, match=r"a folder with templates; found .*notes.*The bank is .*\[no-template\]"):
        part_of_bank(tmp_path / "notes")
