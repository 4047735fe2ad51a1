"""Reads and compares a typed cell diagram: species by species, whatever the signs and spaces, and tells what is wrong about it.

| typed                                                  | read as                                                       |
|--------------------------------------------------------|---------------------------------------------------------------|
| ``Zn|Zn2+||Cu2+|Cu`` ``Zn / Zn^2+ // Cu²⁺ / Cu``       | bars ``|`` ``¦`` ``/``, salt bridge ``||`` ``¦¦`` ``‖`` ``//`` |
| ``Zn(s) | Zn2+(aq, 0.10 mol/L) || …``                  | states, and concentrations in brackets (``M``, ``mol dm-3``, ``c = 0.1``) |
| ``Pt | Fe2+, Fe3+ || …``                               | a comma or semicolon within one phase                         |
| ``… || KNO3(aq) || …``                                 | what the bridge holds is left out                             |
| ``C(graphite)`` ``graphite``                           | carbon                                                        |
| ``2Ag+``                                               | with its number, which is then found fault with               |
| ``Zn | Zn2+ | Cu2+ | Cu``                              | one line without a bridge, which is then found fault with     |

An electrode that takes no part is any inert conductor; water and an outer wire at a metal count nothing; H₃O⁺ is H⁺.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from saltbridge.answers.numbers import Unread, read_number
from saltbridge.answers.typed_species import Finding, Unreadable, identity, quoted, read_species, text_of
from saltbridge.answers.unit_words import unit_atoms
from saltbridge.chemistry.species import Phase, Species, parse_species
from saltbridge.chemistry.written_diagrams import LONGEST, MOST_ENTRIES
from saltbridge.sigfigs import twelve
from saltbridge.tables.kinds import inert_conductors

_KNOWN = re.compile(r"[ -~¦‖∥∣│ǀ×·•∙⋅⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*")
_BRIDGE = re.compile(r"[|¦∣│ǀ] ?[|¦∣│ǀ]|//|[‖∥]")
_BAR = re.compile(r"[|¦∣│ǀ/]")
_COMMA = re.compile("[,;]")
_COUNT = re.compile(r"([1-9][0-9]{0,2}) ?(?=[A-Z\[(])")
_TOLD = re.compile(r" ?\(([^()]*)\)$")
_STATE = re.compile(r"(s|l|g|aq)(?:[,;: ] *(.+))?", re.IGNORECASE)
_AMOUNT = re.compile(r"(?:[0-9.,]|[cp] ?=).*")
_SIZES = {
    "mol1 L-1": 1.0, "mol1 l-1": 1.0, "mol1 dm-3": 1.0, "M1": 1.0, "mmol1 L-1": 1e-3, "mmol1 l-1": 1e-3, "mmol1 dm-3": 1e-3,
    "mM1": 1e-3, "bar1": 1.0, "mbar1": 1e-3, "kPa1": 1e-2, "hPa1": 1e-3, "Pa1": 1e-5, "atm1": 1.01325,
}  # fmt: skip
"""How many mol/L or bar are in one of each unit that a diagram may have."""
INERT = "inert"
WATER = "H2 O1^0"


class Item(NamedTuple):
    """A species as typed: ``phase`` "" where not told, ``amount`` in mol/L or bar, ``None`` where not told."""

    name: str
    atoms: frozenset[str]
    phase: Phase
    times: int
    amount: float | None


Half = Sequence[Sequence[Item]]


@dataclass(frozen=True, slots=True)
class TypedDiagram:
    """Its halves from left to right: two, or one where there is no bridge."""

    halves: tuple[Half, ...]


# ------------------------------------------------------------------ reading


def read_diagram(typed: object, decimal_mark: str = ".") -> TypedDiagram | Unreadable:
    """Read a typed diagram. Never raises; what can't be read is quoted, with its cure where there is one."""
    text = text_of(typed, LONGEST, _KNOWN, "diagram-character")
    if isinstance(text, Unreadable):
        return text
    halves = _split(text, _BRIDGE)
    if len(halves) == 3 and len(_split(halves[1], _BAR)) == 1:
        halves = [halves[0], halves[2]]  # between two signs stands what the bridge holds
    phases = [_split(half, _BAR) for half in halves]
    if len(halves) > 2 or sum(map(len, phases)) < 2:
        return Unreadable("diagram-bridges")
    pieces = [[_split(phase, _COMMA) for phase in half] for half in phases]
    entries = [entry for half in pieces for phase in half for entry in phase]
    if not all(entries):
        return Unreadable("diagram-gap")
    if len(entries) > MOST_ENTRIES:
        return Unreadable("too-long")
    items = [_read_item(entry, decimal_mark) for entry in entries]
    if wrong := next((each for each in items if isinstance(each, Unreadable)), None):
        return wrong
    read = iter(each for each in items if isinstance(each, Item))
    return TypedDiagram(tuple([[next(read) for _ in phase] for phase in half] for half in pieces))


def _split(text: str, sign: re.Pattern[str]) -> list[str]:
    """The pieces between signs that stand in no brackets, without spaces at their ends."""
    pieces, depth, start, place = [], 0, 0, 0
    while place < len(text):
        depth = max(0, depth + (text[place] in "([") - (text[place] in ")]"))
        found = sign.match(text, place) if depth == 0 else None
        if found:
            pieces.append(text[start:place])
            start = place = found.end()
        else:
            place += 1
    return [piece.strip(" ") for piece in (*pieces, text[start:])]


def _read_item(text: str, decimal_mark: str) -> Item | Unreadable:
    """A species with its number, its state and its amount."""
    count = _COUNT.match(text)
    body, state, amount = _told(text[count.end() :] if count else text)
    if state != state.lower():
        return Unreadable("state-case", (quoted(text), quoted(f"{body}({state.lower()})")))
    species = read_species(body)
    if isinstance(species, Unreadable):
        return species
    value = _amount(amount, decimal_mark) if amount else None
    if isinstance(value, Unreadable):
        return value
    return _item(species.in_phase(_phase(state) or species.phase), int(count[1]) if count else 1, value)


def _told(text: str) -> tuple[str, str, str]:
    """The species, and the state and the amount in the brackets after it."""
    body, state, amount = text, "", ""
    while found := _TOLD.search(body):
        inside = found[1].strip(" ")
        named = _STATE.fullmatch(inside)
        if named and not state:
            state, amount = named[1], named[2] or amount
        elif _AMOUNT.fullmatch(inside) and not amount:
            amount = inside
        else:
            break
        body = body[: found.start()]
    return body, state, amount


def _phase(state: str) -> Phase:
    return "s" if state == "s" else "l" if state == "l" else "g" if state == "g" else "aq" if state == "aq" else ""


def _amount(text: str, decimal_mark: str) -> float | Unreadable:
    number = read_number(text, decimal_mark)
    if isinstance(number, Unread):
        return Unreadable("amount", (quoted(text),))
    size = _SIZES.get(" ".join(f"{word}{power}" for word, power in unit_atoms(number.unit) or ()))
    if number.unit and size is None:
        return Unreadable("amount", (quoted(text),))
    return twelve(number.value * (size or 1.0))


def _item(species: Species, times: int, amount: float | None) -> Item:
    return Item(identity(species), frozenset(symbol for symbol, _ in species.atoms), species.phase, times, amount)


# ------------------------------------------------------------------ comparing


def compare(typed: TypedDiagram, right: TypedDiagram, *, states: bool = False, amounts: bool = False) -> Finding:
    """How a typed diagram stands to the right one; states and amounts have to be told only where they are asked for."""
    why = ["numbers"] if any(item.times != 1 for half in typed.halves for item in _items(half)) else []
    if len(typed.halves) == 1:
        return Finding("not-yet", (*why, "bridge-missing"))
    mine, theirs = (_outwards(each.halves) for each in (typed, right))
    if _changed_over(mine, theirs):
        why.append("diagram-reversed")
        theirs = theirs[::-1]
    why += [each for one, other in zip(mine, theirs, strict=True) for each in _of_half(one, other)]
    return Finding("not-yet", tuple(dict.fromkeys(why))) if why else _of_details(mine, theirs, states=states, amounts=amounts)


def same(one: TypedDiagram, other: TypedDiagram) -> bool:
    """Whether two diagrams, right or wrong, are the same but for states, inert conductors and amounts that one of them leaves out.

    Of one couple in two solutions only the amounts tell left from right, so there they must be told.
    """
    if len(one.halves) != len(other.halves):
        return False
    halves = list(zip(one.halves, other.halves, strict=True))
    if any(_phases(mine) != _phases(theirs) for mine, theirs in halves):
        return False
    differ = _unlike if _of_one_couple(other.halves) else _differ
    pairs = [pair for mine, theirs in halves for pair in zip(_in_order(mine), _in_order(theirs), strict=True)]
    return all(a.times == b.times and not differ(a, b) for a, b in pairs)


def _in_order(half: Half) -> list[Item]:
    """The species of a half-cell in a fixed order within each phase, water left out."""
    return [item for phase in half for item in sorted(phase, key=lambda each: each.name) if item.name != WATER]


def _outwards(halves: Sequence[Half]) -> tuple[Half, Half]:
    """Both half-cells from the electrode to the solution."""
    return halves[0], halves[1][::-1]


def _changed_over(mine: tuple[Half, Half], theirs: tuple[Half, Half]) -> bool:
    """Whether left is right: by the species, and where both half-cells hold the same by the amounts."""
    for likeness in (_shared_species, _shared_amounts):
        straight = likeness(mine[0], theirs[0]) + likeness(mine[1], theirs[1])
        crossed = likeness(mine[0], theirs[1]) + likeness(mine[1], theirs[0])
        if straight != crossed:
            return crossed > straight
    return False


def _shared_species(one: Half, other: Half) -> int:
    return len((_names(one) & _names(other)) - {INERT})


def _shared_amounts(one: Half, other: Half) -> int:
    return sum(a.amount is not None and a.amount == b.amount for a, b in _pairs(one, other))


def _of_details(mine: tuple[Half, Half], theirs: tuple[Half, Half], *, states: bool, amounts: bool) -> Finding:
    """What is still to be said of states and amounts where all else is right; of one couple in two solutions the amounts tell left from right."""
    pairs = [pair for one, other in zip(mine, theirs, strict=True) for pair in _pairs(one, other)]
    if any(_differ(one, other) for one, other in pairs):
        return Finding("not-yet", ("amounts-differ",))
    why = ["states"] if states and any(other.phase and one.phase != other.phase for one, other in pairs) else []
    if amounts and any(one.amount is None and other.amount is not None for one, other in pairs):
        why.append("amounts")
        if _of_one_couple(theirs):
            return Finding("not-yet", tuple(why))
    return Finding("right-but", tuple(why)) if why else Finding("right")


def _differ(one: Item, other: Item) -> bool:
    return one.amount is not None and other.amount is not None and one.amount != other.amount


def _unlike(one: Item, other: Item) -> bool:
    return one.amount != other.amount


def _of_one_couple(halves: Sequence[Half]) -> bool:
    return len(halves) > 1 and _names(halves[0]) == _names(halves[1])


# ------------------------------------------------------------------ half-cells


def _items(half: Half) -> Iterator[Item]:
    return (item for phase in half for item in phase)


def _pairs(mine: Half, other: Half) -> Iterator[tuple[Item, Item]]:
    """The species that stand in both half-cells, mine first."""
    theirs = {item.name: item for item in _items(other)}
    return ((item, theirs[item.name]) for item in _items(mine) if item.name in theirs)


def _phases(half: Half) -> list[list[str]]:
    """The names of a half-cell, phase by phase; water left out, one name for every electrode that takes no part."""
    named = [sorted(_name(item, half) for item in phase if item.name != WATER) for phase in half]
    return [phase for phase in named if phase]


def _name(item: Item, half: Half) -> str:
    """The name of a species, or that of an inert conductor whose element stands nowhere else in the half-cell."""
    takes_part = any(item.atoms & other.atoms for other in _items(half) if other is not item)
    return item.name if takes_part or item.name not in _inert() else INERT


@cache
def _inert() -> frozenset[str]:
    return frozenset(identity(parse_species(symbol)) for symbol in inert_conductors())


def _names(half: Half) -> set[str]:
    return {name for phase in _phases(half) for name in phase}


def _of_half(mine: Half, other: Half) -> list[str]:
    """What is wrong about a half-cell, both from the electrode outwards."""
    own, wanted = _phases(mine), _phases(other)
    if own[:1] == [[INERT]] and wanted[:1] != [[INERT]]:
        own = own[1:]  # a wire at the metal
    typed, asked = ({name for phase in phases for name in phase} for phases in (own, wanted))
    why = ["electrode-left-out"] if INERT in asked - typed else []
    if asked - typed - {INERT}:
        why.append("species-missing")
    if typed - asked:
        why.append("species-extra")
    if typed <= asked <= typed | {INERT}:
        why += _out_of_order(own, [phase for phase in wanted if phase != [INERT] or INERT in typed])
    return why


def _out_of_order(own: Sequence[Sequence[str]], wanted: Sequence[Sequence[str]]) -> list[str]:
    """What is wrong about bars, commas and the order of the phases where the species are right."""
    if own == wanted:
        return []
    why = ["bar-in-phase"] if any(sum(not set(phase).isdisjoint(each) for each in own) > 1 for phase in wanted) else []
    if any(sum(not set(phase).isdisjoint(each) for each in wanted) > 1 for phase in own):
        why.append("comma-between-phases")
    return why or ["electrode-outside" if own[:1] != wanted[:1] else "order-of-phases"]
