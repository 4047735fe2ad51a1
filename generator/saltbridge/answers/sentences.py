"""What a student is told, by code. The page gets these from Python: its script holds no sentence.

Every sentence says what to look at next. None blames, none cheers. Braces are filled by the page: ``{first}`` and
``{second}`` with the readings of a doubtful text, ``{part}`` with the label of the part that an answer follows from,
``{figures}``, ``{wanted}``, ``{unit}`` and ``{most}`` from the key, ``{marks}`` with those that a student gave. The page takes ``unit-none`` and ``figures-one`` where the key asks
for no unit or for one figure.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

VERDICTS: Mapping[str, str] = {
    "right": "Right.",
    "right-but": "Right, but change one thing.",
    "follows": "This follows from your answer in ({part}). Look at that one again, then come back.",
    "slip": "Not yet.",
    "slip-on-own": "Not yet. Starting from your answer in ({part}), this may have gone wrong:",
    "not-yet": "Not yet.",
    "self-marked": "By your own marking: {marks} out of {most}.",
    "unread": "This can't be read yet.",
}

WHY: Mapping[str, str] = {
    # right, but
    "unit": "Look at the unit: the answer is wanted in {unit}.",
    "unit-none": "This has no unit: give the number alone.",
    "unit-case": "Small and capital letters matter in a unit: write {unit}.",
    "figures": "Give it to {figures} significant figures.",
    "figures-one": "Give it to 1 significant figure.",
    "decimals": "Give it {wanted}.",
    "rounding": "The last digits differ a little from ours: a value rounded on the way does that, or a constant with other digits.",
    "reduce": "All numbers can be divided by the same number: give the smallest whole numbers.",
    "cancel": "The same species stands on both sides: cancel it.",
    "states": "Look at the state symbols: (s), (l), (g), (aq).",
    "counted": "Give the species alone, without a number in front.",
    "amounts": "Give each concentration and pressure in brackets after its species, as in Mg^2+(aq, 0.10 mol/L).",
    "multiple": "This fits another multiple of the equation: use the smallest whole numbers.",
    "gas-by-pressure": "A gas stands in with its pressure, as in p(N2).",
    "dissolved-by-concentration": "What is dissolved stands in with its concentration, as in [Mg^2+].",
    "standards": "Write c° or p° at every factor, or leave them out.",
    # not yet
    "sign": "Look at the sign.",
    "whole": "This must be a whole number.",
    "prefix": "The number fits another unit: the answer is wanted in {unit}.",
    "reversed": "This is the reaction the other way round.",
    "electrons-left": "Electrons are left over: both half-equations must exchange the same number, so that they cancel.",
    "atoms": "Count the atoms of each element on both sides.",
    "charge": "Add up the charges on both sides.",
    "species-differ": "Balanced, but these are not the species that react here.",
    "species-charge": "Look at the charge.",
    "species-formula": "These are the right elements. Look at how many there are of each.",
    "species-element": "The element is right. Look at the formula.",
    "diagram-reversed": "These are the half-cells with left and right changed over.",
    "bridge-missing": "There is no salt bridge between the two half-cells.",
    "electrode-left-out": "A half-cell without a metal of its own needs an electrode that takes no part.",
    "species-missing": "A species is missing in a half-cell.",
    "species-extra": "There is a species that does not belong to this cell.",
    "bar-in-phase": "A bar separates species of one phase. A comma belongs there.",
    "comma-between-phases": "A comma stands where two phases meet. A bar belongs there.",
    "electrode-outside": "The electrodes stand at the two ends.",
    "order-of-phases": "Look at the order of the phases, from the electrode to the solution beside the salt bridge.",
    "numbers": "A diagram has no numbers in front of its species.",
    "amounts-differ": "Look at the concentrations and pressures.",
    "upside-down": "This is the fraction upside down.",
    "sides": "Products stand above the line, reactants below.",
    "powers": "Look at the powers: each is the coefficient in the equation.",
    "number-as-factor": "A coefficient becomes a power, not a number in front.",
    "plus-for-times": "Concentrations are multiplied, not added.",
    "solids-in": "Solids, pure liquids and water are left out.",
    "electrons-in": "Electrons are left out.",
    "factor-missing": "A species of the equation is missing.",
    "factor-extra": "There is a species that does not belong in this expression.",
    "some-right": "Some of your choices are right.",
    "cells-right": "{right} of {count} cells are right.",
    "rows-right": "{right} of {count} rows are right.",
    "cells-empty": "Some cells are still empty.",
    "near": "Look again: {first}",
    "other-way-round": "This is the order the other way round.",
    "two-neighbours": "Two neighbouring entries are in the wrong order.",
    "neighbours": "Look at numbers {first} and {second}: they stand the wrong way round.",
    "case-again": "Right so far: {second}. Look at number {first} again.",
    "choice-again": "The reason is right. Look at your choice again: does it follow from this reason?",
    "reason-again": "Your choice is right, but this is not the reason.",
    "both-again": "Look again at the choice and at the reason.",
    "some-missing": "What you ticked is right, but something is missing.",
    "some-strange": "Nothing is missing, but not everything that you ticked belongs here.",
    "earns": "So far this earns {first} of {second} marks.",
    # can't be read
    "empty": "Give an answer first.",
    "every-case": "Choose one for each of them first.",
    "both-tiers": "Choose an answer and a reason first.",
    "none-and-more": "You ticked that none fits, and others too. Take one or the other.",
    "too-long": "This answer is too long to read.",
    "no-tick": "Show the points, and tick what your answer has.",
    "not-a-number": "Write a number such as 1.10 or 1.8×10^-3, and its unit after it if you like.",
    "ambiguous": "This could be {first} or {second}. Write it without a separator for thousands.",
    "two-marks": "There is more than one decimal mark. Write large numbers without a separator for thousands.",
    "spaces": "Leave out the spaces inside the number, or group its digits in threes.",
    "power": "Write the exponent after ^, as in 10^3 or 10^-3.",
    "too-far": "This number is too large or too small to work with.",
    "arrow": "Write two sides with one arrow between: Zn + 2Ag^+ -> Zn^2+ + 2Ag.",
    "species": "“{first}” can't be read. Write elements as in Zn, charges as in Zn^2+, an electron as e-, state symbols as in (aq).",
    "character": "There is a sign that does not belong in an equation. Write it as in Zn + 2Ag^+ -> Zn^2+ + 2Ag.",
    "element-case": "“{first}” can't be read: an element has one capital letter. Write {second}.",
    "state-case": "“{first}” can't be read: state symbols are small. Write {second}.",
    "roman": "“{first}” names an oxidation number. Write the ion with its charge, as in {second}.",
    "charge-unclear": "This could be {first} or {second}. Write the charge after the sign ^.",
    "spaces-round-plus": "Leave a space on both sides of the + between two species.",
    "species-character": "There is a sign that does not belong in a formula. Write it as in Mg^2+.",
    "diagram-character": "There is a sign that does not belong in a cell diagram. Write it as in Mg | Mg^2+ || Sn^2+ | Sn.",
    "diagram-bridges": "Write two half-cells with one salt bridge || between, as in Mg | Mg^2+ || Sn^2+ | Sn.",
    "diagram-gap": "Something is missing beside a bar or a comma.",
    "amount": "“{first}” can't be read as a concentration or pressure. Write it as in Mg^2+(aq, 0.10 mol/L).",
    "expression": "“{first}” can't be read. Write factors as in [Mg^2+]^2 or p(N2), and one line / between above and below.",
    "expression-character": "There is a sign that does not belong in an expression. Write it as in [Mg^2+]/[Sn^2+].",
    "below-unclear": "It is not clear what stands below the line: put all of it in brackets.",
    "power-sign": "Write a power after ^, as in [Mg^2+]^2.",
    "whole-numbers": "Use whole numbers: multiply the whole equation.",
}


def page_sentences(words: Callable[[str], str] = str) -> dict[str, dict[str, str]]:
    """All sentences in the page's language, by code: ``{"verdict": {…}, "why": {…}}``."""
    return {
        "verdict": {code: words(sentence) for code, sentence in VERDICTS.items()},
        "why": {code: words(sentence) for code, sentence in WHY.items()},
    }
