"""A record of format 1, kept as it was written: every version of saltbridge prints the same questions and answers from it.

``golden/record-1.zip`` is never written again; a new format gets a file of its own. The texts beside it are what its first paper and
memorandum say.
"""

from __future__ import annotations

import subprocess
import unicodedata
from pathlib import Path

import pytest

from saltbridge.deliver.homework.rebuilt import rebuilt
from saltbridge.deliver.homework.record import read_record

GOLDEN = Path(__file__).parent / "golden"
RECORD = GOLDEN / "record-1.zip"


def said(pdf):
    """The words of a PDF in reading order, one to a line, so that a change is seen where it is."""
    done = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True)
    return "\n".join(unicodedata.normalize("NFKC", done.stdout.decode()).split()) + "\n"


@pytest.mark.parametrize("memorandum", [False, True], ids=["paper", "memorandum"])
def test_a_paper_of_a_kept_record_says_what_it_said(memorandum):
    code = read_record(RECORD).entries[0].code
    _, printed = rebuilt(RECORD, code, memorandum=memorandum)
    kept = (GOLDEN / f"record-1-{'memorandum' if memorandum else 'paper'}.txt").read_text("utf-8")
    assert said(printed.pdf) == kept


def test_every_paper_of_a_kept_record_is_printed():
    record = read_record(RECORD)
    assert len(record.entries) == 4
    for entry in record.entries:
        for memorandum in (False, True):
            assert entry.code in said(rebuilt(RECORD, entry.code, memorandum=memorandum)[1].pdf)
