"""Every figure drawn in every kind that it fits, from what the kind's own examples draw, with each word of its keys, all letters and all arrows."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.document import Figure
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.scenarios.figures.figure_entries import figures
from saltbridge.scenarios.figures.figure_records import FigureEntry
from saltbridge.scenarios.kinds.names_text import flow

BANK = "format: 1\nid: figures\ntitle: Figures\nlanguage: {language}\ndata sheet: college\n"
TEMPLATE = """title: A figure
outcome: T2.1
level: core
scenario:
  {kind}: {body}
figure: {figure}
text: Look at the figure.
parts:
  - ask: Which?
    choose: this
    from: [this, that]
"""
VARIANTS = 3
ANY_KIND = "galvanic cell"
"""Where a figure that fits every kind is drawn."""


def written(entry: FigureEntry) -> Iterator[str]:
    """The ways in which a template may write a figure: plain, with each word of its keys, with all letters, with all arrows."""
    yield entry.name
    for key, each in entry.keys.items():
        yield from (f"{{{entry.name}: {{{key}: {word}}}}}" for word in each.words)
    if entry.letters and not entry.lettered:
        yield f"{{{entry.name}: {{letters: all}}}}"
    if entry.arrows:
        yield f"{{{entry.name}: {{arrows: all}}}}"


@cache
def composer(text: str, language: str = "en") -> Composer:
    """Composes the variants of a template by itself."""
    folder = Path(mkdtemp())
    (folder / "bank.yaml").write_text(BANK.format(language=language), encoding="utf-8")
    (folder / "figure.yaml").write_text(text, encoding="utf-8")
    bank = load_bank(folder)
    return Composer(bank.templates[0], bank, catalogue())


@cache
def drawn(kind: str, figure: str, language: str = "en") -> tuple[Figure, ...]:
    """Variants of each example of the kind that has what the figure shows."""
    found: list[Figure] = []
    for body in catalogue().scenarios[kind].examples:
        made = composer(TEMPLATE.format(kind=kind, body=flow(body), figure=figure), language)
        try:
            found += [made.variant(number, practice_seed(number)).figures[0] for number in range(1, VARIANTS + 1)]
        except Faulty as error:
            if {each.key for each in error.faults} != {"figure"}:  # what the example has nothing for is told there
                raise
    return tuple(found)


def cases() -> list[tuple[str, str]]:
    """Each figure as written, in each kind that it fits."""
    return [(kind, each) for entry in figures().values() for kind in entry.kinds or (ANY_KIND,) for each in written(entry)]
