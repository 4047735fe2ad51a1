"""The pack for those who moderate an exam: where its marks lie, what it leans on, what repeats, one version against the others, a page to sign."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

from saltbridge import document as doc
from saltbridge.bank.template import Template
from saltbridge.deliver.homework.class_set import ClassSet
from saltbridge.deliver.homework.record import Draw, Entry, Pairs
from saltbridge.draw.hidden_rows import rows_read
from saltbridge.words import Words

DEMANDS = ("recall", "routine", "apply", "judge", "")
"""The columns of the grid, with templates that state no demand last."""


def moderation_pack(made: ClassSet, words: Words) -> doc.Handout:
    """The pack of a set; a set of one paper for each student is looked at by its first ones."""
    versions = _versions(made)
    first = made.record.papers[versions[0].code]
    templates = [_template(made, draw) for draw in versions[0].draws]
    sections = [
        doc.Section(words("Marks by outcome and demand"), (_grid(templates, first, words),), whole=False),
        doc.Section(words("Questions"), (_questions(made, templates, first, words),), whole=False),
        doc.Section(words("What is needed of the data sheet"), (_rows(made, versions[0], words),)),
        doc.Section(words("Situations that repeat"), (_repeats(versions, words),)),
        *(_against(made, versions, words) if len(versions) > 1 else ()),
        doc.Section(words("Signed off"), (_signing(words),)),
    ]
    total, minutes = (sum(getattr(question, what) for question, _ in first) for what in ("marks", "minutes"))
    lead = words(
        "{marks} marks, {minutes} minutes, {count} questions.", marks=str(total), minutes=str(minutes), count=str(len(first))
    )
    title = words("Moderation: {title}", title=made.plan.keys.title)
    return doc.Handout(title, (_said(lead),), tuple(sections), (), made.record.head.footer)


def _versions(made: ClassSet) -> list[Entry]:
    """The first paper of each version, in the order handed out; at most as many as the plan has versions, or two."""
    found: dict[tuple[str, ...], Entry] = {}
    for _, entry in made.members:
        found.setdefault(tuple(draw.key for draw in entry.draws), entry)
    return list(found.values())[: made.plan.keys.versions or 2]


def _template(made: ClassSet, draw: Draw) -> Template:
    template = made.desk.bank.template(draw.template)
    if template is None:
        raise KeyError(draw.template)
    return template


def _said(text: str) -> doc.Paragraph:
    return doc.Paragraph((doc.Text(text),))


def _cells(*texts: str) -> tuple[doc.Spans, ...]:
    return tuple((doc.Text(each),) if each else () for each in texts)


def _table(
    head: Sequence[str], rows: Iterable[tuple[doc.Spans, ...]], *, numeric: tuple[int, ...] = (), ruled: bool = False
) -> doc.Grid:
    return doc.Grid((), _cells(*head), tuple(rows), row_heads=True, numeric=numeric, ruled=ruled)


def _grid(templates: Sequence[Template], pairs: Pairs, words: Words) -> doc.Grid:
    """Marks by outcome and demand, with sums on both sides and shares beneath."""
    worth: dict[str, Counter[str]] = defaultdict(Counter)
    for template, (question, _) in zip(templates, pairs, strict=True):
        worth[template.outcome][template.demand or ""] += question.marks
    shown = [demand for demand in DEMANDS if any(row[demand] for row in worth.values())]
    sums = {demand: sum(row[demand] for row in worth.values()) for demand in shown}
    total = sum(sums.values())
    rows = [
        _cells(outcome, *(str(worth[outcome][demand] or "") for demand in shown), str(sum(worth[outcome].values())))
        for outcome in sorted(worth, key=_in_order)
    ]
    rows += [
        _cells(words("Total"), *(str(sums[demand]) for demand in shown), str(total)),
        _cells(words("Share"), *(f"{round(100 * sums[demand] / total)} %" for demand in shown), "100 %"),
    ]
    head = (words("Outcome"), *(words(demand) if demand else words("not stated") for demand in shown), words("Total"))
    return _table(head, rows, numeric=tuple(range(1, len(shown) + 2)))


def _in_order(outcome: str) -> tuple[int, ...]:
    """T10.2 after T9.1."""
    return tuple(int(number) for number in outcome.removeprefix("T").split("."))


def _questions(made: ClassSet, templates: Sequence[Template], pairs: Pairs, words: Words) -> doc.Grid:
    headings = dict(made.record.head.headings)
    section, rows = "", []
    for place, (template, (question, _)) in enumerate(zip(templates, pairs, strict=True), 1):
        section = headings.get(place, section)
        rows.append(_cells(str(place), question.title, section, template.outcome, str(question.marks), str(question.minutes)))
    head = (words("Question"), words("Title"), words("Section"), words("Outcome"), words("Marks"), words("Minutes"))
    return _table(head, rows, numeric=(4, 5))


def _rows(made: ClassSet, entry: Entry, words: Words) -> doc.Grid:
    """The rows of the sheet that each question reads."""
    rows = []
    for place, draw in enumerate(entry.draws, 1):
        drawn = made.desk.see(_template(made, draw), place, draw.seed).drawn
        read = {
            label.plain: label
            for label in drawn.situation.labels.values()
            if "/" in label.plain and label.plain in rows_read(drawn)
        }
        couples: list[doc.Inline] = []
        for name in sorted(read):
            couples += [*([doc.Text(", ")] if couples else []), read[name]]
        rows.append((*_cells(str(place)), tuple(couples) or (doc.Text(words("none")),)))
    return _table((words("Question"), words("Couples")), rows)


def _repeats(versions: Sequence[Entry], words: Words) -> doc.Block:
    """Questions of one version that tell of the same things."""
    told = [
        words("Version {version}: questions {numbers}.", version=_letter(at), numbers=", ".join(map(str, same)))
        for at, entry in enumerate(versions)
        for same in _same(entry)
    ]
    return _said(" ".join(told) or words("None within a version."))


def _same(entry: Entry) -> list[list[int]]:
    """The numbers of questions with one situation, where there are several."""
    places: dict[str, list[int]] = defaultdict(list)
    for place, draw in enumerate(entry.draws, 1):
        places[draw.situation].append(place)
    return [each for each in places.values() if len(each) > 1]


def _letter(at: int) -> str:
    return "ABCDEFGHIJKLMNOPQRSTUVWXYZ"[at % 26]


def _against(made: ClassSet, versions: Sequence[Entry], words: Words) -> tuple[doc.Section, ...]:
    """The answers of each version side by side, part by part."""
    papers = [made.record.papers[entry.code] for entry in versions]
    rows = [
        (*_cells(f"{place} ({part.label})", str(part.marks)), *(_answer(paper, place, at) for paper in papers))
        for place, (question, _) in enumerate(papers[0], 1)
        for at, part in enumerate(question.parts)
    ]
    head = (words("Part"), words("Marks"), *(words("Version {version}", version=_letter(at)) for at in range(len(papers))))
    codes = ", ".join(f"{_letter(at)}: {entry.code}" for at, entry in enumerate(versions))
    lead = _said(words("A paper of each, to solve again: {codes}.", codes=codes))
    return (doc.Section(words("The versions side by side"), (lead, _table(head, rows, numeric=(1,))), whole=False),)


def _answer(paper: Pairs, place: int, at: int) -> doc.Spans:
    question, variant = paper[place - 1]
    return _filled(question.parts[at].answer, variant) if at < len(question.parts) else ()


def _filled(spans: doc.Spans, variant: doc.Variant) -> doc.Spans:
    """The spans with the variant's own pieces in their slots."""
    out: list[doc.Inline] = []
    for span in spans:
        out += variant.slots[span.index] if isinstance(span, doc.Slot) else (span,)
    return tuple(out)


def _signing(words: Words) -> doc.Grid:
    roles = (words("Set by"), words("Solved again by"), words("Moderated by"), words("Approved by"))
    return _table(
        (words("Role"), words("Name"), words("Date"), words("Remarks")),
        [(*_cells(role), (), (), ()) for role in roles],
        ruled=True,
    )
