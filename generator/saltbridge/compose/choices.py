"""Parts that are chosen or put in order: options, what is right, and which slip leads to which wrong choice."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from saltbridge.bank.parts import ChoosePart, OrderPart
from saltbridge.catalogue.catalogue import Catalogue, Fact
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.slots import Filler
from saltbridge.compose.workings import working
from saltbridge.document import ChoiceField, Field, OrderField, Spans, Step, Text
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_options import option_order
from saltbridge.draw.drawn_orders import owners_of, ranking_slips, right_order, shown_owners, slipped_order
from saltbridge.faults import fault
from saltbridge.forms.conditions import Measured
from saltbridge.forms.prose import Prose
from saltbridge.forms.value_types import Option
from saltbridge.graph.laws import Rule, Undefined
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import WalkStep, walk
from saltbridge.policy import Policy, order_marks
from saltbridge.words import Words

SIDES = ("left", "right")


@dataclass(frozen=True)
class Made:
    """What such a part is made of; ``share`` gives a variant's share of the key, ``node`` what later parts may follow from."""

    field: Field
    working: tuple[Step, ...]
    answer: Spans
    lines: int
    shape: Mapping[str, Any]
    share: Callable[[Context], Mapping[str, Any]]
    node: str = ""
    walked: tuple[WalkStep, ...] = ()
    hints: tuple[Spans, ...] = ()


# ------------------------------------------------------------------ one of several


def choose(part: ChoosePart, drawn: Drawn, setter: MathSetter, catalogue: Catalogue, words: Words, known: frozenset[str]) -> Made:
    """A choice part. Raises ``Faulty`` (code ``no-right-option``) where not exactly one option is right."""
    node = _node(part, drawn)
    options = tuple(_option(part, place, setter) for place in range(len(part.options)))
    keys = _keys(node, drawn)
    values = [_option_value(option, keys) for option in part.options]
    _refuse_unknown_values(part, node, keys, drawn)
    right_of = _right_by_value(part, node, values) if node else _right_by_text(part)
    right_of(drawn)
    points = points_of(drawn.graph, node, drawn.situation, catalogue) if node else ()

    def share(context: Context) -> dict[str, Any]:
        right = option_order(part, context.drawn).index(right_of(context.drawn))
        slips: dict[str, dict[str, None]] = {}  # each error once, though it may happen at several steps
        for point in points:
            taken = context.drawn.graph.rerun(context.drawn.cells, point.part)
            if isinstance(taken, str) and taken in values and values.index(taken) != right:
                slips.setdefault(str(values.index(taken)), {})[point.slip.id] = None
        return {"right": [right], "slips": {option: list(found) for option, found in slips.items()}}

    hints = {point.slip.id: words(point.slip.hint) for point in points}
    shape = {
        "kind": "choice",
        "node": node or None,
        "values": values if node else [],
        "hints": hints,
    }
    steps = walk(drawn.graph, node, known) if node else ()
    answer = setter.slots.slot(
        f"right option {part.choose} {values} {[option.wording for option in part.options]}",
        lambda context: _option_spans(part, right_of(context.drawn), context),
    )
    field = ChoiceField(options, words("Choose one"))
    return Made(
        field,
        (*working(steps, setter, drawn.situation, words, {}), *_reason(part, drawn, setter)),
        (answer,),
        1,
        shape,
        share,
        node,
        steps,
    )


def _reason(part: ChoosePart, drawn: Drawn, setter: MathSetter) -> tuple[Step, ...]:
    """The template's own sentences on why the choice is right, as the last step of the working."""
    said = _own_words(part.why, drawn, setter)
    return (Step(said, (), {}),) if said else ()


def _own_words(text: Prose | None, drawn: Drawn, setter: MathSetter) -> Spans:
    """The template's own sentences as one line; nothing where it has none."""
    if text is None:
        return ()
    return tuple(span for block in prose.blocks(text, setter.slots, drawn) for span in getattr(block, "spans", ()))


def _option(part: ChoosePart, place: int, setter: MathSetter) -> Spans:
    option = part.options[place]
    key = f"option {place} {option.text} {option.wording}"
    return (setter.slots.slot(key, lambda context: _option_spans(part, option_order(part, context.drawn)[place], context)),)


def _option_spans(part: ChoosePart, place: int, context: Context) -> Spans:
    option = part.options[place]
    if not option.wording and option.may_be_name and _is_name(option.text, context.drawn):
        return (context.shown(option.text),)
    return tuple(
        each for block in option.prose.blocks for span in getattr(block, "spans", ()) for each in prose.filled(span, context)
    )


def _is_name(text: str, drawn: Drawn) -> bool:
    return drawn.has(text)


def _node(part: ChoosePart, drawn: Drawn) -> str:
    """The node that decides: the name itself or its owner (``anode.metal`` → ``anode``); "" where a text decides.

    A text decides where the options are words (zinc, iron…) and not things of the owner's kind (``left.metal``…).
    """
    for name in (part.choose, part.choose.split(".")[0]):
        if name in drawn.graph.index and isinstance(drawn.graph.value(drawn.cells, name), str):
            keys = _keys(name, drawn)
            things = name == part.choose or any(_option_value(option, keys) in keys for option in part.options)
            return name if things else ""
    return ""


def _keys(node: str, drawn: Drawn) -> frozenset[str]:
    """What a node may be, where a rule or a fact gives it."""
    law = drawn.graph.step(node).law if node else None
    return frozenset(law.keys) if isinstance(law, Rule | Fact) else frozenset(SIDES)


def _option_value(option: Option, keys: frozenset[str]) -> str:
    """The value behind an option: the thing that its name belongs to (``left.metal`` → ``left``), else its own words."""
    owner = option.text.split(".")[0]
    return owner if owner in keys else option.text.strip("` ")


def _refuse_unknown_values(part: ChoosePart, node: str, keys: frozenset[str], drawn: Drawn) -> None:
    """Refuse an option with a wording of its own whose value the deciding node can't have."""
    unknown = [
        option.text
        for option in part.options
        if node and option.wording and _option_value(option, keys) not in keys and not _is_name(option.text, drawn)
    ]
    if unknown:
        raise fault(
            "no-right-option", expected=f"values that {part.choose} can have: {', '.join(sorted(keys))}", found=", ".join(unknown),
            hint="The value stands before the colon, your wording after it.",
        )  # fmt: skip


def _right_by_value(part: ChoosePart, node: str, values: Sequence[str]) -> Callable[[Drawn], int]:
    def right(drawn: Drawn) -> int:
        found = drawn.graph.value(drawn.cells, node)
        if isinstance(found, Undefined):
            raise fault("undefined", expected=f"a value of {node} to choose", found=found.why)
        value = str(found)
        if values.count(value) != 1:
            raise _not_one_right(f"exactly one option for {value}", part)
        return values.index(value)

    return right


def _right_by_text(part: ChoosePart) -> Callable[[Drawn], int]:
    def right(drawn: Drawn) -> int:
        wanted = _text_of(drawn, part.choose)
        found = [place for place, option in enumerate(part.options) if _text_of(drawn, option.text) == wanted]
        if len(found) != 1:
            raise _not_one_right(f"exactly one option that is {wanted}", part)
        return found[0]

    return right


def _not_one_right(expected: str, part: ChoosePart) -> Exception:
    return fault(
        "no-right-option", expected=expected, found=", ".join(option.text for option in part.options),
        hint="List every answer that a draw can have, each once, as in `from: [left.metal, right.metal]`.",
    )  # fmt: skip


def _text_of(drawn: Drawn, name: str) -> str:
    value = drawn.lookup(name) if _is_name(name, drawn) else name
    return f"{value.value:g} {value.unit}".strip() if isinstance(value, Measured) else str(value)


# ------------------------------------------------------------------ in order


def order(part: OrderPart, drawn: Drawn, setter: MathSetter, catalogue: Catalogue, words: Words) -> Made:
    """An ordering part; the items stand in an order drawn for each variant."""
    items = tuple(
        (setter.slots.slot(f"item {part.by} {place}", _item_at(part, place)),) for place in range(len(owners_of(part, drawn)))
    )
    slips = ranking_slips(part, drawn, catalogue)

    def share(context: Context) -> dict[str, Any]:
        right = right_order(part, context.drawn)
        found: dict[str, list[str]] = {}
        for slip, way in slips:
            wrong = slipped_order(part, way, context.drawn)
            if wrong != right:
                found.setdefault(",".join(str(each) for each in wrong), []).append(slip.id)
        return {"right": right, "slips": found}

    hints = {slip.id: words(slip.hint) for slip, _ in slips}
    shape = {"kind": "order", "hints": hints}
    answer = setter.slots.slot(f"right order {part.by}", lambda context: _answer(part, context, share(context)["right"]))
    # What comes first is said by the question, which may not speak of the value at all.
    field = OrderField(items, words("first"), words("last"), words("Put them in order"))
    steps = working(walk(drawn.graph, "ranking"), setter, drawn.situation, words, {}) if "ranking" in drawn.graph.index else ()
    values = setter.slots.slot(f"values in order {part.by}", lambda context: _told_values(part, context, share(context)["right"]))
    say = _own_words(part.why, drawn, setter) or (Text(words("In order of their values:")),)
    told = Step(say, ((values,),), {})
    return Made(field, (*steps, told), (answer,), 1, shape, share)


def order_worth(found: Policy, part: OrderPart, drawn: Drawn) -> int:
    """The marks of an ordering."""
    return order_marks(found, len(owners_of(part, drawn)))


def _item_at(part: OrderPart, place: int) -> Filler:
    def fill(context: Context) -> Spans:
        return (context.shown(f"{shown_owners(part, context.drawn)[place]}.{part.show}"),)

    return fill


def _answer(part: OrderPart, context: Context, right: Sequence[int]) -> Spans:
    shown = shown_owners(part, context.drawn)
    spans: list[Any] = []
    for place, at in enumerate(right):
        spans += [Text(", ")] if place else []
        spans.append(context.shown(f"{shown[at]}.{part.show}"))
    return tuple(spans)


def _told_values(part: OrderPart, context: Context, right: Sequence[int]) -> Spans:
    shown = shown_owners(part, context.drawn)
    spans: list[Any] = []
    for place, at in enumerate(right):
        spans += [Text("; ")] if place else []
        spans += [context.shown(f"{shown[at]}.{part.show}"), Text(" "), context.quantity(f"{shown[at]}.{part.by}")]
    return tuple(spans)
