"""Faults: what is wrong in a file or a command, told so that a teacher can mend it.

A fault is data, collected while reading; a run lists all of them at once. ``Faulty`` carries them out of a stage.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

LONGEST_FOUND = 300  # characters of what was found that a message shows; what follows it must not be pushed out of sight


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing to mend.

    ``code`` is stable and kebab-case. ``file`` is relative to the bank or data folder, ``line`` counts from 1 (0: not
    known), ``key`` is a path such as ``parts[2].find``. ``hint`` says what to write instead.
    """

    code: str
    expected: str
    found: str
    hint: str = ""
    file: str = ""
    line: int = 0
    key: str = ""

    def __str__(self) -> str:
        where = ":".join(str(part) for part in (self.file, self.line) if part)
        head = ": ".join(part for part in (where, self.key) if part)
        found = self.found if len(self.found) <= LONGEST_FOUND else self.found[: LONGEST_FOUND - 1] + "…"
        body = f"expected {self.expected}; found {found}"
        tail = f". {self.hint}" if self.hint else ""
        return (f"{head}: " if head else "") + body + tail + f" [{self.code}]"

    def at(self, *, file: str = "", line: int = 0, key: str = "") -> Fault:
        """The same fault with its place filled in where it had none."""
        return replace(self, file=self.file or file, line=self.line or line, key=self.key or key)


class Faulty(Exception):
    """Raised by a stage that can't go on; ``faults`` has at least one entry."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))

    def __reduce__(self) -> tuple[type[Faulty], tuple[tuple[Fault, ...]]]:
        return (type(self), (self.faults,))


@dataclass(slots=True)
class FaultList:
    """Collects faults of one run."""

    faults: list[Fault] = field(default_factory=list)

    def add(self, code: str, *, expected: str, found: str, hint: str = "", file: str = "", line: int = 0, key: str = "") -> None:
        """Note one fault and go on."""
        self.faults.append(Fault(code, expected, found, hint, file, line, key))

    def extend(self, faults: Iterable[Fault]) -> None:
        """Take over faults found elsewhere."""
        self.faults.extend(faults)

    def stop_if_any(self) -> None:
        """Raise ``Faulty`` with all faults, in file and line order, where there are any."""
        if self.faults:
            raise Faulty(sorted(dict.fromkeys(self.faults), key=lambda fault: (fault.file, fault.line)))


def fault(code: str, *, expected: str, found: str, hint: str = "") -> Faulty:
    """A ready ``Faulty`` with one fault, to be raised where it is made."""
    return Faulty([Fault(code, expected, found, hint)])


def nearest(word: str, known: Iterable[str], mark: str = "") -> str:
    """A hint that names what an old word is called now, or the nearest known word between ``mark``s, or nothing."""
    import difflib  # noqa: PLC0415 - wanted only for a mistake

    from saltbridge.renamed import now_called  # noqa: PLC0415 - the same

    words = list(known)
    if (now := now_called(word)) and now in words:
        return f"It is now called {mark}{now}{mark}."
    folded = {each.casefold(): each for each in words}
    close = difflib.get_close_matches(word, words, 1, 0.6)
    close = close or [folded[each] for each in difflib.get_close_matches(word.casefold(), folded, 1, 0.6)]
    return f"Did you mean {mark}{close[0]}{mark}?" if close else ""
