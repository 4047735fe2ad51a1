"""The controls of what is typed in the notation of chemistry, as HTML."""

from __future__ import annotations

from saltbridge.document import NotationField
from saltbridge.render.field_place import Place, box
from saltbridge.render.html import spans_html
from saltbridge.render.mathml import formula
from saltbridge.render.skeleton import escape


def notation_field(field: NotationField, place: Place) -> str:
    """The box over its whole line, below it how such an answer is typed."""
    shown = f'<span aria-hidden="true">{formula(field.symbol)} =</span>' if field.symbol else ""
    said = f'<span class="unseen">{escape(field.label)}</span>' if field.symbol else escape(field.label)
    how = f'<p class="how quiet" id="{place.name}-how">{spans_html(field.how)}</p>'
    head = f'<label for="{place.name}-typed">{place.of_part}{said}{shown}</label>'
    return f"{head}{box(place.name, 'long', f'{place.name}-how')}{how}"
