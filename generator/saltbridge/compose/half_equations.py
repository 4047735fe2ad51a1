"""Parts that ask for a redox equation or a half-equation, worked by half-reactions and judged with its usual wrong forms."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from saltbridge.bank.parts import BalancePart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.compose.choices import Made
from saltbridge.compose.context import Context
from saltbridge.compose.mathset import MathSetter
from saltbridge.compose.workings import working
from saltbridge.document import EquationField, Text
from saltbridge.draw.drawn import Drawn
from saltbridge.graph.walk import walk
from saltbridge.scenarios.redox.redox import BALANCED, WRONG
from saltbridge.words import Words

FIRST = "Write what changes on both sides, and balance every element but oxygen and hydrogen."
THEN = "Oxygen is balanced with water, hydrogen with hydrogen ions, and the charge with electrons at the end."
LAST = "As many electrons must be given as taken."


def applies(part: BalancePart, drawn: Drawn) -> bool:
    """Whether the scenario derives this equation from half-equations."""
    return part.balance in BALANCED and BALANCED[part.balance].node in drawn.graph.index


def balance(
    part: BalancePart, drawn: Drawn, setter: MathSetter, catalogue: Catalogue, words: Words, known: frozenset[str]
) -> Made:
    """An equation part with its steps and the slips that each wrong equation shows."""
    node, word = BALANCED[part.balance]
    steps = walk(drawn.graph, node, known)
    answer = setter.slots.slot(f"label {word}", lambda context: (context.situation.labels[word],))

    def share(context: Context) -> Mapping[str, Any]:
        return {"right": context.situation.words[word], "slips": context.situation.wrong_equations.get(word, {})}

    told = [words(FIRST), words(THEN), words(LAST)]
    hints = {slip: words(catalogue.slips[slip].hint) for slip in WRONG if slip in catalogue.slips}
    shape = {"kind": "equation", "states": False, "hints": hints}
    shown = working(steps, setter, drawn.situation, words, {})
    return Made(
        EquationField(words("Your equation")), shown, (answer,), 2, shape, share, node, (), tuple((Text(each),) for each in told)
    )
