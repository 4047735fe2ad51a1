"""The names that a template asks for or prints, as it writes them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from saltbridge.bank.cases_part import OWNER
from saltbridge.bank.parts import AnyPart, ChoosePart, OrderPart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.template import Template
from saltbridge.bank.typed_parts import SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.draw.drawn_orders import owners_of
from saltbridge.draw.drawn_sets import compared_names
from saltbridge.draw.drawn_tables import leaves, table_texts
from saltbridge.forms.conditions import NAME


def asked_names(template: Template, lists: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """Names of texts, conditions, the figure's too, choices with their options, and of what things are put in order by; ``lists`` are the scene's."""
    yield from template.text.names
    for condition in template.keep_only_if:
        yield from condition.names
    if template.figure.entry is not None and template.figure.entry.kept is not None:
        yield from template.figure.entry.kept.names
    for part in template.parts:
        yield from (name for text in part.texts.values() for name in text.names if not name.startswith(f"{OWNER}."))
        if isinstance(part, TablePart):
            yield from (name for _, text in table_texts(part, lists) for name in text.names)
    for leaf in leaves(template, lists):
        yield from _of_part(leaf.part, lists)


def _of_part(part: AnyPart, lists: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    match part:
        case SeveralPart():
            yield from compared_names(part, lists)
        case ChoosePart():
            if NAME.fullmatch(part.choose):
                yield part.choose
                yield part.choose.split(".")[0]
            yield from (option.text for option in part.options if option.may_be_name)
        case WordPart():
            yield from (name for word in (part.word, *part.also) if NAME.fullmatch(word) for name in (word, word.split(".")[0]))
        case SpeciesPart():
            yield part.species
        case OrderPart():
            yield from (f"{owner}.{part.by}" for owner in owners_of(part, lists))
        case _:
            return
