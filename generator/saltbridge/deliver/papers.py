"""Writes a set of papers: one PDF a paper named by its code, memoranda beside them, the data sheet by itself."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from saltbridge import document as doc
from saltbridge.deliver.ordinary_files import write_new
from saltbridge.deliver.writing import replacing
from saltbridge.faults import Fault, FaultList, Faulty, fault
from saltbridge.records import Settings
from saltbridge.render.typst import PaperWriter
from saltbridge.words import Words

MOST_COPIES = 25
"""Copies in one file: the compiler holds all of a file at once, some 40 MB a memorandum."""

Copy = TypeVar("Copy")
_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def check_character(text: str) -> str:
    """The ISO/IEC 7064 MOD 37,36 check character of digits and letters A–Z (other characters are skipped).

    It finds every single wrong character and nearly all swaps of two neighbours. The hybrid system of that standard is
    used since its check character is a letter or digit itself, so a code stays good as a file name.
    """
    product = 36
    for mark in text.upper():
        if mark in _ALPHABET:
            product = ((product + _ALPHABET.index(mark)) % 36 or 36) * 2 % 37
    return _ALPHABET[(37 - product) % 36]


def paper_code(set_name: str, paper: str) -> str:
    """The name of a paper: set, paper letters, check character, such as ``CELLS3-B-H``.

    Raises ``Faulty`` (``paper-code``) where set or paper holds anything but letters A–Z and digits.
    """
    parts = [set_name.upper(), paper.upper()]
    if not all(part and set(part) <= set(_ALPHABET) for part in parts):
        raise fault(
            "paper-code",
            expected="a set name and a paper letter of letters A–Z and digits",
            found=f"{set_name!r} and {paper!r}",
            hint="Write a short name such as CELLS3.",
        )
    return "-".join([*parts, check_character("".join(parts))])


def reads_as_code(typed: str) -> bool:
    """Whether a typed or scanned code has the right check character; case and dashes do not matter."""
    marks = [mark for mark in typed.upper() if mark in _ALPHABET]
    return len(marks) > 2 and check_character("".join(marks[:-1])) == marks[-1]


def paper_letters(number: int) -> str:
    """Paper 1 is A, 26 is Z, 27 is AA, as columns of a spreadsheet are named. ``number`` counts from 1."""
    letters = ""
    while number > 0:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


@dataclass(frozen=True, slots=True)
class Written:
    """The files of one set, relative to its folder, and what a teacher should know about them."""

    files: tuple[Path, ...]
    notes: tuple[Fault, ...]


def write_papers(
    folder: Path,
    papers: Sequence[doc.Paper],
    sheet: doc.SheetPage,
    words: Words,
    settings: Settings,
    *,
    fonts: Sequence[Path] = (),
) -> Written:
    """Papers under ``papers/``, memoranda under ``memoranda/``, each by its code; all of each in one file; the data sheet.

    The folder is replaced as a whole. Raises ``Faulty`` with the faults of all papers, and then writes nothing.
    """
    with replacing(folder) as staging:
        return set_papers(papers, sheet, PaperWriter(settings, words, fonts)).into(staging)


@dataclass(frozen=True, slots=True)
class PaperSet:
    """Papers that are set and not yet written: each file of the set, and what a teacher should know."""

    made: tuple[tuple[Path, bytes], ...]
    notes: tuple[Fault, ...]

    def into(self, staging: Path) -> Written:
        """Write them into a folder that is being built."""
        for place, pdf in self.made:
            (staging / place).parent.mkdir(exist_ok=True)
            write_new(staging / place, pdf)
        return Written(tuple(place for place, _ in self.made), self.notes)


def set_papers(papers: Sequence[doc.Paper], sheet: doc.SheetPage, writer: PaperWriter) -> PaperSet:
    """The files of a set, as ``write_papers`` writes them. Raises ``Faulty`` with the faults of all papers."""
    _refuse_doubles(papers)
    faults = FaultList()
    made: list[tuple[Path, bytes]] = []
    notes: dict[Fault, None] = {}
    for paper in papers:
        _collect(faults, made, notes, _place(paper), writer.paper, paper)
    for name, chosen in _groups(papers):
        if not faults.faults:
            made.append((Path(f"{name}.pdf"), writer.papers(chosen, stapled=True).pdf))
    _collect(faults, made, notes, Path("data-sheet.pdf"), writer.sheet, sheet)
    faults.stop_if_any()
    return PaperSet(tuple(made), tuple(notes))


def _collect(
    faults: FaultList, made: list[tuple[Path, bytes]], notes: dict[Fault, None], place: Path, write: Any, item: Any
) -> None:
    try:
        printed = write(item)
    except Faulty as error:
        faults.extend(error.faults)
    else:
        made.append((place, printed.pdf))
        notes.update(dict.fromkeys(printed.notes))


def _place(paper: doc.Paper) -> Path:
    return Path("memoranda" if paper.memorandum else "papers") / f"{paper.code}.pdf"


def _groups(papers: Sequence[doc.Paper]) -> Iterator[tuple[str, Sequence[doc.Paper]]]:
    """Papers and memoranda of more than one, for printing in one go."""
    for name, memorandum in (("all-papers", False), ("all-memoranda", True)):
        chosen = [paper for paper in papers if paper.memorandum is memorandum]
        if len(chosen) > 1:
            yield from in_files(name, chosen)


def in_files(name: str, papers: Sequence[Copy]) -> Iterator[tuple[str, Sequence[Copy]]]:
    """The papers, or whatever stands for them, in files of nearly equal length, at most ``MOST_COPIES`` each; several are called ``name-1of3``."""
    files = math.ceil(len(papers) / MOST_COPIES)
    each = math.ceil(len(papers) / max(1, files))
    for at in range(files):
        yield name if files == 1 else f"{name}-{at + 1}of{files}", papers[at * each : (at + 1) * each]


def _refuse_doubles(papers: Sequence[doc.Paper]) -> None:
    faults = FaultList()
    seen: set[Path] = set()
    for paper in papers:
        place = _place(paper)
        if place in seen:
            faults.add(
                "paper-code-twice", expected="one paper for each code", found=f"two papers named {paper.code}", key=paper.code
            )
        if not reads_as_code(paper.code) or set(paper.code) - set(_ALPHABET + "-"):
            faults.add("paper-code", expected="a code made by paper_code()", found=repr(paper.code), key=paper.code)
        seen.add(place)
    faults.stop_if_any()
