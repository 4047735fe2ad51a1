"""How a memorandum names what is chosen: by the letters and numbers that the paper prints beside the options."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from saltbridge import document as doc
from saltbridge.words import Words

Key = Mapping[str, Any]


def right_signs(field: doc.Field, key: Key) -> str:
    """The letters of what is right: ``B``, ``A, C``, for cases ``1 B, 2 A``, for a choice with its reason ``B 3``; else "".

    Letters of a figure are the answer themselves.
    """
    if key.get("signs"):
        return ""
    match field:
        case doc.ChoiceField() | doc.SeveralField():
            return ", ".join(doc.option_sign(key, at) for at in key.get("right", ()))
        case doc.ChoicesField(numbered=True):
            return ", ".join(f"{at} {doc.option_sign(row, row['right'])}" for at, row in enumerate(key.get("rows", ()), 1))
        case doc.ChoicesField():
            return f"{doc.option_sign(key, key['right'][0])} {key['reason']['right'] + 1}"
        case _:
            return ""


def shown_errors(field: doc.Field, key: Key) -> Iterator[tuple[str, list[str]]]:
    """Each wrong option that shows something, by its letter or number, with the ids of what it shows."""
    match field:
        case doc.ChoiceField():
            yield from _by_letter(key, key.get("slips", {}))
        case doc.SeveralField():
            yield from _by_letter(key, key.get("beliefs", {}))
        case doc.ChoicesField(numbered=True):
            for at, row in enumerate(key.get("rows", ()), 1):
                yield from ((f"{at} {sign}", names) for sign, names in _by_letter(row, row["slips"]))
        case doc.ChoicesField():
            yield from ((str(int(at) + 1), names) for at, names in key["reason"]["slips"].items())
        case _:
            return


def marking_rule(field: doc.Field, key: Key, words: Words) -> str:
    """What earns which marks where more than one thing is marked together; else ""."""
    match field:
        case doc.ChoicesField(numbered=False):
            return words("(the choice alone: {marks})", marks=key["worth"]["choice"])
        case doc.SeveralField():
            credit = key.get("credit", ())
            told = ", ".join(f"{right} → {credit[right]}" for right in range(len(credit) - 1, 0, -1))
            return words("(right ticks less wrong ones: {table})", table=told) if len(credit) > 2 else ""
        case _:
            return ""


def _by_letter(key: Key, slips: Mapping[str, list[str]]) -> Iterator[tuple[str, list[str]]]:
    yield from ((doc.option_sign(key, int(option)), names) for option, names in slips.items() if option.isdigit())
