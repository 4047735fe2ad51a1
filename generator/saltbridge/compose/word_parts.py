"""Parts that ask for a short word: a choice among what can be named, typed and not picked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from saltbridge.answers.plain_words import plain_word
from saltbridge.bank.word_part import WordPart
from saltbridge.compose.choices import choose, deciding_node, possible_values, text_of
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.document import Inscription, Paragraph, Part, Text, WordField
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_tables import ChosenCell
from saltbridge.faults import fault
from saltbridge.forms.conditions import NAME
from saltbridge.forms.prose import Prose
from saltbridge.forms.value_types import Option
from saltbridge.render.text import spans_text


def word_part(label: str, part: WordPart, desk: Desk) -> Part:
    """A part with a short word. Raises ``Faulty`` as ``word`` does."""
    return desk.part(label, part, desk.followed(label, word(part, desk)), desk.policy.choose)


def word(part: WordPart, desk: Desk) -> Made:
    """What a short word is made of.

    Raises ``Faulty`` (``unknown-name``, ``word`` for a name that is no word) and as a choice does.
    """
    options = _options(part, desk.drawn)
    choice = ChosenCell.model_construct(
        ask=part.ask, choose=part.word, options=tuple(map(_option, options)), why=part.why, hint=None
    )
    made = choose(choice, desk.drawn, desk.setter, desk.catalogue, desk.words, frozenset(desk.known))
    near = {plain_word(each): said for each, said in part.near.items()}

    def share(context: Context) -> Mapping[str, Any]:
        found = made.share(context)
        words = [sorted({*_words_of(each, context)}) for each in options]
        for place in found["right"]:
            also = {plain for each in part.also for plain in _words_of(each, context, any_name=True)}
            words[place] = sorted({*words[place], *also})
        return {**found, "words": words}

    share(Context(desk.printer, desk.drawn))  # a name that is no word is told where it is written
    shape = {**made.shape, "kind": "word", "near": near}
    also = tuple(each for each in part.also if not desk.drawn.has(each))
    return replace(made, field=WordField(desk.words("Your answer"), also, tuple(part.near)), shape=shape, share=share)


def _options(part: WordPart, drawn: Drawn) -> tuple[str, ...]:
    """What can be named: that part of each thing which the deciding node can be, its own words, or this one word."""
    if not NAME.fullmatch(part.word) or not drawn.has(part.word):
        if NAME.fullmatch(part.word) and ("." in part.word or "_" in part.word):
            raise drawn.unknown(part.word)
        return (part.word,)
    node = deciding_node(part.word, drawn)
    if not node:
        return (part.word,)
    values = possible_values(node, drawn)
    if node == part.word:
        return tuple(sorted(values))
    rest = part.word.partition(".")[2]
    named = [f"{value}.{rest}" for value in sorted(values) if drawn.has(f"{value}.{rest}")]
    return tuple(named) if text_of(drawn, part.word) in [text_of(drawn, each) for each in named] else (part.word,)


def _option(text: str) -> Option:
    return Option(text, Prose(text, (Paragraph((Text(text),)),)))


def _words_of(name: str, context: Context, *, any_name: bool = False) -> tuple[str, ...]:
    """The words of an option as they are compared: as printed in the bank's language, and as written."""
    if not NAME.fullmatch(name) or not context.drawn.has(name):
        return tuple({plain_word(name), plain_word(context.printer.words(name))})
    shown = context.shown(name)
    if isinstance(shown, Inscription) and not any_name:
        raise fault(
            "word",
            expected=f"a name of something told in words, such as `{name.partition('.')[0]}.metal`",
            found=f"`{name}`, which prints {shown.plain}",
            hint="Let it be chosen: `choose` with `from`.",
        )
    return (plain_word(spans_text((shown,))),)
