"""A walked derivation becomes the steps of a working: sentence, lines, marks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from saltbridge.chemistry.equation_operations import multipliers
from saltbridge.chemistry.equations import parse_equation
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import MathSetter, spaced, speech
from saltbridge.compose.slots import Filler, Slots
from saltbridge.compose.written_forms import EQUALS, written_at
from saltbridge.document import MathLine, MathNode, Row, Spans, Step, Text
from saltbridge.graph.laws import Situation, bare_name
from saltbridge.graph.walk import WalkLine, WalkStep
from saltbridge.words import Words, holes

QUOTIENT = "quotient"
"""The law whose concentrations and pressures are pure numbers: each is told relative to its standard."""


def working(
    steps: Sequence[WalkStep], setter: MathSetter, situation: Situation, words: Words, marks: Mapping[tuple[int, int], int]
) -> tuple[Step, ...]:
    """The steps; ``marks`` maps (step, line) to the marks earned there, line −1 being the sentence itself."""
    return tuple(
        Step(
            said(step, setter.slots, situation, words),
            tuple(
                _line(line, place, setter, pure=step.law == QUOTIENT)
                for place, line in enumerate(shown_lines(step, situation))
                if line.kind != "choice"
            ),
            {place: count for (where, place), count in marks.items() if where == number},
        )
        for number, step in enumerate(steps)
    )


def said(step: WalkStep, slots: Slots, situation: Situation, words: Words) -> Spans:
    """A step's sentence; where half-equations are added, the one for how often each is taken in this variant."""
    if len(step.says) < len(MULTIPLIED):
        return sentence(step.say, slots, situation, words)
    return (slots.slot(f"added for {step.node}", lambda context: _multiplied(step, context, words)),)


MULTIPLIED = ((False, False), (True, False), (False, True), (True, True))
"""Whether the first and the second half-equation are taken several times, in the order of a step's sentences."""


def _multiplied(step: WalkStep, context: Context, words: Words) -> Spans:
    halves = [parse_equation(context.drawn.cells[context.drawn.graph.index[name]]) for name in step.made_from]
    counts = dict(zip(("cathode", "anode"), multipliers(*halves), strict=True))
    say = step.says[MULTIPLIED.index((counts["cathode"] > 1, counts["anode"] > 1))]
    more: dict[str, Spans] = {role: (context.printer.number(str(count)),) for role, count in counts.items() if count > 1}
    return words.spans(words.of_owner(say), **more)


def shown_lines(step: WalkStep, situation: Situation) -> tuple[WalkLine, ...]:
    """The lines of a step; what both sides of a cell read from the sheet alike stands there once."""
    found: dict[object, WalkLine] = {}
    for place, line in enumerate(step.lines):
        label = situation.labels.get(situation.about.get(line.node, ""))
        alike = line.kind == "reading" and label is not None
        found.setdefault((bare_name(line.node), label) if alike else place, line)
    return tuple(found.values())


def sentence(say: str, slots: Slots, situation: Situation, words: Words) -> Spans:
    """A step's sentence with its labels in slots; a label that this situation lacks is left out with its commas."""
    values: dict[str, Spans] = {}
    for name in sorted(holes(say)):
        if name in situation.labels:
            values[name] = (slots.slot(f"label {name}", _label(name)),)
        elif name in situation.words or name in situation.given:
            values[name] = (slots.slot(f"plain {name}", _plain_of(name)),)
    return words.spans(words.of_owner(say), **values)


def _label(name: str) -> Filler:
    return lambda context: (context.situation.labels[name],)


def _plain_of(name: str) -> Filler:
    return lambda context: (_plain(context.shown(name)),)


def _plain(shown: object) -> Text:
    return shown if isinstance(shown, Text) else Text(getattr(shown, "plain", ""))


def _line(line: WalkLine, place: int, setter: MathSetter, *, pure: bool) -> MathLine | Spans:
    first = place == 0
    match line.kind:
        case "equation":
            return (setter.slots.slot(f"equation {line.node}", written_at(line.node)),)
        case "reading" | "balance":
            return _equation(setter.symbol(line.node), setter.quantity(line.node), setter.printer.words)
        case "conversion":
            return _equation(
                setter.symbol(line.node),
                Row((setter.quantity(line.subject), EQUALS, setter.result(line.node))),
                setter.printer.words,
            )
        case "formula" | "rearranged":
            assert line.tree is not None  # noqa: S101 - walk gives these lines a tree
            return _equation(setter.symbol(line.subject), setter.symbols(line.tree), setter.printer.words)
        case "substitution":
            assert line.tree is not None  # noqa: S101 - walk gives these lines a tree
            return _equation(
                setter.symbol(line.node) if first else None, setter.numbers(line.tree, pure=pure), setter.printer.words
            )
        case _:
            return _equation(setter.symbol(line.node) if first else None, setter.result(line.node), setter.printer.words)


def _equation(left: MathNode | None, right: MathNode, say: Words) -> MathLine:
    said = (*(speech(left, say) if left else ()), say("equals"), *speech(right, say))
    return MathLine(left, "=", right, spaced(said))
