"""What rules put beside other entries: common errors beside the slips, names of what they give beside the quantities.

An error is told once with hint and source, and named by its id wherever else it happens.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from saltbridge.catalogue.catalogue_records import Quantity, Slip
from saltbridge.catalogue.entries import Entry
from saltbridge.catalogue.rules import CommonError, RuleEntry
from saltbridge.faults import nearest


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
        slip, own = slips.get(error.shows), rules[place.path.split(".")[0]]
        name = own.adds_to or own.id
        if slip is None:
            hint = nearest(error.shows, slips) or "Add its hint and source."
            place.blame("unknown-slip", "shows", expected="the id of a common error", found=error.shows, hint=hint)
        elif own.adds_to and name in slip.rules:
            hint = "Give yours an id of its own, with hint and source."
            place.blame("repeated", "shows", expected=f"an error that {name} does not have", found=error.shows, hint=hint)
        else:
            slips[error.shows] = replace(slip, rules={**slip.rules, name: error.taken})


def place_names(read: Iterable[Entry], rules: Mapping[str, RuleEntry], quantities: dict[str, Quantity]) -> None:
    """Put the names of what these rules give beside the quantities; an input that nothing is called is a fault at its line."""
    giving = [(entry, rules[entry.path]) for entry in read if rules[entry.path].gives]
    for entry, found in giving:
        known = quantities.get(found.gives)
        if found.name and known is not None and not known.word:
            entry.blame("repeated", "name", expected="a name that no quantity has", found=found.gives)
        elif found.name:
            quantities[found.gives] = Quantity(found.gives, found.name, found.name, "", "", word=True, family=found.family)
        elif known is None:
            hint = "Say in a few words what is asked, such as `what carries the charge in the wire`."
            entry.blame("missing-key", "", expected="the key name", found="none", hint=hint)
    for entry, found in giving:
        for name in found.inputs:
            if name.rpartition(".")[2] not in quantities:
                hint = nearest(name, quantities) or "Add it to quantities.yaml."
                entry.blame("unknown-quantity", "inputs", expected="a name of quantities.yaml", found=name, hint=hint)


def _errors(entry: Entry, rules: Mapping[str, RuleEntry]) -> Iterator[tuple[Entry, CommonError]]:
    return zip(entry.each("wrong"), rules[entry.path].wrong, strict=True)
