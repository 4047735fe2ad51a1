"""Parts that are chosen: options, what is right, and which slip leads to which wrong choice."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from saltbridge.bank.parts import ChoosePart
from saltbridge.catalogue.catalogue import Catalogue, Fact, Slip
from saltbridge.catalogue.rules import ANY_OTHER, Taken
from saltbridge.chemistry.cells import SIDES
from saltbridge.compose import filled_prose as prose
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.workings import working
from saltbridge.document import ChoiceField, Part, Spans, Step
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_options import are_letters, in_drawn_order, option_order
from saltbridge.draw.fitting_metals import fitting_node
from saltbridge.faults import fault
from saltbridge.forms.conditions import as_told
from saltbridge.forms.prose import Prose
from saltbridge.forms.value_types import Option
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Conversion, Law, Rule, Undefined
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import walk
from saltbridge.renamed import now_called
from saltbridge.words import Words

# ------------------------------------------------------------------ one of several


def choose_part(label: str, part: ChoosePart, desk: Desk) -> Part:
    """A choice part. Raises ``Faulty`` as ``choose`` does."""
    made = choose(part, desk.drawn, desk.setter, desk.catalogue, desk.words, frozenset(desk.known))
    return desk.part(label, part, desk.followed(label, made), desk.policy.choose)


def choose(part: ChoosePart, drawn: Drawn, setter: MathSetter, catalogue: Catalogue, words: Words, known: frozenset[str]) -> Made:
    """A choice part. Raises ``Faulty`` (code ``no-right-option``) where not exactly one option is right."""
    node = _node(part, drawn)
    by_value = _has_values(part, node, drawn)
    options = tuple(_option(part, place, drawn, setter) for place in range(len(part.options)))
    keys = possible_values(node, drawn)
    values = [_option_value(option, keys) for option in part.options]
    _refuse_unknown_name(part, node, keys, drawn)
    # An error in deciding is likelier than one further back that comes to the same.
    found = points_of(drawn.graph, node, drawn.situation, catalogue) if node else ()
    points = tuple(sorted(found, key=lambda each: each.node != node))
    said = {point.json[1] for point in points if point.node == node and point.json and point.json[0] == "text"}
    _refuse_unknown_values(part, node if by_value else "", keys | said, drawn)
    right_of = _right_by_value(part, node, values) if by_value else _right_by_text(part, node)
    right_of(drawn)
    fixed = by_value and not in_drawn_order(part, drawn)
    rest = _rest(node, drawn.graph, catalogue)

    def share(context: Context) -> dict[str, Any]:
        order = option_order(part, context.drawn)
        right = order.index(right_of(context.drawn))
        found = values if by_value or not node else _values_by_text(part, keys, context.drawn)
        behind = [found[place] for place in order]
        slips: dict[str, dict[str, None]] = {}  # each error once, though it may happen at several steps
        for error, taken in taken_by_errors(context.drawn, node, points):
            if taken in behind and behind.index(taken) != right:
                slips.setdefault(str(behind.index(taken)), {})[error] = None
        if rest:
            slips |= {str(place): {rest.id: None} for place in range(len(order)) if place != right and str(place) not in slips}
        told: dict[str, Any] = {"right": [right], "slips": {option: list(ids) for option, ids in slips.items()}}
        if are_letters(part, context.drawn):
            told["signs"] = [as_told(context.drawn.lookup(part.options[place].text)) for place in order]
        return told | ({} if fixed or not node else {"values": behind})

    hints = {slip.id: words(slip.hint) for slip in (*(point.slip for point in points), *((rest,) if rest else ()))}
    shape = {
        "kind": "choice",
        "node": node or None,
        "values": values if fixed else [],
        "hints": hints,
    }
    shape |= _otherwise(node, drawn.graph, words)
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
        shape,
        share,
        node,
        steps,
        points=points,
    )


def _otherwise(node: str, graph: Graph, words: Words) -> dict[str, Any]:
    """What is said of a wrong option that no known error leads to: the question of the last step that decides and has one."""
    laws = [step.law for step in reversed(graph.upstream(node))] if node else []
    hint = next((found for law in laws if (found := _hint_of(law, graph))), "")
    return {"otherwise": words(hint)} if hint else {}


def _rest(node: str, graph: Graph, catalogue: Catalogue) -> Slip | None:
    """The common error that explains each wrong option which nothing else leads to."""
    law = graph.step(node).law if node else None
    if not isinstance(law, Rule):
        return None
    return next((slip for slip in catalogue.slips.values() if slip.rules.get(law.rule) == Taken("key", ANY_OTHER)), None)


def _hint_of(law: Law | None, graph: Graph) -> str:
    if isinstance(law, Rule):
        return graph.rules[law.rule].hint
    return "" if law is None or isinstance(law, Conversion) else law.hint


def taken_by_errors(drawn: Drawn, node: str, points: Sequence[SlipPoint]) -> Iterator[tuple[str, str]]:
    """The id of each error on the way to a choice or an order with what it leads to there, where that is another than the right one."""
    for point in points:
        taken = drawn.graph.rerun(drawn.cells, point.part)
        if isinstance(taken, str) and taken != drawn.graph.value(drawn.cells, node):
            yield point.slip.id, taken


def _reason(part: ChoosePart, drawn: Drawn, setter: MathSetter) -> tuple[Step, ...]:
    """The template's own sentences on why the choice is right, as the last step of the working."""
    said = own_words(part.why, drawn, setter)
    return (Step(said, (), {}),) if said else ()


def own_words(text: Prose | None, drawn: Drawn, setter: MathSetter) -> Spans:
    """The template's own sentences as one line; nothing where it has none."""
    if text is None:
        return ()
    return tuple(span for block in prose.blocks(text, setter.slots, drawn) for span in getattr(block, "spans", ()))


def _option(part: ChoosePart, place: int, drawn: Drawn, setter: MathSetter) -> Spans:
    option = part.options[place]
    order = f" of {part.choose}" if in_drawn_order(part, drawn) else ""
    key = f"option {place} {option.text} {option.wording}{order}"
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
    """The node that decides: the name itself or its owner (``anode.metal`` → ``anode``); "" where there is none."""
    fitting = fitting_node(part)
    return fitting if _decides(fitting, drawn) else deciding_node(part.choose, drawn)


def deciding_node(choice: str, drawn: Drawn) -> str:
    """The node that decides what a name is: the name itself or its owner (``anode.metal`` → ``anode``); "" where there is none."""
    return next((name for name in (choice, choice.split(".", maxsplit=1)[0]) if _decides(name, drawn)), "")


def _decides(name: str, drawn: Drawn) -> bool:
    return name in drawn.graph.index and isinstance(drawn.graph.value(drawn.cells, name), str)


def _has_values(part: ChoosePart, node: str, drawn: Drawn) -> bool:
    """Whether the options are values of the node or things of its kind (``left.metal``), and no words such as zinc and iron."""
    keys = possible_values(node, drawn)
    return bool(node) and (
        node in {part.choose, fitting_node(part)} or any(_option_value(option, keys) in keys for option in part.options)
    )


def _values_by_text(part: ChoosePart, keys: frozenset[str], drawn: Drawn) -> list[str | None]:
    """The value of the node behind each option that is a word: the thing that this word is the text of, where it is of one."""
    _, _, rest = part.choose.partition(".")
    names = {key: f"{key}.{rest}" for key in sorted(keys)}
    texts = {text_of(drawn, name): key for key, name in names.items() if _is_name(name, drawn)}
    return [texts.get(text_of(drawn, option.text)) for option in part.options]


def possible_values(node: str, drawn: Drawn) -> frozenset[str]:
    """What a node may be, where a rule or a fact gives it."""
    law = drawn.graph.step(node).law if node else None
    return frozenset(law.keys) if isinstance(law, Rule | Fact) else frozenset(SIDES)


def _option_value(option: Option, keys: frozenset[str]) -> str:
    """The value behind an option: the thing that its name belongs to (``left.metal`` → ``left``), else its own words."""
    owner = option.text.split(".")[0]
    return owner if owner in keys else option.text.strip("` ")


def _refuse_unknown_name(part: ChoosePart, node: str, keys: frozenset[str], drawn: Drawn) -> None:
    """Refuse a name to choose by that is none here: neither a word, nor a part of one of the things that the deciding node can be."""
    _, point, rest = part.choose.partition(".")
    names = (part.choose, *(f"{key}.{rest}" for key in keys if node and point))
    if node != part.choose and part.choose not in [option.text for option in part.options] and not any(map(drawn.has, names)):
        raise drawn.unknown(part.choose)


def _refuse_unknown_values(part: ChoosePart, node: str, keys: frozenset[str], drawn: Drawn) -> None:
    """Refuse an option with a wording of its own whose value the deciding node can't have, and no common error takes."""
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
            raise _not_one_right(f"exactly one option for {value}", part, node, drawn)
        return values.index(value)

    return right


def _right_by_text(part: ChoosePart, node: str) -> Callable[[Drawn], int]:
    def right(drawn: Drawn) -> int:
        wanted = text_of(drawn, part.choose)
        found = [place for place, option in enumerate(part.options) if text_of(drawn, option.text) == wanted]
        if len(found) != 1:
            raise _not_one_right(f"exactly one option that is {wanted}", part, node, drawn)
        return found[0]

    return right


def _not_one_right(expected: str, part: ChoosePart, node: str, drawn: Drawn) -> Exception:
    words = [option.text for option in part.options]
    old = [f"`{word}` is now called `{now}`." for word in words if (now := now_called(word))]
    every = _every_answer(part, node, drawn)
    usual = f"List every answer that a draw can have, each once{f', as `from: [{every}]`' if every else ''}."
    return fault("no-right-option", expected=expected, found=", ".join(words), hint=" ".join(old) or usual)


def _every_answer(part: ChoosePart, node: str, drawn: Drawn) -> str:
    """The options as they could stand: the part asked for of each thing, or all words of the choice; "" where they hang on the draw."""
    _, point, rest = part.choose.partition(".")
    names = sorted(f"{key}.{rest}" for key in possible_values(node, drawn) if point and drawn.has(f"{key}.{rest}"))
    return ", ".join(names or (drawn.choices(node) if node == part.choose and node else ()))


def text_of(drawn: Drawn, name: str) -> str:
    """What a name stands for as text, or the words themselves where they are none."""
    value = drawn.lookup(name) if _is_name(name, drawn) else name
    return as_told(value)
