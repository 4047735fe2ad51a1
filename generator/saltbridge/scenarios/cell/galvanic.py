"""A galvanic cell as a situation: what is known of it and which laws hold.

Two ways of looking are kept apart. *As written*: E_cell = E_right − E_left, equation, n and Q follow the diagram, and the sign
of E_cell then tells which electrode is the anode. *As a working cell* (questions): the couple with the lower potential is
oxidised, wherever it is drawn.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import reduce
from typing import NamedTuple, TypeVar

from saltbridge.algebra.expression import Bin, Num, Ref, Tree
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import (
    SIDES,
    Amount,
    GalvanicCell,
    HalfCell,
    Side,
    cell_reaction,
    quotient_terms,
    swap,
    transfer_text,
)
from saltbridge.chemistry.equations import Equation
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Instance, Rule, Say, Situation, Undefined, instance
from saltbridge.graph.node_names import ROLES
from saltbridge.graph.solved import graph_of
from saltbridge.scenarios.cell.cell_equations import add_cell_equations
from saltbridge.scenarios.cell.loop import add_loop, has_own_metal
from saltbridge.scenarios.cell.situation_cache import kept_situation
from saltbridge.scenarios.equation_laws import FACTOR, WAY
from saltbridge.scenarios.half_names import half_names
from saltbridge.scenarios.situations import add_constants, add_given, is_25, metal_of, name_metal, read_potential
from saltbridge.scenarios.transfer import Ways, transfer
from saltbridge.sigfigs import figures_of, to_figures
from saltbridge.tables import Sheet, temperature_coefficient

LEFT_RIGHT = "As written, subtract the potential of the left-hand couple, {left.couple}, from that of the right-hand couple, {right.couple}."
QUOTIENT = (
    "Q has the products above and the reactants below, each to the power of its coefficient. "
    "Concentrations and pressures count relative to their standard values. Solids and water are left out."
)
QUOTIENT_HINT = "Which species stand above in Q, and which below?"
ALL_STANDARD = "Every dissolved species and gas is at standard activity, so Q is 1."
ALL_STANDARD_HINT = "What does a species at standard activity count in Q?"
SAME_COUPLE = "Both sides hold the same couple, {left.couple}, so the standard cell potential is zero."
HALF_QUOTIENT = (
    "For the reduction at one electrode, Q has the reduced species above and the oxidised below; solids and water are left out."
)
HALF_QUOTIENT_HINT = "For a reduction, which species stand above in Q, and which below?"


@dataclass(frozen=True, slots=True)
class CellOptions:
    """How a cell is looked at: ``as_written``, the ``nernst`` form, whether single electrodes and ``shift_E0`` are wanted.

    ``ways`` are the bank's ways of print, for labels that hold words or amounts.
    """

    as_written: bool = False
    nernst: str = "lg"
    electrodes: bool = False
    shift_E0: bool = False
    ways: Ways = field(default_factory=Ways)


@dataclass(frozen=True, slots=True)
class Temperature:
    """A temperature as printed; ``source`` names the sheet where it was read."""

    printed: str
    unit: str
    source: str = ""


class Form(NamedTuple):
    """The form of the Nernst equation that is used, and whether a student may use the others."""

    id: str
    others: bool


def galvanic(
    cell: GalvanicCell,
    sheet: Sheet,
    catalogue: Catalogue,
    temperature: Temperature | None = None,
    options: CellOptions | None = None,
) -> Situation:
    """The situation of a cell on a data sheet.

    Raises ``Faulty`` where a couple is not on the sheet, or (working cell) where nothing decides which electrode is the anode.
    """
    options = options or CellOptions()

    def build() -> tuple[Situation, Sequence[str]]:
        nodes = [amount_node(side, cell.side(side), species) for side in SIDES for species, _ in cell.side(side).amounts]
        return _built(cell, sheet, catalogue, temperature, options), nodes

    # Of one metal in two concentrations of its ions the amounts decide which electrode is the anode.
    deciding = (cell.left.amounts, cell.right.amounts) if cell.is_concentration_cell else ()
    situation, nodes = kept_situation(cell, (sheet, catalogue), (temperature, options, deciding), build)
    if nodes:
        for node, (species, amount) in zip(nodes, (*cell.left.amounts, *cell.right.amounts), strict=True):
            _give_amount(situation, node, species, amount)
    return situation


def _built(
    cell: GalvanicCell, sheet: Sheet, catalogue: Catalogue, temperature: Temperature | None, options: CellOptions
) -> Situation:
    situation = Situation(say=options.ways.say)
    warm = temperature or Temperature(sheet.constants["T"].printed, "K", sheet.title)
    add_given(situation, catalogue, "T", warm.printed, warm.unit, warm.source)
    add_constants(situation, sheet)
    mild = is_25(situation)
    situation.shape = ("25 °C",) if mild else ()
    form = Form("lg" if options.nernst == "lg" and mild else "", mild)
    for side in SIDES:
        _add_half(situation, catalogue, sheet, cell, side, options)
    if options.electrodes or (cell.is_concentration_cell and not options.as_written):
        _add_electrodes(situation, catalogue, cell, form)
    if options.as_written:
        _add_as_written(situation, catalogue, SAME_COUPLE if cell.is_concentration_cell else LEFT_RIGHT)
        right: Side = "right"
    else:
        right = _add_roles(situation, catalogue, cell)
    _add_reaction(situation, catalogue, cell, right, form, options)
    add_loop(situation, metal_cathode=all(has_own_metal(cell.side(side)) for side in SIDES))
    return situation


# ------------------------------------------------------------------ half-cells


def _add_half(
    situation: Situation, catalogue: Catalogue, sheet: Sheet, cell: GalvanicCell, side: Side, options: CellOptions
) -> None:
    half = cell.side(side)
    row = sheet.required(half.couple)
    node = f"{side}.E0"
    if options.shift_E0:
        _add_shift(situation, catalogue, half, side, row.E0, sheet.title)
    else:
        situation.given[node] = read_potential(row.E0, sheet)
    _name_half(situation, half, side)
    for species, amount in half.amounts:
        _add_amount(situation, cell, side, species, amount)


def _add_shift(situation: Situation, catalogue: Catalogue, half: HalfCell, side: Side, printed: str, source: str) -> None:
    """E° at the temperature of the cell, from its temperature coefficient."""
    coefficient = temperature_coefficient(half.couple)
    if coefficient is None:
        raise fault(
            "no-coefficient",
            expected=f"a temperature coefficient for {half.couple}",
            found="none in the table",
            hint="Leave out --shift-E0.",
        )
    cold, slope = f"{side}.E0_25", f"{side}.dEdT"
    situation.given[cold] = Given(float(printed), "V", printed, "read", source)
    add_given(situation, catalogue, slope, coefficient, "mV/K", "potentials.csv")
    situation.about.update({cold: f"{side}.couple", slope: f"{side}.couple"})
    situation.laws.append(instance(catalogue.relations["temperature-shift"], {"E0": f"{side}.E0", "E0_25": cold, "dEdT": slope}))


def _name_half(situation: Situation, half: HalfCell, side: Side) -> None:
    labels, words = half_names(half, situation.say)
    for name, label in labels:
        situation.labels[f"{side}.{name}"] = label
    for name, word in words:
        situation.words[f"{side}.{name}"] = word
    situation.about[f"{side}.E0"] = situation.about[f"{side}.E"] = f"{side}.couple"
    metal = metal_of(half.electrode)
    if metal:
        name_metal(situation, side, metal)
    else:
        situation.words[f"{side}.metal"] = situation.labels[f"{side}.electrode"].plain


def amount_node(side: str, half: HalfCell, species: Species) -> str:
    """The node of a species' amount: ``left.c``, ``left.c2``, ``left.p``, numbered in the order of the half-reaction."""
    active = [each.bare for each in dict.fromkeys(half.half.species)]
    letter = "p" if species.phase == "g" else "c"
    same = [bare for bare in active if _letter(half, bare) == letter]
    place = same.index(species.bare) + 1
    return f"{side}.{letter}" + (str(place) if place > 1 else "")


def _letter(half: HalfCell, bare: str) -> str:
    return "p" if any(each.bare == bare and each.phase == "g" for each in half.half.species) else "c"


def _add_amount(situation: Situation, cell: GalvanicCell, side: Side, species: Species, amount: Amount) -> None:
    node = amount_node(side, cell.side(side), species)
    label = f"{node}.species"
    situation.labels[label] = _told_apart(inscribe_species(species, say=situation.say), cell, side, species, situation.say)
    situation.about[node] = label
    _give_amount(situation, node, species, amount)


def _give_amount(situation: Situation, node: str, species: Species, amount: Amount) -> None:
    if amount.value is None:
        return
    if amount.value <= 0:
        raise fault("impossible", expected=f"an amount of {species.text} above zero", found=amount.shown)
    situation.given[node] = Given(amount.value, amount.unit, _printed(amount), "given")


def _told_apart(label: Inscription, cell: GalvanicCell, side: Side, species: Species, say: Say) -> Inscription:
    """The species, with its side where both half-cells hold it."""
    other: Side = "left" if side == "right" else "right"
    if cell.side(other).amount(species) is None:
        return label
    said = say("left" if side == "left" else "right")
    return Inscription(label.role, (*label.pieces, Piece("base", f", {said}")), f"{label.spoken}, {said}")


def _printed(amount: Amount) -> str:
    """The text where it is already in the coherent unit, else the value in that unit."""
    plain = amount.printed_unit in {"", amount.unit, "mol/dm3"}
    return amount.text if plain or amount.value is None else str(to_figures(amount.value, figures_of(amount.text)))


# ------------------------------------------------------------------ which electrode is which


def _add_as_written(situation: Situation, catalogue: Catalogue, say: str) -> None:
    relation = catalogue.relations["standard-cell-potential"]
    situation.laws.append(instance(relation, {"E0_cathode": "right.E0", "E0_anode": "left.E0"}, say=say))
    situation.laws.append(Rule("anode", "sign-tells-anode", ("E_cell",), keys=SIDES))
    situation.laws.append(Rule("cathode", "other", ("anode",), keys=SIDES))
    _add_picks(situation, ("E0", "E"))


def _add_picks(situation: Situation, symbols: tuple[str, ...]) -> None:
    for symbol in symbols:
        for role in ROLES:
            situation.laws.append(Rule(f"{symbol}_{role}", "pick", (role, f"left.{symbol}", f"right.{symbol}"), keys=SIDES))


def _add_roles(situation: Situation, catalogue: Catalogue, cell: GalvanicCell) -> Side:
    """The rule that finds the anode of a working cell; gives the side of the cathode."""
    situation.laws += _role_rules(situation, cell)
    graph = graph_of(situation, ("anode", "cathode"), catalogue)
    cells = graph.run(graph.start(situation.given))
    anode = graph.value(cells, "anode")
    if isinstance(anode, Undefined):
        raise fault("no-anode", expected="two electrodes of different potential", found=anode.why)
    cathode: Side = "right" if anode == "left" else "left"
    _name_roles(situation, str(anode), cathode)
    _add_picks(
        situation,
        ("E0", "E") if f"{cathode}.E" in {law.subject for law in situation.laws if isinstance(law, Instance)} else ("E0",),
    )
    return cathode


def _role_rules(situation: Situation, cell: GalvanicCell) -> tuple[Rule, Rule]:
    """The couple of the lower potential is oxidised; of one metal at two concentrations, the one in the more dilute solution."""
    if not cell.is_concentration_cell:
        inputs = tuple(f"{side}.E0" for side in SIDES)
        return Rule("anode", "lower-potential-is-anode", inputs, keys=SIDES), Rule(
            "cathode", "other-couple-is-cathode", ("anode",), keys=SIDES
        )
    inputs = tuple(f"{side}.c" for side in SIDES)
    plain = all(name in situation.given for name in inputs) and all(_only_ion(cell.side(side)) for side in SIDES)
    if plain:
        first = Rule("anode", "weaker-solution-is-anode", inputs, keys=SIDES)
    else:
        first = Rule("anode", "lower-potential-is-anode", tuple(f"{side}.E" for side in SIDES), keys=SIDES)
    return first, Rule("cathode", "other", ("anode",), keys=SIDES)


def _only_ion(half: HalfCell) -> bool:
    """Whether the oxidised species is the only one whose amount counts."""
    return [species.bare for species, _ in half.amounts] == [half.half.principal[0].bare]


def _name_roles(situation: Situation, anode: str, cathode: str) -> None:
    for role, side in (("anode", anode), ("cathode", cathode)):
        situation.labels |= _renamed(situation.labels, side, role)
        situation.words |= _renamed(situation.words, side, role)
        situation.words[f"{role}.side"] = side
        situation.about[f"E0_{role}"] = situation.about[f"E_{role}"] = f"{role}.couple"
    situation.shape = (*situation.shape, f"anode {anode}")


Entry = TypeVar("Entry")


def _renamed(names: Mapping[str, Entry], side: str, role: str) -> dict[str, Entry]:
    """The entries of a side under the name of its role."""
    return {f"{role}{key.removeprefix(side)}": entry for key, entry in names.items() if key.startswith(f"{side}.")}


# ------------------------------------------------------------------ reaction, quotient, relations


def _add_reaction(
    situation: Situation, catalogue: Catalogue, cell: GalvanicCell, right: Side, form: Form, options: CellOptions
) -> None:
    forward = cell if right == "right" else swap(cell)
    reaction = cell_reaction(forward)
    if cell.is_concentration_cell:
        situation.labels["equation"], situation.words["equation"] = transfer(forward, options.ways), transfer_text(forward)
    else:
        name_equation(situation, reaction.equation)
    counts = {
        "n_cathode": forward.right.half.n, "n_anode": forward.left.half.n,
        "nu_cathode": reaction.cathode_times, "nu_anode": reaction.anode_times,
    }  # fmt: skip
    for name, count in counts.items():
        situation.given[name] = Given(float(count), "", str(count), "balance")
    add_cell_equations(situation, catalogue, cell, right, reaction.n, as_written=options.as_written)
    relations = catalogue.relations
    if not options.as_written:
        say = SAME_COUPLE if cell.is_concentration_cell else ""
        situation.laws.append(instance(relations["standard-cell-potential"], say=say))
    factors: list[tuple[Tree, int]] = []
    for term in quotient_terms(forward):
        side: Side = term.side if right == "right" else ("left" if term.side == "right" else "right")
        half = cell.side(side)
        if half.amount(term.species) is not None or amount_node(side, half, term.species) in situation.given:
            factors.append((Ref(amount_node(side, half, term.species)), term.exponent))
    power = "" if not factors else FACTOR if options.as_written else WAY
    said, hint = (QUOTIENT, QUOTIENT_HINT) if factors else (ALL_STANDARD, ALL_STANDARD_HINT)
    situation.laws.append(Instance("quotient", "Q", product(factors), said, power=power, hint=hint))
    add_wrong_quotients(situation, "Q", factors)
    situation.laws.append(instance(relations["nernst"], form=form.id, other_forms=form.others))


def name_equation(situation: Situation, equation: Equation) -> None:
    """The reaction under its name in prose and answers."""
    situation.labels["equation"] = inscribe_equation(equation, say=situation.say)
    situation.words["equation"] = equation.bare.text


def add_wrong_quotients(situation: Situation, node: str, factors: list[tuple[Tree, int]]) -> None:
    """The usual wrong forms of a quotient that hang on its factors alone: without powers, and upside down."""
    situation.flat_quotients[node] = product([(tree, 1 if power > 0 else -1) for tree, power in factors])
    situation.flat_quotients[f"upside down: {node}"] = product([(tree, -power) for tree, power in factors])


def product(factors: list[tuple[Tree, int]]) -> Tree:
    """Factors with whole exponents as one fraction; 1 where there are none."""
    above = [_raised(node, power) for node, power in factors if power > 0]
    below = [_raised(node, -power) for node, power in factors if power < 0]
    top = reduce(lambda a, b: Bin("*", a, b), above) if above else Num("1")
    return Bin("/", top, reduce(lambda a, b: Bin("*", a, b), below)) if below else top


def _raised(node: Tree, power: int) -> Tree:
    return node if power == 1 else Bin("^", node, Num(str(power)))


def _add_electrodes(situation: Situation, catalogue: Catalogue, cell: GalvanicCell, form: Form) -> None:
    """E of each electrode by the Nernst equation for its reduction, and the cell potential as their difference."""
    for side in SIDES:
        half = cell.side(side)
        situation.given[f"{side}.n"] = Given(float(half.half.n), "", str(half.half.n), "balance")
        factors: list[tuple[Tree, int]] = []
        for terms, sign in ((half.half.reduced, 1), (half.half.oxidised, -1)):
            for coefficient, species in terms:
                if half.amount(species) is not None:
                    factors.append((Ref(amount_node(side, half, species)), sign * coefficient))
        said, hint = (HALF_QUOTIENT, HALF_QUOTIENT_HINT) if factors else (ALL_STANDARD, ALL_STANDARD_HINT)
        situation.laws.append(Instance("quotient", f"{side}.Q", product(factors), said, hint=hint))
        binding = {"E": f"{side}.E", "E0": f"{side}.E0", "n_half": f"{side}.n", "Q_half": f"{side}.Q"}
        relation = catalogue.relations["half-cell-nernst"]
        say = relation.say_here.replace("{couple}", f"{{{side}.couple}}")
        situation.laws.append(instance(relation, binding, say=say, form=form.id, other_forms=form.others))
