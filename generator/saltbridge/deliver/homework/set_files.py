"""Writes the files of a set into a folder that is being built: papers in jobs, lists for the teacher, tables, the record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from saltbridge import document as doc
from saltbridge.bank.bank import load_bank
from saltbridge.deliver.homework.cell_tables import CellTable, csv_bytes, xlsx_bytes
from saltbridge.deliver.homework.class_set import ClassSet, Tell
from saltbridge.deliver.homework.file_names import class_stems, stem
from saltbridge.deliver.homework.key_tables import key_table, marks_table, names_table
from saltbridge.deliver.homework.leads import memorandum_lead, paper_lead
from saltbridge.deliver.homework.marking_grids import Grids
from saltbridge.deliver.homework.moderation import moderation_pack
from saltbridge.deliver.homework.pools import Desk
from saltbridge.deliver.homework.print_jobs import Copy, Job, PrintedJob, copies, jobs, paper_of
from saltbridge.deliver.homework.record import Pairs, written
from saltbridge.deliver.homework.teacher_sheets import answer_sheet, class_memorandum, print_sheet
from saltbridge.deliver.ordinary_files import write_new
from saltbridge.faults import Fault
from saltbridge.policy import policy
from saltbridge.records import Settings
from saltbridge.render.typst import PaperWriter, Printed
from saltbridge.words import Words
from saltbridge.words import of_bank as words_of

RECORD = "record.zip"


@dataclass
class SetFiles:
    """Writes one set."""

    made: ClassSet
    tell: Tell
    notes: dict[Fault, None] = field(default_factory=dict)
    _writers: dict[Settings, PaperWriter] = field(default_factory=dict)
    _desks: dict[str, Desk] = field(default_factory=dict)

    def into(self, folder: Path) -> tuple[Fault, ...]:
        """Write everything; what a teacher should know is handed back."""
        made, record = self.made, self.made.record
        words = words_of(record.settings)
        title = made.plan.keys.title
        every = tuple(copies(made.members, record.settings, record.head.minutes))
        planned = jobs(title, every, record.settings)
        printed = [self._job(folder, job, at, len(planned)) for at, job in enumerate(planned, 1)]
        self.tell("Setting the memorandum and the marking grids")
        others = [*self._of_classes(folder, words), *self._of_set(folder, words)]
        self._pdf(
            folder,
            f"{stem(title)}-print-sheet.pdf",
            self._writer(record.settings).class_sheet(print_sheet(record, printed, others, words)),
        )
        if made.plan.keys.solutions:
            self._solutions(folder, planned)
        if made.plan.keys.each:
            self._each(folder, every)
        self._tables(folder)
        write_new(folder / RECORD, written(record))
        return tuple(self.notes)

    # -------------------------------------------------------------- papers

    def _job(self, folder: Path, job: Job, at: int, of: int) -> PrintedJob:
        self.tell(f"Setting papers, file {at} of {of}")
        papers = [self._paper(copy) for copy in job.copies]
        made = self._writer(job.copies[0].settings).papers(papers, stapled=True)
        self.notes.update(dict.fromkeys(made.notes))
        write_new(folder / f"{job.name}.pdf", made.pdf)
        return PrintedJob(job, made.pages)

    def _paper(self, copy: Copy) -> doc.Paper:
        questions = self.made.record.papers[copy.entry.code]
        if copy.settings.language != self.made.record.settings.language:
            questions = self._translated(copy)
        dates = self.made.plan.keys.date_
        head = replace(self.made.record.head, lead=paper_lead(dates.due if dates else None, words_of(copy.settings)))
        return paper_of(copy, head, questions, named=self.made.plan.keys.names)

    def _translated(self, copy: Copy) -> Pairs:
        """The same questions and numbers with what saltbridge says in another language."""
        language = copy.settings.language
        bank = self.made.desk.bank
        if language not in self._desks:
            self._desks[language] = Desk(load_bank(bank.folder, {**self.made.plan.instead(), "language": language}))
        desk = self._desks[language]
        pairs = []
        for place, draw in enumerate(copy.entry.draws, 1):
            template = desk.bank.template(draw.template)
            if template is None:
                raise KeyError(draw.template)
            seen = desk.see(template, place, draw.seed)
            pairs.append((seen.question, seen.variant))
        return tuple(pairs)

    def _solutions(self, folder: Path, planned: Sequence[Job]) -> None:
        """The solutions of each job of papers, in its print, by code and without names."""
        for job in planned:
            self.tell(f"Setting solutions for {job.name}")
            papers = [replace(self._paper(copy), student="", list_number="") for copy in job.copies]
            self._pdf(folder, f"{job.name}-solutions.pdf", self._writer(job.copies[0].settings).solutions(papers))

    def _each(self, folder: Path, every: Sequence[Copy]) -> None:
        """A file a student for papers and memoranda, named by code; two languages stand in one file each."""
        say = memorandum_lead(self.made.record.settings)
        for name in ("papers", "memoranda"):
            (folder / name).mkdir()
        for at, copy in enumerate(every, 1):
            if at % 10 == 1:
                self.tell(f"Setting single papers, {at} of {len(every)}")
            paper = self._paper(copy)
            writer = self._writer(copy.settings)
            tail = "" if copy.settings.language == self.made.record.settings.language else f"-{copy.settings.language}"
            self._pdf(folder, f"papers/{paper.code}{tail}.pdf", writer.paper(paper))
            if not tail:
                memorandum = replace(
                    paper,
                    memorandum=True,
                    student="",
                    lead=say,
                    numbered=policy(self.made.record.settings.policy).numbered,
                    version=self.made.record.version,
                )
                self._pdf(folder, f"memoranda/{paper.code}.pdf", writer.paper(memorandum))

    # -------------------------------------------------------------- for the teacher

    def _of_classes(self, folder: Path, words: Words) -> list[tuple[str, int]]:
        """Memorandum and marking grid of each class: their names and pages."""
        record, found = self.made.record, []
        grids = Grids(record, words)
        title = self.made.plan.keys.title
        for class_name, first in class_stems(title, (entry.class_name for _, entry in self.made.members)).items():
            entries = [entry for _, entry in self.made.members if entry.class_name == class_name]
            named = " · ".join(each for each in (title, class_name) if each)
            sheet = class_memorandum(record, entries, named, words)
            found.append(self._pdf(folder, f"{first}-memorandum.pdf", self._writer(record.settings).class_sheet(sheet)))
            made = [grids.grid(place, entries, named) for place in range(len(record.asked))]
            said = f"{named} · {words('Marking grid')}"
            found.append(self._pdf(folder, f"{first}-marking-grid.pdf", self._writer(record.settings).marking_grids(said, made)))
        return found

    def _of_set(self, folder: Path, words: Words) -> list[tuple[str, int]]:
        record, first = self.made.record, stem(self.made.plan.keys.title)
        writer = self._writer(record.settings)
        pack = [] if self.made.plan.keys.use != "exam" else [
            self._pdf(folder, f"{first}-moderation.pdf", writer.handout(moderation_pack(self.made, words)))
        ]  # fmt: skip
        return [
            *pack,
            self._pdf(folder, f"{first}-answer-sheet.pdf", writer.class_sheet(answer_sheet(record, words))),
            self._pdf(folder, f"{first}-data-sheet.pdf", writer.sheet(record.sheet)),
        ]

    def _pdf(self, folder: Path, name: str, printed: Printed) -> tuple[str, int]:
        self.notes.update(dict.fromkeys(printed.notes))
        write_new(folder / name, printed.pdf)
        return name, printed.pages

    def _tables(self, folder: Path) -> None:
        """Key and marks as CSV and XLSX; the names apart."""
        record, members = self.made.record, self.made.members
        for table in (key_table(record, members), marks_table(record, members)):
            self._csv(folder, table)
            write_new(folder / f"{table.name}.xlsx", xlsx_bytes(table))
        if self.made.plan.keys.names:
            self._csv(folder, names_table(members))

    def _csv(self, folder: Path, table: CellTable) -> None:
        write_new(folder / f"{table.name}.csv", csv_bytes(table, self.made.record.settings.decimal_mark))

    def _writer(self, settings: Settings) -> PaperWriter:
        """The writer of these settings, kept since its second paper is ten times faster than the first."""
        if settings not in self._writers:
            self._writers[settings] = PaperWriter(settings, words_of(settings))
        return self._writers[settings]
