"""What moved between two banks: the same seeds drawn in both, template by template, and the inputs that differ."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from concurrent.futures import Executor
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Literal

from saltbridge.bank.bank import Bank, load_bank
from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.parts import BalancePart, ChoosePart, FindPart
from saltbridge.bank.spare_part import SparePart
from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.causes import Cause, Side, causes
from saltbridge.deliver.proof.draws import proof_seed
from saltbridge.deliver.workers import workers
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_estimates import estimate_law
from saltbridge.draw.drawn_species import asked_for
from saltbridge.draw.drawn_tables import shown_leaves
from saltbridge.draw.drawn_words import told_in_words
from saltbridge.draw.spare_data import spare_of
from saltbridge.faults import Faulty
from saltbridge.scenarios.equation_laws import EQUATIONS
from saltbridge.scenarios.notation_laws import DIAGRAM, EXPRESSION

EXAMPLES = 3
_ROLES = ("anode", "cathode", "equation")


@dataclass(frozen=True, slots=True)
class Example:
    """One value that moved: the seed, the name, and its text before and after."""

    seed: str
    name: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Moved:
    """One template in both banks, by draws: ``answers`` moved, only what is ``told`` moved, ``other`` things drawn, ``lost`` draws.

    ``accepted``: draws of which only the accepted range moved.
    """

    template: str
    draws: int
    answers: int
    accepted: int
    told: int
    other: int
    lost: int
    examples: tuple[Example, ...]
    causes: tuple[Cause, ...]

    @property
    def moved(self) -> int:
        """Draws that are not what they were."""
        return self.answers + self.accepted + self.told + self.other + self.lost


@dataclass(frozen=True, slots=True)
class Changes:
    """Two banks compared: ids of templates that are ``new`` or ``gone``, and every template in both."""

    old: Bank
    new: Bank
    draws: int
    added: tuple[str, ...]
    gone: tuple[str, ...]
    both: tuple[Moved, ...]


def changes(folder: Path, against: Path, draws: int, *, executor: Executor | None = None) -> Changes:
    """Compare a bank with an older one. Raises ``Faulty`` with the faults of either."""
    _bank.cache_clear()
    catalogue_of.cache_clear()
    new, old = _bank(folder), _bank(against)
    news, olds = ({each.id for each in bank.templates} for bank in (new, old))
    jobs = [(folder, against, each.id, draws) for each in new.templates if each.id in olds]
    both = tuple(_all(jobs, executor))
    return Changes(old, new, draws, tuple(sorted(news - olds)), tuple(sorted(olds - news)), both)


_Job = tuple[Path, Path, str, int]


def _all(jobs: list[_Job], executor: Executor | None) -> Iterator[Moved]:
    hands = min(len(jobs), os.cpu_count() or 1)
    if executor is not None:
        yield from executor.map(_compare, jobs)
    elif hands < 2:
        yield from map(_compare, jobs)
    else:
        with workers(hands) as pool:
            yield from pool.map(_compare, jobs)


@lru_cache(maxsize=4)
def _bank(folder: Path) -> Bank:
    return load_bank(folder)


def _side(folder: Path, template_id: str) -> Side:
    bank = _bank(folder)
    template = bank.template(template_id)
    if template is None:
        raise KeyError(template_id)
    return Side(template, bank, catalogue_of(folder))


def _compare(job: _Job) -> Moved:
    folder, against, template_id, draws = job
    old, new = _side(against, template_id), _side(folder, template_id)
    counts: dict[Kind, int] = {}
    examples: list[Example] = []
    drawers = [Drawer(side.template, side.bank, side.catalogue) for side in (old, new)]
    for number in range(1, draws + 1):
        seed = proof_seed(number)
        before, after = (_values(drawer, seed) for drawer in drawers)
        kind = _kind(before, after)
        counts[kind] = counts.get(kind, 0) + 1
        if kind not in {"same", "accepted"} and len(examples) < EXAMPLES:
            examples += _examples(seed, before, after)[: EXAMPLES - len(examples)]
    found = causes(old, new)
    return Moved(
        template_id, draws, counts.get("answers", 0), counts.get("accepted", 0), counts.get("told", 0), counts.get("other", 0),
        counts.get("lost", 0), tuple(examples), found,
    )  # fmt: skip


# ------------------------------------------------------------------ one draw in both banks


Kind = Literal["same", "answers", "accepted", "told", "other", "lost"]


@dataclass(frozen=True, slots=True)
class _Values:
    """A draw as texts: the things drawn, the numbers told, the answers, and their accepted ranges."""

    things: Mapping[str, str]
    told: Mapping[str, str]
    answers: Mapping[str, str]
    accepted: Mapping[str, str]


def _values(drawer: Drawer, seed: str) -> _Values | None:
    try:
        drawn = drawer.draw(seed)
    except Faulty:
        return None
    things = {name: text for name, text in drawn.situation.words.items() if not name.startswith(_ROLES)}
    told = {node: given.printed for node, given in drawn.situation.given.items() if given.how == "given"}
    answers: dict[str, str] = {}
    accepted: dict[str, str] = {}
    for leaf in shown_leaves(drawer.scaffold.as_asked(drawn).template, drawn):
        at = leaf.at + 1
        where = (
            f"{at}"
            if leaf.key == f"parts[{at}]"
            else f"{at}, cell {sum(each.startswith(f'part {at}, ') for each in answers) + 1}"
        )
        match leaf.part:
            case FindPart() | CorrectPart() as part:
                find = drawer.find(part if isinstance(part, FindPart) else drawer.wrong_steps.corrected(part, drawn))
                outcome = drawn.outcomes[find.node]
                answers[find.name] = f"{outcome.right.printed} {find.unit}".strip()
                accepted[find.name] = f"{outcome.right.lo} to {outcome.right.hi}"
            case SparePart() | EstimatePart() | WrongStepPart() as part:
                answers[f"part {where}"] = _of_working(part, drawer, drawn)
            case ChoosePart() as part:
                answers[f"part {where}"] = _chosen(drawn, part.choose)
            case WordPart() as part:
                answers[f"part {where}"] = _chosen(drawn, part.word)
            case BalancePart() as part:
                answers[f"part {where}"] = str(drawn.graph.value(drawn.cells, EQUATIONS[part.balance]))
            case SpeciesPart() as part:
                answers[f"part {where}"] = asked_for(part.species, drawn).text
            case DiagramPart():
                answers[f"part {where}"] = str(drawn.graph.value(drawn.cells, DIAGRAM))
            case ExpressionPart():
                answers[f"part {where}"] = str(drawn.graph.value(drawn.cells, EXPRESSION))
            case part:
                answers |= {f"part {at}": "; ".join(told) for told in (told_in_words(part, drawn),) if told}
    return _Values({**things, **drawn.extra}, told, answers, accepted)


def _of_working(part: SparePart | EstimatePart | WrongStepPart, drawer: Drawer, drawn: Drawn) -> str:
    """The datum that is not needed, the size or sign, or the error that is built in."""
    if isinstance(part, SparePart):
        return spare_of(part, drawer.find(part).node, drawn)
    if isinstance(part, EstimatePart):
        return str(drawn.graph.value(drawn.cells, estimate_law(part, drawer.find(part)).node))
    return drawer.wrong_steps.planted(part, drawn).name


def _chosen(drawn: Drawn, name: str) -> str:
    try:
        return str(drawn.lookup(name))
    except Faulty:  # words of the template's own, which its keys tell
        return name


def _kind(before: _Values | None, after: _Values | None) -> Kind:
    if before is None or after is None:
        return "same" if before is after else "lost"
    if before.things != after.things:
        return "other"
    if before.answers != after.answers:
        return "answers"
    if before.told != after.told:
        return "told"
    return "same" if before.accepted == after.accepted else "accepted"


def _examples(seed: str, before: _Values | None, after: _Values | None) -> list[Example]:
    if before is None or after is None:
        return [Example(seed, "the draw", "none" if before is None else "drawn", "none" if after is None else "drawn")]
    for one, other in ((before.things, after.things), (before.answers, after.answers), (before.told, after.told)):
        found = [
            Example(seed, name, one.get(name, "none"), other.get(name, "none"))
            for name in {**one, **other}
            if one.get(name) != other.get(name)
        ]
        if found:
            return found[:1]
    return []
