"""The lists that are printed for a class: the memorandum of final answers, the answer sheet, the print sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from saltbridge import document as doc
from saltbridge.deliver.homework.leads import marking_said
from saltbridge.deliver.homework.marking_grids import Grids, merged_keys
from saltbridge.deliver.homework.print_jobs import PrintedJob
from saltbridge.deliver.homework.record import Entry, Record
from saltbridge.render.text import spans_text
from saltbridge.words import Words

_WIDE = 180
"""Characters that stand side by side on a landscape page of a list."""

_AIR, _FIRST = 3, 16


def _text(text: str) -> doc.Spans:
    return (doc.Text(text),)


def _heads(*texts: str) -> tuple[doc.Spans, ...]:
    return tuple(map(_text, texts))


# ------------------------------------------------------------------ the class memorandum


def class_memorandum(record: Record, entries: Sequence[Entry], title: str, words: Words) -> doc.ClassSheet:
    """A row a student with all final answers, as many parts side by side as find room."""
    grids = Grids(record, words)
    columns = list(_columns(record, entries, grids))
    lead = (_text(marking_said(record.settings)), _text(_version(record, words)))
    tables = tuple(_answers(chosen, entries, words) for chosen in _side_by_side(columns))
    return doc.ClassSheet(f"{record.head.title} · {words('Memorandum')}", title, record.head.footer, lead, tables, landscape=True)


def _version(record: Record, words: Words) -> str:
    version = words("version {number}", number=str(record.version))
    before = words("Not for students before {date}", date=record.head.not_before) if record.head.not_before else ""
    return " · ".join(each for each in (version, before) if each)


def _columns(record: Record, entries: Sequence[Entry], grids: Grids) -> Iterator[tuple[str, list[doc.Spans], int]]:
    """Each part of each question: heading, answers with their slots filled, width in characters."""
    rows = [record.papers[entry.code] for entry in entries]
    keys = [[merged_keys(*pair) for pair in row] for row in rows]
    for place, (question, _) in enumerate(rows[0]):
        for at, part in enumerate(question.parts):
            cells = []
            for row, own in zip(rows, keys, strict=True):
                shape, variant = row[place]
                cells.append(filled(grids.answer(shape.parts[at], own[place][at], variant), variant.slots))
            head = f"{place + 1}{part.label} / {part.marks}"
            yield head, cells, max(len(head), *(len(spans_text(cell)) for cell in cells)) + _AIR


def filled(spans: doc.Spans, slots: Sequence[doc.Spans]) -> doc.Spans:
    """Spans with a variant's own pieces in place of its slots."""
    found: list[doc.Inline] = []
    for each in spans:
        found += filled(slots[each.index], slots) if isinstance(each, doc.Slot) else (each,)
    return tuple(found)


def _side_by_side(columns: Sequence[tuple[str, list[doc.Spans], int]]) -> Iterator[list[tuple[str, list[doc.Spans], int]]]:
    chosen: list[tuple[str, list[doc.Spans], int]] = []
    for each in columns:
        if chosen and _FIRST + sum(width for _, _, width in (*chosen, each)) > _WIDE:
            yield chosen
            chosen = []
        chosen.append(each)
    if chosen:
        yield chosen


def _answers(chosen: Sequence[tuple[str, list[doc.Spans], int]], entries: Sequence[Entry], words: Words) -> doc.Grid:
    head = (_text(words("Code")), _text(words("Number")), *(_text(name) for name, _, _ in chosen))
    rows = tuple(
        ((doc.Strong(_text(entry.code)),), _text(entry.number), *(cells[at] for _, cells, _ in chosen))
        for at, entry in enumerate(entries)
    )
    return doc.Grid((), head, rows)


# ------------------------------------------------------------------ the answer sheet


def answer_sheet(record: Record, words: Words) -> doc.ClassSheet:
    """A page on which a student writes final answers only, a row a part."""
    pairs = next(iter(record.papers.values()))
    rows = [
        (_text(f"{number} ({part.label})"), (), _unit(part, variant), _text(f"/ {part.marks}"))
        for number, (question, variant) in enumerate(pairs, 1)
        for part in question.parts
    ]
    head = _heads(words("Part"), words("Answer"), words("Unit"), words("Marks"))
    entries = (words("Name:"), words("Class:"), words("Code:"))
    title = f"{record.head.title} · {words('Answers')}"
    lead = (_text(words("Write your final answers here. Your working stays on the paper or in your book.")),)
    return doc.ClassSheet(
        title, record.head.set_title, record.head.footer, lead, (doc.Grid((), head, tuple(rows)),), entries, open_rows=True
    )


def _unit(part: doc.Part, variant: doc.Variant) -> doc.Spans:
    field = part.field
    return filled((field.unit,), variant.slots) if isinstance(field, doc.NumberField) and field.unit else ()


# ------------------------------------------------------------------ the print sheet


def print_sheet(record: Record, printed: Sequence[PrintedJob], others: Sequence[tuple[str, int]], words: Words) -> doc.ClassSheet:
    """What to print in which order, how to staple, and on which pages each code stands; ``others`` are further files with their pages."""
    head = record.head
    usual = sum(each.sheets for each in printed if not each.job.apart)
    apart = sum(each.sheets for each in printed if each.job.apart)
    lead = [
        words(
            "Print on both sides, in this order. {copies} papers, {sheets} sheets.",
            copies=str(_copies(printed)),
            sheets=str(usual + apart),
        ),
        words("After a jam: find the code below and print its pages again."),
    ]
    if apart:
        lead.insert(1, words("The last {sheets} sheets are jobs of their own.", sheets=str(apart)))
    tables = (_jobs(printed, others, words), _places(printed, words))
    return doc.ClassSheet(f"{head.title} · {words('Print sheet')}", head.set_title, head.footer, tuple(map(_text, lead)), tables)


def _copies(printed: Sequence[PrintedJob]) -> int:
    return sum(len(each.job.copies) for each in printed)


def _jobs(printed: Sequence[PrintedJob], others: Sequence[tuple[str, int]], words: Words) -> doc.Grid:
    head = _heads("", words("File"), words("Copies"), words("Pages"), words("Sheets"), words("Print"), words("Staple every"))
    rows = [
        (
            _text(str(number)), _text(f"{each.job.name}.pdf"), _text(str(len(each.job.copies))), _text(str(each.pages)),
            _text(str(each.sheets)), _text(_size(each, words)), _text(_sheets(each.pages_each // 2, words)),
        )
        for number, each in enumerate(printed, 1)
    ]  # fmt: skip
    rows += [
        (_text(str(number)), _text(name), _text("1"), _text(str(pages)), _text(str(-(-pages // 2))), (), ())
        for number, (name, pages) in enumerate(others, len(printed) + 1)
    ]
    return doc.Grid(_text(words("Jobs")), head, tuple(rows), numeric=(0, 2, 3, 4))


def _size(each: PrintedJob, words: Words) -> str:
    settings = each.job.copies[0].settings
    paper = {"a4": "A4", "a3": "A3", "us-letter": "Letter"}[settings.paper]
    return words("{paper}, {size} pt", paper=paper, size=str(settings.print_size))


def _sheets(number: int, words: Words) -> str:
    return words("1 sheet") if number == 1 else words("{count} sheets", count=number)


def _places(printed: Sequence[PrintedJob], words: Words) -> doc.Grid:
    """Code → file and pages."""
    head = _heads(words("Code"), words("Number"), words("File"), words("Pages"))
    rows = []
    for each in printed:
        for at, copy in enumerate(each.job.copies):
            pages = f"{at * each.pages_each + 1}–{(at + 1) * each.pages_each}"
            rows.append((_text(copy.entry.code), _text(copy.entry.number), _text(f"{each.job.name}.pdf"), _text(pages)))
    return doc.Grid(_text(words("Where each paper is")), head, tuple(rows))
