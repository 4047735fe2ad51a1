"""A bank that is being written: what can be made of it now, the last good page of what can't, and a stamp that tells when to look again."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from threading import RLock

from saltbridge.bank.bank import Bank, survey_bank
from saltbridge.bank.part_of_bank import concerns
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.failures import failed
from saltbridge.deliver.proof.locate_fault import placed
from saltbridge.faults import Fault, Faulty
from saltbridge.preview.made_template import Made, make
from saltbridge.records import Settings
from saltbridge.render.typst import PaperWriter
from saltbridge.words import of_bank as words_of


@dataclass
class _Entry:
    """What is kept of one template: the last that could be made, and the faults of the one that stands there now."""

    made: Made | None = None
    faults: tuple[Fault, ...] = ()
    stale: bool = True
    stamp: int = 0


@dataclass(frozen=True, slots=True)
class Shown:
    """A template to be shown: what could be made of it last, and what is wrong with it now. ``made`` may be older than its faults."""

    id: str
    file: str
    made: Made | None
    faults: tuple[Fault, ...]


@dataclass
class WatchedBank:
    """The bank in ``folder``. Raises ``Faulty`` at first where there is no bank; later that is a fault like others."""

    folder: Path
    bank: Bank = field(init=False)
    faults: tuple[Fault, ...] = field(init=False)
    _writer: PaperWriter = field(init=False)
    _settings: Settings | None = None
    _entries: dict[str, _Entry] = field(default_factory=dict)
    _changes: int = 0
    _lock: RLock = field(default_factory=RLock)
    _begun: str = field(default_factory=lambda: f"{time.time_ns():x}")

    def __post_init__(self) -> None:
        self.folder = self.folder.resolve()
        self._read()

    # -------------------------------------------------------------- what has changed

    def saved(self, paths: Iterable[Path]) -> None:
        """Look at the bank again after files were saved, taken away or added: only these templates, or all where it was something else."""
        touched = {found for path in paths if (found := concerns(path, self.folder)) is not None}
        if not touched:
            return
        with self._lock:
            try:
                self._read()
            except Faulty as error:
                self.faults = error.faults
            except Exception as error:  # noqa: BLE001 - a file that vanishes while it is read must not end the preview
                self.faults = (Fault("unreadable", "files that can be read", str(error) or type(error).__name__),)
            for name, entry in self._entries.items():
                if "" in touched or name in touched:
                    entry.stale, entry.stamp = True, self._changes + 1
            self._changes += 1  # last, so that whoever sees it finds all that was read

    def _read(self) -> None:
        catalogue_of.cache_clear()
        self.bank, self.faults = survey_bank(self.folder)
        if self._settings != self.bank.settings:
            self._settings, self._writer = self.bank.settings, PaperWriter(self.bank.settings, words_of(self.bank.settings))
        for name in self.ids():
            self._entries.setdefault(name, _Entry(stamp=self._changes))

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Keep others from making anything meanwhile: the compiler of papers does one thing at a time."""
        with self._lock:
            yield

    # -------------------------------------------------------------- what is looked at

    def stamp(self, template: str = "") -> str:
        """Changes when the template is to be looked at again, or, without one, when anything is. Waits for nothing."""
        entry = self._entries.get(template)
        return f"{self._begun}-{entry.stamp if entry else self._changes}"

    def ids(self) -> tuple[str, ...]:
        """Every template that the bank has, those that can't be read too, by id."""
        unread = (each.file for each in self.faults if concerns(self.folder / each.file, self.folder))
        return tuple(sorted({*(each.id for each in self.bank.templates), *(PurePosixPath(file).stem for file in unread)}))

    def of_bank(self) -> tuple[Fault, ...]:
        """The faults of no single template: those of settings, sheet and own data."""
        return tuple(each for each in self.faults if not concerns(self.folder / each.file, self.folder))

    def of_template(self, name: str) -> tuple[Fault, ...]:
        """The faults of a template's file, as far as they show without drawing."""
        return tuple(each for each in self.faults if each not in self.of_bank() and PurePosixPath(each.file).stem == name)

    def shown(self, name: str) -> Shown | None:
        """The template as it stands now, made where it was saved since it was made last; ``None`` where there is none of that id."""
        with self._lock:
            entry = self._entries.get(name)
            if entry is None:
                return None
            if entry.stale:
                entry.stale = False
                entry.faults = self._made_again(name, entry)
            file = entry.made.template.file if entry.made else next((each.file for each in entry.faults if each.file), name)
            return Shown(name, file, entry.made, entry.faults)

    def _made_again(self, name: str, entry: _Entry) -> tuple[Fault, ...]:
        """Make the template anew; where it can't be, the last good one stays and its faults are handed back."""
        template = self.bank.template(name)
        if template is None:
            return self.of_template(name) or (Fault("no-file", f"a template {name}.yaml", "none any more"),)
        try:
            entry.made = make(self.bank, template, self._writer)
        except Faulty as error:
            return tuple(placed(template, each) for each in error.faults)
        except Exception as error:  # noqa: BLE001 - the author mends it and saves again
            return (failed(template, "no versions of it", error),)
        return ()
