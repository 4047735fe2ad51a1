"""A scene of a scenario from data: what a question draws of it, and the conditions that its draws must keep."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.graph.laws import Given, Situation
from saltbridge.scenarios.declared_draws import Drawing, drawing_of
from saltbridge.scenarios.declared_models import Declared
from saltbridge.scenarios.declared_situation import build, numbered
from saltbridge.scenarios.scene import Means, Scene, Source
from saltbridge.scenarios.situations import add_given
from saltbridge.scenarios.things import Making
from saltbridge.scenarios.transfer import Ways
from saltbridge.tables import Sheet, metals
from saltbridge.units import convert
from saltbridge.words import of_bank as words_of


def declared_scene(body: Declared, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A scene of an entry. Raises ``Faulty`` where a draw is impossible or does not keep the entry's conditions."""
    entry = body.entry
    drawing = drawing_of(body, source)
    situation = Situation(say=words_of(means.settings))
    _read(entry, drawing, situation, means.sheet)
    for name, quantity in drawing.quantities.items():
        add_given(situation, catalogue, name, quantity.printed, quantity.unit)
    for name, count in drawing.counts.items():
        situation.given[name] = Given(float(count), "", str(count))
    settings = means.settings
    ways = Ways(situation.say, settings.decimal_mark, settings.concentration_unit, settings.unit_style)
    build(entry, Making(situation, means.sheet, catalogue, drawing.picked, ways))
    situation.shape = (*situation.shape, *(f"{count} {stem}" for stem, count in drawing.numbered.items()))
    lists = {name: numbered(stem, drawing.picked) for name, stem in entry.lists.items()}
    return Scene(situation, _facts(entry, drawing), lists)


def _read(entry: ScenarioEntry, drawing: Drawing, situation: Situation, sheet: Sheet) -> None:
    """The constants of the sheet, but what is drawn."""
    for symbol in entry.reads:
        if symbol not in drawing.quantities:
            constant = sheet.constants[symbol]
            situation.given[symbol] = Given(float(constant.printed), constant.unit, constant.printed, "read", sheet.title)


def _facts(entry: ScenarioEntry, drawing: Drawing) -> Facts:
    """What the realism rules look at."""
    inner = drawing.quantities.get("R_int")
    usual = {metal.couple: symbol for symbol, metal in metals().items()}
    symbols = (usual.get(word, word) for word in drawing.looked_at)
    return Facts(
        metals=tuple(symbol for symbol in symbols if symbol in metals()),
        concentrations=tuple(
            float(convert(each.printed, each.unit, "mol/L")) for name, each in drawing.quantities.items() if name.startswith("c_")
        ),
        cell_resistance=float(convert(inner.printed, inner.unit, "ohm")) if inner else None,
        film_noted=entry.film_noted,
    )
