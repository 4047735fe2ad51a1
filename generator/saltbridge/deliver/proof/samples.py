"""Sample variants written out for the report, with accepted ranges and the values of slips."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from saltbridge.bank.beliefs import is_own
from saltbridge.bank.parts import FindPart
from saltbridge.catalogue.catalogue_records import title
from saltbridge.compose.context import Context
from saltbridge.deliver.proof.draw_statistics import Sample
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.document import (
    ChoiceField,
    ChoicesField,
    CommonError,
    Field,
    OrderField,
    Part,
    SeveralField,
    Spans,
    TableField,
    Text,
    spoken,
)
from saltbridge.draw.finds import Find
from saltbridge.render.part_markup import figures_of
from saltbridge.render.proof_sample import PartShown, SlipShown, sample_html
from saltbridge.sigfigs import to_figures

_MOST_DIGITS = 7


def sample(seen: Seen, context: Context) -> Sample:
    """One variant as the report shows it."""
    shown = [_shown(at, part, seen, context) for at, part in enumerate(seen.question.parts)]
    html = sample_html(seen.question, seen.variant, shown, context.printer.words)
    return Sample(seen.drawn.seed, html, (*figures_of(seen.question), *seen.variant.figures))


def _shown(at: int, part: Part, seen: Seen, context: Context) -> PartShown:
    if isinstance(part.field, TableField):
        return PartShown((), tuple(_in_cells(at, seen, context)))
    find = dict(seen.finds).get(f"parts[{at + 1}]")
    if find is None:
        return PartShown((), tuple(_chosen(part.field, part.errors, seen.variant.judge[at], seen)))
    right = seen.drawn.outcomes[find.node].right
    low, high = (_bound(value, find, context) for value in (right.lo, right.hi))
    return PartShown((low, high), tuple(_values(find, seen, context)))


def _bound(value: Decimal, find: Find, context: Context) -> Spans:
    digits = to_figures(value, 3) if len(value.as_tuple().digits) > _MOST_DIGITS else value
    return (context.printer.number(digits, signed=context.printer.signed(find.node)),)


def _values(find: Find, seen: Seen, context: Context) -> Iterator[SlipShown]:
    for each in seen.drawn.outcomes[find.node].slips:
        value = context.printer.quantity(each.printed, find.unit, signed=context.printer.signed(find.node))
        names = "; ".join(title(slip) for slip in (each.point.slip.id, *each.same))
        yield SlipShown(names, each.point.slip.hint, (value,))


def _in_cells(at: int, seen: Seen, context: Context) -> Iterator[SlipShown]:
    """What the slips give in the blank cells of a table; the same value or choice once."""
    told: dict[tuple[str, Spans], SlipShown] = {}
    for asked in seen.asked:
        if asked.key.startswith(f"parts[{at + 1}]."):
            shown = () if isinstance(asked.part, FindPart) else _chosen(asked.field, (), asked.share, seen)
            told |= {(each.title, each.value): each for each in shown}
    for key, find in seen.finds:
        if key.startswith(f"parts[{at + 1}]."):
            told |= {(each.title, each.value): each for each in _values(find, seen, context)}
    yield from told.values()


def _chosen(field: Field, errors: Sequence[CommonError], share: Mapping[str, Any], seen: Seen) -> Iterator[SlipShown]:
    """Wrong choices and orders, by the slips that lead to them."""
    for things, slips in _offered(field, share):
        for chosen, ids in slips.items():
            spans: list[Any] = []
            for place, at in enumerate(chosen.split(",") if things else ()):
                spans += [Text(", ")] if place else []
                spans += _filled(things[int(at)], seen)
            yield SlipShown("; ".join(_title(slip, errors) for slip in ids), "", tuple(spans) or (Text(chosen),))


def _offered(field: Field, share: Mapping[str, Any]) -> Iterator[tuple[Sequence[Spans], Mapping[str, Sequence[str]]]]:
    """What can be chosen or put in order, with the slips by what is chosen; for each group where there are several."""
    match field:
        case ChoicesField(groups):
            rows = share.get("rows") or (share, share["reason"])
            yield from ((group.options, row["slips"]) for group, row in zip(groups, rows, strict=True))
        case ChoiceField(options=things) | SeveralField(options=things) | OrderField(items=things):
            yield things, share.get("slips", {})
            yield things, share.get("beliefs", {})
        case _:
            yield (), share.get("slips", {})


def _title(slip: str, errors: Sequence[CommonError]) -> str:
    """The title of a common error, or the words of a template that stand for one."""
    said = next((error.said for error in errors if error.id == slip), ())
    return spoken(said) if is_own(slip) else title(slip)


def _filled(spans: Spans, seen: Seen) -> Spans:
    """The spans with the variant's own in place of slots."""
    out: list[Any] = []
    for span in spans:
        index = getattr(span, "index", None)
        out += seen.variant.slots[index] if index is not None else (span,)
    return tuple(out)
