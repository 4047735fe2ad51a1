"""Reads one typed species and compares it: what is wrong about its charge, its state or its formula.

The notation is that of the chemistry room. More ways to write a charge are read here: ``Zn2+``, ``SO42-``, ``Cu^{2+}``, ``Cu+2``,
``Cu++``. What can be two species (``O2-``, ``I3-``) is doubtful, whichever of them would be right: a reading never tells.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from saltbridge.answers.numbers import cleaned
from saltbridge.chemistry.species import LONGEST, Species, parse_species
from saltbridge.faults import Faulty
from saltbridge.tables.kinds import non_metals

_KNOWN = re.compile(r"[ -~·•∙⋅⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻₀₁₂₃₄₅₆₇₈₉]*")
_TERM = re.compile(r"([0-9]* *)(.*?)( *\((?:s|l|g|aq)\))?")
_BROKEN_COUNT = re.compile(r"(?:[0-9]+[.,/][0-9]+|[0-9]*½)")
_CHARGES = tuple(
    (re.compile(pattern), written)
    for pattern, written in (
        (r"([^^{]*)\^?\{([0-9]*)([+-])\}", r"\1^\2\3"),  # Cu^{2+}
        (r"(.*[A-Za-z0-9\])])\^?([+-])([1-9])", r"\1^\3\2"),  # Cu+2, Cu^+2
        (r"(.*[A-Za-z0-9\])])\^?\+\+", r"\1^2+"),  # Cu++
        (r"(.*[A-Za-z0-9\])])\^?\+\+\+", r"\1^3+"),
        (r"([A-Z][a-z]?|.*\])([1-9])(\+|-)", r"\1^\2\3"),  # Zn2+, where the element makes no such cluster
        (r"([^^]*[^0-9^][0-9]+)([1-9])([+-])", r"\1^\2\3"),  # SO42-
    )
)
"""How a charge may be written beside the notation, and what it means; whether the species is right plays no part."""
_ROMAN = re.compile(r"([A-Z][a-z]?) ?\((I|II|III|IV|V|VI|VII)\)")
_CAPITALS = re.compile(r"([A-Z])([A-Z])([^a-z].*)?")
_MOLECULES = {"CO", "NO", "HF"}
_STATE = re.compile(r" *\((s|l|g|aq)\)$", re.IGNORECASE)
_NUMERALS = {"I": "", "II": "2", "III": "3", "IV": "4", "V": "5", "VI": "6", "VII": "7"}
LONGEST_QUOTE = 24
_GRAPHITE = re.compile(r"(?:C ?\((?:graphite?|gr)\)|graphite?)", re.IGNORECASE)
_COUNTED = re.compile(r"[1-9][0-9]{0,2} ?(?=[A-Z\[(])")
_CODES = {"species-too-long": "too-long", "charge-unclear": "charge-unclear"}

HYDROGEN_ION, HYDRONIUM = "H1^1", "H3 O1^1"


@dataclass(frozen=True, slots=True)
class Unreadable:
    """Why a text can't be read, and what a doubtful species could mean."""

    why: str
    readings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """How what was typed stands to the right one: ``right``, ``right-but`` or ``not-yet``, with the reasons."""

    verdict: str
    why: tuple[str, ...] = ()


# ------------------------------------------------------------------ reading


@dataclass(frozen=True, slots=True)
class TypedSpecies:
    """A species as typed; ``counted`` where a number stands before it."""

    species: Species
    counted: bool


def text_of(typed: object, longest: int, known: re.Pattern[str], otherwise: str) -> str | Unreadable:
    """What was typed, cleaned; or why it can't be read: too long, empty, or ``otherwise`` for a character that is not ``known``."""
    if isinstance(typed, str) and len(typed) > longest:
        return Unreadable("too-long")
    text = cleaned(typed) if isinstance(typed, str) else ""
    if not text:
        return Unreadable("empty")
    return text if known.fullmatch(text) else Unreadable(otherwise)


def read_answer(typed: object) -> TypedSpecies | Unreadable:
    """Read a whole answer that is one species. Never raises; what can't be read is quoted, with its cure where there is one."""
    text = text_of(typed, LONGEST, _KNOWN, "species-character")
    if isinstance(text, Unreadable):
        return text
    counted = _COUNTED.match(text)
    species = read_species(text[counted.end() :] if counted else text)
    return species if isinstance(species, Unreadable) else TypedSpecies(species, bool(counted))


def read_species(text: str) -> Species | Unreadable:
    """Read a species in any of its usual writings, graphite by its name too. Never raises."""
    if _GRAPHITE.fullmatch(text):
        return parse_species("C(s)")
    named = named_fault(text)
    if named:
        return named
    try:
        return parse_species(made_clear(text))
    except Faulty as problem:
        return why_unread(_CODES.get(problem.faults[0].code, "species"), text)


def why_unread(why: str, term: str) -> Unreadable:
    """The reason with the text that it is about, or with the readings of a doubtful one."""
    match = _TERM.fullmatch(term)
    if why == "charge-unclear":
        return Unreadable(why, _readings(match[2]) if match else ())
    return Unreadable(why, (quoted(term),) if why == "species" else ())


def quoted(term: str) -> str:
    """The text as far as a sentence holds it."""
    return term if len(term) <= LONGEST_QUOTE else f"{term[:LONGEST_QUOTE]}…"


def made_clear(term: str) -> str:
    """The term in our notation, where its charge is written in another that leaves no doubt."""
    match = _TERM.fullmatch(term)
    if not match or _doubtful().fullmatch(match[2]):
        return term
    for pattern, written in _CHARGES:
        if pattern.fullmatch(match[2]):
            return f"{match[1]}{pattern.sub(written, match[2])}{match[3] or ''}"
    return term


@cache
def _doubtful() -> re.Pattern[str]:
    """A bare figure and sign that can mean two species: ``S2-`` is sulfur's ion or a pair of atoms."""
    return re.compile(rf"({'|'.join(sorted(non_metals()))})([0-9])([+-])|([A-Z][a-z]?)([0-9])(-)")


def _readings(body: str) -> tuple[str, ...]:
    """The two species that a bare figure and sign can mean; none where there is no doubt."""
    match = _doubtful().fullmatch(body)
    if not match:
        return ()
    head, figure, sign = match.groups()[:3] if match[1] else match.groups()[3:]
    return f"{head}^{figure}{sign}", f"{head}{figure}^{sign}"


def named_fault(term: str) -> Unreadable | None:
    """A fault that has a name and a cure: a broken coefficient, a state in capitals, a Roman numeral, an element in capitals."""
    if _BROKEN_COUNT.match(term):
        return Unreadable("whole-numbers")
    count = term[: len(term) - len(term.lstrip("0123456789 "))]
    body = term[len(count) :]
    state = _STATE.search(body)
    if state and state[1].lower() != state[1]:
        return Unreadable("state-case", (quoted(term), f"{count}{body[: state.start()]}({state[1].lower()})"[:LONGEST_QUOTE]))
    bare = body[: state.start()] if state else body
    roman = _ROMAN.fullmatch(bare)
    if roman:
        return Unreadable("roman", (quoted(term), f"{count}{roman[1]}^{_NUMERALS[roman[2]]}+"))
    capitals = _CAPITALS.fullmatch(bare)
    if capitals and bare not in _MOLECULES and _is_element(capitals[1] + capitals[2].lower()):
        rest = capitals[3] or ""
        alone = not rest or re.fullmatch(r"\^?[0-9+{}⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻-]+", rest)
        if alone and (re.search("[+⁺]", rest) or not (_is_element(capitals[1]) and _is_element(capitals[2]) and rest)):
            return Unreadable("element-case", (quoted(term), f"{count}{capitals[1]}{capitals[2].lower()}{rest}"[:LONGEST_QUOTE]))
    return None


def _is_element(symbol: str) -> bool:
    try:
        return parse_species(symbol).atoms == ((symbol, 1),)
    except Faulty:
        return False


# ------------------------------------------------------------------ comparing


def identity(species: Species) -> str:
    """Atoms and charge as a name, the same for every way of writing them; the hydrogen ion is the same with a water."""
    if species.is_electron:
        return "e"
    atoms = " ".join(sorted(f"{symbol}{count}" for symbol, count in species.atoms))
    name = f"{atoms}^{species.charge}"
    return HYDROGEN_ION if name == HYDRONIUM else name


def compare(typed: TypedSpecies, right: Species, *, states: bool = False) -> Finding:
    """How a typed species stands to the right one; the state counts only if ``states`` and where the right one has one."""
    mine = typed.species
    if identity(mine) != identity(right):
        return Finding("not-yet", _reasons(mine, right))
    why = ["counted"] if typed.counted else []
    if states and not mine.is_electron and right.phase and mine.phase != right.phase:
        why.append("states")
    return Finding("right-but", tuple(why)) if why else Finding("right")


def _reasons(mine: Species, right: Species) -> tuple[str, ...]:
    """What is right about a wrong species: all but its charge, its elements, one of them."""
    if sorted(mine.atoms) == sorted(right.atoms):
        return ("species-charge",)
    own, wanted = (frozenset(symbol for symbol, _ in each.atoms) for each in (mine, right))
    if own == wanted:
        return ("species-formula",)
    return ("species-element",) if own & wanted - {"O", "H"} else ()
