"""Labels in a drawing: inscriptions as SVG text with raised and lowered runs, and how wide they will be.

Runs are moved with ``dy`` and not with ``baseline-shift``, since Typst's SVG renderer draws only the first.
"""

from __future__ import annotations

from functools import lru_cache

from saltbridge.document import Inscription, Piece
from saltbridge.render.skeleton import escape

SIZE = 13.0
"""Size of letters in a drawing's own units; at 8 cm for 320 units this is 9 pt."""

_SHIFT = {"base": 0.0, "sub": 3.6, "sup": -4.8}
_SMALL = 9.6
_NARROW = frozenset("iljtfrI.,:;|'()[]/ \u00a0\u2009\u202f!-")
_WIDE = frozenset("mwMW%@⇌→≈")

Label = Inscription | str


def label_text(label: Label, x: float, y: float, anchor: str = "middle") -> str:
    """The label as a ``text`` element with its baseline at ``y``."""
    place = "" if anchor == "start" else f' text-anchor="{anchor}"'
    return f'<text x="{number(x)}" y="{number(y)}"{place}>{runs(label)}</text>'


@lru_cache(maxsize=4096)
def runs(label: Label) -> str:
    """The label's runs; each says how far it moves from the run before."""
    now, written = 0.0, []
    for kind, text in _pieces(label):
        shift = _SHIFT[kind]
        move = f' dy="{number(shift - now)}"' if shift != now else ""
        small = f' font-size="{number(_SMALL)}"' if kind != "base" else ""
        shown = escape(text.replace(" ", "\u00a0"))
        written.append(f"<tspan{move}{small}>{shown}</tspan>" if move or small else shown)
        now = shift
    return "".join(written)


@lru_cache(maxsize=4096)
def label_width(label: Label) -> float:
    """Width in drawing units, rather too wide than too narrow for the faces in use."""
    return sum(_run_width(text) * (_SMALL if kind != "base" else SIZE) for kind, text in _pieces(label))


def _run_width(text: str) -> float:
    return sum(0.38 if sign in _NARROW else 0.95 if sign in _WIDE else 0.72 if sign.isupper() else 0.6 for sign in text)


def _pieces(label: Label) -> tuple[Piece, ...]:
    return (Piece("base", label),) if isinstance(label, str) else label.pieces


def broken(label: Label, room: float) -> list[Label]:
    """The label in one line, or in two where it is wider than ``room`` and has a comma or blank to break after."""
    if label_width(label) <= room:
        return [label]
    pieces, half = _pieces(label), label_width(label) / 2
    blanks = [
        (at, spot)
        for at, (kind, text) in enumerate(pieces)
        if kind == "base"
        for spot, sign in enumerate(text)
        if sign == " " and 0 < spot < len(text) - 1
    ]
    after_comma = [(at, spot) for at, spot in blanks if pieces[at].text[spot - 1] == ","]
    if not blanks:
        return [label]
    at, spot = min(after_comma or blanks, key=lambda place: abs(label_width(_part(pieces, *place)[0]) - half))
    return list(_part(pieces, at, spot))


def _part(pieces: tuple[Piece, ...], at: int, spot: int) -> tuple[Label, Label]:
    """The pieces before and after a blank."""
    text = pieces[at].text
    before = (*pieces[:at], Piece("base", text[:spot].rstrip()))
    after = (Piece("base", text[spot:].lstrip()), *pieces[at + 1 :])
    return Inscription("symbol", before, ""), Inscription("symbol", after, "")


def number(value: float) -> str:
    """A coordinate with at most one decimal."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text
