"""All hostile banks, and how one is put through the tool."""

from __future__ import annotations

from pathlib import Path

import corpus_catalogue
import corpus_files
import corpus_prose
import corpus_values
import corpus_yaml
from hostile_cases import Case

from saltbridge import build, words
from saltbridge.bank.bank import load_bank
from saltbridge.render import pages

CASES: tuple[Case, ...] = tuple(
    case for corpus in (corpus_yaml, corpus_prose, corpus_values, corpus_files, corpus_catalogue) for case in corpus.cases()
)


def pages_of(folder: Path) -> list[str]:
    """The pages of a bank folder, one variant each. Raises ``Faulty``."""
    bank = load_bank(folder)
    made = []
    for template in bank.templates:
        questions, variants = build.practice_variants(bank, template, 1)
        frame, say = build.frame_of(bank), words.catalogue(bank.settings.language)
        made.append(pages.question_page(questions, variants, frame, say, level=template.level))
    return made
