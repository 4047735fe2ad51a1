"""The controls of each kind of answer as HTML: one function a kind; a kind with a file of its own has its line here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from saltbridge.document import (
    ChoiceField,
    ChoicesField,
    EquationField,
    Field,
    NotationField,
    NumberField,
    OrderField,
    SeveralField,
    Spans,
    TableField,
    WordField,
    WrittenField,
)
from saltbridge.render.field_place import Place, box
from saltbridge.render.html import spans_html
from saltbridge.render.mathml import formula
from saltbridge.render.notation_field import notation_field
from saltbridge.render.option_fields import choices_markup, several_markup
from saltbridge.render.skeleton import escape
from saltbridge.render.table_field import table_markup
from saltbridge.render.written_field import written_field
from saltbridge.words import Words

WAYS = {"up": "Up", "down": "Down"}
"""The two buttons of an entry to put in order: the script's name and the word shown."""


def field_markup(field: Field, place: Place) -> tuple[str, str]:
    """The word by which the script knows the kind of a field, and its controls."""
    kind, controls = _KINDS[type(field)]
    return kind, controls(field, place)


def is_told_at_once(field: Field) -> bool:
    """Whether nothing of a field is checked, so that what there is to tell is told as it changes."""
    return isinstance(field, WrittenField)


def is_group(field: Field) -> bool:
    """Whether a field is a group of controls, whose legend is the question."""
    return isinstance(field, _GROUPS)


def _number(field: NumberField, place: Place) -> str:
    """The box between symbol and unit, named by part, quantity, unit and how exactly the number is wanted."""
    told = f" ({escape(field.wanted)})" if field.wanted else ""
    spoken_unit = f", {escape(field.unit.spoken)}" if field.unit else ""
    quiet = f'<span class="unseen">{spoken_unit}{told}</span>'
    if field.symbol is None:
        head = f'<label for="{place.name}-typed">{place.of_part}{escape(field.label)}{quiet}</label>'
    else:
        shown = f'<span aria-hidden="true">{formula(field.symbol)} =</span>'
        head = f'<label for="{place.name}-typed">{place.of_part}<span class="unseen">{escape(field.label)}</span>{quiet}{shown}</label>'
    unit = f'<span class="unit">{spans_html((field.unit,))}</span>' if field.unit else ""
    shown = f'<span class="wanted quiet" aria-hidden="true">{told.strip()}</span>' if told else ""
    return f'{head}<span class="boxed">{box(place.name, "short")}{unit}</span>{shown}'


def _equation(field: EquationField, place: Place) -> str:
    return f'<label for="{place.name}-typed">{place.of_part}{escape(field.label)}</label>{box(place.name, "long")}'


def _word(field: WordField, place: Place) -> str:
    return f'<label for="{place.name}-typed">{place.of_part}{escape(field.label)}</label>{box(place.name, "short")}'


def _choice(field: ChoiceField, place: Place) -> str:
    options = "".join(
        [
            f'<div class="option"><input type="radio" name="typed" value="{at}" id="{place.name}-{at}">'
            f'<label for="{place.name}-{at}">{spans_html(option)}</label></div>'
            for at, option in enumerate(field.options)
        ]
    )
    return f'<fieldset aria-describedby="{place.name}-verdict">{place.asked}{options}</fieldset>'


def _order(field: OrderField, place: Place) -> str:
    items = "".join([_item(item, at, place.words) for at, item in enumerate(field.items)])
    return (
        f'<fieldset aria-describedby="{place.name}-verdict">{place.asked}'
        f'<p class="end quiet">{escape(field.first)}</p><ol class="order">{items}</ol><p class="end quiet">{escape(field.last)}</p></fieldset>'
    )


def _item(item: Spans, at: int, words: Words) -> str:
    """An entry with its two buttons; their names hold the visible word, so that it can be spoken to a computer."""
    shown = spans_html(item)
    buttons = "".join(
        [
            f'<button type="button" data-do="{way}" hidden>{escape(words(word))}<span class="unseen"> {escape(words("move"))} {shown}</span></button>'
            for way, word in WAYS.items()
        ]
    )
    return f'<li data-item="{at}"><span class="thing">{shown}</span><span class="movers">{buttons}</span></li>'


_GROUPS = (ChoiceField, ChoicesField, SeveralField, OrderField, TableField)
_KINDS: Mapping[type[Field], tuple[str, Callable[[Any, Place], str]]] = {
    NumberField: ("number", _number),
    ChoiceField: ("choice", _choice),
    ChoicesField: ("choices", choices_markup),
    SeveralField: ("several", several_markup),
    OrderField: ("order", _order),
    EquationField: ("equation", _equation),
    WordField: ("word", _word),
    TableField: ("table", table_markup),
    WrittenField: ("written", written_field),
    NotationField: ("notation", notation_field),
}
