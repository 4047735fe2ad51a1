"""What a template gives for a row of seeds: givens, answers with their ranges, every printed line, keys.

Each variant is four short digests, so that a change shows which of the four it touched; the first variant stands in full.
``python tests/snapshot`` writes the golden files again; ``python tests/snapshot DIR`` writes every variant in full, so that
two versions can be compared line by line.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path

from saltbridge.answers import merge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.home import shipped
from saltbridge.render.text import question_text, spans_text

SEEDS = 30
GOLDEN = Path(__file__).parent / "golden"
FAMILIES = Path(__file__).parents[1] / "families"
HEADINGS = ("given", "answers", "print", "keys")


@dataclass(frozen=True)
class Shot:
    """One variant as four texts, in the order of ``HEADINGS``."""

    texts: tuple[str, ...]

    def digest(self):
        """Four short digests in a row."""
        return " ".join(sha256(text.encode()).hexdigest()[:8] for text in self.texts)

    def whole(self):
        """The four texts in full."""
        return "\n".join(f"--- {heading}\n{text}" for heading, text in zip(HEADINGS, self.texts, strict=True))


@cache
def banks():
    """The shipped bank, that of the worked templates and each family's, by name."""
    folders = {"shipped": shipped("question_templates"), "worked": shipped("data") / "worked"} | {
        each.parent.name: each for each in sorted(FAMILIES.glob("*/bank")) if each.is_dir()
    }
    return {name: load_bank(folder) for name, folder in folders.items()}


def places():
    """Every bank and template."""
    return [(name, template.id) for name, bank in banks().items() for template in bank.templates]


def shots(name, template) -> Iterator[Shot]:
    """The variants of a template, by seed."""
    bank = banks()[name]
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    for number in range(1, SEEDS + 1):
        variant = composer.variant(number, practice_seed(number))
        yield _shot(composer.drawer.draw(practice_seed(number)), composer.question(variant), variant)


def _shot(drawn, question, variant):
    given = "\n".join(f"{node} = {each.printed} {each.unit}".rstrip() for node, each in sorted(drawn.situation.given.items()))
    answers = "\n".join(
        f"{node}: {each.right.printed} [{each.right.lo}, {each.right.hi}]" for node, each in sorted(drawn.outcomes.items())
    )
    keys = [merge(part.judge, variant.judge[place]) for place, part in enumerate(question.parts)]
    keys += [{"graph": list(question.graph), "given": dict(variant.given)}] if question.graph else []
    hints = [f"hint: {spans_text(hint, variant.slots)}" for part in question.parts for hint in part.hints]
    text = "\n".join((question_text(question, variant), *hints))
    return Shot((given, answers, text, "\n".join(json.dumps(key, sort_keys=True, ensure_ascii=False) for key in keys)))


def golden(name, template):
    """The golden text of a template: a digest a variant, then the first in full."""
    taken = list(shots(name, template))
    return "\n".join((*(each.digest() for each in taken), taken[0].whole())) + "\n"
