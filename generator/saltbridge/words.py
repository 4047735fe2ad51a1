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

    from saltbridge.records import Settings

SOURCE_LANGUAGE = "en"
CELL_POTENTIAL = "cell potential"
_EMF = {
    "en": (("a cell potential", "an EMF"), ("A cell potential", "An EMF"), ("cell potential", "EMF")),
    "de": (("Standardzellspannung", "Standard-EMK"), ("Zellspannung", "EMK")),
}
"""What the potential of a whole cell is called in every sentence of a bank that calls it EMF."""
_HOLE = re.compile(r"\{([a-zA-Z_][a-zA-Z0-9_.-]*)\}")


class Words:
    """Says sentences in one language; made by ``catalogue``. Can be called and hashed, so it can key a cache."""

    __slots__ = ("_renamed", "_said", "_sentences", "language")

    def __init__(self, language: str, sentences: Mapping[str, str], potential_name: str = CELL_POTENTIAL) -> None:
        self.language = language
        self._sentences = sentences
        self._renamed = _EMF.get(language, ()) if potential_name != CELL_POTENTIAL else ()
        self._said: dict[str, str] = {}

    def _sentence(self, msgid: str) -> str:
        """The sentence in this language, with its braces, in the bank's terms."""
        if not self._renamed:
            return self._sentences.get(msgid, msgid)
        if msgid not in self._said:
            said = self._sentences.get(msgid, msgid)
            for usual, own in self._renamed:
                said = said.replace(usual, own)
            self._said[msgid] = said
        return self._said[msgid]

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
    """The words of a bank: its language, and its name for the potential of a whole cell."""
    return catalogue(settings.language, settings.potential_name)


@cache
def catalogue(language: str = SOURCE_LANGUAGE, potential_name: str = CELL_POTENTIAL) -> Words:
    """The words of a language, such as ``de``; raises Faulty, naming the languages there are, for one without a file."""
    if language == SOURCE_LANGUAGE:
        return Words(language, {}, potential_name)
    if language not in languages():
        raise fault(
            "language", expected=f"one of {', '.join(languages())}", found=language, hint=f"Add data/words/{language}.po."
        )
    from babel.messages.pofile import read_po  # noqa: PLC0415 - English runs without it

    with (shipped("data") / "words" / f"{language}.po").open("rb") as file:
        messages = read_po(file, locale=language)
    sentences = {
        str(message.id): str(message.string) for message in messages if message.id and message.string and not message.fuzzy
    }
    return Words(language, sentences, potential_name)
