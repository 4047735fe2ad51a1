"""What is wrong with a template in itself, before or beside its draws, all at once and each at its key."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from saltbridge.bank.cases_part import OWNER, CasesPart
from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.parts import FindPart, WhichPart
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.spare_part import SparePart
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.template import Template
from saltbridge.bank.written_part import WrittenPart
from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_tables import Lists, leaves, table_texts
from saltbridge.draw.finds import Asking
from saltbridge.draw.misfits_of_words import of_words, told_twice
from saltbridge.draw.name_advice import listing_command
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.conditions import NONE, Condition, Name, Word
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import nearest
from saltbridge.graph.laws import quantity_of
from saltbridge.scenarios.situations import refuse_unit

CONTEXT = "context"
OF_PRINT = frozenset({"standard_concentration"})
"""Names that no scenario has but that print the same in every one."""


def misfits(template: Template, catalogue: Catalogue) -> Iterator[Fault]:
    """Slips and quantities that there are not, and units of another kind: no draw is needed to see them."""
    yield from _of_errors(template, "must reveal", template.must_reveal, catalogue, (*catalogue.slips, *catalogue.ideas))
    for leaf in leaves(template, None):
        part = leaf.part
        if isinstance(part, Asking):
            yield from _of_find(template, leaf.key, part, catalogue)
        if isinstance(part, CorrectPart) and not any(isinstance(each, WrongStepPart) for each in template.parts[: leaf.at]):
            expected, hint = "a part with `wrong step in` before this one", "Put it above, as `wrong step in: m`."
            yield template.fault(f"{leaf.key}.correct", "no-wrong-step", expected=expected, found="none", hint=hint)
        if isinstance(part, WrongStepPart):
            yield from _of_errors(template, f"{leaf.key}.errors", part.errors, catalogue)
        if isinstance(part, WhichPart):
            yield from _of_which(template, f"{leaf.key}.which", part, catalogue)
        yield from of_words(template, leaf.key, part, catalogue)
    yield from told_twice(template)


def _of_errors(
    template: Template, key: str, errors: Sequence[str], catalogue: Catalogue, known: Sequence[str] = ()
) -> Iterator[Fault]:
    """Ids of common errors that there are not."""
    for at, slip in enumerate(errors, 1):
        if slip not in (known or catalogue.slips):
            hint = nearest(slip, known or catalogue.slips) or "They stand in data/slips and data/ideas.yaml."
            yield template.fault(
                f"{key}[{at}]", "unknown-slip", expected="the id of a common error", found=f"`{slip}`", hint=hint
            )


def _of_which(template: Template, key: str, part: WhichPart, catalogue: Catalogue) -> Iterator[Fault]:
    for at, name in enumerate(part.which, 1):
        if name not in catalogue.ideas:
            hint = nearest(name, catalogue.ideas) or "They stand in data/ideas.yaml and the bank's own ideas.yaml."
            yield template.fault(f"{key}[{at}]", "unknown-idea", expected="the id of an idea", found=f"`{name}`", hint=hint)


def _of_find(template: Template, key: str, part: Asking, catalogue: Catalogue) -> Iterator[Fault]:
    quantity = quantity_of(part.find, catalogue.quantities)
    if quantity is None:
        hint = f"{nearest(part.find, catalogue.quantities)} {listing_command(template.scenario.kind, catalogue)}".strip()
        expected = "a quantity such as E0_cell"
        where = {FindPart: "find", EstimatePart: "estimate", SparePart: "not needed for"}.get(type(part), "wrong step in")
        yield template.fault(f"{key}.{where}", "unknown-quantity", expected=expected, found=f"`{part.find}`", hint=hint)
        return
    for name, value in (("figures", part.figures), ("decimals", part.decimals)):
        if quantity.whole and value not in {None, 0 if name == "decimals" else None}:
            hint = f"Leave out `{name}`; the question then asks for the nearest whole number."
            expected = f"no {name}: {part.find} is a whole number"
            yield template.fault(f"{key}.{name}", "whole-number", expected=expected, found=str(value), hint=hint)
    if part.unit is not None and part.unit != quantity.unit:
        try:
            refuse_unit(quantity, part.unit)
        except Faulty as error:
            for each in error.faults:
                yield template.fault(f"{key}.in", each.code, expected=each.expected, found=f"`{part.unit}`", hint=each.hint)


def with_unknown_names(template: Template, error: Faulty, drawn: Drawn) -> Faulty:
    """The faults of a draw, and every name of the template that its scenario does not have."""
    unknown = unknown_names(template, drawn)
    told = {each.found for each in unknown}
    return Faulty([*(each for each in error.faults if each.code != "unknown-name" or each.found not in told), *unknown])


def unknown_names(template: Template, drawn: Drawn) -> tuple[Fault, ...]:
    """Every name in a text or condition that a draw does not have, once, at the first key that holds it."""
    known = {*drawn.names(), *OF_PRINT}
    unknown: dict[str, Fault] = {}
    for key, names in mentions(template, drawn.lists):
        for name in names:
            if name not in known and name not in unknown:
                found = drawn.unknown_fault(name)
                unknown[name] = template.fault(key, found.code, expected=found.expected, found=found.found, hint=found.hint)
    return tuple(unknown.values())


def asking_nothing(template: Template) -> Template:
    """The template with its text alone, and the choices and orders among its parts: what they name needs no number asked for."""
    asking = Asking | CorrectPart | WhichPart | TablePart | WrittenPart | CasesPart | SequencePart
    parts = tuple(part for part in template.parts if not isinstance(part, asking))
    return template.model_copy(update={"parts": parts, "keep_only_if": (), "must_reveal": (), "rules": ()})


def impossible(template: Template, drawn: Drawn) -> Iterator[Fault]:
    """Comparisons with a word that their name is in no draw, such as ``anode == "lefft"``: they would never, or always, be true."""
    for key, condition in _conditions(template):
        for each in condition.comparisons:
            for name, word in ((each.left, each.right), (each.right, each.left)):
                if (
                    isinstance(name, Name)
                    and isinstance(word, Word)
                    and (known := template.context if name.path == CONTEXT else drawn.choices(name.path))
                    and word.text not in (*known, NONE)
                ):
                    expected = f"a word that `{name.path}` can be"
                    hint = nearest(word.text, known) or f"Known: {', '.join(f'`{one}`' for one in known)}."
                    yield template.fault(key, "condition-word", expected=expected, found=f'`"{word.text}"`', hint=hint)


def _conditions(template: Template) -> Iterator[tuple[str, Condition]]:
    several = len(template.keep_only_if) > 1
    for at, condition in enumerate(template.keep_only_if, 1):
        yield f"keep only if[{at}]" if several else "keep only if", condition
    for key, text in _texts(template):
        yield from ((key, condition) for condition in text.conditions)


def _texts(template: Template, lists: Lists | None = None) -> Iterator[tuple[str, Prose]]:
    yield "text", template.text
    for at, part in enumerate(template.parts, 1):
        yield from ((f"parts[{at}].{key}", text) for key, text in part.texts.items())
        if isinstance(part, TablePart):
            yield from ((f"parts[{at}].{key}", text) for key, text in table_texts(part, lists))


def mentions(template: Template, lists: Lists | None = None) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The keys that hold texts, with the names in their holes and conditions; ``lists`` tell for which things ``each`` stands."""
    several = len(template.keep_only_if) > 1
    for at, condition in enumerate(template.keep_only_if, 1):
        yield f"keep only if[{at}]" if several else "keep only if", condition.names
    for key, text in _texts(template, lists):
        # What a case prints of itself is held against that case as it is read.
        yield key, tuple(name for name in text.names if ".cases[" not in key or not name.startswith(f"{OWNER}."))
