"""Which letters of a quantity's symbol slant: the quantity does, what is done with it (lg, Δ, d) and brackets stand upright."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from saltbridge.document.inline import Symbol

_UPRIGHT = re.compile(r"(lg |[ΔΣ]+|\bd(?=[A-Z])|\([^()]*\)|/)")


class Letters(NamedTuple):
    """A run of letters that all slant or all stand upright."""

    text: str
    italic: bool


@lru_cache(maxsize=1024)
def letters(symbol: Symbol) -> tuple[Letters, ...]:
    """The runs of a symbol's base: ``lg K`` is an upright lg and a slanted K (IUPAC Green Book, 3rd edition, 1.3 and 1.6)."""
    if not symbol.italic:
        return (Letters(symbol.base, italic=False),)
    runs = enumerate(_UPRIGHT.split(symbol.base))
    return tuple(Letters(text, italic=place % 2 == 0) for place, text in runs if text)
