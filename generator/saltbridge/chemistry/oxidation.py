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

GROUP_1 = frozenset({"Li", "Na", "K", "Rb", "Cs", "Fr"})
GROUP_2 = frozenset({"Be", "Mg", "Ca", "Sr", "Ba", "Ra"})
ONE_NUMBER = dict.fromkeys(GROUP_1, 1) | dict.fromkeys(GROUP_2, 2) | {"Al": 3, "Zn": 2, "Cd": 2}
HALOGENS = ("F", "Cl", "Br", "I")
PULL = ("F", "O", "Cl", "N", "Br", "I", "S", "Se", "C", "P", "H", "B", "Si")
"""Non-metals, the stronger pull on electrons first (Pauling's scale, from memory); metals come after them."""
USUAL = {"F": -1, "O": -2, "Cl": -1, "Br": -1, "I": -1, "N": -3, "S": -2, "Se": -2, "P": -3, "C": -4}
HIGHEST = {
    "S": 6, "Se": 6, "Te": 6, "N": 5, "P": 5, "As": 5, "Sb": 5, "Bi": 5, "C": 4, "Si": 4, "Sn": 4, "Pb": 4, "Ge": 4, "B": 3,
    "Cl": 7, "Br": 7, "I": 7, "Mn": 7, "Tc": 7, "Re": 7, "Cr": 6, "Mo": 6, "W": 6, "V": 5, "Nb": 5, "Ta": 5, "Ti": 4, "Zr": 4,
    "Hf": 4, "U": 6, "Fe": 6, "Co": 4, "Ni": 4, "Cu": 3, "Ag": 3, "Au": 5, "Hg": 2, "Ru": 8, "Os": 8, "Xe": 8, "Ce": 4, "Sc": 3,
    "Pt": 6, "Pd": 4, "Ga": 3, "In": 3, "Tl": 3, "H": 1,
}  # fmt: skip
"""The most that an element shows: the outer electrons of a main-group element, the usual most of a transition metal (from memory)."""
LOWEST = {
    "S": -2,
    "Se": -2,
    "Te": -2,
    "N": -3,
    "P": -3,
    "As": -3,
    "Sb": -3,
    "C": -4,
    "Si": -4,
    "Cl": -1,
    "Br": -1,
    "I": -1,
    "H": -1,
    "B": -3,
}

GROUPS = {
    "NH3": 0, "H2O": 0, "CO": 0, "NH4": 1, "OH": -1, "CN": -1, "SCN": -1, "NO2": -1, "NO3": -1, "ClO": -1, "ClO3": -1,
    "ClO4": -1, "HCO3": -1, "HSO4": -1, "H2PO4": -1, "MnO4": -1, "BH4": -1, "SO4": -2, "SO3": -2, "CO3": -2, "CrO4": -2,
    "Cr2O7": -2, "C2O4": -2, "S2O3": -2, "S2O8": -2, "S4O6": -2, "HPO4": -2, "PO4": -3, "IO3": -1, "BrO3": -1,
}  # fmt: skip
"""Charges of the ions and ligands that stand as a group in a formula."""
ENDINGS = (
    "SCN",
    "NO3",
    "NO2",
    "ClO4",
    "HSO4",
    "HCO3",
    "SO4",
    "SO3",
    "CO3",
    "S2O3",
    "S2O8",
    "S4O6",
    "C2O4",
    "H2PO4",
    "HPO4",
    "PO4",
    "CN",
    "BH4",
)
"""Groups that may end a formula without brackets: CuSO4, AgNO3."""
SPECIAL: dict[str, tuple[tuple[str, int, int], ...]] = {
    "CN^-": (("C", 1, 2), ("N", 1, -3)),
    "HCN": (("H", 1, 1), ("C", 1, 2), ("N", 1, -3)),
    "CNO^-": (("C", 1, 4), ("N", 1, -3), ("O", 1, -2)),
    "OCN^-": (("O", 1, -2), ("C", 1, 4), ("N", 1, -3)),
    "SCN^-": (("S", 1, -2), ("C", 1, 4), ("N", 1, -3)),
    "BH4^-": (("B", 1, 3), ("H", 4, -1)),
    "AlH4^-": (("Al", 1, 3), ("H", 4, -1)),
    "FeS2": (("Fe", 1, 2), ("S", 2, -1)),
    "S2O8^2-": (("S", 2, 6), ("O", 6, -2), ("O", 2, -1)),
    "H2S2O8": (("H", 2, 1), ("S", 2, 6), ("O", 6, -2), ("O", 2, -1)),
    "HSO5^-": (("H", 1, 1), ("S", 1, 6), ("O", 3, -2), ("O", 2, -1)),
    "H2SO5": (("H", 2, 1), ("S", 1, 6), ("O", 3, -2), ("O", 2, -1)),
    "CrO5": (("Cr", 1, 6), ("O", 1, -2), ("O", 4, -1)),
    "N2O": (("N", 2, 1), ("O", 1, -2)),
}
"""Species that the rules alone would get wrong: (element, atoms, number); from memory, structures of common textbooks."""
UNLIKE = {
    "S2O3^2-": "S", "H2S2O3": "S", "N2O3": "N", "Sb2O4": "Sb",
}  # fmt: skip
"""Species whose atoms of an element are not alike though their mean is a whole number; a fraction shows it by itself."""
OPEN = frozenset({"CuFeS2", "CuS", "NCl3", "NO3^2-", "S2Cl2", "NI3", "SiH4", "B2H6"})
"""Species whose numbers chemists assign in more than one way."""
ALIKE_CARBON = frozenset({"C2O4^2-", "HC2O4^-", "H2C2O4", "C2H6", "C2H4", "C2H2", "C6H6"})


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
    if species.bare in OPEN:
        raise _open(species)
    if species.bare in SPECIAL:
        return _merged([Share(*each) for each in SPECIAL[species.bare]])
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
        charge -= GROUPS[group] * times
    left = _without_groups(formula)
    return [*found, *(_atoms(parse_species(left).atoms, charge, species) if left else _nothing_left(charge, species))]


def _nothing_left(charge: int, species: Species) -> list[Share]:
    if charge:
        raise _open(species)
    return []


def _group(group: str, species: Species) -> tuple[Share, ...]:
    charge = GROUPS[group]
    sign = "+" if charge > 0 else "-"
    text = group + (f"^{abs(charge)}{sign}" if charge else "")
    return _shares(parse_species(text)) if text != species.bare else tuple(_atoms(species.atoms, species.charge, species))


def _groups_of(formula: str) -> list[tuple[str, int]]:
    found = [(match[1], int(match[2] or 1)) for match in _BRACKET.finditer(formula) if match[1] in GROUPS]
    plain = _BRACKET.sub(lambda match: "" if match[1] in GROUPS else match[0], formula)
    if ending := _ending(plain):
        found.append((ending, 1))
        plain = plain.removesuffix(ending)
    if _AMMONIUM.match(plain) and formula != "NH4":
        found.append(("NH4", 1))
    return found


def _ending(plain: str) -> str:
    """The group that ends a formula after another element; nothing where the rules for single atoms do."""
    fitting = [
        each for each in ENDINGS if plain.endswith(each) and re.fullmatch(r"(NH4|[A-Z][a-z]?[0-9]*)", plain.removesuffix(each))
    ]
    found = max(fitting, key=len, default="")
    return "" if plain.removesuffix(found) in {"H", "H2", "H3"} else found


def _without_groups(formula: str) -> str:
    plain = _BRACKET.sub(lambda match: "" if match[1] in GROUPS else match[0], formula)
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
    known = {symbol: number for symbol, number in ONE_NUMBER.items() if symbol in counts}
    if "F" in counts:
        known["F"] = -1
    if "H" in counts:
        known["H"] = -1 if all(symbol == "H" or symbol not in PULL for symbol in counts) else 1
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
    strongest = min((symbol for symbol in rest if symbol in PULL), key=PULL.index, default="")
    if strongest in USUAL and len(rest) == 2 and not ({"H", "C"} <= set(counts) and "O" in counts):
        return {strongest: USUAL[strongest]}
    return {}


def _shared_out(symbol: str, counts: dict[str, int], charge: int, species: Species) -> Share:
    """The number that the charge leaves for an element; none where its atoms can't be alike."""
    number = Fraction(charge, counts[symbol])
    differ = UNLIKE.get(species.bare) == symbol or number.denominator != 1
    if symbol == "C" and counts["C"] > 1 and "H" in counts and species.bare not in ALIKE_CARBON:
        differ = True
    if differ:
        return Share(symbol, counts[symbol], None)
    whole = int(number)
    if not LOWEST.get(symbol, 0 if symbol not in PULL else -8) <= whole <= HIGHEST.get(symbol, 8):
        raise _open(species)
    return Share(symbol, counts[symbol], whole)


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
