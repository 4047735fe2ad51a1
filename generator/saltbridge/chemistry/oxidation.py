"""Oxidation numbers: of every atom in a species, by the rules taught at school; what they leave open is refused by name.

The order of the rules is that of Gold Book O04365 (entry from memory) and of OpenStax Chemistry 2e, section 4.2: elements,
ions of one atom, known groups, fluorine, metals of one number, hydrogen, oxygen, the other halogens; the rest follows from the
charge. Where that gives a fraction, or more than the outer electrons of an atom, the atoms are not alike and no single
number is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import Faulty, fault
from saltbridge.tables.kinds import element_kinds, groups, odd_species


@dataclass(frozen=True, slots=True)
class Share:
    """So many atoms of an element with one oxidation number; ``None`` where the rules leave it open."""

    symbol: str
    count: int
    number: int | None


@lru_cache(maxsize=2048)
def oxidation_numbers(species: Species) -> tuple[Share, ...]:
    """The oxidation number of every atom; counts times numbers add up to the charge.

    Raises ``Faulty``: ``unlike-atoms`` where atoms of one element differ, ``numbers-open`` where the rules leave the numbers
    open, ``no-oxidation-number`` for an electron.
    """
    shares = _shares(species)
    for share in shares:
        if share.number is None:
            raise unlike(species, share.symbol)
    return shares


def oxidation_number(species: Species, element: str) -> int:
    """The one oxidation number of an element in a species. Raises ``Faulty`` as ``oxidation_numbers`` does."""
    found = {share.number for share in _of(species, element)}
    number = found.pop()
    if found or number is None:
        raise unlike(species, element)
    return number


def mean_oxidation_number(species: Species, element: str) -> Fraction:
    """The mean over the atoms of an element. Raises ``Faulty`` where the numbers of the other atoms are open."""
    own = _of(species, element)
    rest = sum(share.count * (share.number or 0) for share in _shares(species) if share.symbol != element)
    return Fraction(species.charge - rest, sum(share.count for share in own))


def other_shares(species: Species, element: str) -> tuple[Share, ...]:
    """The other atoms with their numbers. Raises ``Faulty`` where these are open."""
    _of(species, element)
    return tuple(share for share in _shares(species) if share.symbol != element)


def unlike(species: Species, element: str) -> Faulty:
    """The fault for an element whose atoms differ in a species."""
    return fault(
        "unlike-atoms",
        expected=f"{element} with one oxidation number in {species.bare}",
        found=f"atoms of {element} that are not alike",
        hint="Only their mean can be given: ask for ox_mean.",
    )


def _of(species: Species, element: str) -> tuple[Share, ...]:
    found = tuple(share for share in _shares(species) if share.symbol == element)
    if not found:
        there = ", ".join(symbol for symbol, _ in species.atoms)
        raise fault("no-such-element", expected=f"an element of {species.bare} ({there})", found=element)
    return found


@lru_cache(maxsize=2048)
def _shares(species: Species) -> tuple[Share, ...]:
    if species.is_electron:
        raise fault("no-oxidation-number", expected="a species with atoms", found="an electron")
    odd = odd_species().get(species.bare)
    if odd is not None and odd.kind == "open":
        raise _open(species)
    if odd is not None and odd.kind == "numbers":
        return _merged([Share(*each) for each in odd.atoms])
    parts = species.formula.split("\N{MIDDLE DOT}")
    waters = [match for part in parts[1:] if (match := re.fullmatch(r"([0-9]*)H2O", part))]
    if len(waters) != len(parts) - 1:
        raise _open(species)
    shares = _part(parts[0], species.charge, species)
    for match in waters:
        times = int(match[1] or 1)
        shares += [Share("H", 2 * times, 1), Share("O", times, -2)]
    places = [symbol for symbol, _ in species.atoms]
    return _merged(sorted(shares, key=lambda share: places.index(share.symbol)))


def _open(species: Species) -> Faulty:
    return fault(
        "numbers-open",
        expected=f"{species.bare} to have oxidation numbers that the usual rules settle",
        found="numbers that depend on its structure or on the chemist",
    )


def _merged(shares: list[Share]) -> tuple[Share, ...]:
    """Atoms of one element with one number put together."""
    totals: dict[tuple[str, int | None], int] = {}
    for share in shares:
        totals[share.symbol, share.number] = totals.get((share.symbol, share.number), 0) + share.count
    return tuple(Share(symbol, count, number) for (symbol, number), count in totals.items())


# ------------------------------------------------------------------ groups


_AMMONIUM = re.compile(r"NH4(?![0-9])")
_BRACKET = re.compile(r"[(\[]([A-Za-z0-9]+)[)\]]([0-9]*)")


def _part(formula: str, charge: int, species: Species) -> list[Share]:
    """The atoms of one formula with its charge: known groups first, what is left by the rules for single atoms."""
    inner = formula.removeprefix("[")
    if inner != formula and formula.endswith("]"):
        return _part(inner[:-1], charge, species)
    found: list[Share] = []
    for group, times in _groups_of(formula):
        own = _group(group, species)
        found += [Share(share.symbol, share.count * times, share.number) for share in own]
        charge -= groups()[group].charge * times
    left = _without_groups(formula)
    return [*found, *(_atoms(parse_species(left).atoms, charge, species) if left else _nothing_left(charge, species))]


def _nothing_left(charge: int, species: Species) -> list[Share]:
    if charge:
        raise _open(species)
    return []


def _group(group: str, species: Species) -> tuple[Share, ...]:
    charge = groups()[group].charge
    sign = "+" if charge > 0 else "-"
    text = group + (f"^{abs(charge)}{sign}" if charge else "")
    return _shares(parse_species(text)) if text != species.bare else tuple(_atoms(species.atoms, species.charge, species))


def _groups_of(formula: str) -> list[tuple[str, int]]:
    found = [(match[1], int(match[2] or 1)) for match in _BRACKET.finditer(formula) if match[1] in groups()]
    plain = _BRACKET.sub(lambda match: "" if match[1] in groups() else match[0], formula)
    if ending := _ending(plain):
        found.append((ending, 1))
        plain = plain.removesuffix(ending)
    if _AMMONIUM.match(plain) and formula != "NH4":
        found.append(("NH4", 1))
    return found


def _ending(plain: str) -> str:
    """The group that ends a formula after another element; nothing where the rules for single atoms do."""
    fitting = [
        name
        for name, each in groups().items()
        if each.ends and plain.endswith(name) and re.fullmatch(r"(NH4|[A-Z][a-z]?[0-9]*)", plain.removesuffix(name))
    ]
    found = max(fitting, key=len, default="")
    return "" if plain.removesuffix(found) in {"H", "H2", "H3"} else found


def _without_groups(formula: str) -> str:
    plain = _BRACKET.sub(lambda match: "" if match[1] in groups() else match[0], formula)
    plain = plain.removesuffix(_ending(plain))
    return plain.removeprefix("NH4") if _AMMONIUM.match(plain) and formula != "NH4" else plain


# ------------------------------------------------------------------ single atoms


def _atoms(atoms: tuple[tuple[str, int], ...], charge: int, species: Species) -> list[Share]:
    """Fixed numbers in the order of the rules; the one element left takes what the charge leaves."""
    counts = dict(atoms)
    if len(counts) == 1:
        return [_shared_out(next(iter(counts)), counts, charge, species)]
    known = _fixed(counts)
    rest = [symbol for symbol in counts if symbol not in known]
    if not rest:
        rest = _given_up(counts, known, charge)
    if len(rest) > 1:
        known |= _pulled(rest, counts)
        rest = [symbol for symbol in rest if symbol not in known]
    if len(rest) != 1:
        raise _open(species)
    left = charge - sum(counts[symbol] * number for symbol, number in known.items())
    return [Share(symbol, counts[symbol], number) for symbol, number in known.items()] + [
        _shared_out(rest[0], counts, left, species)
    ]


def _fixed(counts: dict[str, int]) -> dict[str, int]:
    """Fluorine, metals of one number, hydrogen and oxygen."""
    kinds = element_kinds()
    known = {symbol: kind.only for symbol in counts if (kind := kinds.get(symbol)) is not None and kind.only is not None}
    if "F" in counts:
        known["F"] = -1
    if "H" in counts:
        known["H"] = -1 if all(symbol == "H" or not _pull(symbol) for symbol in counts) else 1
    if "O" in counts and "F" not in counts:
        known["O"] = -2
    return known


def _given_up(counts: dict[str, int], known: dict[str, int], charge: int) -> list[str]:
    """Where every number is fixed: oxygen gives way in a peroxide, and any one may be worked out where the sum is right."""
    total = sum(counts[symbol] * number for symbol, number in known.items())
    symbol = "O" if "O" in known and total != charge else next(iter(known))
    del known[symbol]
    return [symbol]


def _pulled(rest: list[str], counts: dict[str, int]) -> dict[str, int]:
    """Of two elements left, the non-metal with the stronger pull takes its usual number, halogens beside oxygen too."""
    strongest = min((symbol for symbol in rest if _pull(symbol)), key=_pull, default="")
    usual = element_kinds()[strongest].usual if strongest else None
    if usual is not None and len(rest) == 2 and not ({"H", "C"} <= set(counts) and "O" in counts):
        return {strongest: usual}
    return {}


def _pull(symbol: str) -> int:
    """The rank of a non-metal by its pull on electrons, 1 for the strongest; 0 for what has none."""
    kind = element_kinds().get(symbol)
    return 0 if kind is None or kind.pull is None else kind.pull


def _shared_out(symbol: str, counts: dict[str, int], charge: int, species: Species) -> Share:
    """The number that the charge leaves for an element; none where its atoms can't be alike."""
    number = Fraction(charge, counts[symbol])
    odd = odd_species().get(species.bare)
    differ = number.denominator != 1 or (odd is not None and odd.kind == "unlike" and odd.element == symbol)
    if symbol == "C" and counts["C"] > 1 and "H" in counts and (odd is None or odd.kind != "alike"):
        differ = True
    if differ:
        return Share(symbol, counts[symbol], None)
    whole = int(number)
    low, high = _bounds(symbol)
    if not low <= whole <= high:
        raise _open(species)
    return Share(symbol, counts[symbol], whole)


def _bounds(symbol: str) -> tuple[int, int]:
    """The lowest and highest number that an element shows; a metal goes below zero nowhere, and nothing beyond 8."""
    kind = element_kinds().get(symbol)
    lowest, highest = (None, None) if kind is None else (kind.lowest, kind.highest)
    return (-8 if _pull(symbol) else 0) if lowest is None else lowest, 8 if highest is None else highest


# ------------------------------------------------------------------ in an equation


def numbers_in(side: Iterable[tuple[int, Species]]) -> dict[str, list[int]]:
    """The oxidation number of every single atom of a side, by element, lowest first. Raises ``Faulty`` where they are open."""
    found: dict[str, list[int]] = {}
    for coefficient, species in side:
        for share in oxidation_numbers(species):
            found.setdefault(share.symbol, []).extend([share.number or 0] * (share.count * coefficient))
    return {symbol: sorted(numbers) for symbol, numbers in found.items()}


def electrons_passed(left: Sequence[tuple[int, Species]], right: Sequence[tuple[int, Species]]) -> int:
    """How many electrons pass in a balanced equation by the change of oxidation numbers: 0 where it is not redox."""
    before, after = numbers_in(left), numbers_in(right)
    return sum(max(0, new - old) for symbol in before for old, new in zip(before[symbol], after.get(symbol, ()), strict=True))


def disproportionates(left: Sequence[tuple[int, Species]], right: Sequence[tuple[int, Species]]) -> bool:
    """Whether one element goes from one number in one species to a higher and to a lower one."""
    before, after = numbers_in(left), numbers_in(right)
    changed = [symbol for symbol in before if before[symbol] != after.get(symbol)]
    if len(changed) != 1:
        return False
    symbol = changed[0]
    holding = {species.bare for _, species in left if symbol in dict(species.atoms)}
    moved = set(after[symbol]) - set(before[symbol])
    start = set(before[symbol])
    return len(holding) == 1 and len(start) == 1 and min(moved) < min(start) < max(moved)
