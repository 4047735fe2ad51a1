"""Questions → plain data for the solutions that students get: text and drawing, then each part with every step and its sentence."""

from __future__ import annotations

from typing import Any

from saltbridge import document as doc
from saltbridge.render.paper_data import Drawer, Encoder, clean


def solution(number: int, question: doc.Question, variant: doc.Variant, draw: Drawer) -> dict[str, Any]:
    """A question worked out, numbered from 1 within its paper."""
    encoder = Encoder(variant, draw)
    return {
        "number": number,
        "title": clean(question.title),
        "blocks": encoder.blocks(question.blocks),
        "parts": [_part(part, encoder) for part in question.parts],
    }


def _part(part: doc.Part, encoder: Encoder) -> dict[str, Any]:
    points = part.field.points if isinstance(part.field, doc.WrittenField) else ()
    return {
        "label": clean(part.label),
        "body": encoder.blocks(part.body),
        "steps": [_step(step, encoder) for step in part.working],
        "points": [encoder.spans(point.text) for point in points],
        "answer": encoder.spans(part.answer),
    }


def _step(step: doc.Step, encoder: Encoder) -> dict[str, Any]:
    return {"say": encoder.spans(step.say), "lines": [_line(line, encoder) for line in step.lines]}


def _line(line: doc.MathLine | doc.Spans, encoder: Encoder) -> dict[str, Any]:
    if not isinstance(line, doc.MathLine):
        return {"spans": encoder.spans(line)}
    left = None if line.left is None else encoder.maths(line.left)
    return {"left": left, "sign": line.sign, "right": encoder.maths(line.right), "alt": encoder.speech(line.spoken)}
