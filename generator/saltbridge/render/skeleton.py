"""Skeletons: HTML written once per shape, with places for what a variant puts in.

While writing, a place is a marker of private-use characters around a slot's index; the opening character tells the form
wanted there. ``split`` turns the written text into chunks, literal text and whole numbers in turn; a number is an index
into the texts of a variant. The page's script joins chunks in the same way.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Form = Literal["html", "words", "maths", "figure"]
"""How a slot's value is wanted: running text, plain words for an attribute, inside a formula, or a drawing."""

Chunk = str | int

_OPENING: dict[Form, str] = {"html": "\ue000", "words": "\ue002", "maths": "\ue003", "figure": "\ue004"}
_FORMS: dict[str, Form] = {opening: form for form, opening in _OPENING.items()}
_CLOSING = "\ue001"
_MARKER = re.compile(f"([{''.join(_FORMS)}])([0-9]+){_CLOSING}")

_SPECIAL = re.compile("[&<>\"'\ue000-\ue00f]")
_ESCAPES = {ord(sign): name for sign, name in zip("&<>\"'", ("&amp;", "&lt;", "&gt;", "&quot;", "&#39;"), strict=True)}
_ESCAPES |= dict.fromkeys(range(0xE000, 0xE010), "\ufffd")


def escape(text: str) -> str:
    """Text made safe for HTML content and quoted attributes; our own marker characters are replaced, so none can be forged."""
    return text.translate(_ESCAPES) if _SPECIAL.search(text) else text


def place(index: int, form: Form) -> str:
    """The marker of slot ``index`` in ``form``."""
    return f"{_OPENING[form]}{index}{_CLOSING}"


@dataclass(frozen=True, slots=True)
class Skeleton:
    """A question's HTML in chunks, and for each text of a variant which slot it is made from and in what form."""

    chunks: tuple[Chunk, ...]
    uses: tuple[tuple[int, Form], ...]


def split(html: str) -> Skeleton:
    """The chunks of written HTML; the same slot in the same form is one text, however often it stands there."""
    chunks: list[Chunk] = []
    uses: dict[tuple[int, Form], int] = {}
    end = 0
    for marker in _MARKER.finditer(html):
        if marker.start() > end:
            chunks.append(html[end : marker.start()])
        use = (int(marker.group(2)), _FORMS[marker.group(1)])
        chunks.append(uses.setdefault(use, len(uses)))
        end = marker.end()
    if end < len(html):
        chunks.append(html[end:])
    return Skeleton(tuple(chunks), tuple(uses))


def join(chunks: Sequence[Chunk], texts: Sequence[str]) -> str:
    """The HTML of one variant; the page's script does the same."""
    return "".join([chunk if isinstance(chunk, str) else texts[chunk] for chunk in chunks])
