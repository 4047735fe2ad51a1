"""Parts on cases: which are asked about, and the order of their own options, is drawn for each variant."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from saltbridge.bank.cases_part import OWNER, Case, CasesPart
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.beliefs_told import hints_of, slips_by_option, told_errors
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.document import ChoiceField, ChoicesField, Group, Inline, Paragraph, Part, Slot, Spans, Step, Text
from saltbridge.draw.drawn_cases import DrawnCase, drawn_cases
from saltbridge.forms.prose import Prose
from saltbridge.forms.value_types import Option

Row = dict[str, Any]


def cases_part(label: str, part: CasesPart, desk: Desk) -> Part:
    """A part on one case, as a choice, or on several at once."""
    return _Cases(label, part, desk).one() if part.draw == 1 else _Cases(label, part, desk).several()


class _Cases:
    """The pieces of a part on cases, each in a slot that a variant fills with its own."""

    def __init__(self, label: str, part: CasesPart, desk: Desk) -> None:
        self.label, self.written, self.desk = label, part, desk
        self.beliefs = [shows for case in part.cases for shows in part.beliefs_of(case).values()]
        self.counts = [len(each.options) for each in drawn_cases(part, desk.drawn.seed)]

    def one(self) -> Part:
        """The situation before the question, the options below it."""
        made = Made(
            ChoiceField(self._options(0), self.desk.words("Choose one")),
            (Step((self._why(0),), (), {}),), (self._right(0),),
            {"kind": "choice", "node": None, "values": [], "hints": self._hints()},
            lambda context: _key(self._at(0, context), [self._at(0, context).right]),
        )  # fmt: skip
        part = self._part(made, 1)
        return replace(part, body=(Paragraph((self._told(0),)), *part.body))

    def several(self) -> Part:
        """The question before the situations, each with its options."""
        places = range(self.written.draw)
        groups = tuple(Group((self._told(at),), self._options(at)) for at in places)
        answers: list[Inline] = []
        for at in places:
            answers += [Text(f"{'; ' if at else ''}({at + 1}) "), self._right(at)]
        made = Made(
            ChoicesField(groups, self.desk.words("Choose one for each"), numbered=True),
            tuple(Step((Text(f"({at + 1}) "), self._why(at)), (), {}) for at in places), tuple(answers),
            {"kind": "cases", "hints": self._hints()},
            lambda context: {"rows": [_key(each, each.right) for each in drawn_cases(self.written, context.drawn.seed)]},
        )  # fmt: skip
        return self._part(made, self.written.draw)

    def _part(self, made: Made, count: int) -> Part:
        desk = self.desk
        part = desk.part(self.label, self.written, desk.followed(self.label, made), count * desk.policy.choose)
        return replace(part, errors=told_errors(self.beliefs, desk.catalogue, desk.words))

    def _hints(self) -> dict[str, str]:
        return hints_of(self.beliefs, self.desk.catalogue, self.desk.words)

    # -------------------------------------------------------------- slots

    def _at(self, place: int, context: Context) -> DrawnCase:
        return drawn_cases(self.written, context.drawn.seed)[place]

    def _slot(self, what: str, place: int, text: partial[Spans]) -> Slot:
        return self.desk.slots.slot(f"{what} of case {place} in ({self.label})", text)

    def _told(self, place: int) -> Slot:
        return self._slot("situation", place, partial(self._text, "case", place))

    def _why(self, place: int) -> Slot:
        return self._slot("why", place, partial(self._text, "why", place))

    def _text(self, key: str, place: int, context: Context) -> Spans:
        case = self._at(place, context).case
        return _said(getattr(case, key), case, context)

    def _right(self, place: int) -> Slot:
        def fill(context: Context) -> Spans:
            drawn = self._at(place, context)
            return _option(drawn.options[drawn.right], drawn.case, context)

        return self._slot("right option", place, partial(fill))

    def _options(self, place: int) -> tuple[Spans, ...]:
        """Options that are common to all cases stand in the same slots for each."""
        shared = 0 if self.written.options else place

        def fill(at: int, context: Context) -> Spans:
            drawn = self._at(shared, context)
            return _option(drawn.options[at], drawn.case, context)

        return tuple((self._slot(f"option {at}", shared, partial(fill, at)),) for at in range(self.counts[place]))


def _key(drawn: DrawnCase, right: Any) -> Row:
    return {"right": right, "slips": slips_by_option(drawn.shows)}


def _said(text: Prose, case: Case, context: Context) -> Spans:
    """A text with the values of its case."""
    values = {f"{OWNER}.{name}": value for name, value in case.values.items()}
    own = replace(context.drawn, extra={**context.drawn.extra, **values}) if values else context.drawn
    return prose.sentences(text, Context(context.printer, own))


def _option(option: Option, case: Case, context: Context) -> Spans:
    """An option, by name where it is one of the scenario, else in its words."""
    if not option.wording and option.may_be_name and context.drawn.has(option.text):
        return (context.shown(option.text),)
    return _said(option.prose, case, context)
