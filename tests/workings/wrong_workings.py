"""A working with a wrong step, read back from the options of its part as they are printed."""

from __future__ import annotations

from workings.printed_lines import NotANumberError, Reader, single

from saltbridge import document as doc
from saltbridge.render.text import spans_text


def steps_of(field: doc.ChoiceField) -> list[doc.Step]:
    """Each option as a step of a working: its formulas as lines, each cut at its first sign of equality."""
    return [doc.Step((), tuple(_line(span) for span in option if isinstance(span, doc.Maths)), {}) for option in field.options]


def _line(span: doc.Maths) -> doc.MathLine:
    items = span.body.items
    at = next(place for place, item in enumerate(items) if isinstance(item, doc.Sign) and item.text == "=")
    left, right = items[:at], items[at + 1 :]
    return doc.MathLine(left[0] if left else None, "=", doc.Row(right), span.spoken)


def results(step: doc.Step, slots) -> list[str]:
    """The numbers with their units that the lines of a step end in, as printed."""
    reader, found = Reader(slots), []
    for line in step.lines:
        for part in reader.chain(line.right)[0]:
            try:
                found += [spans_text(part)] if single(part) else []
            except NotANumberError:
                continue
    return found
