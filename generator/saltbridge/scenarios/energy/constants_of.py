"""Solubility products, formation constants and the ion product of water from two potentials of a sheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import combine, parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Say, Situation, instance
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import add_constants, add_given, read_potential
from saltbridge.tables import Sheet, SheetRow
from saltbridge.units import Quantity

Kind = Literal["salt", "complex", "water"]


@dataclass(frozen=True, slots=True)
class Pair:
    """The names of a kind: both potentials with their owners, the electrons, the relations in order."""

    upper: tuple[str, str]
    lower: tuple[str, str]
    electrons: str
    relations: tuple[str, ...]


PAIRS = {
    "salt": Pair(
        ("E0_salt", "salt"), ("E0_metal", "metal"), "n_salt",
        ("potential-of-dissolving", "solubility-product", "solubility-product-number"),
    ),
    "complex": Pair(
        ("E0_free", "free"), ("E0_complex", "complex"), "n_complex",
        ("potential-of-binding", "formation-constant", "formation-constant-number"),
    ),
    "water": Pair(
        ("E0_base", "base"), ("E0_acid", "acid"), "",
        ("potential-of-splitting", "water-product", "water-product-number"),
    ),
}  # fmt: skip
"""Kind → what is subtracted from what: E° of ``upper`` minus E° of ``lower`` drives the dissolving, binding or splitting."""


def constant_of(
    kind: Kind,
    upper: SheetRow,
    lower: SheetRow,
    sheet: Sheet,
    catalogue: Catalogue,
    *,
    anion: Quantity | None = None,
    nernst: str = "lg",
    say: Say = in_english,
) -> Situation:
    """The situation of one constant; ``anion`` is the concentration of the anion over a salt of one to one.

    Raises ``Faulty`` where the two half-reactions do not make a dissolving, binding or splitting.
    """
    situation = Situation(say=say)
    constant = sheet.constants["T"]
    add_given(situation, catalogue, "T", constant.printed, "K", sheet.title)
    add_constants(situation, sheet)
    pair = PAIRS[kind]
    for (_, owner), row in ((pair.upper, upper), (pair.lower, lower)):
        situation.given[f"{owner}.E0"] = read_potential(row.E0, sheet)
        situation.labels[f"{owner}.couple"] = couple_label(*parse_half_reaction(row.half_reaction).principal, say)
        situation.about[f"{owner}.E0"] = f"{owner}.couple"
    binding = {symbol: f"{owner}.E0" for symbol, owner in (pair.upper, pair.lower)}
    combined = combine(parse_half_reaction(upper.half_reaction), parse_half_reaction(lower.half_reaction))
    if kind == "water":
        situation.words["equation"] = "H2O -> H^+ + OH^-"
    else:
        situation.given[pair.electrons] = Given(float(combined.n), "", str(combined.n), "balance")
        situation.labels["equation"] = inscribe_equation(combined.equation, say=say)
        situation.words["equation"] = combined.equation.bare.text
    for name in pair.relations:
        relation = catalogue.relations[name]
        form = "lg" if nernst == "lg" and relation.forms else ""
        situation.laws.append(instance(relation, binding, form=form, other_forms=bool(relation.forms)))
    if kind == "salt":
        _add_salt(situation, catalogue, upper, combined.equation.right, anion)
    situation.shape = (kind, *(str(term.coefficient) for term in combined.equation.right), "25 °C")
    return situation


def _add_salt(situation: Situation, catalogue: Catalogue, row: SheetRow, ions: object, anion: Quantity | None) -> None:
    """The salt's name and its solubility, by how many ions one formula gives."""
    salt = parse_half_reaction(row.half_reaction).principal[0]
    situation.labels["salt.solid"] = inscribe_species(salt.in_phase(""), say=situation.say)
    counts = sorted(term.coefficient for term in ions) if isinstance(ions, tuple) else []
    situation.words["salt.ions"] = {(1, 1): "one to one", (1, 2): "one to two"}.get(tuple(counts), "other")
    if anion is not None:
        if counts != [1, 1]:
            raise fault("one-to-one", expected="a salt of one cation and one anion beside `anion`", found=salt.bare)
        add_given(situation, catalogue, "c_anion", anion.printed, anion.unit)
