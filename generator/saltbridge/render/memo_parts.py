"""Questions → plain data for the layout of memoranda: answers, accepted ranges, workings with their marks, common errors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from saltbridge import document as doc
from saltbridge.records import Settings
from saltbridge.render.memo_options import marking_rule, right_signs, shown_errors
from saltbridge.render.memo_points import memo_points
from saltbridge.render.memo_tables import cell_notes, memo_table
from saltbridge.render.paper_data import Drawer, Encoder, Node, clean
from saltbridge.render.paper_room import length
from saltbridge.sigfigs import number_words, print_number
from saltbridge.words import Words

_ONE_LINE = 88
"""Characters up to which a line of a working is kept from breaking: those of the text's width, nearly."""

_MOST_ERRORS = 3
_POWERS = 4
"""From ten to this power on, what an error gives is printed with a power of ten."""


class MemoEncoder:
    """Encodes questions for a memorandum in one bank's settings and language."""

    def __init__(self, settings: Settings, words: Words, draw: Drawer, *, numbered: bool = False) -> None:
        self._settings = settings
        self._numbered = numbered
        self._words = words
        self._number_words = number_words(words)
        self._draw = draw

    def question(self, number: int, question: doc.Question, variant: doc.Variant) -> dict[str, Any]:
        """A filled question, numbered from 1 within its paper."""
        encoder = Encoder(variant, self._draw)
        shares = (*variant.judge, *({} for _ in question.parts))
        return {
            "number": number,
            "title": clean(question.title),
            "marks": question.marks,
            "parts": [
                self._part(part, {**part.judge, **share}, encoder) for part, share in zip(question.parts, shares, strict=False)
            ],
        }

    def _part(self, part: doc.Part, key: Mapping[str, Any], encoder: Encoder) -> dict[str, Any]:
        earned = sum(sum(step.marks.values()) for step in part.working)
        table = isinstance(part.field, doc.TableField)
        said = memo_points(part.field, encoder, self._words, self._points)
        return {
            "label": clean(part.label),
            "marks": part.marks,
            "ask": [
                node for block in part.body if isinstance(block, doc.Paragraph) for node in (*encoder.spans(block.spans), " ")
            ],
            "tick": 0 if said or table else part.marks - earned,
            "said-points": said,
            "answer": []
            if table
            else [*([signs + "\u2002"] if (signs := right_signs(part.field, key)) else []), *encoder.spans(part.answer)],
            "accepted": self._accepted(part.field, key, encoder) or encoder.spans(part.accept),
            "words": self._also(part.field),
            **self._table(part, key, encoder),
            "steps": self._counted([self._step(step, encoder) for step in part.working]),
            "points": self._points(earned + 1, part.marks - earned),
            "errors": self._errors(part.field, part.errors, part.marks, key, encoder),
        }

    def _step(self, step: doc.Step, encoder: Encoder) -> dict[str, Any]:
        """A step's lines in runs that may stand on one line of print; each carries the marks that it earns."""
        pieces: list[dict[str, Any]] = []
        for at, line in enumerate(step.lines):
            left = line.left if isinstance(line, doc.MathLine) else None
            goes_on = isinstance(line, doc.MathLine) and at > 0 and left in (None, _left(step.lines[at - 1]))
            pieces.append({**self._piece(line, encoder, goes_on=goes_on), "goes-on": goes_on, "marks": step.marks.get(at, 0)})
        leads = doc.spoken(step.say).rstrip().endswith(":")
        say = {"say": encoder.spans(step.say), "leads": leads, "wrong": step.marked_wrong}
        return {**say, "pieces": pieces, "tick": step.marks.get(-1, 0)}

    def _counted(self, steps: list[dict[str, Any]]) -> list[dict[str, Any]]:
        """The steps with the numbers of the marks that their lines earn, counted through the part."""
        so_far = 0
        for step in steps:
            for piece in step["pieces"]:
                piece["points"] = self._points(so_far + 1, piece["marks"])
                so_far += piece["marks"]
            step["points"] = self._points(so_far + 1, step["tick"])
            so_far += step["tick"]
        return steps

    def _points(self, first: int, marks: int) -> str:
        """The numbers of marks, such as "2" or "2, 3"; nothing where the policy does not number them."""
        return ", ".join(str(number) for number in range(first, first + marks)) if self._numbered else ""

    def _piece(self, line: doc.MathLine | doc.Spans, encoder: Encoder, *, goes_on: bool) -> dict[str, Any]:
        if not isinstance(line, doc.MathLine):
            return {"spans": encoder.spans(line)}
        left = None if line.left is None or goes_on else encoder.maths(line.left)
        right = encoder.maths(line.right)
        kept = length([left or "", right]) <= _ONE_LINE
        return {"left": left, "sign": line.sign, "right": right, "alt": encoder.speech(line.spoken), "kept": kept}

    # -------------------------------------------------------------- ranges and errors

    def _accepted(self, field: doc.Field, key: Mapping[str, Any], encoder: Encoder) -> list[Node]:
        if rule := marking_rule(field, key, self._words):
            return [rule]
        if not isinstance(field, doc.NumberField) or "lo" not in key or "hi" not in key:
            return []
        low, high = (self._printed(str(key[end]), signed=bool(key.get("signed"))) for end in ("lo", "hi"))
        unit = encoder.spans((field.unit,)) if field.unit else []
        return [
            *encoder.spans(self._words.spans("accept {low} to {high}", low=low, high=high)),
            *(["\u2009", *unit] if unit else []),
        ]

    def _errors(
        self, field: doc.Field, errors: Sequence[doc.CommonError], marks: int, key: Mapping[str, Any], encoder: Encoder
    ) -> list[dict[str, Any]]:
        """The first common errors of this variant: what they give, how they are made, the marks left (none where ``marks`` are none).

        Of a choice: what each wrong option shows.
        """
        if isinstance(field, doc.NotationField):
            return self._noted(errors, key, encoder)
        ranges = key.get("slips", {})
        if not isinstance(field, doc.NumberField):
            return self._beliefs(field, errors, key, encoder)
        if not isinstance(ranges, Mapping):
            return []
        unit = encoder.spans((field.unit,)) if field.unit else []
        signed = bool(key.get("signed"))
        return [
            {
                "value": [
                    *encoder.spans((self._middle(*ranges[error.id], signed=signed),)),
                    *(["\u2009", *unit] if unit else []),
                ],
                "said": encoder.spans(error.said),
                "give": self._words("give {marks} of {all}", marks=str(error.give), all=str(marks)) if marks else "",
            }
            for error in [error for error in errors if error.id in ranges][:_MOST_ERRORS]
        ]

    def _beliefs(
        self, field: doc.Field, errors: Sequence[doc.CommonError], key: Mapping[str, Any], encoder: Encoder
    ) -> list[dict[str, Any]]:
        """What each wrong option of this variant shows, by its letter."""
        said = {error.id: error.said for error in errors}
        shown = [(sign, name) for sign, names in shown_errors(field, key) for name in names if name in said]
        return [{"value": [sign], "said": encoder.spans(said[name]), "give": ""} for sign, name in shown]

    def _noted(self, errors: Sequence[doc.CommonError], key: Mapping[str, Any], encoder: Encoder) -> list[dict[str, Any]]:
        """The same of what is written down; the right one written wrong earns what the marker gives."""
        there = {error for ids in key.get("slips", {}).values() for error in ids}
        return [
            {"value": encoder.spans(error.shown), "said": encoder.spans(error.said), "give": ""}
            for error in [error for error in errors if error.id in there][:_MOST_ERRORS]
        ]

    def _also(self, field: doc.Field) -> str:
        """What else counts as a word, and what does not though it is near."""
        if not isinstance(field, doc.WordField):
            return ""
        also = [self._words("accept also: {words}", words=", ".join(field.also))] if field.also else []
        refused = [self._words("not: {words}", words=", ".join(field.refused))] if field.refused else []
        return clean("; ".join([*also, *refused]))

    def _table(self, part: doc.Part, key: Mapping[str, Any], encoder: Encoder) -> dict[str, Any]:
        """The filled table, and what else is accepted in its cells; of any other part nothing."""
        field = part.field
        if not isinstance(field, doc.TableField):
            return {"table": None, "cells": []}

        def notes(cell: doc.BlankCell, share: Mapping[str, Any]) -> dict[str, Any]:
            numeric = isinstance(cell.field, doc.NumberField)  # in a table options have no letters
            errors = self._errors(cell.field, cell.errors, 0, share, encoder) if numeric else []
            return {"accepted": self._accepted(cell.field, share, encoder), "errors": errors, "words": self._also(cell.field)}

        return {
            "table": memo_table(field, part.marks, encoder, self._words, self._points),
            "cells": cell_notes(field, key.get("cells", ()), encoder, notes),
        }

    def _middle(self, low: str, high: str, *, signed: bool) -> doc.Inscription:
        """What an error gives, from the range in which it is recognised: its middle, to the width of the range."""
        ends = Decimal(low), Decimal(high)
        middle, width = (ends[0] + ends[1]) / 2, abs(ends[1] - ends[0])
        figures = max(0, middle.adjusted() - width.adjusted()) if middle and width else 0
        if not middle or not width or -_POWERS <= middle.adjusted() < _POWERS:
            return self._printed(f"{middle:.{max(0, -width.adjusted() if width else 0)}f}", signed=signed)
        return self._printed(f"{middle:.{figures}e}", signed=signed)

    def _printed(self, number: str, *, signed: bool) -> doc.Inscription:
        return print_number(number, self._settings.decimal_mark, signed=signed, say=self._number_words)


def _left(line: doc.MathLine | doc.Spans) -> doc.MathNode | None:
    return line.left if isinstance(line, doc.MathLine) else None
