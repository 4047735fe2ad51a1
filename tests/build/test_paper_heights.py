"""The heights by which papers choose their breaks, held against those of the set pages."""

from __future__ import annotations

import re
import subprocess
from dataclasses import replace
from itertools import pairwise

import pytest
from snapshot.taking import banks

from saltbridge.build import sample_papers
from saltbridge.render.paper_parts import QuestionEncoder
from saltbridge.render.paper_room import Measure
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank

POINT = 25.4 / 72
SLACK = 5.0
"""Millimetres by which an estimate may lie over or under: a line of print."""


def _labels(pdf):
    """(page, label, height in mm) of each part's label on its line."""
    boxes = subprocess.run(["pdftotext", "-bbox", "-", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    page = 0
    for line in boxes.splitlines():
        page += "<page " in line
        if found := re.search(r'yMin="([\d.]+)".*>\(([a-h])\)</word>', line):
            yield page, found[2], float(found[1]) * POINT


@pytest.mark.parametrize("size", ["a4", "us-letter"])
@pytest.mark.parametrize("answers", ["lines", "short", "squares", "none"])
def test_estimates_lie_near_to_what_is_set(answers, size):
    """From each part's label to the next one's on the same page: the part, and the next question's title and text between them."""
    bank = banks()["shipped"]
    settings = replace(bank.settings, answers=answers, paper=size)
    words = of_bank(settings)
    writer, measure = PaperWriter(settings, words), Measure.of(settings)
    encoder = QuestionEncoder(settings, words, writer._draw)
    paper = sample_papers(bank)[0]
    heights = []
    for number, pair in enumerate(paper.questions, 1):
        question = encoder.question(number, *pair)
        heights += [
            (measure.opening(question) if at == 0 else 0.0, measure.part(part)) for at, part in enumerate(question["parts"])
        ]
    places = sorted(_labels(writer.paper(paper).pdf), key=lambda place: (place[0], place[2]))  # as set, not as extracted
    assert len(places) == len(heights)
    off = [
        round(height + following - (there[2] - here[2]), 1)
        for (here, there), ((_, height), (following, _)) in zip(pairwise(places), pairwise(heights), strict=True)
        if here[0] == there[0]
    ]
    assert len(off) > 10
    assert [each for each in off if abs(each) > SLACK] == []
