"""Redox titration as a situation: mole ratio from the balanced equation, amounts, masses, and potentials along the curve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import gcd

from saltbridge.algebra.expression import Bin, Ref, Tree
from saltbridge.chemistry.balancing import Medium, balance_redox
from saltbridge.chemistry.equations import Equation
from saltbridge.chemistry.half_reactions import HYDROGEN_ION, HalfReaction, parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Instance, Rule, Situation
from saltbridge.scenarios.bath.electrolysis import add_molar_mass
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import read_potential
from saltbridge.tables import Sheet, SheetRow
from saltbridge.tables.formal_potentials import formal_potentials
from saltbridge.tables.potentials import potentials

WHOLE_IS_PORTION = "All of the sample was titrated."
PORTION_HINT = "Was all of the sample titrated, or only a part of it?"
CONCORDANT = "Add up the titres that agree."
CONCORDANT_HINT = "Which titres agree with one another?"


def mole_ratio(reactions: Sequence[str], titrant: str, analyte: str, medium: Medium) -> tuple[int, int, tuple[Equation, ...]]:
    """(analyte, titrant) in lowest whole numbers along one reaction, or two that share a species between; also the equations.

    Raises ``Faulty`` (code ``not-in-equation``) where a species stands in none of them.
    """
    equations = tuple(balance_redox(reaction, medium).bare for reaction in reactions)
    first, last = equations[0], equations[-1]
    of_analyte, of_titrant = _count(first, analyte), _count(last, titrant)
    if len(equations) == 2:
        between = _between(first, last)
        of_analyte *= _count(last, between)
        of_titrant *= _count(first, between)
    shared = gcd(of_analyte, of_titrant)
    return of_analyte // shared, of_titrant // shared, equations


def _count(equation: Equation, bare: str) -> int:
    found = sum(term.coefficient for term in (*equation.left, *equation.right) if term.species.bare == bare)
    if not found:
        raise fault("not-in-equation", expected=f"{bare} in the reaction", found=equation.text)
    return found


def _between(first: Equation, last: Equation) -> str:
    made, used = ({term.species.bare for term in side} for side in (first.right, last.left))
    shared = sorted(made & used - {HYDROGEN_ION, "H2O", "OH^-"})
    if len(shared) != 1:
        raise fault(
            "no-link", expected="one species made in the first reaction and used in the second", found=", ".join(shared) or "none"
        )
    return shared[0]


def add_ratio(situation: Situation, reactions: Sequence[str], titrant: str, analyte: str, medium: Medium) -> None:
    """The coefficients of analyte and titrant, and the equations under their names (``equation``, ``equation2``)."""
    of_analyte, of_titrant, equations = mole_ratio(reactions, titrant, analyte, medium)
    for name, count in (("nu_analyte", of_analyte), ("nu_titrant", of_titrant)):
        situation.given[name] = Given(float(count), "", str(count), "balance")
    for role, bare in (("titrant", titrant), ("analyte", analyte)):
        situation.labels[role] = inscribe_species(parse_species(bare).in_phase(""), say=situation.say)
    for symbol in ("c_titrant", "V_titrant", "n_titrant", "nu_titrant"):
        situation.about[symbol] = "titrant"
    for symbol in ("c_analyte", "V_analyte", "n_analyte", "nu_analyte"):
        situation.about[symbol] = "analyte"
    for place, equation in enumerate(equations, 1):
        name = "equation" + (str(place) if place > 1 else "")
        situation.labels[name] = inscribe_equation(equation, say=situation.say)
        situation.words[name] = equation.text


def add_amounts(situation: Situation, *, flask: bool) -> None:
    """The relations from titre to mass fraction; without a flask the portion is the whole sample."""
    if not flask:
        situation.laws.append(Instance("portion", "n_whole", Ref("n_analyte"), WHOLE_IS_PORTION, hint=PORTION_HINT))


def add_weighed(situation: Situation, species: Species, sheet: Sheet) -> None:
    """The molar mass of what is weighed. Raises ``Faulty`` where the sheet lacks an atomic mass."""
    situation.labels["weighed"] = inscribe_species(species.in_phase(""), say=situation.say)
    for symbol in ("M_analyte", "m_analyte", "w_analyte"):
        situation.about[symbol] = "weighed"
    add_molar_mass(situation, species, sheet, "M_analyte")


def add_mean_titre(situation: Situation, concordant: Sequence[str]) -> None:
    """The titre as the mean of the runs named."""
    tree: Tree = Ref(concordant[0])
    for name in concordant[1:]:
        tree = Bin("+", tree, Ref(name))
    situation.given["k_titres"] = Given(float(len(concordant)), "", str(len(concordant)), "balance")
    situation.laws.append(Instance("concordant", "V_sum", tree, CONCORDANT, hint=CONCORDANT_HINT))


# ------------------------------------------------------------------ the curve


def one_for_one(half: HalfReaction) -> bool:
    """Whether one oxidised particle makes one reduced, and only H⁺ and water stand beside them."""
    oxidised, reduced = half.principal
    counts = {term.species.bare: term.coefficient for term in (*half.oxidised, *half.reduced)}
    spare = set(counts) - {oxidised.bare, reduced.bare, HYDROGEN_ION, "H2O"}
    return not spare and counts[oxidised.bare] == counts[reduced.bare] == 1


def in_acid(couple: str, acid: str) -> SheetRow:
    """A couple with its formal potential in 1 mol/L of an acid; the sheet need not have it, since the question tells that value.

    Raises ``Faulty`` (code ``no-formal-potential``).
    """
    found = formal_potentials().get((couple, acid))
    if found is None:
        there = ", ".join(each for of, each in formal_potentials() if of == couple) or "none"
        expected = f"an acid in which the formal potential of {couple} is known ({there})"
        raise fault("no-formal-potential", expected=expected, found=acid[:40], hint="Or leave out the acid.")
    return SheetRow(couple, potentials()[couple].half_reaction, found.E, len(found.E.partition(".")[2]))


def add_curve(situation: Situation, sheet: Sheet, titrant: SheetRow, analyte: SheetRow, acid: str = "") -> None:
    """Potentials before, at and beyond equivalence, of two couples of the sheet; ``acid``: their formal potentials in it are given.

    Raises ``Faulty`` (code ``not-one-for-one``) for a couple such as dichromate, whose potential depends on the concentration.
    """
    if acid:
        situation.words["acid"] = situation.say(acid)
    for role, row in (("titrant", titrant), ("analyte", analyte)):
        half = parse_half_reaction(row.half_reaction)
        if not one_for_one(half):
            raise fault("not-one-for-one", expected="a couple with one particle on each side", found=row.half_reaction)
        potential = read_potential(row.E0, sheet)
        situation.given[f"E0_{role}"] = replace(potential, how="given", source="") if acid else potential
        situation.given[f"n_e_{role}"] = Given(float(half.n), "", str(half.n), "balance")
        situation.labels[f"{role}_couple"] = couple_label(*half.principal, situation.say)
        situation.about[f"E0_{role}"] = f"{role}_couple"
    situation.about["E_titrant"] = "titrant_couple"
    protons = sum(
        term.coefficient for term in parse_half_reaction(titrant.half_reaction).oxidised if term.species.bare == HYDROGEN_ION
    )
    situation.given["H_titrant"] = Given(float(protons), "", str(protons), "balance")
    if not protons:
        situation.laws.append(Rule("E_titrant", "same", ("E0_titrant",)))


def add_indicators(situation: Situation, indicators: Sequence[tuple[str, str, str]]) -> None:
    """Indicators ``i1``, ``i2``… (name, potential, source) and which of them fits."""
    keys = tuple(f"i{place}" for place in range(1, len(indicators) + 1))
    for key, (name, potential, source) in zip(keys, indicators, strict=True):
        situation.words[f"{key}.indicator"] = name
        situation.labels[f"{key}.indicator"] = Inscription("symbol", (Piece("base", situation.say(name)),), situation.say(name))
        situation.given[f"{key}.E_indicator"] = Given(float(potential), "V", potential, "given", source)
    inputs = ("E_step_low", "E_step_high", *(f"{key}.E_indicator" for key in keys))
    situation.laws.append(Rule("indicator", "indicator-within-the-step", inputs, keys=keys))


def add_steepest(situation: Situation, points: int) -> None:
    """The equivalence volume from readings ``p1``, ``p2``… of a curve."""
    gaps = tuple(f"gap{place}" for place in range(1, points))
    potentials = tuple(f"p{place}.E_point" for place in range(1, points + 1))
    volumes = [f"p{place}.V_point" for place in range(1, points + 1)]
    situation.laws.append(Rule("step", "steepest-step", potentials, keys=gaps))
    situation.laws.append(Rule("V_low", "pick", ("step", *volumes[:-1]), keys=gaps))
    situation.laws.append(Rule("V_high", "pick", ("step", *volumes[1:]), keys=gaps))
