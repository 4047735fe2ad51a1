"""A cell told at the command line: its diagram, and whatever else is known of it, as one situation."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.listing import families
from saltbridge.chemistry.cells import SIDES, GalvanicCell, Side
from saltbridge.chemistry.diagrams import parse_diagram
from saltbridge.chemistry.species import Species
from saltbridge.faults import Faulty, fault
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Situation, instance
from saltbridge.graph.planner import plan
from saltbridge.scenarios.assignments import Told, refuse_battery, told_couples, told_sides, with_potentials, with_told_amounts
from saltbridge.scenarios.bath.electrolysis import FARADAY
from saltbridge.scenarios.cell.electrode_masses import NAMES as MASSES
from saltbridge.scenarios.cell.electrode_masses import add_masses
from saltbridge.scenarios.cell.galvanic import CellOptions, Temperature, amount_node, galvanic
from saltbridge.scenarios.cell.loop import add_told_bridge
from saltbridge.scenarios.concentration.concentration import add_changed
from saltbridge.scenarios.energy.energy import add_figures, add_heat, add_multiples, add_signs
from saltbridge.scenarios.free_situation import add_bath, add_told, refuse_odd_temperature
from saltbridge.scenarios.situations import add_given
from saltbridge.scenarios.standards.standards import add_cells_in_series
from saltbridge.scenarios.told_surroundings import as_amounts, refuse_ignored
from saltbridge.tables import Sheet, temperature_coefficient

UNKNOWNS = ("c_anode", "c_cathode", "p_anode", "p_cathode")
"""Names of a ``?`` in the diagram."""
_OF_CELL = frozenset({"E0", "c", "p", "pH", "T"})
HEAT = "Energy and temperature"
"""The family for whose own results the temperature coefficients of both couples are read."""
_AMOUNTS = frozenset({"c", "p", "pH"})
_BY_SPECIES = {
    "c": ("concentration", 'Write it into the diagram, such as Zn^2+(aq, 0.10), or "c(Zn^2+) = 0.10 mol/L".'),
    "p": ("pressure", 'Write it into the diagram, such as H2(g, 0.50), or "p(H2) = 0.50 bar".'),
}
_FIGURES = frozenset({"figures_K", "u_E", "u_lgK", "factor_K"})


def told_cell(
    diagram: str, told: Sequence[Told], sheet: Sheet, catalogue: Catalogue, wanted: str, *, nernst: str, shift_E0: bool = False
) -> tuple[GalvanicCell, Situation]:
    """The cell of a diagram as written, and its situation with all that is told.

    Raises ``Faulty`` for a diagram that can't be read and for what is told of something that the cell does not hold.
    """
    known = [each for each in told if each.name == "E0"]
    page = with_potentials(sheet, known)
    drawn = parse_diagram(diagram, page.rows)
    _refuse_strangers(drawn, page, told)
    refuse_ignored(told, cell=True)
    refuse_battery(told)
    told = as_amounts(told, drawn)
    if shift_E0:
        _require_coefficients(drawn)
    cell = with_told_amounts(drawn, [each for each in told if each.name in _AMOUNTS])
    options = CellOptions(as_written=True, nernst=nernst, electrodes=True, shift_E0=shift_E0)
    situation = galvanic(cell, page, catalogue, _temperature(told), options)
    _mark_told_potentials(situation, cell, told_couples(page, known))
    add_told(situation, [each for each in told if each.name not in _OF_CELL], catalogue)
    add_signs(situation)
    if wanted in _only_of(catalogue, HEAT):
        add_heat(situation, catalogue, cell, warmed=False, as_written=True)
    if any(each.name == "times" for each in told):
        add_multiples(situation, catalogue)
    acid = next((each for each in told if each.name == "pH"), None)
    if acid or wanted == "pH":
        _add_acidity(situation, catalogue, drawn, acid)
    names = {wanted, *(each.name for each in told)}
    if MASSES & names:
        add_masses(situation, cell, page, catalogue, "anode" if wanted in {"m_lost", "n_lost"} else "cathode")
    elif "k_cells" in names or "k_exact" in names:
        add_cells_in_series(situation)
    salt = next((each.word for each in told if each.name == "bridge"), "")
    if salt:
        add_told_bridge(situation, cell, salt)
    if _FIGURES & names:
        upper, lower = (situation.given[f"{side}.E0"].printed for side in ("right", "left"))
        add_figures(situation, catalogue, upper, lower, page.title)
    change = next((each.word for each in told if each.name == "cell_change"), "")
    if change:
        add_changed(situation, catalogue, change, next((each.quantity for each in told if each.name == "f_dilution"), None))
    if _names_of(catalogue, FARADAY) & names and not MASSES & names:
        add_bath(situation, told, page, catalogue, wanted)
    return cell, situation


def _names_of(catalogue: Catalogue, family: str) -> set[str]:
    """The quantities and words of a family, without the constants that every family reads."""
    return {each.symbol for each in families(catalogue).get(family, ())}


def _only_of(catalogue: Catalogue, family: str) -> set[str]:
    """What the relations of a family say, and those of no other."""
    said = {
        own: {each.subject for each in catalogue.relations.values() if (each.family == family) is own} for own in (True, False)
    }
    return said[True] - said[False]


def _refuse_strangers(cell: GalvanicCell, sheet: Sheet, told: Sequence[Told]) -> None:
    """Raise ``Faulty`` for what is told of couples or sides that can't be meant."""
    refuse_odd_temperature(told)
    couples = [cell.side(side).couple for side in SIDES]
    faults = []
    for each in told:
        key = each.source.strip()[:60]
        if each.name == "E0" and not told_couples(sheet, [each]) & set(couples):
            error = fault(
                "couple-not-in-cell", expected=f"a couple of this cell: {' or '.join(dict.fromkeys(couples))}", found=each.of
            )
            faults += [one.at(key=key) for one in error.faults]
        if each.name in UNKNOWNS:
            kind, hint = _BY_SPECIES[each.name[0]]
            error = fault("which-species", expected=f"a {kind} by its species", found=each.name, hint=hint)
            faults += [one.at(key=key) for one in error.faults]
    if faults:
        raise Faulty(faults)


def _require_coefficients(cell: GalvanicCell) -> None:
    """Raise ``Faulty`` naming every couple whose E° can't be moved to another temperature."""
    couples = dict.fromkeys(cell.side(side).couple for side in SIDES)
    missing = [couple for couple in couples if temperature_coefficient(couple) is None]
    if missing:
        expected = f"a temperature coefficient for {' and '.join(missing)}"
        raise fault("no-coefficient", expected=expected, found="none in the table", hint="Leave out --shift-E0.")


def _temperature(told: Sequence[Told]) -> Temperature | None:
    warm = next((each for each in told if each.name == "T"), None)
    return Temperature(warm.quantity.printed, warm.quantity.unit) if warm else None


def _mark_told_potentials(situation: Situation, cell: GalvanicCell, couples: frozenset[str]) -> None:
    """A potential told was not read from the sheet, and the working does not say so."""
    for side in SIDES:
        for node in (f"{side}.E0", f"{side}.E0_25"):
            if cell.side(side).couple in couples and node in situation.given:
                situation.given[node] = replace(situation.given[node], how="given", source="")


def _add_acidity(situation: Situation, catalogue: Catalogue, cell: GalvanicCell, told: Told | None) -> None:
    """The pH in place of the concentration of hydrogen ions, on each side that it is told of."""
    if told:
        add_given(situation, catalogue, "pH", told.quantity.printed, told.quantity.unit)
    for side in told_sides(cell, told) if told else SIDES:
        acid = next((each for each in cell.side(side).half.species if each.bare == "H^+"), None)
        if acid is None:
            continue
        node = amount_node(side, cell.side(side), acid)
        if told:
            situation.given.pop(node, None)
        situation.laws.append(instance(catalogue.relations["acidity"], {"c_H": node}))


# ------------------------------------------------------------------ the unknown of a diagram


def unknown_node(situation: Situation, cell: GalvanicCell | None, find: str) -> str:
    """The node of the ``?`` at the anode or cathode; the sign of the cell potential says which side that is.

    Raises ``Faulty`` where there is no ``?``, no cell potential, or the ``?`` stands at the other electrode.
    """
    if cell is None:
        raise fault("needs-diagram", expected=f"a cell diagram with a ? to find {find}", found="none")
    unknown = [(side, species) for side in SIDES for species, amount in cell.side(side).amounts if amount.value is None]
    if not unknown:
        hint = 'Write for example Zn^2+(aq, ?), and give "E_cell = 1.05 V".'
        raise fault("not-derivable", expected=f"a ? in the diagram to find {find}", found="none", hint=hint)
    letter, role = find.split("_")
    anode = _anode(situation, find)
    wanted = anode if role == "anode" else next(side for side in SIDES if side != anode)
    for side, species in unknown:
        if side == wanted and _letter(species) == letter:
            return amount_node(side, cell.side(side), species)
    side, species = unknown[0]
    there = f"{_letter(species)}_{'anode' if side == anode else 'cathode'}"
    raise fault("not-derivable", expected=f"a ? that is {find}", found=f"a ? in the {side} half-cell", hint=f"Find {there}.")


def _letter(species: Species) -> str:
    return "p" if species.phase == "g" else "c"


def _anode(situation: Situation, find: str) -> Side:
    """The side where oxidation happens, by the sign of the cell potential."""
    try:
        graph = Graph(plan(situation, ["E_cell"]))
    except Faulty as error:
        hint = 'Also give the cell potential, such as "E_cell = 1.05 V".'
        raise fault("not-derivable", expected=f"enough to derive {find}", found="no cell potential", hint=hint) from error
    value = graph.value(graph.run(graph.start(situation.given)), "E_cell")
    if not isinstance(value, float) or value == 0:
        raise fault("no-anode", expected="a cell potential that tells anode from cathode", found="zero")
    return "left" if value > 0 else "right"
