"""Proves a bank: reads it, draws every template over processes, and gathers what was found, worst first."""

from __future__ import annotations

import os
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from pathlib import Path

from saltbridge.bank.bank import Bank, survey_bank
from saltbridge.bank.doubtful import OF_NAMES
from saltbridge.bank.part_of_bank import concerns
from saltbridge.bank.template import Template
from saltbridge.deliver.proof import static_checks as before
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.distinct import Distinct, distinct
from saltbridge.deliver.proof.draw_statistics import Tally
from saltbridge.deliver.proof.draws import Share, bank_of, draw, draw_share
from saltbridge.deliver.proof.findings import WEIGHTS, Finding, Weight, worst_first
from saltbridge.deliver.proof.rows_left_out import rows_left_out
from saltbridge.deliver.proof.signoff import Signature, Standing, signatures, standing
from saltbridge.deliver.proof.statistics_findings import of_tally
from saltbridge.deliver.workers import workers
from saltbridge.faults import Faulty
from saltbridge.forms.registries import outcomes

DRAWS = 200
SHARE = 500  # draws of one job
_OF_NAMES = 20  # draws that show which names there are
_FEW = 400  # draws in all that are not worth a second process

Tell = Callable[[int, int], None]
"""Called with the draws done and those wanted."""


@dataclass(frozen=True, slots=True)
class TemplateProof:
    """What is known of one template."""

    template: Template
    tally: Tally
    distinct: Distinct
    keys: Distinct
    findings: tuple[Finding, ...]
    standing: Standing

    @property
    def weight(self) -> Weight | None:
        """The worst finding's weight; ``None`` where there is nothing to say."""
        return min((each.weight for each in self.findings), key=WEIGHTS.index, default=None)


@dataclass(frozen=True, slots=True)
class Proof:
    """A bank proved: ``findings`` of all files, ``templates`` worst first, ``seconds`` of one core spent on drawing."""

    bank: Bank
    draws: int
    findings: tuple[Finding, ...]
    templates: tuple[TemplateProof, ...]
    seconds: float

    def weighing(self, weight: Weight) -> tuple[Finding, ...]:
        """The findings of one weight."""
        return tuple(each for each in self.findings if each.weight == weight)

    @property
    def variants(self) -> int:
        """Variants drawn and checked in all."""
        return sum(each.tally.draws for each in self.templates)


def _quiet(_done: int, _wanted: int) -> None:
    """Say nothing."""


def prove(
    folder: Path,
    draws: int = DRAWS,
    tell: Tell = _quiet,
    *,
    executor: Executor | None = None,
    only: Collection[str] | None = None,
) -> Proof:
    """Draw and check every template of the bank in ``folder``, or ``only`` those of these ids: then nothing is said of the others.

    Unreadable files become findings, and the others are proved all the same. Raises ``Faulty`` where there is no bank.
    """
    bank_of.cache_clear()
    catalogue_of.cache_clear()
    bank, faults = survey_bank(folder)
    templates = [each for each in bank.templates if only is None or each.id in only]
    tallies = _drawn([Share(folder, each.id, first, min(first + SHARE - 1, draws)) for each in templates
                      for first in range(1, draws + 1, SHARE)], tell, executor)  # fmt: skip
    doubtful = [each for each in bank.doubtful if only is None or each.id in only]
    names = [each for one in doubtful for each in _of_names(one, bank)]
    signed, wrong = _signed(bank)
    proved = [_template(each, bank, tallies[each.id], signed) for each in templates]
    proved.sort(key=lambda each: (WEIGHTS.index(each.weight) if each.weight else len(WEIGHTS), *_place(each.template)))
    findings = [
        each for each in [Finding("fault", each) for each in faults] + [*before.of_bank(bank)] if _meant(each, bank, only)
    ]
    findings += [*wrong, *names]
    findings += [each for one in proved for each in one.findings]
    seconds = sum(each.tally.seconds for each in proved)
    return Proof(bank, draws, worst_first(findings), tuple(proved), seconds)


def _meant(found: Finding, bank: Bank, only: Collection[str] | None) -> bool:
    """Whether a finding is about the templates that are looked at, or about what they hang on."""
    about = concerns(bank.folder / found.fault.file, bank.folder)
    return only is None or not about or about in only


def _of_names(template: Template, bank: Bank) -> list[Finding]:
    """What is wrong with the names of a template that can't be read whole."""
    known = catalogue_of(bank.folder)
    tally = draw(template, bank, known, 1, _OF_NAMES)
    found = _without_echoes([*before.of_template(template), *of_tally(template, tally)])
    return [each for each in found if each.weight == "fault" and each.fault.code in OF_NAMES]


def _place(template: Template) -> tuple[int, str]:
    return list(outcomes()).index(template.outcome), template.id


def _template(template: Template, bank: Bank, tally: Tally, signed: dict[str, Signature]) -> TemplateProof:
    known = catalogue_of(bank.folder)
    seen = [*before.of_template(template), *rows_left_out(template, bank, known), *of_tally(template, tally)]
    found = worst_first(_without_echoes(seen))
    return TemplateProof(
        template, tally, distinct(tally.contents), distinct(tally.keys), found, standing(template, bank, known, signed)
    )


def _without_echoes(findings: list[Finding]) -> Iterator[Finding]:
    """A slip that there is not can't be caught, so that its draws are all rejected: that is told once."""
    unknown = any(each.fault.code == "unknown-slip" for each in findings)
    for each in findings:
        if not (unknown and each.fault.code == "rejects-almost-every-draw" and each.fault.key == "must reveal"):
            yield each


def _signed(bank: Bank) -> tuple[dict[str, Signature], list[Finding]]:
    try:
        return signatures(bank), []
    except Faulty as error:
        return {}, [Finding("fault", each) for each in error.faults]


def _drawn(shares: Sequence[Share], tell: Tell, executor: Executor | None) -> dict[str, Tally]:
    """The tallies by template, shares of one template joined; told of as they come in."""
    wanted = sum(share.last - share.first + 1 for share in shares)
    done = 0
    found: dict[str, Tally] = {}
    tell(0, wanted)
    for share, tally in zip(shares, _each(shares, wanted, executor), strict=True):
        if share.template in found:
            found[share.template].join(tally)
        else:
            found[share.template] = tally
        done += share.last - share.first + 1
        tell(done, wanted)
    return found


def _each(shares: Sequence[Share], wanted: int, executor: Executor | None) -> Iterator[Tally]:
    if executor is not None:
        yield from executor.map(draw_share, shares)
        return
    hands = min(len(shares), os.cpu_count() or 1)
    if hands < 2 or wanted <= _FEW:
        yield from map(draw_share, shares)
        return
    with workers(hands) as pool:
        yield from pool.map(draw_share, shares)


def marks_of(proved: TemplateProof) -> int:
    """The marks that most variants carry; 0 where none was drawn."""
    return max(proved.tally.marks, key=lambda marks: (proved.tally.marks[marks], marks), default=0)


Grid = dict[tuple[str, str], tuple[int, int]]
"""Templates and marks by outcome and something else, in the order of outcomes."""


def coverage(proved: Iterable[TemplateProof]) -> Grid:
    """Templates and marks by outcome and level."""
    return _grid(proved, lambda template: template.level)


def demands(proved: Iterable[TemplateProof]) -> Grid:
    """Templates and marks by outcome and what they ask of a student; ``""`` where a template does not say."""
    return _grid(proved, lambda template: template.demand or "")


def _grid(proved: Iterable[TemplateProof], column: Callable[[Template], str]) -> Grid:
    found: Grid = {}
    for each in sorted(proved, key=lambda one: _place(one.template)):
        key = (each.template.outcome, column(each.template))
        count, marks = found.get(key, (0, 0))
        found[key] = (count + 1, marks + marks_of(each))
    return found
