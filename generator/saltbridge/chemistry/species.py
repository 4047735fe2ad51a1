"""Species: formulas with charge and phase, read from plain text and kept exactly.

The grammar, in ten lines:

    species  = electron | formula [charge] [phase]
    electron = "e-" | "e^-"
    formula  = part { ("·" | "." | "*") [count] part }
    part     = unit { unit }
    unit     = ( symbol | "(" part ")" | "[" part "]" ) [count]
    symbol   = one of the chemical element symbols
    count    = "1" … "999"
    charge   = "^" [count] sign | sign
    sign     = "+" | "-"
    phase    = "(s)" | "(l)" | "(g)" | "(aq)"

Raised and lowered Unicode characters are read as well (``Cu²⁺``, ``SO₄²⁻``). A bare trailing sign is read where only one
reading is usual (``Ag+``, ``MnO4-``); ``Zn2+`` and ``SO42-`` are refused, since the figure could be a count or a charge.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Literal, cast

from saltbridge import tables
from saltbridge.faults import Faulty, fault

if TYPE_CHECKING:
    from collections.abc import Mapping

Phase = Literal["", "s", "l", "g", "aq"]
Atoms = tuple[tuple[str, int], ...]

LONGEST = 80
DEEPEST = 4
LARGEST_COUNT = 999

_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")
_LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉−–•∙⋅", "0123456789--···")
_RAISED_RUN = re.compile("[⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻]+")
_PHASE = re.compile(r"\s*\((s|l|g|aq)\)$")
_CHARGE = re.compile(r"\^([0-9]*)([+-])$")
_COUNT = re.compile(r"[0-9]+")
_SYMBOL = re.compile(r"[A-Z][a-z]?")
_NEEDLESS_ONE = re.compile(r"(?<![0-9])1(?![0-9])")
_DOTS = "·.*"
_CLOSING = {"(": ")", "[": "]"}


@dataclass(frozen=True, slots=True)
class Species:
    """An ion, molecule, solid or the electron.

    ``formula`` is plain text without charge and phase, ``charge`` in elementary charges, ``atoms`` in order of first
    appearance, ``phase`` empty where not told.
    ``bare`` is formula with charge, without phase: ``Zn^2+``.
    """

    formula: str
    charge: int
    atoms: Atoms
    phase: Phase = ""
    bare: str = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "bare", self._bare())

    @property
    def is_electron(self) -> bool:
        """Whether this is e⁻."""
        return self.formula == "e"

    def _bare(self) -> str:
        if self.is_electron:
            return "e-"
        size = "" if abs(self.charge) == 1 else str(abs(self.charge))
        return self.formula + (f"^{size}{'+' if self.charge > 0 else '-'}" if self.charge else "")

    @property
    def text(self) -> str:
        """Formula with charge and phase: ``Zn^2+(aq)``."""
        return f"{self.bare}({self.phase})" if self.phase else self.bare

    @property
    def contents(self) -> tuple[frozenset[tuple[str, int]], int]:
        """Atoms and charge alone: the same for ``[Ag(NH3)2]^+`` and ``Ag(NH3)2^+``."""
        return frozenset(self.atoms), self.charge

    def in_phase(self, phase: Phase) -> Species:
        """Give the same species in another phase."""
        return self if phase == self.phase else Species(self.formula, self.charge, self.atoms, phase)


ELECTRON = Species("e", -1, ())


@lru_cache(maxsize=4096)
def parse_species(text: str) -> Species:
    """Read a species such as ``Cr2O7^2-(aq)``. Raises ``Faulty`` naming the place and what to write instead."""
    if len(text) > LONGEST:
        raise fault(
            "species-too-long",
            expected=f"a species of at most {LONGEST} characters",
            found=f"{len(text)} characters beginning {text[:20]!r}",
        )
    plain = _RAISED_RUN.sub(_unraise, text.strip()).translate(_LOWERED)
    match = _PHASE.search(plain)
    phase = cast("Phase", match[1]) if match else ""
    body = plain[: match.start()] if match else plain
    if body in {"e-", "e^-"}:
        return ELECTRON.in_phase(phase)
    formula, charge = _split_charge(body, text)
    atoms, canonical = _Reader(formula, text).whole()
    return Species(canonical, charge, atoms, phase)


def _unraise(match: re.Match[str]) -> str:
    return "^" + match[0].translate(_RAISED)


def _split_charge(body: str, text: str) -> tuple[str, int]:
    """Take the charge off the end of a formula."""
    if match := _CHARGE.search(body):
        size = int(match[1] or "1") if len(match[1]) <= len(str(LARGEST_COUNT)) else 0
        if not 1 <= size <= LARGEST_COUNT or match[1].startswith("0"):
            raise _unread(text, "a charge such as ^2+", f"{match[0]!r}", "Leave the charge out for a neutral species.")
        return body[: match.start()], size if match[2] == "+" else -size
    if "^" in body:
        raise _unread(text, "a charge at the end, the figure before the sign", repr(body[body.index("^") :]), _charge_hint(body))
    if body[-1:] not in {"+", "-"}:
        if match := re.fullmatch(r"(.+)([+-])([0-9]{1,3})", body):
            raise _unread(text, "a charge written with ^", repr(match[2] + match[3]), f"Write {match[1]}^{match[3]}{match[2]}.")
        return body, 0
    formula, sign = body[:-1], body[-1]
    _refuse_doubtful_charge(formula, sign, text)
    return formula, 1 if sign == "+" else -1


def _charge_hint(body: str) -> str:
    head, _, tail = body.partition("^")
    figures, sign = re.sub("[^0-9]", "", tail), "-" if "-" in tail else "+"
    return f"Write {head}^{figures[:3]}{sign}." if head else ""


def _refuse_doubtful_charge(formula: str, sign: str, text: str) -> None:
    """Refuse a trailing sign after a figure that could be the charge: ``Zn2+``, ``SO42-``, ``[Fe(CN)6]3-``, ``Cu++``."""
    if formula.endswith(("+", "-")):
        head = formula.rstrip("+-")
        raise _unread(text, "one sign", repr(formula[len(head) :] + sign), f"Write {head}^{len(formula) - len(head) + 1}{sign}.")
    if match := re.fullmatch(r"([A-Z][a-z]?|.*\])([0-9]{1,3})", formula):
        raise _doubtful(
            text, f"Write {match[1]}^{match[2]}{sign} for a charge of {match[2]}, or {formula}^{sign} for {match[2]} of them."
        )
    if match := re.fullmatch(r"(.*[^0-9][0-9]+)([0-9])", formula):
        raise _doubtful(text, f"Write {match[1]}^{match[2]}{sign}.")


def _doubtful(text: str, hint: str) -> Faulty:
    return fault("charge-unclear", expected="a charge that can be read in one way only", found=repr(text), hint=hint)


def _unread(text: str, expected: str, found: str, hint: str = "") -> Faulty:
    return fault("species-unread", expected=expected, found=f"{found} in {text!r}", hint=hint)


class _Reader:
    """Reads one formula from left to right."""

    def __init__(self, formula: str, text: str) -> None:
        self.formula = formula
        self.text = text
        self.place = 0

    def whole(self) -> tuple[Atoms, str]:
        """Atoms and canonical text of all parts, hydrate dots included."""
        totals: dict[str, int] = {}
        written: list[str] = []
        while True:
            times = self.count() if written else 1
            start = self.place
            for symbol, count in self.part(0).items():
                totals[symbol] = totals.get(symbol, 0) + count * times
            written.append((str(times) if times > 1 else "") + _NEEDLESS_ONE.sub("", self.formula[start : self.place]))
            if self.here not in _DOTS or not self.here:
                break
            self.place += 1
        if self.here:
            raise self.stuck("an element, a bracket, a count or a charge")
        return tuple(totals.items()), "·".join(written)

    @property
    def here(self) -> str:
        return self.formula[self.place : self.place + 1]

    def part(self, depth: int) -> dict[str, int]:
        """Units up to a closing bracket, a dot or the end."""
        if depth > DEEPEST:
            raise self.stuck(f"brackets at most {DEEPEST} deep")
        totals: dict[str, int] = {}
        start = self.place
        while self.here and self.here not in ")]" + _DOTS:
            inside = self.group(depth) if self.here in _CLOSING else {self.symbol(): 1}
            times = self.count()
            for symbol, count in inside.items():
                totals[symbol] = totals.get(symbol, 0) + count * times
        if self.place == start:
            raise self.stuck("an element symbol")
        return totals

    def group(self, depth: int) -> dict[str, int]:
        closing = _CLOSING[self.here]
        self.place += 1
        inside = self.part(depth + 1)
        if self.here != closing:
            raise self.stuck(f"a closing {closing!r}")
        self.place += 1
        return inside

    def symbol(self) -> str:
        """Take the longest element symbol standing here."""
        match = _SYMBOL.match(self.formula, self.place)
        for symbol in (match[0], match[0][:1]) if match else ():
            if symbol in tables.elements():
                self.place += len(symbol)
                return symbol
        found = self.formula[self.place : self.place + 2]
        hint = "Element symbols begin with a capital letter." if found[:1].islower() else ""
        raise self.stuck("an element symbol", hint)

    def count(self) -> int:
        match = _COUNT.match(self.formula, self.place)
        if not match:
            return 1
        if match[0].startswith("0") or len(match[0]) > len(str(LARGEST_COUNT)):
            raise self.stuck(f"a count from 1 to {LARGEST_COUNT}")
        self.place = match.end()
        return int(match[0])

    def stuck(self, expected: str, hint: str = "") -> Faulty:
        found = repr(self.here) if self.here else "the end"
        return fault(
            "species-unread", expected=expected, found=f"{found} at character {self.place + 1} of {self.text!r}", hint=hint
        )


def molar_mass_terms(species: Species) -> Atoms:
    """List the atoms to add up for the molar mass: (symbol, count)."""
    return species.atoms


def molar_mass(species: Species, masses: Mapping[str, str | float] | Mapping[str, str]) -> float:
    """Work out the molar mass in g/mol from relative atomic masses. Raises ``Faulty`` where one is not in the table."""
    missing = [symbol for symbol, _ in species.atoms if symbol not in masses]
    if missing:
        raise fault(
            "atomic-mass-missing",
            expected=f"relative atomic masses of the elements in {species.bare}",
            found=f"none for {', '.join(missing)}",
        )
    return sum(count * float(masses[symbol]) for symbol, count in species.atoms)
