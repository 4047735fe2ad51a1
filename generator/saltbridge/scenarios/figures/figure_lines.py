"""A figure for a terminal: its name, and beneath it what a template may write under it and ask of its letters."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.scenarios.figures.figure_entries import figures
from saltbridge.scenarios.figures.figure_records import DRAWN, FigureEntry, LetterPlace

BETWEEN = " · "


def figure_lines(name: str) -> Iterator[str]:
    """The lines of a figure."""
    entry = figures()[name]
    yield f"  {name}: {entry.about}"
    for key, known in entry.keys.items():
        drawn = f" (told as figure.{key})" if known.usual == DRAWN else ""
        yield f"    {key}: {BETWEEN.join(known.words)}{drawn}"
    yield from _of_letters(entry)
    if entry.arrows:
        pairs = (f"{place} ({', '.join(pair.names)})" for place, pair in entry.arrows.items())
        yield f"    arrows: {BETWEEN.join(pairs)}"
    if entry.follows:
        yield f"    choose {', '.join(each.node for each in entry.follows)}"


def _of_letters(entry: FigureEntry) -> Iterator[str]:
    if not entry.letters:
        return
    key = "each with its letter" if entry.lettered else "letters"
    first = f"{LetterPlace.owner(next(iter(entry.letters)))}.letter"
    asked = "".join(f", A.{each.node}" for each in entry.asked)
    yield f"    {key}: {BETWEEN.join(entry.letters)}; choose {first}{asked}"
