"""Kinds of elements, groups, phases and chosen couples: the tables fit each other, the script and the outside."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.oxidation import oxidation_numbers
from saltbridge.chemistry.species import parse_species
from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.tables import elements, potentials
from saltbridge.tables.choices_of_couples import bath_products, bound_couples, front_line, halogens
from saltbridge.tables.kinds import (
    element_kinds,
    groups,
    inert_conductors,
    non_metals,
    odd_species,
    read_odd_species,
    usual_phases,
)
from saltbridge.tables.unit_rows import unit_rows


def test_the_script_of_the_page_knows_the_same_non_metals():
    script = (shipped("site") / "scripts" / "species.js").read_text(encoding="utf-8")
    assert set(re.search(r'NON_METALS = "([^"]+)"', script)[1].split("|")) == non_metals()


def test_pulls_are_ranks_of_non_metals():
    ranks = sorted(kind.pull for kind in element_kinds().values() if kind.pull)
    assert ranks == list(range(1, len(ranks) + 1))
    assert {symbol for symbol, kind in element_kinds().items() if kind.pull} < non_metals()


def test_bounds_enclose_what_is_usual():
    for kind in element_kinds().values():
        inside = [each for each in (kind.only, kind.usual) if each is not None]
        assert all((kind.lowest or -8) <= each <= (8 if kind.highest is None else kind.highest) for each in inside), kind.symbol


def test_numbers_of_an_odd_species_add_up_to_its_atoms_and_charge():
    told = [each for each in odd_species().values() if each.kind == "numbers"]
    assert len(told) > 10
    for each in told:
        species = parse_species(each.species)
        counts: dict[str, int] = {}
        for symbol, count, _ in each.atoms:
            counts[symbol] = counts.get(symbol, 0) + count
        assert counts == dict(species.atoms), each.species
        assert sum(count * number for _, count, number in each.atoms) == species.charge, each.species


@pytest.mark.parametrize("species", [name for name, each in odd_species().items() if each.kind in {"open", "unlike"}])
def test_what_the_rules_leave_open_is_refused(species):
    with pytest.raises(Faulty):
        oxidation_numbers(parse_species(species))


def test_a_share_that_cannot_be_read_is_told(tmp_path):
    table = tmp_path / "oxidation_species.csv"
    table.write_text("species,kind,atoms,source\nCN^-,numbers,C +2,x\n", encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        read_odd_species(table)
    assert [str(each) for each in caught.value.faults] == [
        'oxidation_species.csv:2: atoms: expected element, count and number of each kind of atom, such as C*1:+2 N*1:-3; found "C +2" [bad-cell]'
    ]


@pytest.mark.parametrize("group", groups())
def test_a_group_is_made_of_elements(group):
    assert {symbol for symbol, _ in parse_species(group).atoms} <= set(elements())


def test_phases_are_those_of_the_table_of_potentials_where_it_has_the_species():
    """A phase that is filled in is one in which some row of the table holds the species."""
    held: dict[str, set[str]] = {}
    for couple in potentials().values():
        for species in parse_half_reaction(couple.half_reaction).species:
            held.setdefault(species.bare, set()).add(species.phase)
    assert {name: phase for name, phase in usual_phases().items() if name in held and phase not in held[name]} == {}


@pytest.mark.parametrize("bound", bound_couples().values(), ids=bound_couples())
def test_a_bound_couple_and_its_free_ion_differ_by_what_binds(bound):
    """Both reduce to one substance with as many electrons for each of its atoms."""
    halves = [parse_half_reaction(potentials()[couple].half_reaction) for couple in (bound.couple, bound.free)]
    made = [{term.species.bare: term.coefficient for term in (*half.reduced, *half.oxidised)} for half in halves]
    shared = {name for name in made[0] if name in made[1] and name != "H2O"}
    assert any(halves[0].n * made[1][name] == halves[1].n * made[0][name] for name in shared), bound.couple


def test_halogens_name_couples_of_their_own():
    for symbol, halogen in halogens().items():
        assert {each.bare for each in parse_half_reaction(potentials()[halogen.couple].half_reaction).species} == {
            f"{symbol}2",
            f"{symbol}^-",
        }


def test_products_of_a_bath_stand_in_their_couple_or_are_lyes():
    for name, product in bath_products().items():
        named = {each.bare for each in parse_half_reaction(potentials()[product.couple].half_reaction).species}
        assert name in named or (product.lye and "OH^-" in named)


def test_the_front_line_holds_each_couple_once_and_conductors_are_elements():
    assert len(set(front_line())) == len(front_line()) > 5
    assert inert_conductors() <= set(elements())


# ------------------------------------------------------------------ no list of chemistry in code

PACKAGE = Path(__file__).parents[2] / "generator" / "saltbridge"
LONGEST_LIST = 3
"""So many formulas may stand together in code, as the names of a reader's choices; longer lists are data."""
_FORMULA = re.compile(r"\[?(?:[A-Z][a-z]?\d*|\((?:[A-Z][a-z]?\d*)+\)\d*)+\]?(?:\^\d*[+-])?")
_ROMAN = re.compile(r"[IV]+")


def _is_formula(text: str) -> bool:
    bare = re.sub(r"\((?:aq|s|l|g)\)", "", text.partition("/")[0])
    if not _FORMULA.fullmatch(bare) or _ROMAN.fullmatch(bare) or bare in unit_rows():
        return False
    return set(re.findall(r"[A-Z][a-z]?", bare)) <= set(elements())


def _lists_of_formulas(text: str):
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Dict | ast.Tuple | ast.List | ast.Set):
            words = {each.value for each in ast.walk(node) if isinstance(each, ast.Constant) and isinstance(each.value, str)}
            found = sorted(filter(_is_formula, words))
            if len(found) > LONGEST_LIST:
                yield node.lineno, found


def test_no_list_of_formulas_stands_in_code():
    found = {path.name: list(_lists_of_formulas(path.read_text(encoding="utf-8"))) for path in sorted(PACKAGE.rglob("*.py"))}
    assert {name: lists for name, lists in found.items() if lists} == {}


def test_a_list_of_formulas_is_found():
    assert list(_lists_of_formulas('X = {"Ag^+/Ag": 1, "Cl2": 2, "[Ag(NH3)2]^+": 3, "Pb(OH)2": 4}')) == [
        (1, ["Ag^+/Ag", "Cl2", "Pb(OH)2", "[Ag(NH3)2]^+"])
    ]
