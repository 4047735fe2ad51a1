"""Parts that ask which statement is true: the counterpart of one drawn idea beside usual wrong beliefs."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from saltbridge.bank.parts import WhichPart
from saltbridge.catalogue.ideas import Idea
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.compose.mathset import MathSetter
from saltbridge.document import ChoiceField, Part, Spans, Step, Text
from saltbridge.draw.drawn_ideas import MOST_OPTIONS, drawn_idea, statements
from saltbridge.words import Words

Ideas = Mapping[str, Idea]


def which_part(label: str, part: WhichPart, desk: Desk) -> Part:
    """A part on ideas, as ``which`` makes it."""
    made = which(part, desk.setter, desk.catalogue.ideas, desk.words)
    return desk.part(label, part, desk.followed(label, made), desk.policy.choose)


def which(part: WhichPart, setter: MathSetter, ideas: Ideas, words: Words) -> Made:
    """A part on ideas; which of them is asked, and the order of the options, are drawn for each variant.

    A wrong option is recognised as its idea and answered with the hint of that idea.
    """
    count = min(MOST_OPTIONS, 1 + len(part.which))
    key = ",".join(part.which)
    options = tuple(
        (setter.slots.slot(f"statement {place} of {key}", partial(_option, part, ideas, words, place)),) for place in range(count)
    )
    answer = setter.slots.slot(f"true statement of {key}", lambda context: _counterpart(part, ideas, words, context))

    def share(context: Context) -> dict[str, Any]:
        shown = statements(part, context.drawn)
        slips = {str(place): [name] for place, (name, true) in enumerate(shown) if not true}
        return {"right": [next(place for place, (_, true) in enumerate(shown) if true)], "slips": slips}

    shape: dict[str, Any] = {
        "kind": "choice", "node": None, "values": [],
        "hints": {name: words(words.of_owner(ideas[name].hint)) for name in part.which},
    }  # fmt: skip
    return Made(ChoiceField(options, words("Choose one")), _working(part, setter, ideas, words), (answer,), shape, share)


def _said(words: Words, text: str) -> Spans:
    return (Text(words(words.of_owner(text))),)


def _option(part: WhichPart, ideas: Ideas, words: Words, place: int, context: Context) -> Spans:
    name, true = statements(part, context.drawn)[place]
    return _said(words, ideas[name].counterpart if true else ideas[name].statement)


def _counterpart(part: WhichPart, ideas: Ideas, words: Words, context: Context) -> Spans:
    return _said(words, ideas[drawn_idea(part, context.drawn)].counterpart)


def _working(part: WhichPart, setter: MathSetter, ideas: Ideas, words: Words) -> tuple[Step, ...]:
    """The counterpart, and where the belief would be right."""
    key = ",".join(part.which)

    def told(context: Context) -> Spans:
        found = ideas[drawn_idea(part, context.drawn)]
        also = (Text(" "), *_said(words, found.holds_when)) if found.holds_when else ()
        return (*_said(words, found.counterpart), *also)

    return (Step((setter.slots.slot(f"why of {key}", told),), (), {}),)
