"""Codes of papers: three characters of the set, four of the paper, a check character.

No vowels, so no words; no 0, 1, I and O, which are misread. Each part has a letter and a digit, so that a spreadsheet takes it for
no date and no number.
"""

from __future__ import annotations

import secrets
from collections.abc import Container, Iterator

from saltbridge.deliver.papers import check_character, paper_code
from saltbridge.draw.seeds import Seed

LETTERS = "BCDFGHJKLMNPQRSTVWXZ"
DIGITS = "23456789"
ALPHABET = LETTERS + DIGITS
_PLACES = {3: (LETTERS, DIGITS, LETTERS), 4: (LETTERS, ALPHABET, DIGITS, ALPHABET)}


def new_secret() -> str:
    """128 bits of the system's own, as hexadecimal digits: all that a set takes from outside."""
    return secrets.token_hex(16)


def set_part(secret: str) -> str:
    """The part of a code that all papers of a set share."""
    return _spelt(Seed(secret, "set", "code").number("set"), 3)


def paper_codes(secret: str, identity: str, attempt: int, used: Container[str]) -> str:
    """A student's code that nobody of the set has yet. ``identity`` is what tells the student from others."""
    first = set_part(secret)
    return next(code for code in _tried(secret, first, f"{identity} {attempt}") if code not in used)


def _tried(secret: str, first: str, name: str) -> Iterator[str]:
    number = 0
    while True:
        paper = _spelt(Seed(secret, "paper", name).number(f"code {number}"), 4)
        if check_character(first + paper) in ALPHABET:
            yield paper_code(first, paper)
        number += 1


def _spelt(number: int, length: int) -> str:
    text = ""
    for marks in _PLACES[length]:
        number, place = divmod(number, len(marks))
        text += marks[place]
    return text
