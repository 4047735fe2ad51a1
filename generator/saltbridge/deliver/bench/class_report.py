"""The report of a class: readings and flags, means and order, the table beside them, differences, another reference, and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saltbridge.deliver.bench.against_table import Gap, Inversion, gaps, inversions, rank_correlation
from saltbridge.deliver.bench.class_means import Mean, Triangle, class_means, ranking, rebased, triangles
from saltbridge.deliver.bench.class_readings import ClassReading
from saltbridge.deliver.bench.cleaning import Flag, clean, flags
from saltbridge.deliver.bench.lesson import Lesson, paragraph, steps, table_of, text
from saltbridge.document import Block, Figure, Grid, Handout, Inscription, Piece, Section, Spans
from saltbridge.tables.bench_causes import Cause, bench_causes
from saltbridge.tables.benches import bands

CAUSES = {
    "flipped lead": "The leads look turned round: the other sign fits.",
    "factor 1000": "Millivolts look written as volts, or volts as millivolts.",
    "": "It lies far from the others. Ask the group what happened.",
}
"""What is said of a flagged reading, by cause."""


@dataclass(frozen=True, slots=True)
class Findings:
    """What is found in the readings of one class, or of all; ``means`` are of the clean readings, ``raw`` of all."""

    readings: tuple[ClassReading, ...]
    flagged: tuple[Flag, ...]
    raw: dict[str, Mean]
    means: dict[str, Mean]
    places: tuple[tuple[str, ...], ...]
    gaps: tuple[Gap, ...]
    inversions: tuple[Inversion, ...]
    correlation: float | None
    triangles: tuple[Triangle, ...]


def findings(readings: Sequence[ClassReading], lesson: Lesson) -> Findings:
    """Everything that is worked out of the readings."""
    reference = lesson.keys.reference
    flagged = flags(readings, _usual(readings))
    kept = clean(readings, flagged)
    means = class_means(kept, reference)
    read = {metal: mean.volts for metal, mean in means.items()}
    places, causes = ranking(kept, reference), _causes(lesson)
    standing = {**read, reference: 0.0}
    return Findings(
        tuple(readings), flagged, class_means(readings, reference), means, places, gaps(read, lesson.table, causes),
        inversions(places, standing, lesson.table, causes), rank_correlation(standing, lesson.table), triangles(kept, reference),
    )  # fmt: skip


def _usual(readings: Sequence[ClassReading]) -> dict[tuple[str, str], float]:
    """How metals scatter beside one another, by the table of bands."""
    known = bands()
    return {
        reading.pair: max(float(known[symbol].scatter) for symbol in reading.pair)
        for reading in readings
        if all(symbol in known for symbol in reading.pair) and any(float(known[symbol].scatter) for symbol in reading.pair)
    }


def _causes(lesson: Lesson) -> tuple[Cause, ...]:
    return tuple(cause for cause in bench_causes().values() if cause.model in ("", lesson.keys.paper))


# ------------------------------------------------------------------ the report


def class_report(found: Findings, lesson: Lesson, who: str) -> Handout:
    """The report for a class."""
    words = lesson.words
    groups = len({reading.who for reading in found.readings})
    lead = words("{count} readings of {groups} groups.", count=str(len(found.readings)), groups=str(groups))
    sections = [
        Section(words("Readings that look wrong"), tuple(_flagged(found, lesson)), whole=False),
        Section(words("Means"), (_means(found, lesson),)),
        Section(words("The order"), tuple(_order(found, lesson))),
        Section(words("Beside the table"), tuple(_table(found, lesson)), whole=False),
    ]
    if found.triangles:
        sections.append(Section(words("Do differences add up?"), (_triangles(found, lesson),)))
    sections.append(Section(words("Another reference metal"), (_moved(found, lesson),)))
    footer = words("Uncertainties: Student's t for 95 %, over groups. Flags: reweighted Hampel rule.")
    return Handout(f"{lesson.keys.title} · {who}", (paragraph(lead),), tuple(sections), (), footer)


def _flagged(found: Findings, lesson: Lesson) -> Iterator[Block]:
    words = lesson.words
    if not found.flagged:
        yield paragraph(words("None: all lie as near to each other as their scatter lets one expect."))
        return
    yield paragraph(words("None is dropped without a word: means are given with and without them."))
    head = (words("Line"), words("Class, group"), words("Metals"), words("Written"), words("What it may be"))
    yield Grid((), tuple(text(each) for each in head), tuple(_flag(flag, lesson) for flag in found.flagged))


def _flag(flag: Flag, lesson: Lesson) -> tuple[Spans, ...]:
    reading, words = flag.reading, lesson.words
    why = " ".join(words(CAUSES[cause]) for cause in flag.causes or ("",))
    who = ", ".join(part for part in reading.who if part)
    return text(str(reading.line)), text(who), text("–".join(reading.pair)), text(reading.printed), text(why)


def _means(found: Findings, lesson: Lesson) -> Block:
    words = lesson.words
    head = (words("Metal"), words("Mean"), words("Mean of all, flagged ones too"), words("Groups"))
    rows = tuple(
        (text(lesson.metal(metal)), mean_spans(mean, lesson), mean_spans(found.raw[metal], lesson), text(str(mean.groups)))
        for metal, mean in sorted(found.means.items(), key=lambda each: each[1].volts)
    )
    return table_of(head, rows)


def mean_spans(mean: Mean, lesson: Lesson) -> Spans:
    """A mean with its uncertainty, whole millivolts."""
    if mean.uncertainty is None:
        return (lesson.millivolts(mean.volts), *text(lesson.words(" (one group: no uncertainty)")))
    unsure = lesson.millivolts(mean.uncertainty, signed=False)
    return lesson.words.spans("{value} ± {uncertainty}", value=_bare(mean.volts, lesson), uncertainty=unsure)


def _bare(volts: float, lesson: Lesson) -> Inscription:
    return lesson.printer.number(str(round(volts * 1000)), signed=True)


def _order(found: Findings, lesson: Lesson) -> Iterator[Block]:
    words = lesson.words
    yield _line(found, lesson)
    said = " < ".join(" ≈ ".join(lesson.name(metal) for metal in place) for place in found.places)
    yield paragraph(words("From the most negative: {order}.", order=said))
    if any(len(place) > 1 for place in found.places):
        yield paragraph(
            words("Metals joined by ≈ can't be told apart: their difference, group by group, is smaller than its uncertainty.")
        )


def _line(found: Findings, lesson: Lesson) -> Block:
    """The number line of the class: its metals, the reference at zero."""
    read = {**{metal: mean.volts for metal, mean in found.means.items()}, lesson.keys.reference: 0.0}
    return number_line(read, lesson, lesson.words("Number line of the class's readings"))


def number_line(volts: dict[str, float], lesson: Lesson, told: str) -> Figure:
    """Metals on a line of volts against the reference metal."""
    labels = {metal: Inscription("symbol", (Piece("base", metal),), lesson.name(metal)) for metal in volts}
    said = "; ".join(f"{lesson.name(metal)} {lesson.millivolts(value).spoken}" for metal, value in volts.items())
    return Figure("number-line", labels, volts, frozenset(), f"{told}: {said}.", text(told))


def _table(found: Findings, lesson: Lesson) -> Iterator[Block]:
    words = lesson.words
    table = {metal: volts for metal, volts in lesson.table.items() if metal in found.means or metal == lesson.keys.reference}
    if not table:
        yield paragraph(words("The data sheet has no row for the reference metal, so there is nothing to compare with."))
        return
    yield number_line(table, lesson, words("Number line of the table, less the potential of the reference metal"))
    if lesson.keys.paper == "salt only":
        yield paragraph(
            words("The paper held one salt only. Such readings need not equal the table: ask why, and in which direction.")
        )
    if found.correlation is not None:
        shown = lesson.printer.number(f"{found.correlation:.2f}", signed=True)
        yield paragraph(words.spans("Rank correlation of the two orders (Spearman): {value}.", value=shown))
    yield _gaps(found, lesson)
    yield from _turned(found, lesson)


def _gaps(found: Findings, lesson: Lesson) -> Block:
    words = lesson.words
    head = (words("Metal"), words("Read"), words("Table"), words("Difference"), words("What would shift it so"))
    rows = tuple(
        (
            text(lesson.metal(gap.metal)), (lesson.millivolts(gap.read),), (lesson.millivolts(gap.table),), (lesson.millivolts(gap.volts),),
            text(" ".join(words(cause.said) for cause in gap.causes if not cause.alike)),
        )
        for gap in found.gaps
    )  # fmt: skip
    return table_of(head, rows)


def _turned(found: Findings, lesson: Lesson) -> Iterator[Block]:
    words = lesson.words
    if shared := [cause for cause in _causes(lesson) if cause.alike and any(cause in gap.causes for gap in found.gaps)]:
        yield paragraph(words("These shift all strips alike, and leave their order:"))
        yield steps(*(words(cause.said) for cause in shared), ordered=False)
    if not found.inversions:
        yield paragraph(words("No two metals stand the other way round."))
    for turned in found.inversions:
        first, second = lesson.name(turned.first), lesson.name(turned.second)
        yield paragraph(
            words(
                "{first} and {second} stand the other way round in the table. What may be the cause:", first=first, second=second
            )
        )
        yield steps(*(words(cause.said) for cause in turned.causes), ordered=False)


def _triangles(found: Findings, lesson: Lesson) -> Block:
    words = lesson.words
    head = (words("Red lead, black lead"), words("Read directly"), words("From two readings"), words("Agree?"))
    answers = {True: words("yes"), False: words("no"), None: words("one group only")}
    rows = tuple(
        (
            text(f"{each.red}–{each.black}"),
            mean_spans(each.direct, lesson),
            mean_spans(each.difference, lesson),
            text(answers[each.agrees]),
        )
        for each in found.triangles
    )
    return table_of(head, rows)


def _moved(found: Findings, lesson: Lesson) -> Block:
    """The means against each metal in turn: all shift by the same, so that every difference stays."""
    read = {**{metal: mean.volts for metal, mean in found.means.items()}, lesson.keys.reference: 0.0}
    order = sorted(read, key=lambda metal: read[metal])
    moved = {reference: rebased(read, reference) for reference in order}
    head = (lesson.words("Metal"), *(lesson.words("against {metal}", metal=symbol) for symbol in order))
    rows = tuple(
        (text(lesson.metal(metal)), *((lesson.millivolts(moved[reference][metal]),) for reference in order)) for metal in order
    )
    return table_of(head, rows)
