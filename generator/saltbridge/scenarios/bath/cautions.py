"""What must be said wherever a student could act on a question of electrolysis: the usual cautions, local rules first."""

from __future__ import annotations

from saltbridge.graph.laws import Situation
from saltbridge.scenarios.bath.bath_products import Bath
from saltbridge.tables import metals

PLAIN = "Only at school, with eye protection and a low-voltage supply; the rules of your school come first."
MELT = "A melt is shown by the teacher only, behind a screen and in a fume cupboard. The rules of your school come first."
TOXIC = "Salts of this metal are toxic: only where your teacher allows them, with gloves. The rules of your school come first."
GAS = "A gas may form that is toxic or burns: only at school, in small amounts, in a fume cupboard, and never at home. The rules of your school come first."


def caution_of(bath: Bath) -> str:
    """The sentence for a salt's bath, from the salt and the worst that could form, never from what does form (common practice, no source)."""
    if bath.molten:
        return MELT
    ions = {metal.ion: metal for metal in metals().values()}
    touched = (ions.get(bath.salt.cation), metals().get(bath.anode))
    return TOXIC if any(metal is not None and metal.toxic for metal in touched) else GAS


def caution_of_metal(symbol: str) -> str:
    """The sentence for a bath of one metal."""
    metal = metals().get(symbol)
    return TOXIC if metal is not None and metal.toxic else PLAIN


def add_caution(situation: Situation, sentence: str) -> None:
    """Let a template print it as ``caution``."""
    situation.words["caution"] = sentence
