"""How many different variants a template has: counted among the draws, and estimated beyond them."""

from __future__ import annotations

import hashlib
from collections import Counter
from dataclasses import dataclass

from saltbridge.bank.cases_part import CasesPart
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.draw.drawn_tables import arrangements
from saltbridge.draw.drawn_words import told_in_words
from saltbridge.render.text import answer_text


def content(seen: Seen) -> bytes:
    """What tells a variant from others: every given number, name, drawn word and drawn idea, as eight bytes."""
    situation = seen.drawn.situation
    parts = [f"{node}={given.printed}" for node, given in situation.given.items()]
    parts += [f"{name}={text}" for table in (situation.words, seen.drawn.extra) for name, text in table.items()]
    parts += [f"part {at}={'; '.join(told_in_words(part, seen.drawn))}" for at, part in enumerate(seen.template.parts)]
    parts += [f"table {at}={each}" for at, each in enumerate(arrangements(seen.template, seen.drawn))]
    parts += [f"wrong step {at}={found.name}" for at, (_, found) in seen.wrong.items()]
    return hashlib.blake2b("\n".join(sorted(parts)).encode(), digest_size=8).digest()


def answers(seen: Seen) -> bytes:
    """The key of a variant, every answer as it is printed, as eight bytes: stories and sides that leave it alone don't count.

    Of a case the case itself counts: whoever copies its option has still to find it.
    """
    keyed = [answer_text(part, seen.variant.slots) for part in seen.question.parts]
    keyed += [text for part in seen.template.parts if isinstance(part, CasesPart) for text in told_in_words(part, seen.drawn)]
    return hashlib.blake2b("\n".join(keyed).encode(), digest_size=8).digest()


@dataclass(frozen=True, slots=True)
class Distinct:
    """``met`` different variants among ``draws``; ``estimate`` in all, which is only a lower bound where ``open_ended``."""

    draws: int
    met: int
    estimate: int
    open_ended: bool


def distinct(counts: Counter[bytes]) -> Distinct:
    """Estimate by Chao's lower bound from what was met once and twice (A. Chao, Scand. J. Statist. 11 (1984) 265, from memory)."""
    draws, met = sum(counts.values()), len(counts)
    once = sum(1 for times in counts.values() if times == 1)
    twice = sum(1 for times in counts.values() if times == 2)
    unseen = once * once / (2 * twice) if twice else once * (once - 1) / 2
    return Distinct(draws, met, met + round(unseen), open_ended=once == draws or (once > 0 and not twice))
