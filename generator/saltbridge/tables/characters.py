"""Characters that have no place in a text of a bank: they hide, reorder or pile up, so that a reader sees something else.

Control characters, marks that turn the direction of writing (U+202A–U+202E, U+2066–U+2069…), spaces of no width, private-use
characters (a page's own slots are marked by them), halves of surrogate pairs, and letters under a heap of accents. Soft hyphens
and joiners are part of ordinary spelling and stay.
"""

from __future__ import annotations

import re

MOST_ACCENTS = 4  # on one letter; Vietnamese needs two

_HIDDEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u115f\u1160\u180e\u200b\u200e\u200f\u2028-\u202e\u2061-\u206f\u3164\ud800-\udfff\ue000-\uf8ff"
    "\ufdd0-\ufdef\ufeff\uffa0\ufff0-\ufffb\ufffe\uffff\U000e0000-\U000e0fff\U000f0000-\U0010ffff]"
)
_HEAP = re.compile(f"[\u0300-\u036f\u0483-\u0489\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20ff\ufe20-\ufe2f]{{{MOST_ACCENTS + 1}}}")


def improper(text: str) -> tuple[int, str] | None:
    """The place of the first character that a bank's text may not hold, and what to call it; None where there is none."""
    if text.isascii() and text.isprintable():
        return None
    if found := _HIDDEN.search(text):
        return found.start(), f"U+{ord(found[0]):04X}"
    if found := _HEAP.search(text):
        return found.start(), f"more than {MOST_ACCENTS} accents on a letter"
    return None
