"""The data sheet → plain data for its layout, with the number line of potentials laid out so that no labels meet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from saltbridge import document as doc
from saltbridge.records import Settings
from saltbridge.render.paper_data import Encoder, Node, clean
from saltbridge.words import Words

_LINE_MM = {"a4": 166.0, "us-letter": 172.0, "a3": 253.0}
_LABEL_MM = 3.5
_LARGE = 11
"""Larger print than this has the table in one column and the number line with as many labels as find room."""

_MASS_PAIRS = 4
_POINT = 25.4 / 72
_MOST_LABELS = 32
_FIRST_PAGE, _NEXT_PAGE = 38, 48
"""Rows of the table of potentials that a column holds below the number line, and on a page of its own."""


def sheet_data(sheet: doc.SheetPage, words: Words, settings: Settings) -> dict[str, Any]:
    """Title, number line, table of potentials, constants and relative atomic masses."""
    encoder = Encoder(None, _no_figures)
    symbol = _standard_potential(settings, words)
    return {
        "title": clean(sheet.title),
        "axis": _axis(sheet.rows, words, settings),
        "direction": _direction(sheet.rows, words),
        "head": [[words("Half-reaction")], [*encoder.spans((symbol,)), "\u2009/\u2009V"]],
        "pages": _pages(settings, [[[_formula(row.half)], encoder.spans((row.potential,))] for row in sheet.rows]),
        "constants-head": [[words("Constant")], [words("Symbol")], [words("Value")]],
        "constants": [
            [[clean(item.name)], encoder.spans((doc.Maths(item.symbol, (item.symbol.spoken,)),)), encoder.spans((item.value,))]
            for item in sheet.constants
        ],
        "masses-head": [[words("Element")], encoder.spans((_atomic_mass(words),))] * _pairs(settings),
        "masses": _masses(sheet.masses, _pairs(settings)),
        "citation": clean(sheet.citation),
    }


def _no_figures(figure: doc.Figure) -> str:
    raise ValueError(f"a data sheet holds no figure, but {figure.name} stands in it")


def _atomic_mass(words: Words) -> doc.Maths:
    said = words("relative atomic mass")
    return doc.Maths(doc.Symbol("A", said, "", "r"), (said,))


def _standard_potential(settings: Settings, words: Words) -> doc.Maths:
    said = words("standard potential")
    return doc.Maths(doc.Symbol("E", said, settings.standard_sign), (said,))


def _direction(rows: Sequence[doc.SheetLine], words: Words) -> str:
    if len(rows) < 2:
        return ""
    if rows[0].volts > rows[-1].volts:
        return words("The strongest oxidising agent stands at the top.")
    return words("The strongest oxidising agent stands at the bottom.")


def _formula(half: doc.Inscription) -> Node:
    """A half-reaction that may break at its signs: the columns are narrow."""
    return ["w", clean(half.spoken or half.plain), Encoder(None, _no_figures).maths(half)]


def _pages(settings: Settings, rows: Sequence[Any]) -> list[list[Sequence[Any]]]:
    """The rows on pages of two columns each, read down the left one first; columns of one page are of one height."""
    if settings.print_size > _LARGE:
        return [[rows, []]]
    pages: list[list[Sequence[Any]]] = []
    at = 0
    while at < len(rows):
        held = rows[at : at + 2 * (_NEXT_PAGE if pages else _FIRST_PAGE)]
        half = math.ceil(len(held) / 2)
        pages.append([held[:half], held[half:]])
        at += len(held)
    return pages


def _pairs(settings: Settings) -> int:
    """How many elements stand side by side in the table of masses."""
    return _MASS_PAIRS if settings.print_size <= _LARGE else _MASS_PAIRS // 2


def _masses(masses: Sequence[tuple[str, str]], pairs: int) -> list[list[str]]:
    """Pairs set in columns, read down the first, then down the next."""
    height = math.ceil(len(masses) / pairs)
    padded = [*masses, *[("", "")] * (height * pairs - len(masses))]
    columns = [padded[at * height : (at + 1) * height] for at in range(pairs)]
    return [[clean(text) for pair in row for text in pair] for row in zip(*columns, strict=True)]


# ------------------------------------------------------------------ number line


def _axis(rows: Sequence[doc.SheetLine], words: Words, settings: Settings) -> dict[str, Any]:
    ordered = sorted(rows, key=lambda row: row.volts)
    low, high = _ends([row.volts for row in ordered])
    places = [(row.volts - low) / (high - low) for row in ordered]
    width, label = (
        _LINE_MM[settings.paper] - 8,
        _LABEL_MM if settings.print_size <= _LARGE else settings.print_size * _POINT * 1.2,
    )
    named = _named(ordered, min(_MOST_LABELS, int(width / label)))
    room = iter(spread([place for at, place in enumerate(places) if at in named], label / width))
    labels = [next(room) if at in named else None for at in range(len(ordered))]
    said = ", ".join(f"{row.couple.spoken} {row.potential.spoken}" for row in ordered)
    return {
        "alt": clean(
            words("Number line of standard potentials in volts, from the lowest to the highest: {couples}", couples=said)
        ),
        "caption": [*Encoder(None, _no_figures).spans((_standard_potential(settings, words),)), "\u2009/\u2009V"],
        "ticks": [
            {"place": (volts - low) / (high - low), "text": _signed(volts, settings)}
            for volts in _ticks(low, high, 0.5 if settings.print_size <= _LARGE else 1.0)
        ],
        "marks": [_mark(row, place, label) for row, place, label in zip(ordered, places, labels, strict=True)],
    }


def _named(rows: Sequence[doc.SheetLine], most: int) -> frozenset[int]:
    """Which rows carry their name: all, or on a long sheet those with the shortest names; the others are bare marks."""
    shortest = sorted(range(len(rows)), key=lambda at: (len(rows[at].couple.plain), at))
    return frozenset(shortest[:most])


def _mark(row: doc.SheetLine, place: float, label: float | None) -> dict[str, Any]:
    couple: Node = Encoder(None, _no_figures).maths(row.couple)
    return {"couple": couple, "alt": clean(row.couple.spoken or row.couple.plain), "place": place, "label": label}


def _ends(volts: Sequence[float]) -> tuple[float, float]:
    """Half volts that hold all potentials and zero."""
    low = math.floor(2 * min([*volts, 0.0])) / 2
    high = math.ceil(2 * max([*volts, 0.0])) / 2
    return (low, high) if high > low else (low, low + 0.5)


def _ticks(low: float, high: float, step: float) -> list[float]:
    """Volts at whole steps from end to end."""
    return [at * step for at in range(math.ceil(low / step), math.floor(high / step) + 1)]


def _signed(volts: float, settings: Settings) -> str:
    sign = "−" if volts < 0 else "+" if volts > 0 else ""
    return sign + f"{abs(volts):.1f}".replace(".", settings.decimal_mark)


def spread(places: Sequence[float], gap: float) -> list[float]:
    """Label places at least ``gap`` apart, as near to the rising ``places`` as that allows (least squares), within 0…1.

    Labels that meet are joined into clusters centred on the mean of their members' places (pooling of neighbours); where
    all of them need more than the whole line, the gap shrinks to fit.
    """
    if not places:
        return []
    gap = min(gap, 1 / max(1, len(places) - 1))
    clusters: list[tuple[float, int]] = []  # sum of (place − own offset), size
    for at, place in enumerate(places):
        clusters.append((place - at * gap, 1))
        while len(clusters) > 1 and clusters[-2][0] / clusters[-2][1] > clusters[-1][0] / clusters[-1][1]:
            (total, size), (other, more) = clusters.pop(), clusters.pop()
            clusters.append((total + other, size + more))
    starts = [total / size for total, size in clusters for _ in range(size)]
    room = 1 - (len(places) - 1) * gap
    return [min(max(start, 0.0), room) + at * gap for at, start in enumerate(starts)]
