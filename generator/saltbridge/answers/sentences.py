"""What a student is told, by code. The page gets these from Python: its script holds no sentence.

Every sentence says what to look at next. None blames, none cheers. Braces are filled by the page: ``{first}`` and
``{second}`` with the readings of a doubtful text, ``{figures}``, ``{decimals}`` and ``{unit}`` from the key. The page takes
``unit-none``, ``figures-one`` and ``decimals-one`` where the key asks for no unit or for one figure or place.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

VERDICTS: Mapping[str, str] = {
    "right": "Right.",
    "right-but": "Right, with one thing to mend.",
    "follows": "This follows from your earlier answer. Look at that one again, then come back.",
    "slip": "Not yet.",
    "slip-on-own": "Not yet. From your earlier answer on, this may have happened:",
    "not-yet": "Not yet.",
    "unread": "This can't be read yet.",
}

WHY: Mapping[str, str] = {
    # right, but
    "unit": "Look at the unit: the answer is wanted in {unit}.",
    "unit-none": "This has no unit: give the number alone.",
    "unit-case": "Small and capital letters matter in a unit: write {unit}.",
    "figures": "Give it to {figures} significant figures.",
    "figures-one": "Give it to 1 significant figure.",
    "decimals": "Give it to {decimals} decimal places.",
    "decimals-one": "Give it to 1 decimal place.",
    "rounding": "The last digits have drifted: keep all digits until the end, then round once.",
    "reduce": "All numbers can be divided by the same number: give the smallest whole numbers.",
    "cancel": "The same species stands on both sides: cancel it.",
    "states": "Look at the state symbols: (s), (l), (g), (aq).",
    # not yet
    "sign": "Look at the sign.",
    "prefix": "The number fits another unit: the answer is wanted in {unit}.",
    "reversed": "This is the reaction the other way round.",
    "electrons-left": "Electrons are left over: both half-equations must exchange the same number, so that they cancel.",
    "atoms": "Count the atoms of each element on both sides.",
    "charge": "Add up the charges on both sides.",
    "species-differ": "It is balanced, but other species take part.",
    "some-right": "Some of the chosen ones are right.",
    "other-way-round": "This is the order the other way round.",
    "two-neighbours": "Two neighbours have changed places.",
    # can't be read
    "empty": "Give an answer first.",
    "too-long": "This is longer than an answer can be.",
    "not-a-number": "Write a number such as 1.10 or 1.8×10^-3, and its unit after it if you like.",
    "ambiguous": "This could be {first} or {second}. Write it without a separator for thousands.",
    "two-marks": "There is more than one decimal mark. Write large numbers without a separator for thousands.",
    "spaces": "Leave out the spaces inside the number, or group its digits in threes.",
    "power": "Write the power of ten with its level: 10^3 or 10^-3.",
    "too-far": "This number is too large or too small to work with.",
    "arrow": "Write two sides with one arrow between: Zn + 2Ag^+ -> Zn^2+ + 2Ag.",
    "species": "One of the formulas can't be read. Write elements as in Zn, charges as in Zn^2+, an electron as e-, phases as in (aq).",
    "charge-unclear": "This could be {first} or {second}. Write the charge after the sign ^.",
    "spaces-round-plus": "Leave a space on both sides of the + between two species.",
    "whole-numbers": "Use whole numbers: multiply the whole equation.",
}


def page_sentences(words: Callable[[str], str] = str) -> dict[str, dict[str, str]]:
    """All sentences in the page's language, by code: ``{"verdict": {…}, "why": {…}}``."""
    return {
        "verdict": {code: words(sentence) for code, sentence in VERDICTS.items()},
        "why": {code: words(sentence) for code, sentence in WHY.items()},
    }
