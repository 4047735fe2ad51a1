"""The worksheet of a practical: what to do, how the meter sits, a prediction before each reading, what others read, questions."""

from __future__ import annotations

from saltbridge.deliver.bench.lesson import Expected, Lesson, paragraph, steps, table_of, text
from saltbridge.document import Block, Caution, Figure, Handout, Inscription, Paragraph, Section, Spans
from saltbridge.tables.benches import SafetyLine, safety

SAID = {
    "trial": "read on our own meters",
    "mixed": "partly from published readings",
    "memory": "from memory, not checked",
}
"""How sure an expected reading is, in words."""

_ALWAYS, _LAST = ("general", "edges", "waste"), "rules"


def worksheet(lesson: Lesson) -> Handout:
    """The sheet for a group."""
    words, keys = lesson.words, lesson.keys
    labels = (words("Names:"), words("Class:"), words("Group:"), words("Date:"))
    lead = (paragraph(words("Which of these metals gives electrons most readily? Let the meter tell you.")), cautions(lesson))
    sections = [
        Section(words("What you do"), (_doing(lesson),)),
        Section(words("The meter"), _meter(lesson)),
        Section(words("Predict, then read"), _results(lesson)),
    ]
    if keys.also:
        sections.append(Section(words("Do differences add up?"), _pairs(lesson)))
    sections += [Section(words("Think about it"), (_questions(lesson),)), Section(words("What others read"), _expected(lesson))]
    return Handout(keys.title, lead, tuple(sections), labels, words("Your school's rules come first."))


def cautions(lesson: Lesson) -> Caution:
    """The usual cautions, those of the metals that are read, and the school's own words, which come first in force."""
    words, keys = lesson.words, lesson.keys
    said = [words(each.line) for each in lines_of_safety(lesson) if each.id != _LAST]
    own, last = own_words(lesson), words(safety()[_LAST].line)
    ask = (paragraph(words("Ask {contact}.", contact=keys.contact)),) if keys.contact else ()
    return Caution((paragraph(" ".join(said)), *own, paragraph(last), *ask))


def lines_of_safety(lesson: Lesson) -> tuple[SafetyLine, ...]:
    """The usual cautions of this lesson: those for all, and those of the metals that are read."""
    read = (lesson.keys.reference, *lesson.keys.metals)
    return tuple(
        line
        for line in safety().values()
        if line.id in (*_ALWAYS, _LAST) or (line.about in read and not _of_salt(line.id, lesson))
    )


def own_words(lesson: Lesson) -> tuple[Paragraph, ...]:
    """The school's own words on safety, a paragraph each."""
    return tuple(paragraph(" ".join(each.split())) for each in (lesson.keys.safety or "").split("\n\n") if each.strip())


def _of_salt(line: str, lesson: Lesson) -> bool:
    """Whether a line is about a solution that this practical does not use."""
    return line == "silver" and lesson.keys.paper == "salt only"


def _doing(lesson: Lesson) -> Block:
    words, keys = lesson.words, lesson.keys
    reference = lesson.name(keys.reference)
    wet = (
        words("Wet the paper with the salt solution. It must be wet, not dripping.")
        if keys.paper == "salt only"
        else words(
            "Wet the middle of the paper with the salt solution. Wet the spot for each metal with the solution of its name."
        )
    )
    return steps(
        words("Clean each strip with its own piece of abrasive paper and wipe it. Keep track of which is which."),
        words("Lay the {metal} strip on the filter paper, with one end dry. It stays there.", metal=reference),
        wet,
        words(
            "Press the first metal on the paper beside it. The two metals must not touch, and your fingers must not be in the circuit."
        ),
        words("Clip the leads to the dry ends only."),
        words("Wait ten seconds, the same for all, and write down what the meter shows, with its sign and unit."),
        words("Read each metal {count} times, each time on a new spot of the paper.", count=str(keys.repeats)),
    )


def _meter(lesson: Lesson) -> tuple[Block, ...]:
    words, keys = lesson.words, lesson.keys
    reference = lesson.name(keys.reference)
    return (
        _layout(lesson),
        steps(
            words("Set the meter to direct voltage (V), range 2 V or 2000 mV. Never use a current range (A)."),
            words("Black lead (COM): the {metal} strip, always.", metal=reference),
            words("Red lead (V): the metal that you test."),
            ordered=False,
        ),
        paragraph(
            words(
                "A minus sign means that the metal on the red lead is the negative pole: it gives electrons more readily than {metal}. "
                "Keep the sign.",
                metal=reference,
            )
        ),
    )


def _layout(lesson: Lesson) -> Figure:
    """The two strips on the paper, the meter and its leads."""
    words, tested = lesson.words, lesson.keys.metals[0]
    labels: dict[str, Inscription | str] = {
        "meter": "V", "red_lead": words("red"), "black_lead": words("black"), "left_electrode": tested,
        "right_electrode": lesson.keys.reference, "paper": words("paper with salt solution"),
    }  # fmt: skip
    spoken = words(
        "Two strips of metal are pressed on paper with salt solution: {red.metal} on the red lead of a meter, {black.metal} on the black lead.",
        **{"red.metal": lesson.name(tested), "black.metal": lesson.name(lesson.keys.reference)},
    )  # fmt: skip
    return Figure("salt-paper", labels, {}, frozenset(), spoken)


def _results(lesson: Lesson) -> tuple[Block, ...]:
    words, keys = lesson.words, lesson.keys
    head = (
        words("Red lead on"), words("I predict: + or −"),
        *(words("Reading {number} in mV", number=str(each + 1)) for each in range(keys.repeats)), words("Mean in mV"),
    )  # fmt: skip
    rows = tuple((text(lesson.metal(symbol)), *[()] * (keys.repeats + 2)) for symbol in keys.metals)
    before = words(
        "Write your prediction first: is the metal the negative pole (−) or the positive pole (+) beside {metal}?",
        metal=lesson.name(keys.reference),
    )
    return paragraph(before), table_of(head, rows, ruled=True)


def _pairs(lesson: Lesson) -> tuple[Block, ...]:
    words, keys = lesson.words, lesson.keys
    head = (words("Red lead on"), words("Black lead on"), words("I predict, in mV"), words("I read, in mV"))
    rows = tuple((text(lesson.metal(red)), text(lesson.metal(black)), (), ()) for red, black in keys.also)
    say = words("Work out each of these from two readings above, before you read it.")
    return paragraph(say), table_of(head, rows, ruled=True)


def _questions(lesson: Lesson) -> Block:
    words, reference = lesson.words, lesson.name(lesson.keys.reference)
    return steps(
        words("Put the metals in order, that with the most negative reading first. Where does {metal} stand?", metal=reference),
        words("Which metal gives electrons most readily? How does its reading show it?"),
        words("Compare your order with the table of standard potentials. Which metals stand the other way round?"),
        words("Give a reason for one difference. Would your reason make the reading more negative or less negative?"),
        words("Which metal would you join to iron to protect it? Which would make it rust faster?"),
    )


def _expected(lesson: Lesson) -> tuple[Block, ...]:
    words, keys = lesson.words, lesson.keys
    rows = tuple((text(lesson.metal(symbol)), *_band(lesson, lesson.expected(symbol))) for symbol in keys.metals)
    head = (words("Red lead on"), words("Often read"), words("How sure is this?"))
    guide = words("This is a guide only. A reading outside it is not wrong: say what you did, and what may be the cause.")
    return table_of(head, rows), paragraph(guide)


def _band(lesson: Lesson, expected: Expected | None) -> tuple[Spans, Spans]:
    words = lesson.words
    if expected is None:
        return text("–"), ()
    low, high = lesson.millivolts(expected.low), lesson.millivolts(expected.high)
    shown: Spans = (low,) if expected.low == expected.high else words.spans("{low} to {high}", low=low, high=high)
    return shown, text(words(SAID[expected.grade]))
