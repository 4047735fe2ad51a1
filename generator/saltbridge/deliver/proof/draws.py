"""Draws the variants of one template and counts what the checks find; a share of the draws at a time, in any process."""

from __future__ import annotations

import time
from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from saltbridge.bank.bank import Bank, survey_bank
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.checks import CHECKS
from saltbridge.deliver.proof.distinct import answers, content
from saltbridge.deliver.proof.draw_statistics import Sample, Tally
from saltbridge.deliver.proof.failures import failed
from saltbridge.deliver.proof.findings import Hit
from saltbridge.deliver.proof.language import Reading, reading, texts_of
from saltbridge.deliver.proof.samples import sample
from saltbridge.deliver.proof.told_slips import caught_slips, possible_slips
from saltbridge.deliver.proof.variant_under_test import Eyes, Seen
from saltbridge.document import ChoiceField, WrittenField
from saltbridge.faults import Faulty
from saltbridge.render.overlaps import overlapping
from saltbridge.render.text import spans_text

SAMPLES = 3
ENOUGH_TO_DIFFER = 2


@dataclass(frozen=True, slots=True)
class Share:
    """Draws ``first`` to ``last`` (from 1, both included) of one template of the bank in ``folder``."""

    folder: Path
    template: str
    first: int
    last: int


def proof_seed(number: int) -> str:
    """The seed of the proof's draw of that number, from 1."""
    return f"proof {number}"


@lru_cache(maxsize=4)
def bank_of(folder: Path) -> Bank:
    """The bank as far as it can be read, once a process."""
    return survey_bank(folder)[0]


def draw_share(share: Share) -> Tally:
    """Draw and check a share of a template's variants."""
    bank = bank_of(share.folder)
    template = bank.readable(share.template)
    if template is None:
        raise KeyError(share.template)
    return draw(template, bank, catalogue_of(share.folder), share.first, share.last)


def draw(template: Template, bank: Bank, known: Catalogue, first: int, last: int) -> Tally:
    """Draw and check variants ``first`` to ``last`` of a template; what ends the drawing is kept in ``stopped``."""
    start = time.process_time()
    eyes = Eyes(template, bank, known)
    tally = Tally(template.id, eyes.drawer.log)
    shown: list[Seen] = []
    shapes: dict[int, Reading] = {}
    number = first
    try:
        for number in range(first, last + 1):
            seen = eyes.see(number, proof_seed(number))
            count(tally, seen)
            shapes.setdefault(seen.variant.shape, reading(texts_of(seen.question, seen.variant)))
            if first == 1:
                shown = _shown(shown, seen)
        tally.samples = tuple(sample(each, eyes.context(each)) for each in shown)
    except Faulty as error:
        tally.stopped, tally.stopped_at = error.faults, proof_seed(number)
    except Exception as error:  # noqa: BLE001 - one template must not end the report of a whole bank
        tally.stopped = (failed(template, f"none at {proof_seed(number)}", error),)
    if tally.stopped:
        tally.samples = _as_far_as_set(shown, eyes)
    tally.readings = tuple(shapes.values())
    tally.seconds = time.process_time() - start
    return tally


def _as_far_as_set(shown: list[Seen], eyes: Eyes) -> tuple[Sample, ...]:
    """The samples of a template that was stopped, those that can be set."""
    found = []
    for each in shown:
        with suppress(Exception):
            found.append(sample(each, eyes.context(each)))
    return tuple(found)


def count(tally: Tally, seen: Seen) -> None:
    """Check one variant and count what is found."""
    hits = [hit for check in CHECKS for hit in check(seen)] + _crowded(seen)
    tally.draws += 1
    tally.counts.add(hits, seen.drawn.seed)
    tally.contents[content(seen)] += 1
    tally.keys[answers(seen)] += 1
    tally.possible |= dict.fromkeys(possible_slips(seen))
    tally.caught.update(caught_slips(seen))
    tally.marks[seen.question.marks] += 1
    tally.minutes = seen.question.minutes
    _count_answers(tally, seen)


def _count_answers(tally: Tally, seen: Seen) -> None:
    """Where the right option of each choice stands, and what each part is answered by; more than two say no more."""
    for at, (part, share) in enumerate(zip(seen.question.parts, seen.variant.judge, strict=True), 1):
        if isinstance(part.field, WrittenField):
            continue  # answered in words of one's own
        _say(tally, f"parts[{at}]", spans_text(part.answer, seen.variant.slots))
        if isinstance(part.field, ChoiceField):
            tally.places.setdefault(at, set()).update(share["right"])
    for asked in seen.asked:
        _say(tally, asked.key, spans_text(asked.answer, seen.variant.slots))


def _say(tally: Tally, key: str, answer: str) -> None:
    said = tally.answers.setdefault(key, set())
    if len(said) < ENOUGH_TO_DIFFER:
        said.add(answer)


def _shown(shown: list[Seen], seen: Seen) -> list[Seen]:
    """The samples so far with one more where it is of a new shape, or there are too few."""
    if len(shown) < SAMPLES:
        return [*shown, seen]
    shapes = [each.variant.shape for each in shown]
    spare = next((at for at in range(SAMPLES - 1, 0, -1) if shapes[at] in shapes[:at]), None)
    if spare is None or seen.variant.shape in shapes:
        return shown
    return sorted([*shown[:spare], *shown[spare + 1 :], seen], key=lambda each: each.variant.number)


def _crowded(seen: Seen) -> list[Hit]:
    """Labels of a drawing that run into one another, as drawn on page and paper."""
    found = []
    for figure in seen.variant.figures:
        for one, other in overlapping(figure):
            hint = "Draw from things that lie further apart, or leave the drawing out."
            found.append(Hit("labels-overlap", "figure", "labels that stand clear of one another", f"{one} over {other}", hint))
    return found
