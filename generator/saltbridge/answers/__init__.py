"""Reads and judges what a student typed. The page's scripts do the same; one file of cases runs through both.

A **key** is plain JSON, one for each part of a question. What does not change between variants is the share of the shape,
the rest that of the variant; ``merge`` puts them together. Numbers are decimal texts or JSON numbers. ``?`` marks what may
be left out.

Graph and givens stand once a question, a key names its ``node``: ``graph`` [{node, tree}, …] in run order holds what all
parts need that follow from earlier ones, ``given`` node → value what a variant starts from. ``merge`` hands both to a key
with ``earlier``, and to no other.

number
    ``kind`` "number" · ``node`` the asked node · ``unit`` the asked unit or "" · ``unit_beside``? false where the student must give the unit (true: it stands beside the box) ·
    ``mark``? the bank's decimal mark (".") · ``figures`` or ``decimals`` asked, the other null · ``scale``? "linear" or "log" ·
    ``value`` as printed, ``exact`` unrounded, ``lo`` and ``hi`` the accepted range (on the value, also where the scale is
    log), ``place`` one unit of the last place (on the logarithm where the scale is log).
    For follow-through: ``earlier``? [[part label, node], …] · ``routes``? [{put?: {node: number or tree}, round?: {figures} or {decimals} or null}, …].
    Slips: ``slips``? [{id, hint?, twins?: [id, …], put?: {node: tree}}, …] in the shape; ``slips``? {id: [lo, hi]} in the
    variant, which ``merge`` renames ``slip_ranges``.
choice
    ``kind`` "choice" · ``node`` or null · ``right`` option numbers from 0 · ``slips``? {"0": [id, …]} by option (by
    "0,2" where several are chosen) · ``values``? the node's value behind each option, null where it has none · ``earlier``? and with it
    ``errors`` [{id, put: {node: tree}}, …] which an own answer may lie under · ``otherwise``? what to ask where no known error fits
order
    ``kind`` "order" · ``node`` or null · ``right`` item numbers in the right order · ``slips``? {"0,1,2": [id, …]} · ``values``? the thing
    behind each item; the node's value names them from the lowest to the highest (a<b<c) · ``falling``? whether the highest is wanted
    first · ``earlier``? · ``errors``?
equation
    ``kind`` "equation" · ``right`` in the notation of the chemistry room, lowest whole numbers · ``states``? whether state
    symbols count · ``slips``? {equation: [id, …]} · ``node``? where the student's own equation is put · ``own``? as "factor" (of which
    multiple of the right one it is) or as "text" (the form of the key that it is written in) · ``led``? [[{node: outcome, …}, equation,
    {wrong equation: [id, …]}], …] what each other way through the answers before it leads to, and the errors on top of that · ``earlier``?
word
    ``kind`` "word" · ``words`` [[word, …], …] for each thing that can be named all words that name it, as ``plain_words`` compares them ·
    ``near``? {word: sentence} what is said of a word that is near · else as a choice, whose option numbers are the places in ``words``
table
    ``kind`` "table" · ``mark`` "cell", "row" or "whole" · ``cells`` [key, …] of its blank cells, row by row, each with its ``label``
    (under which later cells and parts follow from it) and its ``row``
"""

from __future__ import annotations

from saltbridge.answers.judge import judge, merge
from saltbridge.answers.numbers import Number, Unread, read_number
from saltbridge.answers.run import run
from saltbridge.answers.sentences import page_sentences
from saltbridge.answers.unit_words import unit_table
from saltbridge.answers.verdict import Verdict

__all__ = ["Number", "Unread", "Verdict", "judge", "merge", "page_sentences", "read_number", "run", "unit_table"]
