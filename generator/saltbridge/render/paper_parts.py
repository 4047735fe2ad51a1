"""Parts and questions → plain data for the paper layouts: fields, answers and accepted ranges."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from saltbridge import document as doc
from saltbridge.records import Settings
from saltbridge.render.paper_data import Drawer, Encoder, Node, clean
from saltbridge.render.paper_room import HEAD, fits, keeping, room
from saltbridge.words import Words


def count(words: Words, number: int, one: str, many: str) -> str:
    """``1 mark`` or ``7 marks``: two sentences, since languages differ."""
    return words(one) if number == 1 else words(many, count=number)


class QuestionEncoder:
    """Encodes questions for a paper in one bank's settings and language."""

    def __init__(self, settings: Settings, words: Words, draw: Drawer) -> None:
        self._settings = settings
        self._words = words
        self._draw = draw

    def question(self, number: int, question: doc.Question, variant: doc.Variant) -> dict[str, Any]:
        """A filled question, numbered from 1 within its paper (the first one stands beneath the paper's head)."""
        above = HEAD if number == 1 else 0.0
        encoder = Encoder(variant, self._draw)
        shares = (*variant.judge, *({} for _ in question.parts))
        data: dict[str, Any] = {
            "number": number,
            "title": clean(question.title),
            "marks": count(self._words, question.marks, "1 mark", "{count} marks"),
            "blocks": encoder.blocks(question.blocks),
            "parts": [
                self._part(part, {**part.judge, **share}, encoder) for part, share in zip(question.parts, shares, strict=False)
            ],
        }
        return {**data, **keeping(data, above=above)}

    def _part(self, part: doc.Part, key: Mapping[str, Any], encoder: Encoder) -> dict[str, Any]:
        working = encoder.working(part.working)
        # A letter to ring or a box to number needs no lines, and lines would ask for words that earn nothing.
        ruled = isinstance(part.field, doc.NumberField | doc.EquationField)
        data: dict[str, Any] = {
            "label": clean(part.label),
            "marks": part.marks,
            "room": room(part.lines if ruled else 0, working, ruled=ruled),
            "body": encoder.blocks(part.body),
            "field": self._field(part.field, key, encoder),
            "working": working,
            "answer": encoder.spans(part.answer),
            "accepted": self._accepted(part.field, key, encoder),
        }
        return {**data, "fits": fits(data)}

    def _field(self, field: doc.Field, key: Mapping[str, Any], encoder: Encoder) -> dict[str, Any]:
        right = list(key.get("right", ())) if isinstance(field, doc.ChoiceField | doc.OrderField) else []
        match field:
            case doc.NumberField(symbol, unit, _, wanted):
                beside = encoder.spans((symbol,) if symbol else ())
                return {
                    "kind": "number",
                    "symbol": beside,
                    "unit": encoder.spans((unit,) if unit else ()),
                    "words": self._words("Answer:") + " ",
                    "wanted": clean(f"({wanted})") if wanted else "",
                }
            case doc.ChoiceField(options):
                how = self._words("Ring one letter.")
                return {"kind": "choice", "options": [encoder.spans(option) for option in options], "how": how, "right": right}
            case doc.OrderField(items, first, last, _):
                how = self._words(
                    "Number the boxes from 1 ({first}) to {count} ({last}).",
                    first=first,
                    last=last,
                    count=str(len(items)),
                )
                return {"kind": "order", "items": [encoder.spans(item) for item in items], "how": clean(how), "right": right}
            case doc.EquationField():
                return {"kind": "equation", "words": self._words("Equation:")}

    def _accepted(self, field: doc.Field, key: Mapping[str, Any], encoder: Encoder) -> list[Node]:
        if not isinstance(field, doc.NumberField) or "lo" not in key or "hi" not in key:
            return []
        low, high = (self._printed(str(key[end]), signed=bool(key.get("signed"))) for end in ("lo", "hi"))
        sentence = self._words("accept {low} to {high}", low=low, high=high)
        unit = encoder.spans((field.unit,)) if field.unit else []
        return [sentence, *(["\u2009", *unit] if unit else [])]

    def _printed(self, number: str, *, signed: bool) -> str:
        """A bound as printed: decimal mark of the bank, a real minus, a power of ten in full."""
        mantissa, _, power = number.lower().partition("e")
        shown = mantissa.lstrip("+-").replace(".", self._settings.decimal_mark)
        if power:
            shown += " × 10^" + power.lstrip("+").replace("-", "−")
        if mantissa.startswith("-"):
            return "−" + shown
        return "+" + shown if signed else shown
