"""A paper worth copying: how many pages the seven questions of the shipped sample paper (30 marks) take, without data sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pdf_reading import opened
from snapshot.taking import banks

from saltbridge.build import sample_papers
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank

MOST = {"none": 2, "short": 3, "lines": 4, "squares": 5}
"""Most pages by the room for answers; squared paper has no bound from outside."""


@pytest.fixture(scope="module")
def papers():
    return sample_papers(banks()["shipped"])


def _pages(papers, **changes):
    settings = replace(banks()["shipped"].settings, **changes)
    writer = PaperWriter(settings, of_bank(settings))
    counts = []
    for paper in papers:
        with opened(writer.paper(paper).pdf) as file:
            counts.append(len(file.pages))
    return counts


def test_the_sample_paper_has_seven_questions_and_thirty_marks(papers):
    assert {(len(paper.questions), paper.marks) for paper in papers} == {(7, 30)}


@pytest.mark.parametrize("size", ["a4", "us-letter"])
@pytest.mark.parametrize("answers", MOST)
def test_no_version_of_the_paper_is_longer_than_a_teacher_would_copy(papers, size, answers):
    counts = _pages([paper for paper in papers if not paper.memorandum], paper=size, answers=answers)
    assert max(counts) <= MOST[answers], counts


@pytest.mark.parametrize("size", ["a4", "us-letter"])
@pytest.mark.parametrize("policy", ["steps", "three-lines"])
def test_no_memorandum_is_longer_than_three_pages(papers, size, policy):
    assert max(_pages([paper for paper in papers if paper.memorandum], paper=size, policy=policy)) <= 3


def test_a_german_paper_is_not_longer(papers):
    assert max(_pages([paper for paper in papers if not paper.memorandum], language="de", decimal_mark=",")) <= 4
