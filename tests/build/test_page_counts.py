"""A paper worth copying: how many pages the shipped sample paper and seven questions of 32 marks take, without the data sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pdf_reading import opened
from snapshot.taking import banks

from saltbridge.build import sample_papers
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank

SEVEN = (
    "two-metals", "unknown-strip", "unequal-charges", "gibbs-energy", "equilibrium-constant", "mass-deposited", "copper-as-reference",
)  # fmt: skip
MOST = {"none": 2, "short": 3, "lines": 4}
"""Most pages of about 30 marks by the room for answers: what a teacher would copy, by experience of schools, no source."""

LONGER = {("us-letter", "lines"): 5}
"""Where seven questions of 32 marks take a page more: no question of up to half a page is broken to save it."""


@pytest.fixture(scope="module")
def papers():
    return [paper for paper in sample_papers(banks()["shipped"]) if not paper.memorandum]


@pytest.fixture(scope="module")
def seven(papers):
    bank = banks()["shipped"]
    composers = [Composer(bank.template(each), bank, catalogue(bank.folder)) for each in SEVEN]
    made = []
    for paper in papers:
        variants = [composer.variant(1, f"page counts {paper.code}") for composer in composers]
        pairs = tuple((composer.question(variant), variant) for composer, variant in zip(composers, variants, strict=True))
        made.append(replace(paper, questions=pairs, marks=sum(question.marks for question, _ in pairs)))
    return made


def _pages(papers, **changes):
    settings = replace(banks()["shipped"].settings, **changes)
    writer = PaperWriter(settings, of_bank(settings))
    counts = []
    for paper in papers:
        with opened(writer.paper(paper).pdf) as file:
            counts.append(len(file.pages))
    return counts


def test_the_papers_have_about_thirty_marks(papers, seven):
    assert all(25 <= paper.marks <= 30 for paper in papers)
    assert {(len(paper.questions), paper.marks) for paper in seven} == {(7, 32)}


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("size", ["a4", "us-letter"])
@pytest.mark.parametrize("answers", MOST)
def test_no_version_of_a_paper_is_longer_than_a_teacher_would_copy(papers, seven, size, answers, language):
    how = {"paper": size, "answers": answers, "language": language}
    assert max(_pages(papers, **how)) <= MOST[answers]
    assert max(_pages(seven, **how)) <= LONGER.get((size, answers), MOST[answers])


@pytest.mark.parametrize("size", ["a4", "us-letter"])
@pytest.mark.parametrize("policy", ["steps", "three-lines"])
def test_no_memorandum_is_longer_than_three_pages(papers, seven, size, policy):
    memoranda = [replace(paper, memorandum=True) for paper in (*papers, *seven)]
    assert max(_pages(memoranda, paper=size, policy=policy)) <= 3
