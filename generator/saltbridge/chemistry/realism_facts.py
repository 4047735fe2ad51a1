"""The plain facts of a draw that the realism rules look at."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Facts:
    """What a rule may look at; leave out what a question does not have.

    ``metals`` are symbols of metal electrodes. ``concentrations`` in mol/L, ``E0`` and ``E`` in V, ``current`` in A, ``time`` in s,
    ``mass`` in g, ``titre`` in cm³, ``cell_resistance`` in ohm. ``film_noted``: the question tells of the film on a metal, ``acid_noted`` of a solution that is acidified.
    ``own_ions``: each metal stands in a solution of its own ions, which one salt paper under all of them is not.
    ``salt``, ``state`` (molten or aqueous) and ``electrodes`` tell a bath, ``renewed`` that its anode keeps it up; ``values`` are
    all numbers of the draw by name, in the coherent units of quantities.yaml.
    """

    metals: tuple[str, ...] = ()
    bridge: str | None = None
    concentrations: tuple[float, ...] = ()
    E0: float | None = None
    E: float | None = None
    n: int | None = None
    current: float | None = None
    time: float | None = None
    mass: float | None = None
    bench: bool = False
    own_ions: bool = True
    enabled: frozenset[str] = frozenset()
    told: frozenset[str] | None = None
    practical: bool = False
    cell_resistance: float | None = None
    film_noted: bool = False
    acid_noted: bool = False
    salt: str = ""
    state: str = ""
    electrodes: str = ""
    renewed: bool = False
    values: Mapping[str, float] = field(default_factory=dict)
    titre: float | None = None
    fractions: tuple[float, ...] = ()
