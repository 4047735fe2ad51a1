"""Common errors at rules, put beside the slips: told once with hint and source, named by id wherever else they happen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from saltbridge.catalogue.catalogue_records import Slip
from saltbridge.catalogue.entries import Entry, nearest
from saltbridge.catalogue.rules import CommonError, RuleEntry


def place_errors(read: Iterable[Entry], rules: Mapping[str, RuleEntry], slips: dict[str, Slip]) -> None:
    """Put the common errors of these entries into ``slips``; one told twice or nowhere is a fault at its line."""
    found = [each for entry in read for each in _errors(entry, rules)]
    for place, error in found:
        if error.hint and error.shows in slips:
            hint = "Leave its hint and source out here, or give it another id."
            place.blame("repeated", "shows", expected="an error told in one place", found=f"{error.shows} twice", hint=hint)
        elif error.hint:
            slips[error.shows] = Slip(error.shows, error.hint, error.source, ())
    for place, error in found:
        slip = slips.get(error.shows)
        if slip is None:
            hint = nearest(error.shows, slips) or "Add its hint and source."
            place.blame("unknown-slip", "shows", expected="the id of a common error", found=error.shows, hint=hint)
        else:
            slips[error.shows] = replace(slip, rules={**slip.rules, place.path.split(".")[0]: error.taken})


def _errors(entry: Entry, rules: Mapping[str, RuleEntry]) -> Iterator[tuple[Entry, CommonError]]:
    return zip(entry.each("wrong"), rules[entry.path].wrong, strict=True)
