"""A working with one wrong step, to be picked; and the number that this step should give."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.made import Made
from saltbridge.compose.mathset import MathSetter, spaced, speech
from saltbridge.compose.number_parts import number_part
from saltbridge.compose.slots import Filler, Slots
from saltbridge.compose.workings import working
from saltbridge.compose.written_forms import EQUALS
from saltbridge.document import ChoiceField, Inline, LineBreak, MathLine, MathNode, Maths, Part, Row, Slot, Spans, Step, Text
from saltbridge.draw.planted_errors import Planted
from saltbridge.graph.walk import picked_sides, shown_nodes, walk
from saltbridge.words import Words


class _WrongSlots(Slots):
    """Slots of the question that are filled from the draw as it comes out with the error of a part's working."""

    def __init__(self, part: WrongStepPart, desk: Desk) -> None:
        super().__init__()
        self._part, self._desk = part, desk

    def slot(self, key: str, filler: Filler) -> Slot:
        """A slot of the question, under a name of its own."""

        def fill(context: Context) -> Spans:
            found = self._desk.drawer.wrong_steps.planted(self._part, context.drawn)
            return filler(Context(context.printer, found.of(context.drawn)))

        return self._desk.slots.slot(f"with an error in {self._part.wrong_step_in}: {key}", fill)


def wrong_step_part(label: str, part: WrongStepPart, desk: Desk) -> Part:
    """The part that picks the wrong step: its options are the steps, in their order."""
    found = desk.drawer.wrong_steps.planted(part, desk.drawn)
    setter = MathSetter(desk.printer, desk.drawn.situation, _WrongSlots(part, desk))
    steps = working(found.steps, setter, desk.drawn.situation, desk.words, {})
    wrong = steps[found.place]
    field_ = ChoiceField(tuple(_option(step, desk.words) for step in steps), desk.words("Choose one step"))
    hint = desk.words(found.steps[found.place].hint)
    shape: dict[str, Any] = {"kind": "choice", "node": None, "values": [], "whys": _whys(found)} | (
        {"otherwise": hint} if hint else {}
    )
    share = {"right": [found.place], "slips": {}}
    made = Made(field_, _explained(wrong, part, found, desk), _first_line(wrong, desk.words), shape, lambda _: share)
    desk.shares.append(made.share)
    desk.known.update(shown_nodes(found.steps[: found.place]))
    return desk.part(label, part, made, desk.policy.choose)


def correct_part(label: str, part: CorrectPart, desk: Desk) -> Part:
    """The part that gives the right value of the wrong step: a number like any other."""
    return number_part(label, desk.drawer.wrong_steps.corrected(part, desk.drawn), desk)


# ------------------------------------------------------------------ options


def _option(step: Step, words: Words) -> Spans:
    """A step on lines of its own; its sentence only where it has no line, since the sentence would tell what the line should be."""
    if not step.lines:
        return step.say
    spans: list[Inline] = []
    for line in step.lines:
        for run in _runs(line, words):
            spans += [LineBreak(), *run] if spans else run
    return tuple(spans)


def _runs(line: MathLine | Spans, words: Words) -> Iterator[Spans]:
    """A line in pieces that each begin with an equals sign, but for the first, so that none is wider than a phone."""
    if not isinstance(line, MathLine):
        yield line
        return
    pieces: list[list[MathNode]] = [[]]
    for node in line.right.items if isinstance(line.right, Row) else (line.right,):
        pieces += [[]] if node == EQUALS else []
        pieces[-1] += [] if node == EQUALS else [node]
    left: tuple[MathNode, ...] = () if line.left is None else (line.left,)
    for piece in pieces:
        yield (_formula((*left, EQUALS, *piece), words),)
        left = ()


def _formula(items: tuple[MathNode, ...], words: Words) -> Maths:
    return Maths(Row(items), spaced(tuple(word for item in items for word in speech(item, words))))


def _first_line(step: Step, words: Words) -> Spans:
    """The line by which a step is known: its formula, its reading or its conversion."""
    first = step.lines[0]
    if not isinstance(first, MathLine):
        return first
    return (_formula((*(() if first.left is None else (first.left,)), EQUALS, first.right), words),)


# ------------------------------------------------------------------ what is said


def _whys(found: Planted) -> dict[str, str]:
    """By the place of a step, what picking it is told: it is right, or it follows from the wrong one."""
    later = {step.node for step in found.graph.downstream([found.point.node])}
    told = {str(at): "step-follows" if step.node in later else "step-right" for at, step in enumerate(found.steps)}
    return {at: code for at, code in told.items() if at != str(found.place)}


def _explained(wrong: Step, part: WrongStepPart, found: Planted, desk: Desk) -> tuple[Step, ...]:
    """The wrong step with the question that helps out of its error, then the right one."""
    drawn, node = desk.drawn, desk.drawer.find(part).node
    say = (Text(desk.words(found.point.slip.hint)),)
    steps = walk(drawn.graph, node, picked=picked_sides(drawn.graph, drawn.cells))
    right = tuple(step for step in steps if step.node == found.point.node)
    return (Step(say, wrong.lines, {}, marked_wrong=True), *working(right, desk.setter, drawn.situation, desk.words, {}))
