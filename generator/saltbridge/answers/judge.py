"""Judges one answer by its key. The script's ``judge`` is its twin: same key, same answer, same verdict.

Order of judging: right, right but (unit, figures, rounding), another unit or prefix, follows from an earlier answer, a known
slip, a slip on top of an earlier answer, not yet.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from saltbridge.answers.judge_cases import judge_cases
from saltbridge.answers.judge_choice import judge_choice, judge_order
from saltbridge.answers.judge_equation import judge_equation
from saltbridge.answers.judge_notation import NOTATIONS, judge_notation
from saltbridge.answers.judge_number import judge_number
from saltbridge.answers.judge_reasoned import judge_reasoned
from saltbridge.answers.judge_sequence import judge_sequence
from saltbridge.answers.judge_several import judge_several
from saltbridge.answers.judge_table import judge_table
from saltbridge.answers.judge_word import judge_word
from saltbridge.answers.judge_written import judge_written
from saltbridge.answers.unit_words import Table, unit_table
from saltbridge.answers.verdict import Verdict

Key = Mapping[str, Any]
Earlier = Mapping[str, Any]


def judge(key: Key, typed: object, earlier: Earlier | None = None, units: Table | None = None) -> Verdict:
    """Judge what was typed or chosen by a part's key.

    ``typed`` is a text for what is typed, a list of option numbers (from 0) for what is chosen, ticked or put in order, with
    ``None`` for a case or a reason that is not chosen yet, and a list of such answers for a table. ``earlier`` holds the student's
    own values by part label (``Verdict.own``), for the parts this one can follow from. ``units`` is the table of units in the page's
    language (``unit_table``), English where it is left out.
    """
    if key["kind"] == "number":
        return judge_number(key, typed, earlier or {}, units or unit_table())
    if key["kind"] == "table":
        return judge_table(key, typed, earlier or {}, partial(judge, units=units))
    return _JUDGES[key["kind"]](key, typed, earlier or {})


def merge(shape: Key, variant: Key, graph: Sequence[Key] = (), given: Key | None = None) -> dict[str, Any]:
    """A part's key: the share of its shape and that of its variant, and the question's graph and given where it can follow.

    Both shares may hold ``slips``: the shape says what each slip puts into the graph, the variant where its value lies; the
    latter becomes ``slip_ranges``. The cells of a table are merged one by one.
    """
    if "cells" in shape:
        cells = [merge(*pair, graph, given) for pair in zip(shape["cells"], variant["cells"], strict=True)]
        return {**shape, **variant, "cells": cells}
    key = {**shape, **variant}
    if key.get("earlier"):
        key |= {"graph": graph, "given": given or {}}
    if isinstance(shape.get("slips"), list | tuple):
        key["slips"] = shape["slips"]
        key["slip_ranges"] = variant.get("slips", {})
    return key


_JUDGES: Mapping[str, Callable[[Key, object, Earlier], Verdict]] = {
    "choice": judge_choice,
    "order": judge_order,
    "equation": judge_equation,
    "written": judge_written,
    "cases": judge_cases,
    "reasoned": judge_reasoned,
    "several": judge_several,
    "sequence": judge_sequence,
    **dict.fromkeys(NOTATIONS, judge_notation),
    "word": judge_word,
}
