"""What words of redox told at the command line bring with them: a species, a change, a reaction, a metal in a solution."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress

from saltbridge.algebra.expression import Ref
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.balancing import Medium, balance_equation, balance_half, balance_redox, is_oxidation
from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation
from saltbridge.chemistry.oxidation import disproportionates, electrons_passed
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty, fault
from saltbridge.graph.laws import Given, Instance, Rule, Situation, balance
from saltbridge.scenarios.equation_laws import give_equation
from saltbridge.scenarios.redox.oxidation_numbers import told_species
from saltbridge.scenarios.redox.redox import (
    Half,
    add_electron_count,
    add_half_steps,
    add_pair,
    add_reaction,
    halves_of,
    medium_of,
)
from saltbridge.scenarios.titration.curve_words import add_curve_words
from saltbridge.scenarios.titration.titration import PORTION_HINT, WHOLE_IS_PORTION, add_ratio, add_weighed
from saltbridge.tables import Sheet, SheetRow, metals


def add_species(situation: Situation, words: Mapping[str, str], sheet: Sheet, _catalogue: Catalogue) -> None:
    """Oxidation numbers of a species, and whether it disproportionates where the sheet has both its couples."""
    species, _ = told_species(situation, words)
    lower = _couples(sheet, species.bare, reduced=False)
    upper = _couples(sheet, species.bare, reduced=True)
    if lower and upper:
        down, up = max(lower, key=lambda row: float(row.E0)), min(upper, key=lambda row: float(row.E0))
        add_pair(situation, sheet, down, up)
        inputs = ("taking.E0", "giving.E0")
        situation.laws.append(Rule("disproportionates", "species-meets-itself", inputs, keys=("yes", "no")))


def _couples(sheet: Sheet, bare: str, *, reduced: bool) -> list[SheetRow]:
    """The rows whose reduced (or oxidised) species this is."""
    return [row for row in sheet.rows if parse_half_reaction(row.half_reaction).principal[int(reduced)].bare == bare]


def add_change(situation: Situation, words: Mapping[str, str], _sheet: Sheet, catalogue: Catalogue) -> None:
    """A change balanced as a half-equation."""
    add_single_half(situation, catalogue, half_of_change(words["half_skeleton"], medium_of(words.get("medium", "acid"))))


def half_of_change(change: str, medium: Medium) -> Half:
    """A change balanced, in its own direction. Raises ``Faulty`` as ``balance_half`` does."""
    half = balance_half(change, medium)
    return Half(half, is_oxidation(change, half))


def add_single_half(situation: Situation, catalogue: Catalogue, half: Half) -> None:
    """A half-equation by itself: its steps, its electrons, whether it is an oxidation, and that it needs a partner."""
    add_half_steps(situation, catalogue, "change", "half_equation", half)
    add_electron_count(situation, catalogue, "", half)
    situation.words["half_equation"] = half.equation.text
    situation.labels["half_equation"] = situation.labels["change.half"]
    situation.given["oxygen_gained"] = Given(float(_oxygen_gained(half)), "", str(_oxygen_gained(half)))
    situation.given["electrons"] = Given(float(half.half.n), "", str(half.half.n))
    keys = ("oxidation", "reduction", "neither")
    inputs = ("ox_change", "oxygen_gained")
    situation.laws.append(Rule("process", "process-by-numbers", inputs, keys=keys))
    situation.laws.append(Rule("needs_partner", "partner-for-electrons", ("electrons",), keys=("yes", "no")))


def _oxygen_gained(half: Half) -> int:
    oxidised, reduced = half.half.principal
    gained = dict(oxidised.atoms).get("O", 0) - dict(reduced.atoms).get("O", 0)
    return gained if half.oxidation else -gained


def add_skeleton(situation: Situation, words: Mapping[str, str], _sheet: Sheet, catalogue: Catalogue) -> None:
    """A reaction balanced by its halves, or as a whole where it does not part into two."""
    medium = medium_of(words.get("medium", "acid"))
    try:
        halves = halves_of(words["skeleton"], medium)
    except Faulty as error:
        _add_whole(situation, catalogue, words["skeleton"], medium, error)
        return
    add_reaction(situation, catalogue, *halves)


def _add_whole(situation: Situation, catalogue: Catalogue, skeleton: str, medium: Medium, no_halves: Faulty) -> None:
    """An equation that does not part into two halves, and whether it is redox at all; raises what the halves raised."""
    try:
        equation = balance_equation(parse_equation(skeleton)).bare
    except Faulty:
        try:
            equation = balance_redox(skeleton, medium).bare
        except Faulty:
            raise no_halves from None
    situation.labels["equation"] = inscribe_equation(equation, say=situation.say)
    situation.words["equation"] = equation.text
    give_equation(situation, "skeleton.text", parse_equation(skeleton))
    situation.laws.append(balance(catalogue, f"whole-in-{medium}", "equation", ("skeleton.text",)))
    with suppress(Faulty):
        passed = electrons_passed(equation.left, equation.right)
        situation.given["electrons_passed"] = Given(float(passed), "", str(passed), "balance")
        same = disproportionates(equation.left, equation.right)
        situation.given["one_species"] = Given(float(same), "", str(int(same)))
        kind = "kind-by-numbers" if passed else "kind-without-change"
        keys = ("disproportionation", "redox", "neither")
        situation.laws.append(Rule("reaction_kind", kind, ("one_species", "electrons_passed"), keys=keys))


def add_displacement(situation: Situation, words: Mapping[str, str], sheet: Sheet, _catalogue: Catalogue) -> None:
    """Whether a metal displaces an ion, by the potentials of the sheet."""
    if not {"solid", "dissolved"} <= set(words):
        there = "solid" if "solid" in words else "dissolved"
        missing = 'Add "dissolved = Cu^2+".' if there == "solid" else 'Add "solid = Zn".'
        raise fault("displacement", expected="a metal and the ion of another", found=f"only {there}", hint=missing)
    solid, ion = parse_species(words["solid"]), parse_species(words["dissolved"])
    above = [
        row for row in _couples(sheet, ion.bare, reduced=False) if not parse_half_reaction(row.half_reaction).principal[1].charge
    ]
    below = _couples(sheet, solid.bare, reduced=True)
    entry = metals().get(solid.bare)
    simple = [row for row in below if row.couple == entry.couple] if entry else below
    if not above or not simple:
        bare = ion.bare if not above else solid.bare
        raise fault("couple-not-on-sheet", expected=f"a metal and an ion with their couples on {sheet.title}", found=bare)
    add_pair(situation, sheet, above[0], simple[0])
    inputs = ("taking.E0", "giving.E0")
    situation.laws.append(Rule("reacts", "metal-displaces", inputs, keys=("yes", "no")))


def add_titration(situation: Situation, words: Mapping[str, str], sheet: Sheet, _catalogue: Catalogue) -> None:
    """The mole ratio of titrant and analyte in the reaction told, and the molar mass of what is weighed; or the curve of two couples."""
    if all("/" in words.get(name, "") for name in ("titrant", "analyte")):
        add_curve_words(situation, words, sheet)
        return
    needed = {"titrant", "analyte", "skeleton"} - set(words)
    if needed:
        hint = 'Write for example "titrant = MnO4^-", "analyte = Fe^2+" and "skeleton = MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+".'
        raise fault("titration", expected="titrant, analyte and skeleton", found=f"no {', '.join(sorted(needed))}", hint=hint)
    add_ratio(situation, (words["skeleton"],), words["titrant"], words["analyte"], medium_of(words.get("medium", "acid")))
    if "weighed" in words:
        add_weighed(situation, parse_species(words["weighed"]), sheet)
        if not any(name.split(":")[0] == "V_flask" for name in situation.given):
            situation.laws.append(Instance("portion", "n_whole", Ref("n_analyte"), WHOLE_IS_PORTION, hint=PORTION_HINT))
