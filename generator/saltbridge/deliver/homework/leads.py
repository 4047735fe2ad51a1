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


def marking_said(settings: Settings) -> str:
    """How it is marked, in sentences."""
    words = words_of(settings)
    return " ".join(words(each) for each in policy(settings.policy).says)


def memorandum_lead(settings: Settings) -> tuple[doc.Block, ...]:
    """How it is marked."""
    return (doc.Paragraph((doc.Text(marking_said(settings)),)),)
