"""What stands at the head of a paper and of its memorandum."""

from __future__ import annotations

from datetime import date

from saltbridge import document as doc
from saltbridge.policy import policy
from saltbridge.records import Settings
from saltbridge.words import Words
from saltbridge.words import of_bank as words_of


def paper_lead(due: date | None, words: Words) -> tuple[doc.Block, ...]:
    """What to do, and by when."""
    said = words("Answer every question. Show your working. Use the values of the data sheet.")
    if due:
        said += " " + words("Due: {date}.", date=words.day(due))
    return (doc.Paragraph((doc.Text(said),)),)


def exam_instructions(marks: int, minutes: int, questions: int, words: Words) -> tuple[str, ...]:
    """What the front page of an exam says."""
    return (
        words("Do not turn this page over until you are told to."),
        words("Answer all {count} questions.", count=str(questions)) if questions > 1 else words("Answer the question."),
        words(
            "There are {marks} marks for {minutes} minutes. The marks of a part stand in brackets beside it.",
            marks=str(marks),
            minutes=str(minutes),
        ),
        words("Show your working, and give every result with its unit."),
        words("Use the values of the data sheet. A calculator is allowed."),
        words("Write in ink, and draw with a pencil."),
    )


def marking_said(settings: Settings) -> str:
    """How it is marked, in sentences."""
    words = words_of(settings)
    return " ".join(words(each) for each in policy(settings.policy).says)


def memorandum_lead(settings: Settings) -> tuple[doc.Block, ...]:
    """How it is marked."""
    return (doc.Paragraph((doc.Text(marking_said(settings)),)),)
