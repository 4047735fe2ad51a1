"""The names that a template asks for or prints, as it writes them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from saltbridge.bank.cases_part import OWNER
from saltbridge.bank.parts import ChoosePart, OrderPart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.template import Template
from saltbridge.bank.typed_parts import SpeciesPart
from saltbridge.draw.drawn_orders import owners_of
from saltbridge.draw.drawn_sets import compared_names
from saltbridge.draw.drawn_species import deciders
from saltbridge.forms.conditions import NAME


def asked_names(template: Template, lists: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """Names of texts, conditions, choices with their options, and of what things are put in order by; ``lists`` are the scene's."""
    yield from template.text.names
    for condition in template.keep_only_if:
        yield from condition.names
    for part in template.parts:
        yield from (name for text in part.texts.values() for name in text.names if not name.startswith(f"{OWNER}."))
        if isinstance(part, SeveralPart):
            yield from compared_names(part, lists)
        if isinstance(part, ChoosePart):
            if NAME.fullmatch(part.choose):
                yield part.choose
                yield part.choose.split(".")[0]
            yield from (option.text for option in part.options if option.may_be_name)
        if isinstance(part, SpeciesPart):
            yield part.species
            yield from deciders(part)
        if isinstance(part, OrderPart):
            yield from (f"{owner}.{part.by}" for owner in owners_of(part, lists))
