"""Cells whose concentrations move: running down, levelled, changed; and lines of potentials."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from saltbridge.algebra.expression import Ref
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import GalvanicCell, Side, quotient_terms, swap
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Instance, Say, Situation, instance
from saltbridge.graph.node_names import ROLES
from saltbridge.scenarios.cell.galvanic import product
from saltbridge.scenarios.concentration.changes import Change, add_change
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import add_constants, add_given
from saltbridge.tables import Sheet, SheetRow
from saltbridge.units import Quantity

AT_START = "At the start Q holds the concentrations as they were filled in."
AT_START_HINT = "Which concentrations stand in Q at the start?"


def side_of(situation: Situation, role: Literal["anode", "cathode"]) -> Side:
    """The side on which the anode or the cathode of a working cell stands."""
    return "left" if situation.words[f"{role}.side"] == "left" else "right"


# ------------------------------------------------------------------ a cell that runs down


def add_running(situation: Situation, catalogue: Catalogue, given: Mapping[str, Quantity]) -> None:
    """The concentrations at both electrodes from those of the start and the fraction used up.

    ``given`` holds ``c_reactant_0``, ``c_product_0`` and, unless it is to be found, ``x_reacted``. The cell's own concentrations
    must not be told. Raises ``Faulty`` for a fraction of one and more.
    """
    relations = catalogue.relations
    for name, quantity in given.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    told = given.get("x_reacted")
    if told is not None and float(told.printed) / (100 if told.unit == "%" else 1) >= 1:
        raise fault("impossible", expected="x_reacted below 100 %", found=f"{told.printed} {told.unit}".strip())
    anode, cathode = (side_of(situation, role) for role in ROLES)
    situation.laws.append(instance(relations["reactant-left"], {"c_reactant": f"{cathode}.c"}))
    situation.laws.append(instance(relations["product-made"], {"c_product": f"{anode}.c"}))
    counts = [int(float(situation.given[name].printed)) for name in ("nu_anode", "nu_cathode")]
    start = product([(Ref("c_product_0"), counts[0]), (Ref("c_reactant_0"), -counts[1])])
    situation.laws.append(Instance("start-quotient", "Q_start", start, AT_START, hint=AT_START_HINT))


# ------------------------------------------------------------------ a cell that is changed


def add_changed(situation: Situation, catalogue: Catalogue, name: str, factor: Quantity | None) -> Change:
    """A change made to a cell: its direction, and for a dilution by a factor its size."""
    change = add_change(situation, name)
    if not change.at or factor is None:
        return change
    count = int(float(situation.given[f"nu_{change.at}"].printed))
    power = count if change.at == "anode" else -count
    situation.given["s_ion"] = Given(float(power), "", str(power), "balance")
    add_given(situation, catalogue, "f_dilution", factor.printed, factor.unit)
    return change


# ------------------------------------------------------------------ how Q is written


def add_quotient_forms(situation: Situation, catalogue: Catalogue, cell: GalvanicCell) -> None:
    """The quotient of a working cell as printed, right and in the usual wrong ways, as ``proper.quotient`` and so on."""
    forward = cell if side_of(situation, "cathode") == "right" else swap(cell)
    powers = [(term.species, term.exponent) for term in quotient_terms(forward)]
    solids = [(forward.right.electrode, 1), (forward.left.electrode, -1)]
    whole = [*powers, *((species, sign) for species, sign in solids if species not in {each for each, _ in powers})]
    wrong = {
        "proper": powers,
        "upside_down": [(species, -power) for species, power in powers],
        "with_solids": whole,
        "without_powers": [(species, 1 if power > 0 else -1) for species, power in powers],
    }
    for form, each in wrong.items():
        situation.labels[f"{form}.quotient"] = _fraction(each, situation.say)
    situation.laws.append(catalogue.facts["form_of_quotient"])


def _fraction(powers: list[tuple[Species, int]], say: Say) -> Inscription:
    above = [_factor(species, power, say) for species, power in powers if power > 0]
    below = [_factor(species, -power, say) for species, power in powers if power < 0]
    top = _joined(above) if above else ((Piece("base", "1"),), say("one"))
    if not below:
        return Inscription("symbol", top[0], top[1])
    bottom = _joined(below)
    open_, close = (Piece("base", "["), Piece("base", "]")) if len(below) > 1 else (Piece("base", ""), Piece("base", ""))
    pieces = (*top[0], Piece("base", " / "), open_, *bottom[0], close)
    return Inscription("symbol", tuple(each for each in pieces if each.text), f"{top[1]} {say('over')} {bottom[1]}")


def _factor(species: Species, power: int, say: Say) -> tuple[tuple[Piece, ...], str]:
    shown = inscribe_species(species.in_phase(""), say=say)
    letter = "p" if species.phase == "g" else "m" if species.phase == "s" else "c"
    raised = (Piece("sup", str(power)),) if power > 1 else ()
    said = f"{letter} {shown.spoken}" + (f" {say('to the power')} {power}" if power > 1 else "")
    return (Piece("base", f"{letter}("), *shown.pieces, Piece("base", ")"), *raised), said


def _joined(factors: list[tuple[tuple[Piece, ...], str]]) -> tuple[tuple[Piece, ...], str]:
    pieces: list[Piece] = []
    for place, (each, _) in enumerate(factors):
        pieces += [Piece("base", " · ")] if place else []
        pieces += each
    return tuple(pieces), ", ".join(said for _, said in factors)


# ------------------------------------------------------------------ lines


def line(
    row: SheetRow,
    given: Mapping[str, Quantity],
    against: Literal["lg c", "pH"],
    sheet: Sheet,
    catalogue: Catalogue,
    *,
    say: Say = in_english,
) -> Situation:
    """Two points of a line of potentials of one electrode, against lg c (finds ``n_line``) or the pH (finds ``m_H``)."""
    situation = Situation(say=say)
    half = parse_half_reaction(row.half_reaction)
    constant = sheet.constants["T"]
    add_given(situation, catalogue, "T", constant.printed, "K", sheet.title)
    add_constants(situation, sheet)
    situation.labels["couple"] = couple_label(*half.principal, say)
    situation.labels["oxidised"] = inscribe_species(half.principal[0], say=say)
    situation.labels["reduction"] = inscribe_equation(half.reduction, say=say)
    situation.words["reduction text"] = half.reduction.bare.text
    for name, quantity in given.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    if against == "pH":
        situation.given["n_half"] = Given(float(half.n), "", str(half.n), "balance")
    situation.shape = (against, "25 °C")
    return situation
