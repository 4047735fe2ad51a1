"""What a change to a working cell does to its potential: rule data with its reason.

Each change says whether Q grows or shrinks, whether there are more ions or fewer, and whether something gets larger; the last
two only tell wrong ideas apart. Source of the directions: the Nernst equation (IUPAC Green Book, 3rd edition, section 2.13,
from memory); that size changes nothing: OpenStax Chemistry 2e, section 17.4 (no area and no volume in it).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Rule, Situation
from saltbridge.tables import Sheet

ACTIONS: Mapping[str, str] = {
    "dilute the cathode": "the solution at the cathode is diluted with water",
    "dilute the anode": "the solution at the anode is diluted with water",
    "add salt at the cathode": "more of the same salt is dissolved in the solution at the cathode",
    "add salt at the anode": "more of the same salt is dissolved in the solution at the anode",
    "precipitate at the cathode": "{precipitant} is added to the solution at the cathode, and a precipitate forms",
    "precipitate at the anode": "{precipitant} is added to the solution at the anode, and a precipitate forms",
    "larger plates": "both electrodes are replaced by larger ones",
    "more solution": "twice as much of the same solutions is used",
}
"""What is done, by the words that a teacher writes."""

DIRECTIONS = ("rises", "falls", "stays")


@dataclass(frozen=True, slots=True)
class Change:
    """A change: its effects on Q, on the ions and on the size (1 more, -1 less, 0 none), and the rule that tells the direction.

    ``at`` is the electrode whose ions it touches, "" for none.
    """

    on_Q: int
    on_ions: int
    on_size: int
    rule: str
    at: str = ""


CHANGES: Mapping[str, Change] = {
    "dilute the cathode": Change(1, -1, 0, "fewer-ions-used", "cathode"),
    "dilute the anode": Change(-1, -1, 0, "fewer-ions-made", "anode"),
    "add salt at the cathode": Change(-1, 1, 0, "more-ions-used", "cathode"),
    "add salt at the anode": Change(1, 1, 0, "more-ions-made", "anode"),
    "precipitate at the cathode": Change(1, -1, 0, "fewer-ions-used", "cathode"),
    "precipitate at the anode": Change(-1, -1, 0, "fewer-ions-made", "anode"),
    "larger plates": Change(0, 0, 1, "only-the-size"),
    "more solution": Change(0, 0, 1, "only-the-size"),
}
"""The effects of the changes, by the same words."""


def add_change(situation: Situation, name: str) -> Change:
    """The direction that a change gives the potential; raises ``Faulty`` (code ``unknown-change``) for another word."""
    if name not in CHANGES:
        raise fault("unknown-change", expected=f"one of: {', '.join(CHANGES)}", found=name)
    change = CHANGES[name]
    effects = {"effect_on_quotient": change.on_Q, "effect_on_ions": change.on_ions, "effect_on_size": change.on_size}
    for node, effect in effects.items():
        situation.given[node] = Given(float(effect), "", str(effect))
    situation.laws.append(Rule("direction", change.rule, tuple(effects), keys=DIRECTIONS))
    situation.words["change"] = situation.say(ACTIONS[name])
    return change


def add_change_word(situation: Situation, words: Mapping[str, str], _sheet: Sheet, _catalogue: Catalogue) -> None:
    """A change told at the command line."""
    add_change(situation, words["cell_change"])
