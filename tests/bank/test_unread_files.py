"""Files and folders of a bank that the system does not let us read: each is a fault by its place in the bank, with all others."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from saltbridge.bank.bank import load_bank, survey_bank
from saltbridge.faults import Faulty
from saltbridge.home import MARKER

BANK = Path(__file__).resolve().parent.parent / "build" / "bank"


@pytest.fixture
def bank(tmp_path):
    """A right bank with a topic folder."""
    folder = tmp_path / "bank"
    shutil.copytree(BANK, folder)
    (folder / "cells").mkdir()
    (folder / "mass-plated.yaml").rename(folder / "cells" / "mass-plated.yaml")
    assert load_bank(folder).templates
    return folder


def _told(folder):
    return [str(each) for each in survey_bank(folder)[1]]


def test_a_template_without_the_right_to_read_is_told_by_its_place_beside_the_other_faults(bank, monkeypatch):
    (bank / "cells" / "odd.YAML").write_text("title: x")
    opened = Path.open

    def refusing(self, *arguments, **options):
        if self.name == "mass-plated.yaml":
            raise PermissionError(13, "Permission denied", str(self))
        return opened(self, *arguments, **options)

    monkeypatch.setattr(Path, "open", refusing)
    assert _told(bank) == [
        (
            "cells/mass-plated.yaml: expected a file that can be read; found permission denied. "
            "Give yourself the right to read it. [unreadable]"
        ),
        "cells/odd.YAML: expected the ending `.yaml`; found `.YAML` [file-name]",
    ]


def test_a_folder_without_the_right_to_look_into_is_told(bank, monkeypatch):
    scan = os.scandir

    def refusing(path):
        if Path(path).name == "cells":
            raise PermissionError(13, "Permission denied", str(path))
        return scan(path)

    monkeypatch.setattr(os, "scandir", refusing)
    assert _told(bank) == [
        (
            "cells: expected a folder that can be read; found permission denied. "
            "Give yourself the right to read it, or take it out. [unreadable]"
        )
    ]


def test_what_was_published_into_the_bank_is_not_read_as_questions(bank):
    before = load_bank(bank).templates
    (bank / "out" / "site" / "deep").mkdir(parents=True)
    (bank / "out" / MARKER).write_text("ours")
    assert load_bank(bank).templates == before


def test_a_bank_that_is_not_there_is_told():
    with pytest.raises(Faulty, match="no-bank"):
        load_bank(Path("nowhere"))
