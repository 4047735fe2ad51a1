"""Energy of a cell: temperature, entropy, enthalpy, multiplied equations, greatest work, and what K may tell."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.algebra.expression import Bin, Num, Ref, Tree
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import SIDES, GalvanicCell
from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault
from saltbridge.graph.laws import Conversion, Given, Instance, Rule, Situation, given_name, instance
from saltbridge.graph.node_names import ROLES
from saltbridge.scenarios.situations import add_given
from saltbridge.scenarios.transfer import Ways
from saltbridge.sigfigs import decimals_of, figures_of, number_words, print_number, to_decimals
from saltbridge.tables import temperature_coefficient
from saltbridge.tables.reactions import Reaction, formation_energies
from saltbridge.units import Quantity, quantity_inscription, unit_inscription

SIGNS = ("positive", "zero", "negative")
SIDES_OF_ONE = ("above", "equal", "below")
FIGURES = ("none", "one", "two", "three")

SUM = "Multiply each Gibbs energy of formation by its coefficient. Elements count as zero."
SUM_HINT = "How often does each substance stand in the equation? Which of them are elements?"


def add_signs(situation: Situation) -> None:
    """The signs of E° and ΔG° and K against one, as words."""
    situation.laws += [
        Rule("sign_E0", "sign-of-the-potential", ("E0_cell",), keys=SIGNS),
        Rule("sign_dG0", "sign-of-the-energy", ("dG0",), keys=SIGNS),
        Rule("side_K", "side-of-K", ("lgK",), keys=SIDES_OF_ONE),
    ]


def add_figures(situation: Situation, catalogue: Catalogue, upper: str, lower: str, source: str = "") -> None:
    """How many figures K may have where E° is the difference of two printed potentials (V), each good to half its last place.

    Both uncertainties count, at worst they add up; the potential with fewer decimals decides how E° is printed. ``source`` is
    where they are read, where the working is to say so; an uncertainty told stays.
    """
    halves = sum(Decimal(5).scaleb(-1 - decimals_of(each)) for each in (upper, lower))
    if not any(name.split(":")[0] == "u_E" for name in situation.given):
        add_given(situation, catalogue, "u_E", f"{Decimal(halves).normalize():f}", "V", source)
    printed = str(to_decimals(Decimal(upper) - Decimal(lower), min(decimals_of(upper), decimals_of(lower))))
    situation.given["figures_told"] = Given(float(figures_of(printed)), "", str(figures_of(printed)))
    inputs = ("u_lgK", "figures_told")
    situation.laws.append(Rule("figures_K", "figures-of-K", inputs, keys=FIGURES))


def add_multiplied(situation: Situation, catalogue: Catalogue, times: Quantity) -> None:
    """The reaction written with its coefficients multiplied."""
    add_given(situation, catalogue, "times", times.printed, times.unit)
    add_multiples(situation, catalogue)


def add_multiples(situation: Situation, catalogue: Catalogue) -> None:
    """The relations of a multiplied equation, whose factor is known."""
    for name in ("multiplied-electrons", "multiplied-gibbs", "multiplied-lgk", "multiplied-potential"):
        situation.laws.append(instance(catalogue.relations[name]))


def add_heat(situation: Situation, catalogue: Catalogue, cell: GalvanicCell, *, warmed: bool, as_written: bool = False) -> None:
    """Entropy and enthalpy from the temperature coefficients of both couples; ``warmed``: the table's E° is that of 25 °C.

    ``as_written``: the right-hand couple minus the left-hand one, whichever is the anode.

    Raises ``Faulty`` (code ``no-coefficient``) for couples without one.
    """
    relations = catalogue.relations
    missing = [cell.side(side).couple for side in SIDES if temperature_coefficient(cell.side(side).couple) is None]
    if missing:
        raise fault(
            "no-coefficient", expected=f"a temperature coefficient for {' and '.join(missing)}", found="none in the table"
        )
    for side in SIDES:
        add_given(
            situation, catalogue, f"{side}.dEdT", str(temperature_coefficient(cell.side(side).couple)), "mV/K", "potentials.csv"
        )
        situation.about[f"{side}.dEdT"] = f"{side}.couple"
    binding = {"dEdT_cathode": "right.dEdT", "dEdT_anode": "left.dEdT"} if as_written else {}
    for role in () if as_written else ROLES:
        situation.laws.append(Rule(f"dEdT_{role}", "pick", (role, "left.dEdT", "right.dEdT"), keys=SIDES))
    if warmed:
        standard = relations["standard-cell-potential"]
        situation.laws = [
            instance(standard, {"E0_cell": "E0_cell_25"}, say=law.say)
            if isinstance(law, Instance) and law.law == standard.id
            else law
            for law in situation.laws
        ]
    coefficient = relations["cell-coefficient"]
    situation.laws.append(instance(coefficient, binding, say=coefficient.say if as_written else ""))


def add_work(situation: Situation, catalogue: Catalogue) -> None:
    """The greatest work of the charge that passes, at standard concentrations."""
    situation.laws.append(instance(catalogue.relations["greatest-work"], {"E_cell": "E0_cell"}))


# ------------------------------------------------------------------ from energies of formation


def add_formation(situation: Situation, reaction: Reaction, catalogue: Catalogue, ways: Ways) -> None:
    """ΔG° and E° of a reaction from Gibbs energies of formation, which the question prints."""
    say = situation.say
    equation = parse_equation(reaction.equation)
    situation.labels["equation"] = inscribe_equation(equation.bare, say=say)
    situation.words["equation"] = equation.bare.text
    situation.words["fuel"] = say(reaction.name)
    situation.given["n"] = Given(float(reaction.electrons), "", str(reaction.electrons))
    for node, terms in (("Gf_products", equation.right), ("Gf_reactants", equation.left)):
        _add_sum(situation, node, [(term.coefficient, term.species.text) for term in terms])
    situation.labels["data"] = _data([term.species.text for term in (*equation.left, *equation.right)], ways)
    add_given(situation, catalogue, "dH0", reaction.dH0, "kJ/mol")
    situation.shape = (reaction.id,)


def _data(species: list[str], ways: Ways) -> Inscription:
    """The Gibbs energies of formation that the question prints: ``H2O: -237.1 kJ/mol; CO2: ...``."""
    pieces: list[Piece] = []
    said: list[str] = []
    unit = unit_inscription("kJ/mol", ways.unit_style, ways.say)
    for each in dict.fromkeys(species):
        energy = formation_energies()[each]
        if energy.element:
            continue
        name = inscribe_species(parse_species(each).in_phase(""), say=ways.say)
        number = print_number(energy.printed, ways.decimal_mark, signed=True, say=number_words(ways.say))
        value = quantity_inscription(number, unit)
        pieces += [*([Piece("base", "; ")] if pieces else []), *name.pieces, Piece("base", ": "), *value.pieces]
        said.append(f"{name.spoken}, {value.spoken}")
    return Inscription("symbol", tuple(pieces), "; ".join(said))


def _add_sum(situation: Situation, node: str, terms: list[tuple[int, str]]) -> None:
    """Σ ΔG of one side in kJ/mol and its conversion; elements are zero and left out."""
    known = formation_energies()
    tree: Tree | None = None
    for place, (count, species) in enumerate(terms, 1):
        if known[species].element:
            continue
        name = f"{node}{place}.Gf"
        printed = known[species].printed
        situation.given[name] = Given(float(printed), "kJ/mol", printed, "given", known[species].source)
        situation.labels[f"{name}.species"] = inscribe_species(parse_species(species), say=situation.say)
        situation.about[name] = f"{name}.species"
        term: Tree = Ref(name) if count == 1 else Bin("*", Num(str(count)), Ref(name))
        tree = term if tree is None else Bin("+", tree, term)
    kilo = given_name(node, "kJ/mol")
    situation.laws.append(Instance("formation-sum", kilo, tree if tree is not None else Num("0"), SUM, hint=SUM_HINT))
    situation.laws.append(Conversion(node, kilo, "kJ/mol", "J/mol", 1000.0))
