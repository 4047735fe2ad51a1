"""Redox reactions as a situation: two half-equations with their steps, the equation, the agents, electrons and coefficients."""

from __future__ import annotations

from typing import Literal, NamedTuple

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.balancing import Medium, redox_halves
from saltbridge.chemistry.equations import Equation
from saltbridge.chemistry.half_reactions import HYDROGEN_ION, HalfReaction, combine, parse_half_reaction
from saltbridge.chemistry.half_steps import change_of, principal_pair, steps_of, written
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.oxidation import oxidation_number
from saltbridge.chemistry.reshaping import reshaped
from saltbridge.chemistry.species import Species
from saltbridge.faults import Faulty, fault
from saltbridge.graph.laws import Given, Rule, Situation, balance, instance
from saltbridge.scenarios.equation_laws import add_electrons, give_equation
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.redox.oxidation_numbers import name_element
from saltbridge.scenarios.situations import read_potential
from saltbridge.tables import Sheet, SheetRow

MEDIA: tuple[Medium, ...] = ("acid", "base")


class Half(NamedTuple):
    """One half of a reaction; ``oxidation`` tells in which direction it is written."""

    half: HalfReaction
    oxidation: bool

    @property
    def equation(self) -> Equation:
        """As it is written."""
        return written(self.half, oxidation=self.oxidation)


class Change(NamedTuple):
    """The element that changes in a half, its atoms there, and its numbers in the oxidised and the reduced form."""

    element: str
    atoms: int
    high: int
    low: int


def medium_of(text: str) -> Medium:
    """The medium told; raises ``Faulty`` for another word."""
    for medium in MEDIA:
        if text == medium:
            return medium
    raise fault("medium", expected="medium = acid or medium = base", found=text[:40])


def element_changed(half: HalfReaction) -> Change | None:
    """The one element whose oxidation number changes between the two forms; ``None`` where that is not clear."""
    oxidised, reduced = principal_pair(half)
    found = []
    for element in dict(oxidised.atoms).keys() & dict(reduced.atoms).keys():
        try:
            high, low = oxidation_number(oxidised, element), oxidation_number(reduced, element)
        except Faulty:
            return None
        if high != low:
            found.append(Change(element, _atoms(half, oxidised, element), high, low))
    return found[0] if len(found) == 1 and found[0].atoms * (found[0].high - found[0].low) == half.n else None


def _atoms(half: HalfReaction, oxidised: Species, element: str) -> int:
    return sum(
        term.coefficient * dict(term.species.atoms).get(element, 0)
        for term in half.oxidised
        if term.species.bare == oxidised.bare
    )


# ------------------------------------------------------------------ one half


def add_half_steps(situation: Situation, catalogue: Catalogue, owner: str, node: str, half: Half) -> None:
    """The steps to a half-equation, which is ``node``; its label and word are ``OWNER.half``."""
    kinds = steps_of(half.half, oxidation=half.oxidation)
    previous = f"{owner}.change"
    give_equation(situation, previous, change_of(half.half, oxidation=half.oxidation))
    for kind in kinds:
        here = node if kind is kinds[-1] else f"{owner}.{kind}"
        situation.laws.append(balance(catalogue, kind, here, (previous,)))
        previous = here
    name = f"{owner}.half"
    situation.labels[name] = inscribe_equation(half.equation, say=situation.say)
    situation.words[name] = half.equation.text


def add_electron_count(situation: Situation, catalogue: Catalogue, owner: str, half: Half) -> None:
    """The electrons of a half by the oxidation numbers of its element, where one element changes."""
    change = element_changed(half.half)
    if change is None:
        return
    prefix = f"{owner}." if owner else ""
    name_element(situation, f"{prefix}element", change.element)
    oxidised, reduced = principal_pair(half.half)
    before, after = (change.low, change.high) if half.oxidation else (change.high, change.low)
    numbers = {
        "atoms_half": change.atoms, "ox_high": change.high, "ox_low": change.low, "ox_before": before, "ox_after": after,
        "charge_high": oxidised.charge, "charge_low": reduced.charge,
    }  # fmt: skip
    for symbol, number in numbers.items():
        situation.given[prefix + symbol] = Given(float(number), "", str(number), "balance")
        situation.about[prefix + symbol] = f"{prefix}element"
    for symbol in ("n_transfer", "ox_change"):
        situation.about[prefix + symbol] = f"{prefix}element"
    for relation in (catalogue.relations["oxidation-change"], catalogue.relations["electrons-by-numbers"]):
        binding = {symbol: prefix + symbol for symbol in relation.symbols}
        say = relation.say_here.replace("{element}", f"{{{prefix}element}}")
        situation.laws.append(instance(relation, binding if owner else None, say=say))


# ------------------------------------------------------------------ the whole reaction


def halves_of(skeleton: str, medium: Medium) -> tuple[Half, Half]:
    """Reduction and oxidation of a skeleton. Raises ``Faulty`` where it does not part into two."""
    reduction, oxidation = redox_halves(skeleton, medium)
    return Half(reduction, oxidation=False), Half(oxidation, oxidation=True)


def add_reaction(situation: Situation, catalogue: Catalogue, reduction: Half, oxidation: Half) -> None:
    """Everything told of a reaction of two halves: steps, equation, agents, electrons, multipliers and coefficients."""
    for owner, half in (("reduction", reduction), ("oxidation", oxidation)):
        add_half_steps(situation, catalogue, owner, f"half_{owner}", half)
        add_electron_count(situation, catalogue, owner, half)
    whole = combine(reduction.half, oxidation.half)
    equation = whole.equation.bare
    situation.labels["equation"] = inscribe_equation(equation, say=situation.say)
    situation.words["equation"] = equation.text
    situation.laws.append(balance(catalogue, "redox-equation", "equation", ("half_reduction", "half_oxidation")))
    add_electrons(situation, catalogue, whole.n)
    _add_agents(situation, reduction, oxidation)
    _add_counts(situation, reduction, oxidation)


def _add_agents(situation: Situation, reduction: Half, oxidation: Half) -> None:
    """Oxidant and reductant, told by which of the two reactants' numbers falls."""
    oxidant, reductant = principal_pair(reduction.half)[0], principal_pair(oxidation.half)[1]
    for owner, species in (("oxidising", oxidant), ("reducing", reductant)):
        situation.labels[f"{owner}.species"] = inscribe_species(species, say=situation.say)
        situation.words[f"{owner}.text"] = species.bare
        situation.labels[f"{owner}.oxidant"] = situation.labels[f"{owner}.reductant"] = situation.labels[f"{owner}.species"]
    for owner, half in (("oxidising", reduction), ("reducing", oxidation)):
        change = element_changed(half.half)
        if change is not None:
            name_element(situation, f"{owner}.element", change.element)
    if "oxidising.element" in situation.labels and "reducing.element" in situation.labels:
        agent = (
            ("oxidising-agent", "reducing-agent") if oxidant.bare != reductant.bare else ("oxidising-itself", "reducing-itself")
        )
        inputs, agents = ("reduction.ox_change", "oxidation.ox_change"), ("oxidising", "reducing")
        situation.laws.append(Rule("oxidant", agent[0], inputs, keys=agents))
        situation.laws.append(Rule("reductant", agent[1], inputs, keys=agents))
    same = oxidant.bare == reductant.bare
    situation.given["one_species"] = Given(float(same), "", str(int(same)))
    keys = ("disproportionation", "redox", "neither")
    kind = "kind-one-species" if same else "kind-two-species"
    situation.laws.append(Rule("reaction_kind", kind, ("one_species", "n"), keys=keys))


def _add_counts(situation: Situation, reduction: Half, oxidation: Half) -> None:
    whole = combine(reduction.half, oxidation.half)
    added = _added(reduction, oxidation)
    left, right = (sum(term.coefficient for term in side) for side in (whole.equation.left, whole.equation.right))
    counts = {
        "n_red": reduction.half.n, "n_ox": oxidation.half.n, "sum_left": left, "sum_right": right,
        "H_red": _taken(reduction.half), "H_ox": _taken(oxidation.half),
    }  # fmt: skip
    if added:
        counts["sum_as_added"] = added
    for name, count in counts.items():
        situation.given[name] = Given(float(count), "", str(count), "balance")
    situation.laws.append(Rule("n_common", "common-electrons", ("n_red", "n_ox")))
    situation.words["halves.cancelled"] = "no" if whole.divided_by == 1 else "yes"


def _added(reduction: Half, oxidation: Half) -> int:
    """The sum of coefficients of the halves added as they stand; 0 where that is the right equation."""
    right = combine(reduction.half, oxidation.half).equation.bare
    wrong = reshaped("added as they stand", (reduction.equation, oxidation.equation), right)
    return 0 if wrong is None or wrong == right else sum(term.coefficient for term in (*wrong.left, *wrong.right))


def _taken(half: HalfReaction) -> int:
    """The H⁺ that a half takes when written as a reduction."""
    signed = (*((1, term) for term in half.oxidised), *((-1, term) for term in half.reduced))
    return sum(sign * term.coefficient for sign, term in signed if term.species.bare == HYDROGEN_ION)


# ------------------------------------------------------------------ two couples


def add_pair(situation: Situation, sheet: Sheet, taking: SheetRow, giving: SheetRow) -> None:
    """The standard potentials of the couple that would take electrons and of the one that would give them."""
    add_couple_in_role(situation, sheet, "taking", taking)
    add_couple_in_role(situation, sheet, "giving", giving)


def add_couple_in_role(situation: Situation, sheet: Sheet, role: Literal["taking", "giving"], row: SheetRow) -> None:
    """One of the two, by its role."""
    situation.given[f"{role}.E0"] = read_potential(row.E0, sheet)
    situation.labels[f"{role}.couple"] = couple_label(*parse_half_reaction(row.half_reaction).principal, situation.say)
    situation.about[f"{role}.E0"] = f"{role}.couple"
