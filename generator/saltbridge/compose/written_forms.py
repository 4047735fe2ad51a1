"""What is written down as a text, set for print: an equation, a cell diagram, the expression for Q."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.inscriptions import formula_pieces, inscribe_equation, inscribe_species, merged, spoken_formula
from saltbridge.chemistry.quotients import PLUS, Factor, Quotient, parse_quotient, with_states
from saltbridge.chemistry.written_diagrams import BAR, COMMA, Entry, WrittenDiagram, parse_written
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import spaced, speech
from saltbridge.compose.printing import Printer
from saltbridge.compose.slots import Filler
from saltbridge.document import Fraction, Inscription, MathNode, Maths, Piece, Power, Row, Sign, Spans
from saltbridge.graph.laws import Balance, Situation
from saltbridge.units import unit_inscription

EQUALS = Sign("=", "equals")
_TIMES, _PLUS = Sign("·", "times"), Sign("+", "plus")


def written_at(node: str) -> Filler:
    """What stands at a node as it is printed."""

    def fill(context: Context) -> Spans:
        graph = context.drawn.graph
        law = graph.step(node).law
        return written(law.op if isinstance(law, Balance) else "", str(graph.value(context.drawn.cells, node)), context)

    return fill


def written(op: str, text: str, context: Context) -> Spans:
    """What an operation gave, as it is printed."""
    if op == "diagram":
        return (inscribe_written(parse_written(text), context.printer),)
    if op == "quotient":
        return (set_quotient(parse_quotient(text), context.printer),)
    return (inscribe_equation(parse_equation(text), say=context.situation.say),)


def equation_with_states(text: str, situation: Situation) -> str:
    """An equation with the states of its species. Raises ``Faulty`` (``phase-needed``) where one is unclear."""
    return with_states(parse_equation(text), situation.states).text


def stated(text: str, context: Context) -> Spans:
    """An equation that has its states, as it is printed."""
    return (inscribe_equation(parse_equation(text), phase=True, say=context.situation.say),)


# ------------------------------------------------------------------ diagrams


def inscribe_written(diagram: WrittenDiagram, printer: Printer) -> Inscription:
    """A diagram, right or wrong, in the bank's signs and units."""
    pieces: list[Piece] = []
    words: list[str] = []
    for place, half in enumerate(diagram.halves):
        if place:
            pieces.append(Piece("base", f" {printer.settings.bridge_sign} "))
            words.append(printer.words("salt bridge"))
        for at, group in enumerate(half):
            if at:
                pieces.append(Piece("base", BAR))
                words.append(printer.words("phase boundary"))
            for rank, entry in enumerate(group):
                pieces += [Piece("base", COMMA if rank else ""), *_entry_pieces(entry, printer)]
                words.append(_entry_words(entry, printer))
    return Inscription("diagram", merged(pieces), ", ".join(words))


def _entry_pieces(entry: Entry, printer: Printer) -> Iterator[Piece]:
    yield Piece("base", str(entry.times) if entry.times != 1 else "")
    yield from formula_pieces(entry.species)
    amount = _amount(entry, printer)
    if not entry.species.phase and not amount:
        return
    yield Piece("base", "(" + entry.species.phase)
    for at, each in enumerate(amount):
        yield Piece("base", (", " if entry.species.phase else "") if at == 0 else "\u00a0")
        yield from each.pieces
    yield Piece("base", ")")


def _entry_words(entry: Entry, printer: Printer) -> str:
    number = [str(entry.times)] if entry.times != 1 else []
    formula = spoken_formula(entry.species, phase=True, say=printer.words)
    return " ".join([*number, formula, *(each.spoken for each in _amount(entry, printer))])


def _amount(entry: Entry, printer: Printer) -> tuple[Inscription, ...]:
    """The number and its unit, the bank's own for a concentration that is told without."""
    number, _, unit = entry.amount.partition(" ")
    if not number:
        return ()
    unit = unit or ("bar" if entry.species.phase == "g" else printer.settings.concentration_unit)
    said = (unit_inscription(unit, printer.settings.unit_style, printer.words),) if unit else ()
    return (printer.number(number), *said)


# ------------------------------------------------------------------ expressions


def set_quotient(quotient: Quotient, printer: Printer, symbol: str = "") -> Maths:
    """An expression, right or wrong, as a fraction; with a ``symbol`` as what that equals."""
    body = _quotient(quotient, printer)
    if symbol:
        body = Row((printer.symbol(symbol), EQUALS, body))
    return Maths(body, spaced(speech(body, printer.words)))


def _quotient(quotient: Quotient, printer: Printer) -> MathNode:
    sign = _PLUS if quotient.sign == PLUS else _TIMES
    above, below = (_side(side, sign, printer) for side in (quotient.above, quotient.below))
    one = printer.number("1")
    return above or one if below is None else Fraction(above or one, below)


def _side(factors: tuple[Factor, ...], sign: Sign, printer: Printer) -> MathNode | None:
    nodes: list[MathNode] = []
    for factor in factors:
        nodes += [*([sign] if nodes else []), _factor(factor, printer)]
    return None if not nodes else nodes[0] if len(nodes) == 1 else Row(tuple(nodes))


def _factor(factor: Factor, printer: Printer) -> MathNode:
    label = inscribe_species(factor.species.in_phase(""), say=printer.words)
    held: MathNode
    if factor.species.phase == "g":
        held = Row((printer.symbol("p"), printer.bracketed(label)))
    else:
        said = printer.words("concentration of {species}", species=label.spoken)
        held = Inscription("species", (Piece("base", "["), *label.pieces, Piece("base", "]")), said)
    raised = Power(held, printer.number(str(factor.power))) if factor.power != 1 else held
    return Row((printer.number(str(factor.times)), raised)) if factor.times != 1 else raised
