"""How a species, a diagram or an expression is typed: a line with an example that is never of the cell asked about."""

from __future__ import annotations

import re
from itertools import combinations
from math import gcd

from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.chemistry.cells import SIDES
from saltbridge.chemistry.species import parse_species
from saltbridge.compose.context import Context
from saltbridge.compose.desk import Desk
from saltbridge.document import Inscription, Piece, Spans
from saltbridge.tables import Metal, Sheet, metals


def how_to_type(part: SpeciesPart | DiagramPart | ExpressionPart, desk: Desk) -> Spans:
    """The line at the box."""
    name = f"example {type(part).__name__} {part.model_dump_json()}"
    slot = desk.slots.slot(name, lambda context: (_typed_line(_example(part, context, desk.bank.sheet)),))
    words = desk.words
    if isinstance(part, SpeciesPart) and part.states:
        return words.spans("As in {example}: the charge and then the state stand at the end.", example=slot)
    if isinstance(part, SpeciesPart):
        return words.spans("As in {example}: the charge stands at the end.", example=slot)
    if isinstance(part, ExpressionPart):
        return words.spans("As in {example}: [ ] for a concentration, p( ) for a pressure, ^ for a power.", example=slot)
    return words.spans("As in {example}: | where two phases meet, || for the salt bridge.", example=slot)


def _typed_line(text: str) -> Inscription:
    """What is typed stays whole on its line where there is room."""
    return Inscription("diagram", (Piece("base", text),), text)


def _example(part: SpeciesPart | DiagramPart | ExpressionPart, context: Context, sheet: Sheet) -> str:
    """An example of two metals of the data sheet that the scenario does not have, of unequal charges where there are such."""
    anode, cathode = _pair(context, sheet)
    if isinstance(part, SpeciesPart):
        return _typed(anode.ion) + ("(aq)" if part.states else "")
    if isinstance(part, ExpressionPart):
        times = [abs(parse_species(metal.ion).charge) for metal in (cathode, anode)]
        shared = gcd(*times)
        above, below = (
            f"[{_typed(metal.ion)}]{_power(count // shared)}" for metal, count in zip((anode, cathode), times, strict=True)
        )
        return f"{above}/{below}"
    mark = context.printer.settings.decimal_mark
    amounts = (f"0{mark}20 mol/L", f"0{mark}50 mol/L") if _has_amounts(part, context) else ("", "")
    first, second = (_told("aq" if part.states else "", amount) for amount in amounts)
    state = "(s)" if part.states else ""
    return f"{anode.symbol}{state}|{_typed(anode.ion)}{first}||{_typed(cathode.ion)}{second}|{cathode.symbol}{state}"


def _pair(context: Context, sheet: Sheet) -> tuple[Metal, Metal]:
    """Two metals that can stand in water, the one with the lower potential first; those of the scenario only where no others are left."""
    placed = [
        (float(row.E0), metal) for metal in metals().values() if (row := sheet.row(metal.couple)) and not metal.water_reactive
    ]
    rising = [metal for _, metal in sorted(placed, key=lambda each: each[0])]
    foreign = [metal for metal in rising if not _met(metal, context)]
    pairs = [*combinations(foreign, 2), *combinations(rising, 2)]
    return next((pair for pair in pairs if len({parse_species(metal.ion).charge for metal in pair}) == 2), pairs[0])


def _met(metal: Metal, context: Context) -> bool:
    """Whether a metal is one of the scenario's: its symbol stands in a label."""
    symbol = re.compile(rf"{metal.symbol}(?![a-z])")
    return any(symbol.search(label.plain) for label in context.situation.labels.values())


def _typed(ion: str) -> str:
    """As it is typed: the charge without its sign for raising."""
    return ion.replace("^", "")


def _power(count: int) -> str:
    return f"^{count}" if count > 1 else ""


def _told(state: str, amount: str) -> str:
    inside = ", ".join(each for each in (state, amount) if each)
    return f"({inside})" if inside else ""


def _has_amounts(part: DiagramPart, context: Context) -> bool:
    """Whether amounts are asked for: by the part, or since both half-cells hold the same couple."""
    situation = context.situation
    couples = [situation.labels[f"{side}.couple"].plain for side in SIDES if f"{side}.couple" in situation.labels]
    return part.concentrations or (len(couples) == 2 and couples[0] == couples[1])
