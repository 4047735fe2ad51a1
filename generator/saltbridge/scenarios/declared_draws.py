"""What a template's keys draw, each value under the name that its entry states."""

from __future__ import annotations

from dataclasses import dataclass, field

from saltbridge.catalogue.scenario_records import DrawnKey
from saltbridge.scenarios.declared_models import Declared
from saltbridge.scenarios.scene import Source, pick_quantity, sample_quantities
from saltbridge.tables import metals
from saltbridge.units import Quantity, convert

EITHER = "either"
"""The word of a key that leaves it to the draw which of its other words counts."""


@dataclass
class Drawing:
    """Words by name, how many follow each stem, quantities, whole numbers, and the words that the realism rules look at."""

    picked: dict[str, str] = field(default_factory=dict)
    numbered: dict[str, int] = field(default_factory=dict)
    quantities: dict[str, Quantity] = field(default_factory=dict)
    counts: dict[str, int] = field(default_factory=dict)
    looked_at: list[str] = field(default_factory=list)


def drawing_of(body: Declared, source: Source) -> Drawing:
    """One draw of every key that is there."""
    drawing = Drawing()
    for key in body.entry.draws:
        value = body.value(key)
        if value is None:
            continue
        match key.what:
            case "one of":
                drawing.picked[key.called[0]] = source.pick(key.under[0], value)
                _number(drawing, key.all_called, value)
                drawing.looked_at.append(drawing.picked[key.called[0]])
            case "some of":
                couples = tuple(metals()[word].couple for word in value) if key.as_couples else value
                _some(drawing, key, source.sample(key.under[0], couples, body.many(key)))
            case "given":
                drawing.picked[key.called[0]] = value
                drawing.looked_at.append(value)
            case "word":
                others = [word for word in key.words if word != EITHER]
                drawing.picked[key.called[0]] = source.pick(key.under[0], others) if value == EITHER else value
            case "count":
                drawing.counts[key.called[0]] = value
            case "quantity":
                _quantities(drawing, key, body, source)
    return drawing


def _number(drawing: Drawing, stem: str, words: tuple[str, ...]) -> None:
    if stem:
        drawing.picked |= {f"{stem}{place}": word for place, word in enumerate(words, 1)}
        drawing.numbered[stem] = len(words)


def _some(drawing: Drawing, key: DrawnKey, words: tuple[str, ...]) -> None:
    """Words drawn together, under their names or numbered."""
    if len(key.called) == 1:
        _number(drawing, key.called[0], words)
    else:
        drawing.picked |= dict(zip(key.called, words, strict=True))
    drawing.looked_at += words


def _quantities(drawing: Drawing, key: DrawnKey, body: Declared, source: Source) -> None:
    """A value for each name: under names of their own each by itself, under one name without repeats."""
    drawn = body.value(key)
    if len(key.under) == len(key.called):
        found = [pick_quantity(drawn, source, under) for under in key.under]
    else:
        found = list(sample_quantities(drawn, source, key.under[0], len(key.called)))
    if key.order:
        unit = found[0].unit
        found.sort(key=lambda each: convert(each.printed, each.unit, unit), reverse=key.order == "falling")
    drawing.quantities |= dict(zip(key.called, found, strict=True))
