"""Names of files: set, class and what it is, in ASCII, short enough for the list of a printer; never a student's name."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

LONGEST = 59
_TITLE, _CLASS = 28, 12


def slug(text: str, most: int) -> str:
    """Letters, digits and hyphens of a text; a long one is cut before its last word, which tells one week from the next."""
    plain = unicodedata.normalize("NFKD", text.replace("ß", "ss")).encode("ascii", "ignore").decode()
    whole = re.sub(r"[^A-Za-z0-9]+", "-", plain).strip("-")
    if len(whole) <= most:
        return whole
    last = whole.rpartition("-")[2][: most // 3]
    return whole[: most - len(last) - 1].strip("-") + f"-{last}"


def stem(title: str, class_name: str = "") -> str:
    """How the names of a set's files begin."""
    return "-".join(part for part in (slug(title, _TITLE).lower() or "set", slug(class_name, _CLASS)) if part)


def class_stems(title: str, classes: Iterable[str]) -> dict[str, str]:
    """The beginning for each class; classes that would be called alike are numbered."""
    found: dict[str, str] = {}
    for name in dict.fromkeys(classes):
        first = stem(title, name)
        taken = set(found.values())
        found[name] = next(each for each in (first, *(f"{first}-{number}" for number in range(2, 5_002))) if each not in taken)
    return found
