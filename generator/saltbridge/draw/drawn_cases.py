"""Which cases a variant asks about, the options of each in which order, and what texts print of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from saltbridge.bank.cases_part import OWNER, Case, CasesPart
from saltbridge.draw.seeds import Seed
from saltbridge.forms.value_types import Option


@dataclass(frozen=True, slots=True)
class DrawnCase:
    """A case as a variant shows it: its options in their order, the place of the right one, and what each wrong one shows by its place."""

    case: Case
    options: tuple[Option, ...]
    right: int
    shows: Mapping[int, str]


def drawn_cases(part: CasesPart, seed: str) -> tuple[DrawnCase, ...]:
    """The cases of the variant of that seed, in drawn order: each hangs on its own text, so that one added takes only the draws that it wins."""
    source = _source(seed)
    return tuple(_drawn(part, case, source) for case in source.sample("case", part.cases, part.draw))


def _source(seed: str) -> Seed:
    return Seed("cases", "", seed)


def _drawn(part: CasesPart, case: Case, source: Seed) -> DrawnCase:
    there = {option.text: option for option in part.options_of(case)}
    shown = tuple(there) if part.options else source.shuffle(f"options of {case}", tuple(there))
    beliefs = part.beliefs_of(case)
    shows = {place: beliefs[text] for place, text in enumerate(shown) if text in beliefs}
    return DrawnCase(case, tuple(there[text] for text in shown), shown.index(case.right.text), shows)


def printed_values(parts: Sequence[object], seed: str) -> dict[str, str]:
    """What texts of the whole question print of its cases, by name; where several are asked about at once, each tells its own alone."""
    values: dict[str, str] = {}
    for part in parts:
        if isinstance(part, CasesPart) and part.draw == 1:
            (drawn,) = drawn_cases(part, seed)
            values |= {f"{OWNER}.{name}": text for name, text in drawn.case.values.items()}
    return values


def shape_of(parts: Sequence[object], seed: str) -> tuple[tuple[int, ...], ...]:
    """How many options the drawn cases have: a question is composed once for each."""
    return tuple(tuple(len(each.options) for each in drawn_cases(part, seed)) for part in parts if isinstance(part, CasesPart))
