"""The relations, slips and quantities that a bank works with."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from saltbridge.catalogue.catalogue import Catalogue, catalogue
from saltbridge.faults import Faulty


@lru_cache(maxsize=4)
def catalogue_of(folder: Path) -> Catalogue:
    """Relations and slips with the bank's own, or the shipped ones alone where the bank's can't be read."""
    try:
        return catalogue(folder)
    except Faulty:
        return catalogue()
