"""The page for the metals practical from a bank: its metals with their places in the data sheet."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.bank.bank import Bank
from saltbridge.render.pages import BenchMetal, Frame
from saltbridge.render.pages import bench_page as written
from saltbridge.tables.benches import bands, safety
from saltbridge.tables.substances import metals
from saltbridge.words import Words, of_bank

_SAID = ("general", "edges", "waste", "rules")
_MILLI = 1000


def bench_page(bank: Bank, frame: Frame) -> str:
    """The page in the bank's language. Metals that a school must allow first are not on it."""
    words = of_bank(bank.settings)
    shown = [_metal(symbol, bank, words) for symbol in bands() if not metals()[symbol].needs_enabling]
    return written(shown, [words(safety()[each].line) for each in _SAID], frame, words)


def _metal(symbol: str, bank: Bank, words: Words) -> BenchMetal:
    row = bank.sheet.row(metals()[symbol].couple)
    return BenchMetal(symbol, words(metals()[symbol].name), round(Decimal(row.E0) * _MILLI) if row else None)
