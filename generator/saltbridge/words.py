"""The text catalogue: every sentence the program itself says, in the bank's language.

The English sentence is its own key, so English needs no file and a missing translation falls back to English. Other
languages are gettext files in ``data/words/``. Values stand in braces: ``words("Question {number}", number=3)``.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from saltbridge.document import Inline, Spans, Text
from saltbridge.faults import fault
from saltbridge.home import shipped

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from saltbridge.records import Settings

SOURCE_LANGUAGE = "en"
CELL_POTENTIAL = "cell potential"
_EMF = {
    "en": (("a cell potential", "an EMF"), ("A cell potential", "An EMF"), ("cell potential", "EMF")),
    "de": (("Standardzellspannung", "Standard-EMK"), ("Zellspannung", "EMK")),
}
"""What the potential of a whole cell is called in every sentence of a bank that calls it EMF."""
CONTEXT = "\x04"
"""Between a context and its sentence where one English word has several meanings, as gettext has it."""
_POINT = re.compile(r"(?<=\d)[.,](?=\d)")
_HOLE = re.compile(r"\{([a-zA-Z_][a-zA-Z0-9_.-]*)\}")


class Words:
    """Says sentences in one language; made by ``catalogue``. Can be called and hashed, so it can key a cache."""

    __slots__ = ("_mark", "_renamed", "_said", "_sentences", "language")

    def __init__(
        self, language: str, sentences: Mapping[str, str], renamed: tuple[tuple[str, str], ...] = (), decimal_mark: str = ""
    ) -> None:
        self.language = language
        self._sentences = sentences
        self._renamed = renamed
        self._mark = decimal_mark
        self._said: dict[str, str] = {}

    def _sentence(self, msgid: str) -> str:
        """The sentence in this language, with its braces, in the bank's terms and with its decimal mark."""
        if msgid not in self._said:
            said = self._sentences.get(msgid, msgid.rpartition(CONTEXT)[2])
            for usual, own in self._renamed:
                said = said.replace(usual, own)
            self._said[msgid] = self.digits(said)
        return self._said[msgid]

    def digits(self, text: str) -> str:
        """The text with the bank's decimal mark in its numbers; as it stands where no bank is known."""
        return _POINT.sub(self._mark, text) if self._mark else text

    def meant(self, context: str, msgid: str) -> str:
        """Say a word that has several meanings, in the one that the context names."""
        return self._sentence(f"{context}{CONTEXT}{msgid}")

    def __contains__(self, msgid: object) -> bool:
        """Whether the language has this sentence; English has every sentence."""
        return self.language == SOURCE_LANGUAGE or msgid in self._sentences

    def of_owner(self, msgid: str) -> str:
        """The sentence of a msgid whose braces name an owner, such as ``{left.couple}``, where the catalogue has it with ``{couple}``."""
        if msgid in self:
            return self(msgid)
        for owner in sorted({name.partition(".")[0] for name in holes(msgid) if "." in name}):
            plain = msgid.replace(f"{{{owner}.", "{")
            if plain in self:
                return _owned(self(plain), owner)
        return msgid

    def __call__(self, msgid: str, /, **values: object) -> str:
        """Say the sentence with its values filled in; a brace without a value stays, so nothing is lost silently."""
        sentence = self._sentence(msgid)
        if not values:
            return sentence
        return _HOLE.sub(lambda hole: str(values.get(hole[1], hole[0])), sentence)

    def day(self, when: date) -> str:
        """A day as it is written in this language (in English as in Europe: 1 Dec 2026)."""
        from babel.dates import format_date  # noqa: PLC0415 - only dated papers need it

        return str(format_date(when, "medium", locale="en_GB" if self.language == SOURCE_LANGUAGE else self.language))

    def spans(self, msgid: str, /, **values: str | Inline | Spans) -> Spans:
        """Say the sentence as spans, where a value may be a number, species, formula or spans of its own."""
        sentence = self._sentence(msgid)
        spans: list[Inline] = []
        end = 0
        for hole in _HOLE.finditer(sentence):
            if hole[1] not in values:
                continue
            spans += _text(sentence[end : hole.start()])
            value = values[hole[1]]
            spans += _text(value) if isinstance(value, str) else value if isinstance(value, tuple) else (value,)
            end = hole.end()
        return (*spans, *_text(sentence[end:]))


def _owned(sentence: str, owner: str) -> str:
    """The sentence with the owner before each name in braces that has none."""
    return _HOLE.sub(lambda hole: hole[0] if "." in hole[1] else f"{{{owner}.{hole[1]}}}", sentence)


def _text(text: str) -> tuple[Text, ...]:
    return (Text(text),) if text else ()


def holes(sentence: str) -> frozenset[str]:
    """The names in braces of a sentence."""
    return frozenset(_HOLE.findall(sentence))


def languages() -> tuple[str, ...]:
    """English and every language with a file."""
    return (SOURCE_LANGUAGE, *sorted(file.stem for file in (shipped("data") / "words").glob("*.po")))


def of_bank(settings: Settings) -> Words:
    """The words of a bank: its language, its name for the potential of a whole cell, its unit of concentration and its decimal mark."""
    return _in_terms(settings.language, settings.potential_name, settings.concentration_unit, settings.decimal_mark)


@cache
def _in_terms(language: str, potential_name: str, unit: str, mark: str) -> Words:
    """The words of a language in the terms of a bank."""
    renamed = _EMF.get(language, ()) if potential_name != CELL_POTENTIAL else ()
    if unit == "mol/dm3":
        renamed = (*renamed, ("mol/L", "mol/dm³"))
    return Words(language, _sentences_of(language), renamed, mark)


@cache
def catalogue(language: str = SOURCE_LANGUAGE) -> Words:
    """The words of a language, such as ``de``; raises Faulty, naming the languages there are, for one without a file."""
    return Words(language, _sentences_of(language))


def missing_share(language: str) -> float:
    """The share of the sentences that any language has which this one lacks, between 0 and 1; English lacks none."""
    if language == SOURCE_LANGUAGE:
        return 0.0
    every = {sentence for each in languages() for sentence in _sentences_of(each)}
    return len(every - _sentences_of(language).keys()) / len(every)


@cache
def _sentences_of(language: str) -> Mapping[str, str]:
    """English sentence, after its context where it has one, → the sentence in this language."""
    if language == SOURCE_LANGUAGE:
        return {}
    if language not in languages():
        raise fault(
            "language", expected=f"one of {', '.join(languages())}", found=language, hint=f"Add data/words/{language}.po."
        )
    from babel.messages.pofile import read_po  # noqa: PLC0415 - English runs without it

    with (shipped("data") / "words" / f"{language}.po").open("rb") as file:
        messages = read_po(file, locale=language)
    return {
        f"{message.context}{CONTEXT}{message.id}" if message.context else str(message.id): str(message.string)
        for message in messages
        if message.id and message.string and not message.fuzzy
    }
