"""A class's set: every student with a code, the seeds of their questions and the documents that come of them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from saltbridge import document as doc
from saltbridge.bank.plan import Plan
from saltbridge.bank.template import Template
from saltbridge.compose.practice import provenance
from saltbridge.compose.printing import Printer
from saltbridge.compose.sheet_lines import sheet_page
from saltbridge.deliver.homework.asked_questions import AskedQuestion
from saltbridge.deliver.homework.candidates import candidate, keys_of
from saltbridge.deliver.homework.class_list import ClassList, Student, in_order
from saltbridge.deliver.homework.codes import paper_codes
from saltbridge.deliver.homework.earlier_sets import EarlierSets
from saltbridge.deliver.homework.leads import exam_instructions, paper_lead
from saltbridge.deliver.homework.loads import Load, doubts, load_of
from saltbridge.deliver.homework.pools import Desk, match_of, pool_of, site_keys
from saltbridge.deliver.homework.record import Asked, Draw, Entry, Pairs, Record
from saltbridge.draw.allocation import Candidate, Pool, allocated
from saltbridge.draw.hidden_rows import hidden_rows, rows_read
from saltbridge.draw.seeds import Seed
from saltbridge.faults import Fault, Faulty, fault
from saltbridge.render.text import question_text, spans_text
from saltbridge.words import of_bank as words_of

Tell = Callable[[str], None]
Headings = tuple[tuple[int, str], ...]
"""The headings of sections, each with the number of the question that it stands before."""


@dataclass(frozen=True)
class ClassSet:
    """The set as it will be written: students in printed order, each with the entry of their paper."""

    plan: Plan
    desk: Desk
    record: Record
    members: tuple[tuple[Student, Entry], ...]
    loads: tuple[Load, ...]
    notes: tuple[Fault, ...]


def fingerprint(secret: str, identity: str) -> str:
    """What a record keeps of a student: the same for the same student and set, and no name."""
    return f"{Seed(secret, 'student', identity).number('who'):064x}"[:12]


class SetMaker:
    """Makes the set of a plan, going on from an earlier record where there is one."""

    def __init__(
        self, plan: Plan, desk: Desk, asked: Sequence[AskedQuestion], earlier: Record | None, avoided: EarlierSets, tell: Tell,
        secret: str, headings: Headings = (),
    ) -> None:  # fmt: skip
        self.plan, self.desk, self.asked, self.earlier, self.avoided, self.tell = plan, desk, asked, earlier, avoided, tell
        self.secret, self.headings = secret, headings
        self.pools: dict[str, Pool] = {}
        self.met: dict[tuple[str, str], Candidate] = {}
        self.hidden: dict[str, Template] = {}
        self.read: dict[str, Template] = {}

    def make(self, students: ClassList, again: Sequence[str] = ()) -> ClassSet:
        """The set. ``again`` are codes whose students get other numbers. Raises ``Faulty``."""
        entries = self._entries(students.students, again)
        asked = [self._allocate(place, each, entries) for place, each in enumerate(self.asked, 1)]
        self.tell("Working out every answer")
        papers, notes = self._papers(entries)
        older = [
            each
            for each in (self.earlier.entries if self.earlier else ())
            if each.code not in {one.code for one in entries.values()}
        ]
        kept = {each.code: self.earlier.papers[each.code] for each in older} if self.earlier else {}
        version, changes = self._version(papers)
        record = Record(
            self.secret, self._head(papers), self.desk.bank.settings, self._sheet(), tuple(asked),
            (*entries.values(), *(replace(each, current=each.current and not self._superseded(each, entries)) for each in older)),
            {**papers, **kept}, version, changes, _sources(self.desk),
        )  # fmt: skip
        loads = [self._load(place, each, entries) for place, each in enumerate(self.asked, 1)]
        members = self._members(students.students, entries)
        told = (*students.notes, *notes, *doubts(loads), *self._told_changes(changes))
        return ClassSet(self.plan, self.desk, record, tuple(members), tuple(loads), told)

    # -------------------------------------------------------------- students and their seeds

    def _entries(self, students: Sequence[Student], again: Sequence[str]) -> dict[str, Entry]:
        """An entry for each student by identity: the one that the record has, or a new one."""
        known = {each.who: each for each in self.earlier.entries if each.current} if self.earlier else {}
        repeated = {self._repeated(code).code for code in again}
        used = {each.code for each in self.earlier.entries} if self.earlier else set()
        found = {}
        for student in students:
            who = fingerprint(self.secret, student.identity)
            entry = known.get(who)
            if entry is None or entry.code in repeated:
                attempt = entry.attempt + 1 if entry else 1
                code = paper_codes(self.secret, student.identity, attempt, used)
                used.add(code)
                entry = Entry(code, who, student.shown_number, student.class_name, attempt, ())
            found[student.identity] = replace(entry, number=student.shown_number, class_name=student.class_name)
        return found

    def _repeated(self, code: str) -> Entry:
        if self.earlier is None:
            raise fault("no-record", expected="a record that knows the paper", found="none", hint="Name it after --record.")
        return self.earlier.entry(code)

    def _superseded(self, old: Entry, entries: Mapping[str, Entry]) -> bool:
        return any(each.who == old.who and each.attempt > old.attempt for each in entries.values())

    def _members(self, students: Sequence[Student], entries: Mapping[str, Entry]) -> list[tuple[Student, Entry]]:
        codes = {identity: entry.code for identity, entry in entries.items()}
        return [(each, entries[each.identity]) for each in in_order(students, self.plan.keys.order, codes)]

    def _allocate(self, place: int, asked: AskedQuestion, entries: dict[str, Entry]) -> Asked:
        """Give everyone who has no version of a question one; the match that it keeps."""
        self.tell(f"Choosing versions of question {place} of {len(self.asked)}")
        names = {each.id for each in asked.templates}
        without = [who for who, each in entries.items() if not any(_is_of(draw, asked.id, names) for draw in each.draws)]
        before = [draw for each in (*entries.values(), *self._older()) for draw in each.draws if _is_of(draw, asked.id, names)]
        taken = {draw.key for draw in before}
        barred = self.avoided.barred()
        for template in asked.templates:
            barred |= site_keys(self.desk.bank, template)
        needed = self._versions_lacking(without, taken)
        pool = self.pools[asked.id] = pool_of(self.desk, asked, self.secret, barred, needed, len(taken))
        known = next((each.match for each in self.earlier.asked if each.id == asked.id), None) if self.earlier else None
        match = known if known and before else match_of(pool, needed)
        if match is None:
            raise fault("no-versions", expected=f"versions of {asked.id}", found="none that can be drawn")
        new = [
            Draw(asked.id, each.template, each.seed, each.key, each.situation) for each in allocated(pool, match, needed, taken)
        ]
        if len(new) < needed:
            hint = (
                "The template asks in other parts or for other marks than when the set began: give that back, or begin a new set."
            )
            raise Faulty([Fault("no-versions", f"versions of {asked.id} like those of the record", "none", hint)])
        for who, draw in zip(without, self._handed_out(new, before, len(without)), strict=True):
            kept = tuple(old for old in entries[who].draws if old.question != asked.id)
            entries[who] = replace(entries[who], draws=(*kept, draw))
        return Asked(asked.id, tuple(sorted(names)), match)

    def _versions_lacking(self, without: Sequence[str], taken: Collection[str]) -> int:
        """How many new versions a question needs: one for each student who has none, or those of the exam that are not there yet."""
        versions = self.plan.keys.versions
        return len(without) if versions is None else max(0, min(versions, len(without) + len(taken)) - len(taken))

    def _handed_out(self, new: Sequence[Draw], before: Sequence[Draw], count: int) -> list[Draw]:
        """A version for each of so many students; the versions of an exam go round, on from those that are out."""
        if self.plan.keys.versions is None:
            return list(new)
        all_versions = list({draw.key: draw for draw in (*before, *new)}.values())
        return [all_versions[(len(before) + place) % len(all_versions)] for place in range(count)]

    def _older(self) -> tuple[Entry, ...]:
        return self.earlier.entries if self.earlier else ()

    # -------------------------------------------------------------- documents

    def _papers(self, entries: dict[str, Entry]) -> tuple[dict[str, Pairs], list[Fault]]:
        """The questions of every paper, and a word on those whose template has changed since they were printed."""
        papers: dict[str, Pairs] = {}
        changed: dict[str, None] = {}
        for identity, entry in entries.items():
            draws = {draw.question: draw for draw in entry.draws}
            ordered = [draws[each.id] for each in self.asked]
            printed = self._printed(entry)
            pairs = []
            for place, draw in enumerate(ordered, 1):
                pair = self._composed(place, draw)
                old = printed.get(draw.question)
                if old is not None and asked_text(*old) != asked_text(*pair):
                    pair = old
                    changed[draw.template] = None
                pairs.append(pair)
            papers[entry.code] = tuple(pairs)
            entries[identity] = replace(entry, draws=tuple(ordered))
        hint = "Those handed out stay as they are, with the answers that they had; new papers have the new text."
        notes = [
            Fault("template-changed", "the question as it was printed", f"`{name}` asks something else now", hint)
            for name in changed
        ]
        return papers, notes

    def _printed(self, entry: Entry) -> dict[str, tuple[doc.Question, doc.Variant]]:
        """The questions of a paper as the record has them, by the id of the question, of those that are still to be asked."""
        if self.earlier is None or entry.code not in self.earlier.papers:
            return {}
        before = next(each for each in self.earlier.entries if each.code == entry.code)
        now = {draw.question: draw for draw in entry.draws}
        pairs = zip(before.draws, self.earlier.papers[entry.code], strict=True)
        return {draw.question: pair for draw, pair in pairs if now.get(draw.question) == draw}

    def _composed(self, place: int, draw: Draw) -> tuple[doc.Question, doc.Variant]:
        template = self.desk.bank.template(draw.template)
        if template is None:
            raise fault(
                "no-template", expected=f"the template `{draw.template}` of the record", found="no such template in the bank"
            )
        seen = self.desk.see(template, place, draw.seed)
        self.met[draw.question, draw.seed] = candidate(seen, draw.seed)
        if template.hide_row:
            self.hidden.update(dict.fromkeys(hidden_rows(template, seen.drawn), template))
        else:
            self.read.update(dict.fromkeys(rows_read(seen.drawn), template))
        return seen.question, seen.variant

    def _load(self, place: int, asked: AskedQuestion, entries: Mapping[str, Entry]) -> Load:
        given = [
            self.met[draw.question, draw.seed] for each in entries.values() for draw in each.draws if draw.question == asked.id
        ]
        return load_of(place, asked.id, self.pools[asked.id], given)

    # -------------------------------------------------------------- head, sheet, version

    def _head(self, papers: Mapping[str, Pairs]) -> doc.Paper:
        """What all papers of the set share."""
        keys, bank, words = self.plan.keys, self.desk.bank, words_of(self.desk.bank.settings)
        first = next(iter(papers.values()))
        dates = keys.date_
        lead = paper_lead(dates.due if dates else None, words)
        day = dates and (dates.test or dates.set_)
        marks, minutes = (sum(getattr(question, what) for question, _ in first) for what in ("marks", "minutes"))
        return doc.Paper(
            title=keys.title, set_title=bank.settings.title, code="", lead=lead, questions=(),
            marks=marks, minutes=minutes, memorandum=False, footer=provenance(bank), teacher=keys.teacher or "",
            date=words.day(day) if day else "", not_before=words.day(keys.not_before) if keys.not_before else "",
            headings=self.headings, front=exam_instructions(marks, minutes, len(first), words) if keys.use == "exam" else (),
        )  # fmt: skip

    def _sheet(self) -> doc.SheetPage:
        hidden = frozenset(self.hidden) - self.read.keys()
        return sheet_page(self.desk.bank.sheet, Printer(self.desk.bank.settings, self.desk.catalogue), hidden)

    def _version(self, papers: Mapping[str, Pairs]) -> tuple[int, tuple[tuple[int, tuple[str, ...]], ...]]:
        """The memorandum's version, one higher where an accepted answer of a paper that is out has changed, and which papers."""
        if self.earlier is None:
            return 1, ()
        earlier = self.earlier
        before = {
            each.code: dict(zip((draw.question for draw in each.draws), earlier.papers[each.code], strict=True))
            for each in earlier.entries
        }
        ids = [each.id for each in self.asked]
        moved = [
            code
            for code, pairs in papers.items()
            if any(
                (old := before.get(code, {}).get(name))
                and asked_text(*old) == asked_text(*pair)
                and accepted(*old) != accepted(*pair)
                for name, pair in zip(ids, pairs, strict=True)
            )
        ]
        if not moved:
            return earlier.version, earlier.changes
        version = earlier.version + 1
        return version, (*earlier.changes, (version, tuple(moved)))

    def _told_changes(self, changes: Sequence[tuple[int, tuple[str, ...]]]) -> Iterator[Fault]:
        before = self.earlier.version if self.earlier else 1
        for version, codes in changes:
            if version > before:
                found = f"version {version} of the memorandum accepts other answers for " + ", ".join(codes)
                yield Fault("answers-changed", "the answers that were accepted before", found, "Look at those papers again.")


def _is_of(draw: Draw, asked: str, templates: set[str]) -> bool:
    return draw.question == asked and draw.template in templates


def _sources(desk: Desk) -> dict[str, str]:
    """The files of the bank that the set was made from, by their path in it: settings and templates."""
    bank = desk.bank
    files = ["bank.yaml", *(each.file for each in bank.templates if each.id in desk.used)]
    return {name: (bank.folder / name).read_text("utf-8") for name in files}


# ------------------------------------------------------------------ what is asked, what is accepted


def asked_text(question: doc.Question, variant: doc.Variant) -> str:
    """Everything that a student reads of a question, to tell whether it is still the one that was printed."""
    fields = [text for part in question.parts for text in _texts(part.field, variant.slots)]
    figures = [each.spoken for each in variant.figures]
    return "\n".join([question_text(question, variant, workings=False), *fields, *figures])


def _texts(node: Any, slots: Sequence[doc.Spans]) -> Iterator[str]:
    """The texts of a part's field, whatever its kind."""
    if isinstance(node, str):
        yield node
    elif isinstance(node, tuple) and node and all(isinstance(each, doc.Inline) for each in node):
        yield spans_text(node, slots)
    elif isinstance(node, tuple | list):
        for each in node:
            yield from _texts(each, slots)
    elif hasattr(node, "__dataclass_fields__") and not isinstance(node, doc.Inline):
        for name in node.__dataclass_fields__:
            yield from _texts(getattr(node, name), slots)


def accepted(question: doc.Question, variant: doc.Variant) -> list[Any]:
    """What a question's parts accept: the answer as printed, its range, what is right."""
    told = []
    for part, key in zip(question.parts, keys_of(question, variant), strict=False):
        told.append([spans_text(part.answer, variant.slots), key.get("lo"), key.get("hi"), repr(key.get("right"))])
    return told
