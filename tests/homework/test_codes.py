"""Codes of papers: read aloud without mistakes, and taken by no spreadsheet for a date or a number."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from saltbridge.deliver.homework.codes import ALPHABET, paper_codes
from saltbridge.deliver.papers import reads_as_code

SECRETS = st.text("0123456789abcdef", min_size=32, max_size=32)


@given(SECRETS, st.text(max_size=20), st.integers(1, 5))
def test_a_code_has_no_vowel_and_a_check_character_and_is_neither_word_nor_number(secret, identity, attempt):
    code = paper_codes(secret, identity, attempt, ())
    assert reads_as_code(code)
    first, paper, check = code.split("-")
    assert set(first + paper + check) <= set(ALPHABET)
    assert not set("AEIOUY01") & set(code)
    assert all(any(mark.isdigit() for mark in part) and any(mark.isalpha() for mark in part) for part in (first, paper))


@given(SECRETS)
def test_a_class_of_many_has_as_many_codes(secret):
    used: set[str] = set()
    for student in range(300):
        used.add(paper_codes(secret, f"name {student}", 1, used))
    assert len(used) == 300
    assert len({code[:3] for code in used}) == 1
