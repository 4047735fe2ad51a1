"""Reads and judges what a student typed. The page's scripts do the same; one file of cases runs through both."""

from __future__ import annotations

from saltbridge.answers.judge import judge, merge
from saltbridge.answers.numbers import Number, Unread, read_number
from saltbridge.answers.run import run
from saltbridge.answers.sentences import page_sentences
from saltbridge.answers.unit_words import unit_factors
from saltbridge.answers.verdict import Verdict

__all__ = ["Number", "Unread", "Verdict", "judge", "merge", "page_sentences", "read_number", "run", "unit_factors"]
