"""One template as its author looks at it: its versions, each as page, paper and memorandum, and what proof says of it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property

from saltbridge.bank.bank import Bank
from saltbridge.bank.template import Template
from saltbridge.build import frame_of, heading_of, memorandum_of, paper_of
from saltbridge.compose.practice import VARIANTS, practice_variants
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.draws import draw
from saltbridge.deliver.proof.findings import Finding, worst_first
from saltbridge.deliver.proof.static_checks import of_template
from saltbridge.deliver.proof.statistics_findings import of_tally
from saltbridge.document import Paper, Question, Variant
from saltbridge.render import pages
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank as words_of

DRAWS = 60
"""Draws that proof looks at here: enough for it to speak of shares, and done in a moment."""
KINDS = ("paper", "memorandum")
"""What a version is printed as."""


@dataclass
class Made:
    """A template made: ``questions`` are its shapes, ``variants`` its versions. Pages and papers are set when they are asked for."""

    bank: Bank
    template: Template
    writer: PaperWriter
    questions: tuple[Question, ...]
    variants: tuple[Variant, ...]
    _pages: dict[int, str] = field(default_factory=dict)
    _pictures: dict[tuple[str, int], tuple[bytes, ...]] = field(default_factory=dict)

    def page(self, version: int) -> str:
        """The page of the practice site with one version, from 1."""
        if version not in self._pages:
            words = words_of(self.bank.settings)
            self._pages[version] = pages.question_page(
                self.questions, [self.variants[version - 1]], frame_of(self.bank), words,
                level=self.template.level, outcome=heading_of(self.template, words),
            )  # fmt: skip
        return self._pages[version]

    def pictures(self, kind: str, version: int) -> tuple[bytes, ...]:
        """The pages of its paper or memorandum, as SVG. Raises ``Faulty`` where it can't be set."""
        key = kind, version
        if key not in self._pictures:
            self._pictures[key] = self.writer.pictures(self._paper(kind, version))
        return self._pictures[key]

    def pdf(self, kind: str, version: int) -> bytes:
        """The same as it would be printed. Raises ``Faulty`` where it can't be set."""
        return self.writer.paper(self._paper(kind, version)).pdf

    def _paper(self, kind: str, version: int) -> Paper:
        words = words_of(self.bank.settings)
        variant = self.variants[version - 1]
        paper = replace(paper_of(self.bank, ((self.questions[variant.shape], variant),), "A", words), title=self.template.title)
        return memorandum_of(paper, self.bank, words) if kind == "memorandum" else paper

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What proof says of the template, from a few draws."""
        known = catalogue_of(self.bank.folder)
        tally = draw(self.template, self.bank, known, 1, DRAWS)
        return worst_first([*of_template(self.template), *of_tally(self.template, tally)])


def make(bank: Bank, template: Template, writer: PaperWriter) -> Made:
    """Draw the versions of a template. Raises ``Faulty`` as drawing does."""
    questions, variants = practice_variants(bank, template, VARIANTS)
    return Made(bank, template, writer, questions, variants)
