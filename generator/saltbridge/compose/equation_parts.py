"""Parts that ask for a balanced equation."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from saltbridge.bank.parts import BalancePart
from saltbridge.compose.choices import Made
from saltbridge.compose.context import Context
from saltbridge.compose.slots import Slots
from saltbridge.document import EquationField, Slot, Spans, Step, Text
from saltbridge.faults import fault
from saltbridge.graph.laws import Situation
from saltbridge.words import Words

LABELS = {"cell equation": "equation", "cathode half": "cathode.reduction", "anode half": "anode.oxidation"}
WORDS = {"cell equation": "equation", "cathode half": "cathode.reduction text", "anode half": "anode.oxidation text"}
DEPOSIT = "half-equation"
"""The name of the half-equation in a bath, as label and as word."""
BATH_HALF = "Write what takes or gives electrons at this electrode. Then make atoms and charge agree."
BATH = "anode.material"
"""A word that every bath of a salt has."""


def balance(part: BalancePart, situation: Situation, slots: Slots, words: Words) -> Made:
    """An equation part: the cell equation, or the half-equation at one electrode.

    Raises ``Faulty`` (code ``no-equation``) for an equation that the scenario does not have.
    """
    of_bath = DEPOSIT in situation.labels and part.balance == "cathode half" and LABELS[part.balance] not in situation.labels
    if not of_bath and LABELS[part.balance] not in situation.labels:
        raise fault("no-equation", expected="an equation that this scenario has", found=f"balance: {part.balance}")
    label, word = (DEPOSIT, DEPOSIT) if of_bath else (LABELS[part.balance], WORDS[part.balance])
    answer = _label(label, slots)

    def share(context: Context) -> Mapping[str, Any]:
        return {"right": context.situation.words[word], "slips": context.situation.wrong_equations.get(word, {})}

    shape: dict[str, Any] = {"kind": "equation", "states": False}
    slips = {slip for found in situation.wrong_equations.get(word, {}).values() for slip in found}
    if slips:
        shape["hints"] = {slip: words(situation.words[f"{slip}: hint"]) for slip in sorted(slips)}
    which = "bath half" if BATH in situation.words else part.balance
    steps = _cell_steps(slots, words) if part.balance == "cell equation" else (_half_step(which, label, slots, words),)
    hints = (steps[0].say, (Text(words("As many electrons must be given as taken.")),)) if len(steps) > 1 else ()
    return Made(EquationField(words("Your equation")), steps, (answer,), 2, shape, share, hints=hints)


def _label(name: str, slots: Slots) -> Slot:
    return slots.slot(f"label {name}", lambda context: (context.situation.labels[name],))


def _cell_steps(slots: Slots, words: Words) -> tuple[Step, ...]:
    halves: tuple[Spans, ...] = ((_label("cathode.reduction", slots),), (_label("anode.oxidation", slots),))
    factors = (slots.slot("factors of the half-equations", lambda context: _factors(context, words)),)
    return (
        Step((Text(words("Write the reduction at the cathode and the oxidation at the anode.")),), halves, {}),
        Step(factors, ((_label("equation", slots),),), {}),
    )


def _factors(context: Context, words: Words) -> Spans:
    """How many times each half-equation is taken."""
    times = {role: context.situation.given[f"nu_{role}"].printed for role in ("cathode", "anode")}
    more = {role: (context.printer.number(count),) for role, count in times.items() if count != "1"}
    if len(more) == 2:
        return words.spans(
            "Take the reduction {cathode} times and the oxidation {anode} times, so that the electrons cancel. Then add.", **more
        )
    if "cathode" in more:
        return words.spans("Take the reduction {cathode} times, so that the electrons cancel. Then add.", **more)
    if "anode" in more:
        return words.spans("Take the oxidation {anode} times, so that the electrons cancel. Then add.", **more)
    return (Text(words("As many electrons are given as taken. Add the two.")),)


def _half_step(which: str, label: str, slots: Slots, words: Words) -> Step:
    if label == DEPOSIT:
        say = "At the cathode the metal ions take electrons. Count the electrons by the charge of the ion."
    elif which == "bath half":
        say = BATH_HALF
    elif which == "cathode half":
        say = "The couple with the higher potential is reduced."
    else:
        say = "The couple with the lower potential is oxidised."
    return Step((Text(words(say)),), ((_label(label, slots),),), {})
