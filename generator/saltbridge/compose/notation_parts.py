"""Parts that are typed in the notation of chemistry: a species, a cell diagram, the expression for Q or K.

A diagram and an expression are nodes of the graph, made by the anode and by the equation; a species is the outcome of the choice that
decides it. So each follows from a student's own earlier answers.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.inscriptions import inscribe_species
from saltbridge.chemistry.quotients import left_out, parse_quotient, with_states
from saltbridge.chemistry.written_diagrams import parse_written
from saltbridge.compose.choices import taken_by_errors
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.compose.keys import followed
from saltbridge.compose.led_equations import before, led_to
from saltbridge.compose.made import Made
from saltbridge.compose.mathset import spaced, speech
from saltbridge.compose.notation_examples import how_to_type
from saltbridge.compose.workings import working
from saltbridge.compose.written_forms import set_quotient, written, written_at
from saltbridge.document import CommonError, MathLine, MathNode, Maths, NotationField, Part, Spans, Step
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_species import asked_for, decided
from saltbridge.draw.equation_forms import wrong_forms
from saltbridge.faults import fault
from saltbridge.graph.laws import Balance, Undefined
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import points_of
from saltbridge.graph.walk import shown_nodes, walk
from saltbridge.scenarios.equation_laws import EQUATION, FACTOR, WAY
from saltbridge.scenarios.notation_laws import DIAGRAM, EXPRESSION

Forms = Callable[[Context], Mapping[str, Sequence[str]]]
"""The wrong texts of a variant, each with the ids of its errors."""


# ------------------------------------------------------------------ a species


def species_part(label: str, part: SpeciesPart, desk: Desk) -> Part:
    """A species to type. Raises ``Faulty`` (``unknown-name``, ``no-species``) for a name that prints none."""
    drawn = desk.drawn
    node, names = decided(part, drawn)
    points = points_of(drawn.graph, node, drawn.situation, desk.catalogue) if node else ()
    upstream = {step.node for step in drawn.graph.upstream(node)} if node else set()
    earlier = followed(desk.earlier, upstream)

    def forms(context: Context) -> Mapping[str, Sequence[str]]:
        found: dict[str, list[str]] = {}
        right = _species(part.species, context)
        for error, key in taken_by_errors(context.drawn, node, points) if node else ():
            text = _species(names[key], context) if key in names else right
            if text != right and error not in found.setdefault(text, []):
                found[text].append(error)
        return {text: ids for text, ids in found.items() if ids}

    def share(context: Context) -> Mapping[str, Any]:
        told: dict[str, Any] = {"right": _species(part.species, context), "slips": forms(context)}
        if node:
            told["values"] = {_species(name, context): key for key, name in names.items()}
        if earlier:
            texts = {key: _species(name, context) for key, name in names.items()}
            told["led"] = [[{node: key}, text] for key, text in texts.items() if text != told["right"]]
        return told

    shape: dict[str, Any] = {"kind": "species", "node": node or None, "states": part.states, "earlier": earlier}
    field = NotationField("species", desk.words("The formula"), how_to_type(part, desk))
    answer = desk.slots.slot(f"species {part.species} {part.states}", lambda context: _set_species(part, context))
    steps = walk(drawn.graph, node, frozenset(desk.known)) if node else ()
    made = Made(
        field, working(steps, desk.setter, drawn.situation, desk.words, {}), (answer,), shape | _hints(points, desk), share, node,
        steps, needs=(node,) if node else (),
    )  # fmt: skip
    return _part(label, part, made, desk, desk.policy.choose)


def _species(name: str, context: Context) -> str:
    """The species that a name prints, as a text with its state."""
    return context.drawn.once(lambda: asked_for(name, context.drawn).text, "species", name)


def _set_species(part: SpeciesPart, context: Context) -> Spans:
    return (inscribe_species(asked_for(part.species, context.drawn), phase=part.states, say=context.situation.say),)


# ------------------------------------------------------------------ a diagram


def diagram_part(label: str, part: DiagramPart, desk: Desk) -> Part:
    """A cell diagram to type. Raises ``Faulty`` (code ``no-diagram``) where the scenario has no cell."""
    drawn = desk.drawn
    if DIAGRAM not in drawn.graph.index:
        hint = "As in a scenario `galvanic cell`."
        raise fault(
            "no-diagram", expected="a scenario that is a cell of two half-cells", found=f"diagram: {part.diagram}", hint=hint
        )
    found = points_of(drawn.graph, DIAGRAM, drawn.situation, desk.catalogue)
    # A slip in writing is likelier than one further back, a belief of the table of facts likelier than the others.
    points = sorted(found, key=lambda each: (each.node != DIAGRAM, not each.slip.fact))
    hung_on = before(drawn, DIAGRAM, (), desk.catalogue)
    upstream = {step.node for name in hung_on.choices for step in drawn.graph.upstream(name)}
    earlier = followed(desk.earlier, upstream)

    def forms(context: Context) -> Mapping[str, Sequence[str]]:
        return wrong_forms(context.drawn, DIAGRAM, points)

    def share(context: Context) -> Mapping[str, Any]:
        right = str(context.drawn.graph.value(context.drawn.cells, DIAGRAM))
        told = {"right": right, "amounts": part.concentrations or _of_one_couple(right), "slips": forms(context)}
        return told | ({"led": led_to(context.drawn, DIAGRAM, hung_on, points)} if earlier else {})

    shape = {
        "kind": "diagram",
        "node": DIAGRAM,
        "states": part.states,
        "mark": desk.printer.settings.decimal_mark,
        "earlier": earlier,
    }
    field = NotationField("diagram", desk.words("Your cell diagram"), how_to_type(part, desk))
    made = _of_node(DIAGRAM, field, shape | _hints(points, desk), share, tuple(hung_on.choices), desk)
    inert = desk.slots.slot("inert electrodes", _inert)
    free = () if part.states else desk.words.spans("; states may be left out")
    accept = (*desk.words.spans("accept any sign of the salt bridge"), *free, inert)
    return _part(label, part, made, desk, desk.policy.equation, forms, points, accept)


def _of_one_couple(text: str) -> bool:
    """Whether both half-cells hold the same, so that only the amounts tell them apart."""
    left, right = parse_written(text).halves
    return [{entry.species for entry in group} for group in left] == [{entry.species for entry in group} for group in right[::-1]]


def _inert(context: Context) -> Spans:
    """What stands for an inert electrode too, where the cell has one."""
    drawn = context.drawn
    text = str(drawn.graph.value(drawn.cells, DIAGRAM))
    used = any("Pt(s)" in half for half in text.split(" || "))
    return context.printer.words.spans("; any electrode that takes no part, such as platinum or graphite") if used else ()


# ------------------------------------------------------------------ an expression


def expression_part(label: str, part: ExpressionPart, desk: Desk) -> Part:
    """The expression for Q or K to type. Raises ``Faulty`` (code ``no-expression``) where the scenario has no equation, or nothing stands in Q."""
    drawn = desk.drawn
    if EXPRESSION not in drawn.graph.index:
        hint = "As in a scenario `galvanic cell` of two couples, or `redox equation`."
        raise fault("no-expression", expected="a scenario with one equation", found=f"expression: {part.expression}", hint=hint)
    points = points_of(drawn.graph, EXPRESSION, drawn.situation, desk.catalogue)
    own = [point for point in points if point.node == EXPRESSION]
    power = next(node for node in (WAY, FACTOR, EQUATION) if node in drawn.graph.index)
    told = EQUATION in (*desk.template.text.names, *part.ask.names)
    hung_on = before(drawn, EXPRESSION, [EQUATION], desk.catalogue)
    earlier = followed(desk.earlier, {FACTOR, EQUATION, *(step.node for step in drawn.graph.upstream(power))})

    def forms(context: Context) -> Mapping[str, Sequence[str]]:
        return wrong_forms(context.drawn, EXPRESSION, own)

    def share(context: Context) -> Mapping[str, Any]:
        now = context.drawn
        right = _expression(now)
        if right == "1":
            raise fault(
                "no-expression", expected="a species with a concentration or pressure", found=f"Q = 1 of {_equation(now)}"
            )
        outside = left_out(with_states(parse_equation(_equation(now)), now.situation.states))
        told: dict[str, Any] = {"right": right, "left_out": [each.text for each in outside], "slips": forms(context)}
        return told | ({"forms": _of_wrong_equations(now, hung_on.equations.get(EQUATION, ()))} if earlier else {})

    shape: dict[str, Any] = {"kind": "expression", "node": EXPRESSION, "power": power, "earlier": earlier}
    symbol = desk.setter.symbol(part.expression)
    shown = Maths(symbol, spaced(speech(symbol, desk.words)))
    field = NotationField(
        "expression",
        desk.words("Your expression for {quantity}", quantity=desk.name(part.expression)),
        how_to_type(part, desk),
        shown,
    )
    made = _of_node(
        EXPRESSION, field, shape | _hints(own, desk), share, (power,), desk, known=frozenset({EQUATION} if told else ())
    )
    answer = desk.slots.slot(f"expression of {part.expression}", lambda context: (_answer(part.expression, context),))
    made = replace(made, answer=(answer,), working=_as_equation(made.working, symbol, desk))
    accept = desk.words.spans("accept c( ) for [ ], and every factor divided by its standard value c° or p°")
    return _part(label, part, made, desk, desk.policy.equation, forms, own, accept)


def _as_equation(steps: tuple[Step, ...], symbol: MathNode, desk: Desk) -> tuple[Step, ...]:
    """The last step with its line as an equation: Q, or K, equals the expression."""
    slot = desk.slots.slot(f"written {EXPRESSION}", written_at(EXPRESSION))
    line = MathLine(symbol, "=", slot, spaced((*speech(symbol, desk.words), desk.words("equals"), *speech(slot, desk.words))))
    return (*steps[:-1], replace(steps[-1], lines=(line,)))


def _answer(symbol: str, context: Context) -> Maths:
    return set_quotient(parse_quotient(_expression(context.drawn)), context.printer, symbol)


def _expression(drawn: Drawn) -> str:
    """The right expression. Raises ``Faulty`` (code ``no-expression``) where a state is not told."""
    value = drawn.graph.value(drawn.cells, EXPRESSION)
    if isinstance(value, Undefined):
        raise fault("no-expression", expected=value.why, found=f"none in {_equation(drawn)}")
    return str(value)


def _equation(drawn: Drawn) -> str:
    return str(drawn.graph.value(drawn.cells, EQUATION))


def _of_wrong_equations(drawn: Drawn, points: Sequence[SlipPoint]) -> dict[str, str]:
    """The expression of each usual wrong form of the equation."""
    place = drawn.graph.index[EXPRESSION]
    found: dict[str, str] = {}
    for text in wrong_forms(drawn, EQUATION, points):
        value = drawn.graph.run(drawn.start, {drawn.graph.index[EQUATION]: text})[place]
        if isinstance(value, str):
            found[text] = value
    return found


# ------------------------------------------------------------------ what they share


def _hints(points: Sequence[SlipPoint], desk: Desk) -> dict[str, Any]:
    return {"hints": {point.slip.id: desk.words(point.slip.hint) for point in points}}


def _of_node(
    node: str,
    field: NotationField,
    shape: Mapping[str, Any],
    share: Callable[[Context], Mapping[str, Any]],
    needs: tuple[str, ...],
    desk: Desk,
    known: frozenset[str] = frozenset(),
) -> Made:
    """A part whose answer stands at a node of the graph; ``known`` is what its text tells."""
    steps = walk(desk.drawn.graph, node, known | desk.known)
    shown = working(steps, desk.setter, desk.drawn.situation, desk.words, {})
    answer = desk.slots.slot(f"written {node}", written_at(node))
    return Made(field, shown, (answer,), shape, share, node, steps, needs=needs)


def _part(
    label: str, part: SpeciesPart | DiagramPart | ExpressionPart, made: Made, desk: Desk, marks: int, forms: Forms | None = None,
    points: Sequence[SlipPoint] = (), accept: Spans = (),
) -> Part:  # fmt: skip
    """The part, and on the desk what later ones may follow from."""
    desk.shares.append(made.share)
    desk.known.update(shown_nodes(made.walked))
    if made.shape["earlier"]:
        for name in made.needs:
            desk.following.need(name, ())
    if made.node:
        desk.known.add(made.node)
        desk.earlier.append((label, made.node, None))
    errors = tuple(_error(point, made.node, forms, desk) for point in points if point.node == made.node) if forms else ()
    return replace(desk.part(label, part, made, marks), errors=errors, accept=accept)


def _error(point: SlipPoint, node: str, forms: Forms, desk: Desk) -> CommonError:
    """A usual wrong form as a memorandum shows it, where a variant has it: what is written, and the question that helps."""
    law = desk.drawn.graph.step(node).law
    op = law.op if isinstance(law, Balance) else ""

    def shown(context: Context) -> Spans:
        text = next((text for text, ids in forms(context).items() if point.slip.id in ids), None)
        return () if text is None else written(op, text, context)

    slot = desk.slots.slot(f"wrong form {node} {point.slip.id}", shown)
    return CommonError(point.slip.id, desk.words.spans(point.slip.hint), 0, (slot,))
