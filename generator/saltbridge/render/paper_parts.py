"""Questions → plain data for the layout of papers: text, fields and room for answers; nothing of an answer goes in."""

from __future__ import annotations

from typing import Any

from saltbridge import document as doc
from saltbridge.records import Settings
from saltbridge.render.paper_data import Drawer, Encoder, Node, clean
from saltbridge.render.paper_room import Measure, answer_room, sketch_room, words_room
from saltbridge.render.paper_tables import paper_table, rung_in_cells
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
        self._measure = Measure.of(settings)

    def question(self, number: int, question: doc.Question, variant: doc.Variant) -> dict[str, Any]:
        """A filled question, numbered from 1 within its paper."""
        encoder = Encoder(variant, self._draw)
        return {
            "number": number,
            "title": clean(question.title),
            "marks": count(self._words, question.marks, "1 mark", "{count} marks"),
            "worth": question.marks,
            "blocks": encoder.blocks(question.blocks),
            "parts": [self._part(part, encoder) for part in question.parts],
            "breaks": False,
        }

    def _part(self, part: doc.Part, encoder: Encoder) -> dict[str, Any]:
        """A part; one to be worked in an exercise book says beside its text how exactly and in what unit."""
        # A letter to ring or a box to number needs no lines, and lines would ask for words that earn nothing.
        typed = doc.NumberField | doc.EquationField | doc.WordField | doc.NotationField
        written = isinstance(part.field, typed | doc.WrittenField)
        ruled = written and self._settings.answers != "none"
        body = encoder.blocks(part.body)
        if how := self._how(part.field):
            body = _with_last_words(body, how)
        return {
            "label": clean(part.label),
            "marks": part.marks,
            "ruled": ruled,
            "squared": part.field.on == "squares"
            if isinstance(part.field, doc.WrittenField)
            else self._settings.answers == "squares",
            "room": self._room(part) if ruled else 0.0,
            "body": body,
            "beside": [] if ruled else self._beside(part.field, encoder),
            "field": self._field(part.field, encoder),
            "needs": part.needs_text,
            "breaks": False,
        }

    def _room(self, part: doc.Part) -> float:
        """The height of the room for the answer."""
        match part.field:
            case doc.WrittenField(on="lines"):
                return words_room(self._settings, part.marks)
            case doc.WrittenField():
                return sketch_room(self._settings, part.marks)
            case doc.WordField():
                return 0.0
            case _:
                return answer_room(self._settings, part.marks)

    def _how(self, field: doc.Field) -> str:
        """How a choice or an order is answered; in an exercise book nothing can be ringed or numbered."""
        words, booked = self._words, self._settings.answers == "none"
        match field:
            case doc.ChoiceField():
                return words("Write down one letter.") if booked else words("Ring one letter.")
            case doc.SeveralField():
                return words("Write down every letter that fits.") if booked else words("Ring every letter that fits.")
            case doc.ChoicesField(numbered=True):
                return words("Write down one letter for each.") if booked else words("Write one letter in each box.")
            case doc.ChoicesField():
                return words("Write down one letter and one number.") if booked else words("Ring one letter and one number.")
            case doc.OrderField(_, first, last, _) if booked:
                return clean(words("Write them down in order, from {first} to {last}.", first=first, last=last))
            case doc.OrderField(items, first, last, _):
                boxes = str(len(items))
                return clean(words("Number the boxes from 1 ({first}) to {count} ({last}).", first=first, last=last, count=boxes))
            case doc.TableField() if booked:
                return words("Copy the table and complete it.")
            case doc.TableField() if any(rung_in_cells(field)):
                return words("Ring one in each cell with a choice.")
            case _:
                return ""

    def _beside(self, field: doc.Field, encoder: Encoder) -> list[list[Node]]:
        if not isinstance(field, doc.NumberField):
            return []
        told = clean(field.wanted)
        unit = encoder.spans((field.unit,)) if field.unit and field.unit.plain not in told else []
        pieces = [piece for piece in (unit, [told] if told else []) if piece]
        return [[" (", *pieces[0], *(["; ", *pieces[1]] if pieces[1:] else []), ")\u2002"]] if pieces else []

    def _field(self, field: doc.Field, encoder: Encoder) -> dict[str, Any]:
        match field:
            case doc.NumberField(symbol, unit, _, wanted):
                return {
                    "kind": "number",
                    "symbol": encoder.spans((symbol,) if symbol else ()),
                    "unit": encoder.spans((unit,) if unit else ()),
                    "words": self._words("Answer:") + " ",
                    "wanted": clean(f"({wanted})") if wanted else "",
                }
            case doc.ChoicesField():
                return self._choices(field, encoder)
            case doc.ChoiceField(options) | doc.SeveralField(options):
                shown = [encoder.spans(option) for option in options]
                own = all(_is_letter(option) for option in shown)
                return {"kind": "choice", "options": shown, "across": self._measure.across(shown), "own": own}
            case doc.OrderField(items):
                shown = [encoder.spans(item) for item in items]
                boxed = self._settings.answers != "none"
                return {"kind": "order", "items": shown, "across": self._measure.across(shown), "boxed": boxed}
            case doc.EquationField():
                return {"kind": "equation", "words": self._words("Equation:")}
            case doc.NotationField(kind, _, _, symbol):
                before = encoder.spans((symbol,)) if symbol else ()
                said = self._words("Formula:") if kind == "species" else self._words("Cell diagram:")
                return {"kind": "equation", "words": said, "symbol": before}
            case doc.WrittenField(on=ground):
                return {"kind": "written", "framed": ground == "frame"}
            case doc.WordField():
                return {"kind": "equation", "words": self._words("Answer:")}
            case doc.TableField():
                return paper_table(field, encoder, self._words)

    def _choices(self, field: doc.ChoicesField, encoder: Encoder) -> dict[str, Any]:
        """Groups of options; those that are common to all stand once, before the groups. A reason's options have numbers for letters."""
        groups = [
            {
                "head": encoder.spans(group.head),
                "options": shown if not field.shared or at == 0 else [],
                "across": self._measure.across(shown),
                "letters": field.numbered or at == 0,
            }
            for at, group in enumerate(field.groups)
            for shown in ([encoder.spans(option) for option in group.options],)
        ]
        boxed = field.numbered and self._settings.answers != "none"
        return {"kind": "choices", "groups": groups, "numbered": field.numbered, "shared": field.shared, "boxed": boxed}


def _with_last_words(body: list[Node], words: str) -> list[Node]:
    """The words in small letters at the end of the last paragraph, or as one of their own."""
    last = body[-1] if body else None
    if isinstance(last, list) and last[0] == "p":
        return [*body[:-1], ["p", [*last[1], "\u2002", ["c", words]]]]
    return [*body, ["p", [["c", words]]]]


def _is_letter(option: list[Node]) -> bool:
    """Whether an option is a letter of a figure, which then needs no letter before it."""
    node = option[0] if len(option) == 1 else ""
    if isinstance(node, list) and node[0] == "r" and len(node[1]) == 1:
        node = node[1][0]
    return isinstance(node, str) and len(node) == 1 and node.isupper()
