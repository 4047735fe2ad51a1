"""The reaction of a concentration cell in print: its ion passes from one solution to the other."""

from __future__ import annotations

from dataclasses import dataclass

from saltbridge.chemistry.cells import Amount, GalvanicCell, Side, transfers
from saltbridge.chemistry.inscriptions import in_english, inscribe_species
from saltbridge.document import Inscription, Piece
from saltbridge.graph.laws import Say
from saltbridge.sigfigs import number_words, print_number
from saltbridge.units import Style, quantity_inscription, unit_inscription


@dataclass(frozen=True, slots=True)
class Ways:
    """How a bank prints amounts, and its language."""

    say: Say = in_english
    decimal_mark: str = "."
    concentration_unit: str = "mol/L"
    unit_style: Style = "slash"


def transfer(cell: GalvanicCell, ways: Ways) -> Inscription:
    """A concentration cell's reaction: the ion passes from the stronger to the weaker solution."""
    say = ways.say
    pieces: list[Piece] = []
    said: list[str] = []
    for side_of, arrow in (("source", " → "), ("goal", "")):
        for place, move in enumerate(transfers(cell)):
            side: Side = move.source if side_of == "source" else move.goal
            amount = cell.side(side).amount(move.species)
            here = inscribe_species(move.species, say=say)
            shown, aloud = _told_amount(amount, side, ways)
            pieces += [Piece("base", " + ")] if place else []
            pieces += [Piece("base", f"{move.coefficient}\N{NO-BREAK SPACE}")] if move.coefficient > 1 else []
            pieces += [
                *here.pieces,
                Piece("base", "("),
                *shown,
                Piece("base", ")" + (arrow if place == len(transfers(cell)) - 1 else "")),
            ]
            said.append(f"{here.spoken} {aloud}" + (f" {say('gives')}" if arrow else ""))
    return Inscription("equation", tuple(pieces), " ".join(said))


def _told_amount(amount: Amount | None, side: Side, ways: Ways) -> tuple[tuple[Piece, ...], str]:
    """The amount of a solution as printed and as said; its side where the amount is not told."""
    if amount is None or not amount.given:
        word = ways.say("left" if side == "left" else "right")
        return (Piece("base", word),), word
    unit = ways.concentration_unit if amount.unit == "mol/L" and amount.printed_unit in {"", "mol/L", "mol/dm3"} else ""
    shown = unit_inscription(unit or amount.printed_unit or amount.unit, ways.unit_style, ways.say)
    told = quantity_inscription(print_number(amount.text, ways.decimal_mark, say=number_words(ways.say)), shown)
    return told.pieces, told.spoken
