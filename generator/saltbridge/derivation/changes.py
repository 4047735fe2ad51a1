"""What a change to a working cell does to its potential: rule data with its reason.

Each change says whether Q grows or shrinks, whether there are more ions or fewer, and whether something gets larger; the last
two only tell wrong ideas apart. Source of the directions: the Nernst equation (IUPAC Green Book, 3rd edition, section 2.13,
from memory); that size changes nothing: OpenStax Chemistry 2e, section 17.4 (no area and no volume in it).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.laws import Given, Rule, Situation
from saltbridge.faults import fault
from saltbridge.tables import Sheet

USED_LESS = "The ions at the cathode are used up by the cell. Fewer of them make Q larger, so the potential falls."
USED_MORE = "The ions at the cathode are used up by the cell. More of them make Q smaller, so the potential rises."
MADE_LESS = "The ions at the anode are made by the cell. Fewer of them make Q smaller, so the potential rises."
MADE_MORE = "The ions at the anode are made by the cell. More of them make Q larger, so the potential falls."
ONLY_SIZE = "Neither the area nor the volume stands in Q. The concentrations stay, so the potential stays."

DILUTE_CATHODE = "the solution at the cathode is diluted with water"
DILUTE_ANODE = "the solution at the anode is diluted with water"
ADD_CATHODE = "more of the same salt is dissolved in the solution at the cathode"
ADD_ANODE = "more of the same salt is dissolved in the solution at the anode"
PRECIPITATE_CATHODE = "{precipitant} is added to the solution at the cathode, and a precipitate forms"
PRECIPITATE_ANODE = "{precipitant} is added to the solution at the anode, and a precipitate forms"
LARGER_PLATES = "both electrodes are replaced by larger ones"
MORE_SOLUTION = "twice as much of the same solutions is used"

DIRECTIONS = ("rises", "falls", "stays")


@dataclass(frozen=True, slots=True)
class Change:
    """A change in words, its effects on Q, on the ions and on the size (1 more, -1 less, 0 none), and the reason.

    ``at`` is the electrode whose ions it touches, "" for none.
    """

    text: str
    on_Q: int
    on_ions: int
    on_size: int
    why: str
    at: str = ""


CHANGES: Mapping[str, Change] = {
    "dilute the cathode": Change(DILUTE_CATHODE, 1, -1, 0, USED_LESS, "cathode"),
    "dilute the anode": Change(DILUTE_ANODE, -1, -1, 0, MADE_LESS, "anode"),
    "add salt at the cathode": Change(ADD_CATHODE, -1, 1, 0, USED_MORE, "cathode"),
    "add salt at the anode": Change(ADD_ANODE, 1, 1, 0, MADE_MORE, "anode"),
    "precipitate at the cathode": Change(PRECIPITATE_CATHODE, 1, -1, 0, USED_LESS, "cathode"),
    "precipitate at the anode": Change(PRECIPITATE_ANODE, -1, -1, 0, MADE_LESS, "anode"),
    "larger plates": Change(LARGER_PLATES, 0, 0, 1, ONLY_SIZE),
    "more solution": Change(MORE_SOLUTION, 0, 0, 1, ONLY_SIZE),
}
"""The changes by the words that a teacher writes."""


def add_change(situation: Situation, name: str) -> Change:
    """The direction that a change gives the potential; raises ``Faulty`` (code ``unknown-change``) for another word."""
    if name not in CHANGES:
        raise fault("unknown-change", expected=f"one of: {', '.join(CHANGES)}", found=name)
    change = CHANGES[name]
    effects = {"effect_on_quotient": change.on_Q, "effect_on_ions": change.on_ions, "effect_on_size": change.on_size}
    for node, effect in effects.items():
        situation.given[node] = Given(float(effect), "", str(effect))
    situation.laws.append(Rule("direction", "against", tuple(effects), change.why, keys=DIRECTIONS, slips_as="direction"))
    situation.words["change"] = situation.say(change.text)
    return change


def add_change_word(situation: Situation, words: Mapping[str, str], _sheet: Sheet, _catalogue: Catalogue) -> None:
    """A change told at the command line."""
    add_change(situation, words["cell_change"])
