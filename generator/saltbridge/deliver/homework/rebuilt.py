"""A paper or memorandum of a record, printed again."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from saltbridge.deliver.homework.leads import memorandum_lead
from saltbridge.deliver.homework.record import read_record
from saltbridge.deliver.ordinary_files import head_of, write_new
from saltbridge.faults import Faulty, fault
from saltbridge.policy import policy
from saltbridge.records import Settings
from saltbridge.render.typst import PaperWriter, Printed
from saltbridge.words import of_bank as words_of


def rebuilt(
    record_file: Path, code: str, *, memorandum: bool, name: str = "", print_size: int = 0, paper: str = ""
) -> tuple[str, Printed]:
    """The code as it stands in the record, and the paper or memorandum. Raises ``Faulty`` as the record or the code is wrong.

    ``name`` is printed on a paper's name line; ``print_size`` and ``paper`` stand in place of the set's.
    """
    record = read_record(record_file)
    entry = record.entry(code)
    settings = _sized(record.settings, print_size, paper)
    try:
        document = record.paper(entry.code, memorandum=memorandum)
        if memorandum:
            document = replace(document, lead=memorandum_lead(settings), numbered=policy(settings.policy).numbered)
        else:
            document = replace(document, student=name or entry.number)
        return entry.code, PaperWriter(settings, words_of(settings)).paper(document)
    except Faulty:
        raise
    except Exception as error:  # noqa: BLE001 - a record that was tampered with may be wrong in any way
        found = f"what can't be printed ({type(error).__name__})"
        raise fault(
            "record", expected="a record as it was written", found=found, hint="Take the file from your copy of the set."
        ) from None


def _sized(settings: Settings, print_size: int, paper: str) -> Settings:
    return replace(settings, print_size=print_size or settings.print_size, paper=paper or settings.paper)  # type: ignore[arg-type]  # the command line has checked the word


def write_pdf(path: Path, printed: Printed) -> None:
    """Put the PDF there where nothing stands; one that is there is not overwritten. Raises ``Faulty`` (``file-there``)."""
    if head_of(path) is not None:
        raise fault("file-there", expected="a new file", found=f"{path} is there already", hint="Name another by --to FILE.")
    path.parent.mkdir(parents=True, exist_ok=True)
    write_new(path, printed.pdf)
