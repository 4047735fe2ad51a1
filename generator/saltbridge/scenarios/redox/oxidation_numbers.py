"""Oxidation numbers as a situation: one element in one species, and what becomes of it in a change."""

from __future__ import annotations

from collections.abc import Mapping

from saltbridge.algebra.expression import Bin, Num, Ref, Tree
from saltbridge.chemistry.inscriptions import inscribe_species
from saltbridge.chemistry.oxidation import mean_oxidation_number, other_shares, oxidation_number
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import Faulty, fault
from saltbridge.graph.laws import Given, Instance, Rule, Situation
from saltbridge.tables import elements

REST = "Add up the oxidation numbers of the other atoms, each times the number of its atoms."
REST_HINT = "Which oxidation numbers of the other atoms do you know already?"
ALONE = "There are no other atoms."
ALONE_HINT = "Are there any other atoms in the species?"


def name_element(situation: Situation, place: str, element: str) -> None:
    """The symbol of an element as a label."""
    situation.labels[place] = Inscription("species", (Piece("base", element),), element)
    situation.words[f"{place}.name"] = elements()[element].name


def add_oxidation_number(situation: Situation, species: Species, element: str) -> None:
    """The laws for ``ox`` and ``ox_mean`` of an element in a species.

    Where the atoms are not alike ``ox`` says so instead. Raises ``Faulty`` where the species lacks the element, or where
    the numbers of the other atoms are open.
    """
    mean_oxidation_number(species, element)  # raises where nothing can be given
    name_element(situation, "element", element)
    situation.labels["species"] = inscribe_species(species.in_phase(""), say=situation.say)
    situation.about |= {"ox": "element", "ox_mean": "element", "atoms_ox": "element", "charge_ion": "species"}
    count = dict(species.atoms)[element]
    situation.given["charge_ion"] = _counted(species.charge)
    situation.given["atoms_ox"] = _counted(count)
    tree: Tree | None = None
    for place, share in enumerate(other_shares(species, element), 1):
        node = f"other{place}.ox"
        situation.given[node] = _counted(share.number or 0)
        name_element(situation, f"other{place}.element", share.symbol)
        situation.about[node] = f"other{place}.element"
        term: Tree = Ref(node) if share.count == 1 else Bin("*", Num(str(share.count)), Ref(node))
        tree = term if tree is None else Bin("+", tree, term)
    said, hint = (REST, REST_HINT) if tree else (ALONE, ALONE_HINT)
    situation.laws.append(Instance("other-atoms", "ox_rest", tree or Num("0"), said, hint=hint))
    try:
        oxidation_number(species, element)
    except Faulty as error:
        why = f"{error.faults[0].found}; only their mean, ox_mean, can be given"
        situation.laws.append(Rule("ox", "untold", (), keys=(why,)))


def _counted(number: int) -> Given:
    return Given(float(number), "", str(number), "balance")


def told_species(situation: Situation, words: Mapping[str, str]) -> tuple[Species, str]:
    """The species and element told, the element guessed where only one is in doubt; its laws are added.

    Raises ``Faulty`` (code ``which-element``) naming the elements to choose from.
    """
    species = parse_species(words["species"])
    element = words.get("element") or _only_element(species)
    add_oxidation_number(situation, species, element)
    return species, element


def _only_element(species: Species) -> str:
    symbols = [symbol for symbol, _ in species.atoms]
    if not symbols:
        raise fault("no-oxidation-number", expected="a species with atoms", found="an electron")
    heart = [symbol for symbol in symbols if symbol not in {"H", "O"}] or symbols
    if len(heart) != 1:
        raise fault(
            "which-element", expected=f"the element of {species.bare} that is meant", found=" or ".join(heart),
            hint=f'Add "element = {heart[0]}".',
        )  # fmt: skip
    return heart[0]
