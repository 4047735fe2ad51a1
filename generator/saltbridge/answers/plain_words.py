"""The form in which words are compared: small and capital letters, spaces, hyphens and a full stop at the end don't matter.

``site/scripts/judge_word.js`` does the same.
"""

from __future__ import annotations

import re
import unicodedata

_PASSED_OVER = re.compile(
    "[\\t-\\r\\x1c-\\x20\\x85\\xa0\\xad\\u1680\\u2000-\\u200d\\u2010-\\u2015\\u2028\\u2029\\u202f\\u205f\\u2060\\u2212\\u3000\\ufeff_-]+"
)


def plain_word(text: str) -> str:
    """The word as it is compared: ``Fuel cell`` and ``fuel-cell.`` as ``fuelcell``."""
    return _PASSED_OVER.sub("", unicodedata.normalize("NFKC", text).lower()).rstrip(".")
