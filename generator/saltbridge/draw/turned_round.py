"""A question turned round: what it asks for is taken out of what is known."""

from __future__ import annotations

from saltbridge.graph.laws import Balance, Given, Law, Rule, Situation
from saltbridge.graph.node_names import ROLES


def forget(situation: Situation, name: str) -> None:
    """Take out of a situation what a question asks for: the given itself, or the sheet's row behind a role's potential.

    Where the potentials can then no longer be compared, the roles of the electrodes are told.
    """
    for node in [node for node in situation.given if node == name or node.startswith(f"{name}:")]:
        del situation.given[node]
    situation.laws = [law for law in situation.laws if not (isinstance(law, Balance) and law.node == name)]
    symbol, _, role = name.rpartition("_")
    side = situation.words.get(f"{role}.side") if role in ROLES else None
    if side is None or f"{side}.{symbol}" not in situation.given:
        return
    del situation.given[f"{side}.{symbol}"]
    for each in ROLES:
        situation.given[each] = Given(situation.words[f"{each}.side"], "", situation.words[f"{each}.side"])
    situation.laws = [_settled(law, situation) for law in situation.laws if not (isinstance(law, Rule) and law.node in ROLES)]


def _settled(law: Law, situation: Situation) -> Law:
    """A pick between sides that are told is simply the one of its side."""
    if isinstance(law, Rule) and law.rule == "pick":
        side = situation.words[f"{law.inputs[0]}.side"]
        return Rule(law.node, "same", (law.inputs[1 + law.keys.index(side)],))
    return law
