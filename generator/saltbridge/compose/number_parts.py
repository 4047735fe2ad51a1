"""Parts that ask for a number: its key, its marks, the words beside its box."""

from __future__ import annotations

from collections import Counter

from saltbridge.bank.parts import FindPart
from saltbridge.bank.template_forms import STRETCH
from saltbridge.compose import filled_prose as prose
from saltbridge.compose import keys
from saltbridge.compose.common_errors import common_errors
from saltbridge.compose.desk import Desk
from saltbridge.compose.mathset import spaced, speech
from saltbridge.compose.wanted import wanted
from saltbridge.compose.workings import working
from saltbridge.document import Block, Maths, NumberField, Paragraph, Part, Text, spoken
from saltbridge.draw.drawn_tables import FoundCell
from saltbridge.draw.finds import Find
from saltbridge.faults import fault
from saltbridge.graph.precision import measured
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import needs_text, picked_sides, shown_nodes, walk, worked_anew
from saltbridge.policy import Policy, mark_points

CELL_POTENTIALS, DIAGRAM = ("E0_cell", "E_cell"), "diagram"


def number_part(label: str, part: FindPart, desk: Desk) -> Part:
    """A number part. Raises ``Faulty`` (code ``too-many-marks``) where it comes to more than the policy lets it."""
    drawn, find = desk.drawn, desk.drawer.find(part)
    graph, setter, words = drawn.graph, desk.setter, desk.words
    method = desk.template.method or desk.bank.settings.method
    known, picked = frozenset(desk.known), picked_sides(graph, drawn.cells)
    steps = walk(graph, find.node, known, method=method, picked=picked)
    points = points_of(graph, find.node, drawn.situation, desk.catalogue)
    shape = keys.number_shape(drawn, find, points, desk.earlier, desk.printer)
    if shape["earlier"]:
        desk.following.need(find.node, (each["put"] for each in (*shape["routes"], *shape["slips"]) if "put" in each))
    desk.shares.append(lambda context: keys.number_variant(context.drawn, find))
    marks = mark_points(desk.policy, steps)
    # A stretch has all the marks of the parts that fell out.
    if not isinstance(part, FoundCell) and desk.template.form != (STRETCH,):
        _refuse_too_many(part, sum(marks.values()), desk.policy)
    worth, anew = part.marks or sum(marks.values()), worked_anew(graph, find.node, known, picked)
    errors = common_errors(points, steps, marks, worth, {step.node for step in anew}, desk.policy, setter, words)
    symbol = setter.symbol(find.node)
    label_text = words("Your answer for {quantity}", quantity=desk.name(find.node))
    exactness = wanted(find.asked, find.unit, desk.printer)
    field = NumberField(Maths(symbol, spaced(speech(symbol, words))), desk.printer.unit(find.unit), label_text, exactness)
    answer = setter.answer(find.node)
    desk.known.update(shown_nodes(steps), (find.node,))
    desk.earlier.append((label, find.node, keys.rounding(find)))
    hints = (*desk.own_hint(part), *desk.hints(steps, Counter(point.node for point in points)))
    hints = tuple(
        hint for hint in hints if spoken(hint) != part.ask.source.strip()
    )  # a blank of a scaffold asks what is hinted at
    return Part(
        label, worth, (*prose.blocks(part.ask, desk.slots, drawn), *_giving_current(find, desk), *_nearest_whole(find, desk)),
        field, hints, working(steps, setter, drawn.situation, words, marks), (answer,), shape,
        errors=errors, needs_text=needs_text(anew),
    )  # fmt: skip


def _nearest_whole(find: Find, desk: Desk) -> tuple[Block, ...]:
    """What a whole number that comes from measured ones says of itself."""
    drawn = desk.drawn
    if not find.asked.whole or measured(drawn.graph, drawn.cells, drawn.situation.given)[find.node].place is None:
        return ()
    return (Paragraph((Text(desk.words("Give the nearest whole number.")),)),)


def _giving_current(find: Find, desk: Desk) -> tuple[Block, ...]:
    """Which potential is meant where a diagram is printed, whose right minus left may be negative."""
    if find.node.split(":")[0] not in CELL_POTENTIALS or DIAGRAM not in desk.template.text.names:
        return ()
    return (Paragraph((Text(desk.words("Give the potential of the cell as it gives a current.")),)),)


def _refuse_too_many(part: FindPart, earned: int, policy: Policy) -> None:
    if part.marks is None and earned > policy.most:
        raise fault(
            "too-many-marks",
            expected=f"a part of at most {policy.most} marks, by the policy {policy.id}",
            found=f"{earned} marks for {part.find}",
            hint=f"Ask for a result on the way in a part of its own, or write `marks: {earned}` if it is meant.",
        )
