"""Standard potentials drawn: rows and their print order, a reaction, a reagent, steps, a reference."""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.faults import fault
from saltbridge.scenarios.scene import Means, Scene, Source, sheet_row
from saltbridge.scenarios.standards.standards import reagent, rebased, steps_of, table_of
from saltbridge.scenarios.standards.standards_models import (
    ReagentScenario,
    ReferenceScenario,
    StepsScenario,
    TableScenario,
)
from saltbridge.scenarios.standards.standards_words import zero_of
from saltbridge.tables import SheetRow, metals
from saltbridge.words import of_bank as words_of


def _choice(metals_named: Sequence[str] | None, couples: Sequence[str] | None) -> tuple[str, ...]:
    """The couples to draw from."""
    return tuple(metals()[symbol].couple for symbol in metals_named) if metals_named else tuple(couples or ())


def _facts(rows: Sequence[SheetRow]) -> Facts:
    usual = {metal.couple: symbol for symbol, metal in metals().items()}
    return Facts(metals=tuple(usual[row.couple] for row in rows if row.couple in usual), film_noted=True)


def _places(rows: Sequence[SheetRow]) -> tuple[str, ...]:
    return tuple(f"r{place}" for place in range(1, len(rows) + 1))


def table_scene(body: TableScenario, source: Source, means: Means, _catalogue: Catalogue) -> Scene:
    """Some rows of the sheet in the print order wanted. Raises ``Faulty`` where a couple is not on the sheet."""
    drawn = [sheet_row(means, couple) for couple in source.sample("rows", _choice(body.metals, body.couples), body.rows)]
    order = source.pick("print order", ("upward", "downward")) if body.print_order == "either" else body.print_order
    if order != "shuffled":
        drawn.sort(key=lambda row: float(row.E0), reverse=order == "downward")
    return Scene(table_of(drawn, means.sheet, words_of(means.settings)), _facts(drawn), {"rows": _places(drawn)})


def reagent_scene(body: ReagentScenario, source: Source, means: Means, _catalogue: Catalogue) -> Scene:
    """Two things and some reagents. Raises ``Faulty`` (``no-one-reagent``) where not exactly one reagent lies between."""
    rows = [sheet_row(means, couple) for couple in source.sample("couples", body.couples, body.reagents + 2)]
    low, high = sorted(rows[:2], key=lambda row: float(row.E0))
    between = [row for row in rows[2:] if float(low.E0) < float(row.E0) < float(high.E0)]
    if len(between) != 1:
        raise fault("no-one-reagent", expected="one reagent between the two", found=f"{len(between)}")
    return Scene(reagent(low, high, rows[2:], means.sheet, words_of(means.settings)), _facts(rows))


def steps_scene(body: StepsScenario, source: Source, means: Means, _catalogue: Catalogue) -> Scene:
    """One chain of two steps. Raises ``Faulty`` (``no-chain``) where they share no species."""
    first, second = (sheet_row(means, couple) for couple in source.pick("steps", body.steps))
    return Scene(steps_of(first, second, means.sheet, words_of(means.settings)), Facts())


def reference_scene(body: ReferenceScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """Some rows and a reference that is none of them. Raises ``Faulty`` as ``table_scene``."""
    zero = zero_of(source.pick("reference", body.references), means.sheet)
    choice = [couple for couple in _choice(body.metals, body.couples) if zero.row is None or couple != zero.row.couple]
    if len(choice) < body.rows:
        raise fault("reference-among-rows", expected="enough rows beside the reference", found=f"{len(choice)}")
    rows = [sheet_row(means, couple) for couple in source.sample("rows", choice, body.rows)]
    situation = rebased(zero, rows, means.sheet, catalogue, words_of(means.settings))
    return Scene(situation, _facts(rows), {"rows": _places(rows)})
