"""Parts that ask for a balanced equation."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from saltbridge.bank.parts import BalancePart
from saltbridge.compose.choices import Made
from saltbridge.compose.context import Context
from saltbridge.compose.slots import Slots
from saltbridge.document import EquationField, Slot, Spans, Step, Text
from saltbridge.words import Words

LABELS = {"cell equation": "equation", "cathode half": "cathode.reduction", "anode half": "anode.oxidation"}
WORDS = {"cell equation": "equation", "cathode half": "cathode.reduction text", "anode half": "anode.oxidation text"}


def balance(part: BalancePart, slots: Slots, words: Words) -> Made:
    """An equation part: the cell equation, or the half-equation at one electrode."""
    label = LABELS[part.balance]
    answer = _label(label, slots)

    def share(context: Context) -> Mapping[str, Any]:
        return {"right": context.situation.words[WORDS[part.balance]], "slips": {}}

    shape = {"kind": "equation", "states": False}
    steps = _cell_steps(slots, words) if part.balance == "cell equation" else (_half_step(part.balance, slots, words),)
    return Made(EquationField(words("Your equation")), steps, (answer,), 2, shape, share)


def _label(name: str, slots: Slots) -> Slot:
    return slots.slot(f"label {name}", lambda context: (context.situation.labels[name],))


def _cell_steps(slots: Slots, words: Words) -> tuple[Step, ...]:
    halves: tuple[Spans, ...] = ((_label("cathode.reduction", slots),), (_label("anode.oxidation", slots),))
    factors = words.spans(
        "Take the first {cathode} time(s) and the second {anode} time(s), so that as many electrons are given as taken, and add them.",
        cathode=_shown_given("nu_cathode", slots), anode=_shown_given("nu_anode", slots),
    )  # fmt: skip
    return (
        Step((Text(words("Write the reduction at the cathode and the oxidation at the anode.")),), halves, {}),
        Step(factors, ((_label("equation", slots),),), {}),
    )


def _shown_given(node: str, slots: Slots) -> Slot:
    return slots.slot(f"given {node}", lambda context: (context.printer.number(context.situation.given[node].printed),))


def _half_step(which: str, slots: Slots, words: Words) -> Step:
    say = (
        "The couple with the higher potential is reduced."
        if which == "cathode half"
        else "The couple with the lower potential is oxidised."
    )
    return Step((Text(words(say)),), ((_label(LABELS[which], slots),),), {})
