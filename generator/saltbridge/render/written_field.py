"""A written answer on the page: a box for the text, and the points behind a heading, each with a box to tick."""

from __future__ import annotations

from saltbridge.document import KeyPoint, WrittenField
from saltbridge.render.field_place import Place
from saltbridge.render.html import marks_html, spans_html
from saltbridge.render.skeleton import escape
from saltbridge.words import Words

ROWS_A_MARK, LEAST_ROWS, MOST_ROWS = 2, 3, 10
LONGEST = 4000
"""Characters of a text that a browser keeps."""


def written_field(field: WrittenField, place: Place) -> str:
    """The controls. A sketch is drawn on paper, so that only its points stand on the page."""
    points = "".join([_point(point, at, place) for at, point in enumerate(field.points)])
    asked = f'<legend class="asked">{escape(how_to_tick(field, place.words))}</legend>'
    shown = f"<summary>{place.of_part}{escape(place.words('Show the points'))}</summary>"
    group = f'<fieldset aria-describedby="{place.name}-verdict">{asked}{points}</fieldset>'
    return f'{_answer(field, place)}<details class="points">{shown}{group}</details>'


def how_to_tick(field: WrittenField, words: Words) -> str:
    """What is to be done with the points."""
    if field.wanted:
        return words("Tick what your answer has. Any {wanted} of these count.", wanted=field.wanted)
    return words("Tick what your answer has.")


def _answer(field: WrittenField, place: Place) -> str:
    if field.on != "lines":
        return f'<p class="quiet">{escape(place.words("Draw on paper. Then show the points."))}</p>'
    rows = min(MOST_ROWS, max(LEAST_ROWS, ROWS_A_MARK * field.most))
    return (
        f'<label for="{place.name}-typed">{place.of_part}{escape(field.label)}</label>'
        f'<textarea id="{place.name}-typed" name="typed" rows="{rows}" maxlength="{LONGEST}" autocomplete="off"></textarea>'
    )


def _point(point: KeyPoint, at: int, place: Place) -> str:
    """A point with its box; what else is accepted and what is refused stands below and describes it."""
    name, notes = f"{place.name}-{at}", list(_notes(point, place.words))
    told = f' aria-describedby="{name}-notes"' if notes else ""
    below = f'<div class="point-notes quiet" id="{name}-notes">{"".join(notes)}</div>' if notes else ""
    return (
        f'<div class="option"><input type="checkbox" name="point" value="{at}" id="{name}"{told}>'
        f'<label for="{name}">{spans_html(point.text)} {marks_html(point.marks, place.words)}</label></div>{below}'
    )


def _notes(point: KeyPoint, words: Words) -> list[str]:
    told = [(words("Also accept:"), each) for each in point.accept] + [(words("Do not accept:"), each) for each in point.refuse]
    return [f"<p><strong>{escape(lead)}</strong> {spans_html(spans)}</p>" for lead, spans in told]
