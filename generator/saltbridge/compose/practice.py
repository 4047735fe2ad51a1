"""The practice variants of a template: what the public site shows, worked, and what no paper may therefore hold."""

from __future__ import annotations

from saltbridge import __version__
from saltbridge.bank.bank import Bank
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.document import Question, Variant
from saltbridge.draw.seeds import practice_seed
from saltbridge.words import of_bank as words_of

VARIANTS = 30
_SPARE_SEEDS = 4  # seeds tried for each variant wanted, since a seed may draw what another drew


def practice_variants(bank: Bank, template: Template, wanted: int) -> tuple[tuple[Question, ...], tuple[Variant, ...]]:
    """The practice variants of a template, by number and without repeats; fewer where there are not so many.

    Raises ``Faulty`` as ``Drawer.draw`` does.
    """
    composer = Composer(template, bank, catalogue(bank.folder))
    kept: dict[str, Variant] = {}
    for number in range(1, wanted * _SPARE_SEEDS + 1):
        variant = composer.variant(len(kept) + 1, practice_seed(number))
        kept.setdefault(repr(variant.slots), variant)
        if len(kept) == wanted:
            break
    return composer.questions, tuple(kept.values())


def provenance(bank: Bank) -> str:
    """What made a page or paper: tool and version, bank, data sheet."""
    return f"saltbridge {__version__} · {bank.id} · {words_of(bank.settings)(bank.sheet.title)}"
