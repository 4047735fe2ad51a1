"""What a bank's own entries must keep to besides their form: names of their own, and not too many of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from saltbridge.catalogue.entries import Entry
from saltbridge.faults import Fault, Faulty

MOST_ENTRIES = 2_000  # of all kinds together; the shipped catalogue has about 900

Record = TypeVar("Record")


class OwnEntries:
    """Counts the entries of a catalogue and keeps a bank from redefining ours; ``bank`` is false while ours are read."""

    def __init__(self, *, bank: bool) -> None:
        self.bank, self.count = bank, 0

    def strictly(self, read: Callable[[Entry], Record], ours: Mapping[str, object]) -> Callable[[Entry], Record]:
        """``read``, after the entry is counted and its name held against ``ours``.

        The reader raises ``Faulty`` at the first entry past ``MOST_ENTRIES``, before more time is spent.
        """
        return lambda entry: self._read(entry, read, ours)

    def _read(self, entry: Entry, read: Callable[[Entry], Record], ours: Mapping[str, object]) -> Record:
        self.count += self.bank
        if self.count > MOST_ENTRIES:
            hint = "Make it two banks."
            raise Faulty(
                [Fault("too-many-entries", f"at most {MOST_ENTRIES} entries in a bank", "more", hint, entry.file, entry.line)]
            )
        if self.bank and entry.path in ours:
            hint = "Every question reads ours. Give yours a name of its own."
            entry.blame("redefined", "", expected="a name that saltbridge does not use", found=entry.path, hint=hint)
        return read(entry)
