"""Controls of what is chosen in groups, one of each, and of what is ticked."""

from __future__ import annotations

from saltbridge.document import ChoicesField, Group, SeveralField, Spans
from saltbridge.render.field_place import Place
from saltbridge.render.html import spans_html


def choices_markup(field: ChoicesField, place: Place) -> str:
    """A group of options each. Cases of one question stand numbered below it; else the question is the legend of the first group."""
    told = f'aria-describedby="{place.name}-verdict"'
    if field.numbered:
        groups = "".join([_group(group, at, place, _numbered(group, at)) for at, group in enumerate(field.groups)])
        return f'<fieldset class="cases" {told}>{place.asked}{groups}</fieldset>'
    heads = [_legend(group.head) if group.head else place.asked for group in field.groups]
    return "".join(
        [_group(group, at, place, head, told) for at, (group, head) in enumerate(zip(field.groups, heads, strict=True))]
    )


def several_markup(field: SeveralField, place: Place) -> str:
    """A box to tick for each option."""
    options = _options(field.options, "checkbox", "typed", place.name)
    return f'<fieldset aria-describedby="{place.name}-verdict">{place.asked}{options}</fieldset>'


def _group(group: Group, at: int, place: Place, legend: str, told: str = "") -> str:
    options = _options(group.options, "radio", f"typed-{at}", f"{place.name}-{at}")
    return f'<fieldset data-group="{at}"{" " + told if told else ""}>{legend}{options}</fieldset>'


def _numbered(group: Group, at: int) -> str:
    return f'<legend class="asked"><span class="quiet">({at + 1})</span> {spans_html(group.head)}</legend>'


def _legend(head: Spans) -> str:
    return f'<legend class="asked">{spans_html(head)}</legend>'


def _options(options: tuple[Spans, ...], kind: str, name: str, stem: str) -> str:
    return "".join(
        [
            f'<div class="option"><input type="{kind}" name="{name}" value="{at}" id="{stem}-{at}">'
            f'<label for="{stem}-{at}">{spans_html(option)}</label></div>'
            for at, option in enumerate(options)
        ]
    )
