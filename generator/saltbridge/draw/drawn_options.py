"""Which options of a choice a variant shows, and in which order."""

from __future__ import annotations

from saltbridge.bank.parts import ChoosePart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.naming import LETTERS, explain
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_tables import ChosenCell, leaves
from saltbridge.draw.seeds import Seed


def may_fall_out(template: Template, entry: ScenarioEntry, catalogue: Catalogue) -> dict[str, tuple[str, ...]]:
    """By the key of a part or cell: its options that name a thing of the scenario that only some draws have (``cation.product``).

    A name that nothing of the scenario explains is none of them: it is words, or a slip that has to be told.
    """
    found = {
        leaf.key: tuple(
            each.text
            for each in leaf.part.options
            if "." in each.text and each.may_be_name and explain(each.text, entry, catalogue)
        )
        for leaf in leaves(template, None)
        if isinstance(leaf.part, ChoosePart)
    }
    return {key: names for key, names in found.items() if names}


def without(part: ChoosePart, fallen: frozenset[str]) -> ChoosePart:
    """The part with the options that are there."""
    return (
        part.model_copy(update={"options": tuple(each for each in part.options if each.text not in fallen)}) if fallen else part
    )


def in_drawn_order(part: ChoosePart, drawn: Drawn) -> bool:
    """Whether the place of an option says nothing of it: one is right word for word in every draw, each value has a sentence of its own, or all are letters of a figure."""
    if isinstance(part, ChosenCell):
        return False
    right_word_for_word = part.choose in [option.text for option in part.options] and not drawn.has(part.choose)
    return right_word_for_word or all(option.wording for option in part.options) or are_letters(part, drawn)


def are_letters(part: ChoosePart, drawn: Drawn) -> bool:
    """Whether all options are letters that a figure shows; they stand in their own order."""
    return all(option.text.rpartition(".")[2] in LETTERS and drawn.has(option.text) for option in part.options)


def option_order(part: ChoosePart, drawn: Drawn) -> tuple[int, ...]:
    """The options by their places in the template: as written, but drawn where the right one would else give itself away by its place."""
    places = tuple(range(len(part.options)))
    if are_letters(part, drawn):
        return tuple(sorted(places, key=lambda place: str(drawn.lookup(part.options[place].text))))
    return Seed("choose", part.choose, drawn.seed).shuffle("options", places) if in_drawn_order(part, drawn) else places
