"""Marking grids: a page a question, a row a student, a column a part, with what is right, accepted, and commonly wrong."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge import document as doc
from saltbridge.answers.judge import merge
from saltbridge.deliver.homework.leads import marking_said
from saltbridge.deliver.homework.record import Entry, Record
from saltbridge.deliver.homework.wrong_values import Wrong, commonest, followed, wrong_answers
from saltbridge.render.memo_options import right_signs, shown_errors
from saltbridge.render.text import spans_text
from saltbridge.sigfigs import number_words, print_number
from saltbridge.words import Words

ERRORS = "KLMNPRSTUVWXYZ"
"""Letters of errors: none that an option has, and neither O nor Q."""

LONGEST_ANSWER = 34
"""Characters of a choice's answer beside its letter; a longer one is told by the letter alone."""

Pair = tuple[doc.Question, doc.Variant]


@dataclass(frozen=True)
class Grids:
    """Makes the grids of a record in one bank's words."""

    record: Record
    words: Words

    def grid(self, place: int, entries: Sequence[Entry], title: str) -> doc.MarkingGrid:
        """The grid of question ``place`` (from 0) for these students, under a title that names set and class."""
        pairs = [self.record.papers[entry.code][place] for entry in entries]
        first = pairs[0][0]
        keys = [merged_keys(*pair) for pair in pairs]
        own = [
            [_wrong_of(*each) for each in zip(question.parts, row, strict=True)]
            for (question, _), row in zip(pairs, keys, strict=True)
        ]
        shown = [commonest([row[at] for row in own]) for at in range(len(first.parts))]
        chosen = [[_first_of_each(row[at], shown[at]) for at in range(len(first.parts))] for row in own]
        after = _most_common(
            [[followed(keys[row], at, chosen[row]) for at in range(len(first.parts))] for row in range(len(entries))]
        )
        letters = _letters(shown)
        rows = tuple(
            self._row(entry, pair, keys[at], chosen[at], after[at], letters)
            for at, (entry, pair) in enumerate(zip(entries, pairs, strict=True))
        )
        said = tuple((letter, self._said(name, [question for question, _ in pairs])) for name, letter in letters.items())
        policy_said = marking_said(self.record.settings)
        parts = tuple((part.label, part.marks) for part in first.parts)
        return doc.MarkingGrid(
            place + 1,
            first.title,
            title,
            policy_said,
            self.record.version,
            self.record.head.footer,
            parts,
            rows,
            said,
            written_points(first),
        )

    def _row(
        self,
        entry: Entry,
        pair: Pair,
        keys: Sequence[Mapping[str, Any]],
        chosen: Sequence[Sequence[Wrong]],
        after: Sequence[Sequence[Wrong]],
        letters: Mapping[str, str],
    ) -> doc.GridRow:
        question, variant = pair
        cells = tuple(
            doc.GridCell(
                self.answer(part, key, variant),
                self.accepted(key),
                tuple(self._wrong(each, letters) for each in (*chosen[at], *after[at]) if each.error in letters),
            )
            for at, (part, key) in enumerate(zip(question.parts, keys, strict=True))
        )
        return doc.GridRow(entry.code, entry.number, variant, cells)

    def answer(self, part: doc.Part, key: Mapping[str, Any], variant: doc.Variant) -> doc.Spans:
        """A part's answer, before it the letters of right options; one in words is marked by its points, which stand below."""
        if isinstance(part.field, doc.WrittenField):
            return (doc.Text(self.words("by its points")),)
        letters = right_signs(part.field, key)
        if not letters:
            return part.answer
        short = len(spans_text(part.answer, variant.slots)) <= LONGEST_ANSWER
        return (doc.Text(f"{letters}\u2002"), *part.answer) if short else (doc.Text(letters),)

    def accepted(self, key: Mapping[str, Any]) -> doc.Spans:
        """The accepted range of a number."""
        if key.get("kind") != "number" or key.get("whole") or "lo" not in key or "hi" not in key:
            return ()
        low, high = (self._number(str(key[end])) for end in ("lo", "hi"))
        return self.words.spans("{low} to {high}", low=low, high=high)

    def _wrong(self, each: Wrong, letters: Mapping[str, str]) -> doc.WrongValue:
        value = self._number(each.text) if each.number else doc.Text(each.text)
        return doc.WrongValue(letters[each.error], (value,), each.follows)

    def _number(self, text: str) -> doc.Inscription:
        return print_number(text, self.record.settings.decimal_mark, say=number_words(self.words))

    def _said(self, error: str, questions: Sequence[doc.Question]) -> doc.Spans:
        """What an error is: the wrong equation where it is the same for all, else the question that helps out of it."""
        for question in questions:
            for part in question.parts:
                for each in part.errors:
                    if each.id == error and not _has_slots(each.said):
                        return each.said
        return (doc.Text(next((hint for question in questions for hint in _hints(question, error)), error)),)


def written_points(question: doc.Question) -> tuple[tuple[str, doc.Spans], ...]:
    """The points of parts that are answered in words, each under its part."""
    told: list[tuple[str, doc.Spans]] = []
    for part in question.parts:
        if isinstance(part.field, doc.WrittenField):
            told += [(part.label, (*point.text, doc.Text(f" [{point.marks}]"))) for point in part.field.points]
    return tuple(told)


def merged_keys(question: doc.Question, variant: doc.Variant) -> list[dict[str, Any]]:
    """The keys of a question's parts as the judge takes them."""
    shares = (*variant.judge, *({} for _ in question.parts))
    return [merge(part.judge, share, question.graph, variant.given) for part, share in zip(question.parts, shares, strict=False)]


def _wrong_of(part: doc.Part, key: Mapping[str, Any]) -> list[Wrong]:
    """What the errors of a part give; of options that are chosen together, those that a hint explains."""
    if found := wrong_answers(key):
        return found
    hints = key.get("hints", {})
    return [
        Wrong(names[0], sign, number=False, value=None)
        for sign, names in shown_errors(part.field, key)
        if names and isinstance(hints, Mapping) and names[0] in hints
    ]


def _first_of_each(row: Sequence[Wrong], shown: Sequence[str]) -> list[Wrong]:
    """What the shown errors give, in their order; an error that leads to two answers by its first."""
    found: dict[str, Wrong] = {}
    for each in row:
        found.setdefault(each.error, each)
    return [found[name] for name in shown if name in found]


def _most_common(after: Sequence[Sequence[Sequence[Wrong]]]) -> list[list[list[Wrong]]]:
    """What follows in each student's parts, for the errors that most students' versions show there."""
    kept = [commonest([row[at] for row in after]) for at in range(len(after[0]))]
    return [[[each for each in part if each.error in kept[at]] for at, part in enumerate(row)] for row in after]


def _letters(shown: Sequence[Sequence[str]]) -> dict[str, str]:
    """A letter for each error of the page, in the order of parts."""
    names = list(dict.fromkeys(name for part in shown for name in part))
    return {
        name: ERRORS[at % len(ERRORS)] + (str(at // len(ERRORS) + 1) if at >= len(ERRORS) else "")
        for at, name in enumerate(names)
    }


def _has_slots(node: Any) -> bool:
    """Whether a variant's own piece stands anywhere in it."""
    if isinstance(node, doc.Slot):
        return True
    if isinstance(node, tuple | list):
        return any(_has_slots(each) for each in node)
    names = getattr(node, "__dataclass_fields__", ())
    return any(_has_slots(getattr(node, name)) for name in names)


def _hints(question: doc.Question, error: str) -> Iterator[str]:
    for part in question.parts:
        slips = part.judge.get("slips", ())
        if isinstance(slips, list | tuple):
            yield from (
                str(each["hint"]) for each in slips if isinstance(each, Mapping) and each.get("id") == error and each.get("hint")
            )
        hints = part.judge.get("hints", {})
        if isinstance(hints, Mapping) and hints.get(error):
            yield str(hints[error])
