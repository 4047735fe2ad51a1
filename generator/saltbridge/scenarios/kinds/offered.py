"""What each kind of scenario offers, gathered once for each catalogue and each way of print."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import fault, nearest
from saltbridge.records import Settings
from saltbridge.scenarios.coded import CODED
from saltbridge.scenarios.declared_models import model_of
from saltbridge.scenarios.kinds.example_scenes import Written, examples_of, whole_scenes
from saltbridge.scenarios.kinds.kind_names import KindNames, names_of
from saltbridge.scenarios.scene import Means
from saltbridge.tables import Sheet
from saltbridge.tables import sheet as sheet_of

WIDEST_SHEET = "college"


@dataclass(frozen=True)
class Usual:
    """The means of a drawing without a bank: the sheet with most rows and the usual ways of print."""

    sheet: Sheet = field(default_factory=lambda: sheet_of(WIDEST_SHEET))
    settings: Settings = field(default_factory=lambda: Settings(sheet=WIDEST_SHEET))


@dataclass(frozen=True, slots=True)
class ScenarioKey:
    """A key that a template writes under a kind."""

    name: str
    means: str
    needed: bool


_known: dict[tuple[int, str], tuple[Catalogue, KindNames]] = {}
"""Gathered before; each holds its catalogue, so that no other can have its id."""


def kinds(catalogue: Catalogue) -> tuple[str, ...]:
    """The kinds that a template may name, in the order of their files."""
    return tuple(kind for kind, entry in catalogue.scenarios.items() if entry.draws or kind in CODED)


def kind_called(name: str, catalogue: Catalogue) -> str:
    """The kind of this name. Raises ``Faulty`` (``unknown-kind``) with the nearest and all of them."""
    known = kinds(catalogue)
    if name not in known:
        hint = f"{nearest(name, known, '`')} Known: {', '.join(known)}.".strip()
        raise fault("unknown-kind", expected="a kind of scenario", found=f"`{name}`", hint=hint)
    return name


def keys_of(kind: str, catalogue: Catalogue) -> tuple[ScenarioKey, ...]:
    """What may stand under a kind."""
    entry = catalogue.scenarios[kind]
    model = model_of(entry) if entry.draws else CODED[kind].model
    return tuple(
        ScenarioKey(field.alias or name.strip("_").replace("_", " "), field.description or "", field.is_required())
        for name, field in model.model_fields.items()
    )


def offered(kind: str, catalogue: Catalogue) -> KindNames:
    """The names of a kind by the examples of its entry alone; of a bank's own kind without examples there are none."""
    found = _known.get((id(catalogue), kind))
    if found is None:
        names = names_of(
            kind, list(whole_scenes(examples_of(kind, catalogue, sheet_of(WIDEST_SHEET)), Usual(), catalogue)), catalogue
        )
        found = _known[id(catalogue), kind] = (catalogue, names)
    return found[1]


def offered_in(kind: str, catalogue: Catalogue, means: Means, further: Sequence[Written]) -> KindNames:
    """The names of a kind in a bank: by the examples of its entry, and by what the bank's templates write under it.

    Raises ``Faulty`` (``no-example``) where there is neither.
    """
    written = (*examples_of(kind, catalogue, means.sheet), *further)
    if not written:
        hint = "Write `examples:` into its entry, a list of what may stand under it, or a template of that kind."
        raise fault("no-example", expected=f"an example of {kind} to draw", found="none", hint=hint)
    return names_of(kind, list(whole_scenes(written, means, catalogue)), catalogue)
