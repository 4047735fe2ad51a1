"""Draws candidates of a question until the class has enough that match, or no new ones come."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from saltbridge.bank.bank import Bank
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue, catalogue
from saltbridge.compose.practice import VARIANTS, practice_variants
from saltbridge.deliver.homework.asked_questions import AskedQuestion
from saltbridge.deliver.homework.candidates import candidate, key_of
from saltbridge.deliver.proof.locate_fault import placed
from saltbridge.deliver.proof.variant_under_test import Eyes, Seen
from saltbridge.draw.allocation import Candidate, Match, Pool, best_match, set_seed
from saltbridge.faults import Faulty

SITE, EARLIER = "site", "earlier"
FIRST, MOST = 120, 4_000
"""Draws at first, and at most for a class of ordinary size."""

_A_STUDENT = 40  # draws at most for each student of a large class


@dataclass
class Desk:
    """The bank with one pair of eyes for each template, kept so that graphs and shapes are made once."""

    bank: Bank
    catalogue: Catalogue = field(init=False)
    _eyes: dict[str, Eyes] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.catalogue = catalogue(self.bank.folder)

    def eyes(self, template: Template) -> Eyes:
        """What draws and composes a template."""
        if template.id not in self._eyes:
            self._eyes[template.id] = Eyes(template, self.bank, self.catalogue)
        return self._eyes[template.id]

    def see(self, template: Template, number: int, seed: str) -> Seen:
        """A variant. Raises ``Faulty`` with the faults at their places in the template."""
        try:
            return self.eyes(template).see(number, seed)
        except Faulty as error:
            raise Faulty([placed(template, each) for each in error.faults]) from error

    @property
    def used(self) -> frozenset[str]:
        """The templates that were looked at."""
        return frozenset(self._eyes)

    def marks(self, template: Template) -> int:
        """The marks of a template."""
        return self.see(template, 1, "marks").question.marks


def site_keys(bank: Bank, template: Template) -> dict[str, str]:
    """The keys that the public site shows worked, none where the template is not for practice."""
    if "practice" not in template.use:
        return {}
    questions, variants = practice_variants(bank, template, VARIANTS)
    return {key_of(questions[each.shape], each): SITE for each in variants}


def pool_of(desk: Desk, asked: AskedQuestion, secret: str, barred: Mapping[str, str], needed: int, taken: int) -> Pool:
    """Candidates of a question: enough for ``needed`` students beside ``taken`` keys where there are so many that match."""
    pool = Pool(barred)
    for template in asked.templates:
        _fill(pool, template, desk, secret, asked.id, needed + taken, first=asked.templates[0])
        if _enough(pool, needed + taken):
            break
    return pool


def _fill(pool: Pool, template: Template, desk: Desk, secret: str, name: str, wanted: int, *, first: Template) -> None:
    """Draw a template; one that shares the load adds only versions with the layout and the steps that are there."""
    drawn, block = 0, max(FIRST, 3 * wanted)
    most = max(MOST, _A_STUDENT * wanted)
    alike = {(each.layout, each.form.steps) for each in (*pool.fresh.values(), *pool.known.values())}
    while drawn < most:
        before = pool.distinct
        found = list(_drawn(desk, template, secret, f"{name} {template.id}", range(drawn, drawn + block)))
        pool.add(found if template is first else [each for each in found if (each.layout, each.form.steps) in alike])
        drawn += block
        if _enough(pool, wanted) or (pool.distinct == before and drawn > block):
            return
        block = drawn


def _drawn(desk: Desk, template: Template, secret: str, name: str, numbers: range) -> Iterator[Candidate]:
    for number in numbers:
        seed = set_seed(secret, name, number)
        yield candidate(desk.see(template, 1, seed), seed)


def _enough(pool: Pool, wanted: int) -> bool:
    match = match_of(pool, wanted)
    return match is not None and sum(match.holds(each) for each in pool.fresh.values()) >= wanted


def match_of(pool: Pool, needed: int) -> Match | None:
    """What the versions given out are to have in common: of fresh ones where there are any."""
    return best_match(tuple((pool.fresh or pool.known).values()), needed)
