"""Questions made from a class's own readings: a small bank in which each version takes the readings of one group."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from saltbridge.deliver.bench.class_readings import ClassReading, by_pair, group_values
from saltbridge.deliver.bench.lesson import Lesson
from saltbridge.home import shipped

FEWEST = 3
"""Metals that an order needs, and groups that a bank of versions needs, to be worth asking."""

_PLACES = {"STRIPS": "{{{{ {key}.metal }}}} {{{{ {key}.reading }}}}", "PAIRS": "{key}.metals"}


def class_questions(readings: Sequence[ClassReading], lesson: Lesson) -> dict[str, str]:
    """The files of the bank by path. Empty where fewer than three metals were read by three groups each, whose readings all stand.

    A group that lacks one of the metals is left out.
    """
    table = _whole_groups(readings, lesson.keys.reference)
    metals = sorted({metal for values in table.values() for metal in values})
    if len(metals) < FEWEST or len(table) < FEWEST:
        return {}
    strips = [f"s{at}" for at in range(1, len(metals) + 1)]
    pairs = [f"pair{at}" for at in range(1, len(metals) * (len(metals) - 1) // 2 + 1)]
    filled = {
        "STRIPS": ", ".join(_PLACES["STRIPS"].format(key=key) for key in strips),
        "PAIRS": ", ".join(_PLACES["PAIRS"].format(key=key) for key in pairs),
    }
    return {
        "bank.yaml": _settings(lesson),
        "rows/readings.csv": _rows(table, metals, lesson),
        **{
            f"bench/{path.name}": _filled(path.read_text(encoding="utf-8"), filled)
            for path in _templates(lesson.bank.settings.language)
        },
    }


def _templates(language: str) -> list[Path]:
    """The questions in the language of the bank; in English where there are none in it."""
    room = shipped("data") / "class_questions"
    return sorted((room / language if (room / language).is_dir() else room / "en").glob("*.yaml"))


def _filled(template: str, places: Mapping[str, str]) -> str:
    for place, said in places.items():
        template = template.replace(place, said)
    return template


def _whole_groups(readings: Sequence[ClassReading], reference: str) -> dict[tuple[str, str], dict[str, float]]:
    """What each group found for every metal that most groups read, V; groups that lack one of these are left out."""
    found = {pair[0]: group_values(each) for pair, each in by_pair(readings).items() if pair[1] == reference}
    groups = {who for values in found.values() for who in values}
    common = {metal: values for metal, values in found.items() if 2 * len(values) > len(groups)}
    return {
        who: {metal: values[who] for metal, values in common.items()}
        for who in sorted(groups)
        if all(who in values for values in common.values())
    }


def _settings(lesson: Lesson) -> str:
    settings = lesson.bank.settings
    told = {
        "format": "1", "id": "our-readings", "title": "Questions from our own readings", "licence": settings.licence,
        "data sheet": lesson.bank.sheet.name, "language": settings.language,
        "decimal mark": "comma" if settings.decimal_mark == "," else "point", "paper": settings.paper,
    }  # fmt: skip
    return "".join(f"{key}: {value}\n" for key, value in told.items() if value)


def _rows(table: Mapping[tuple[str, str], Mapping[str, float]], metals: Sequence[str], lesson: Lesson) -> str:
    heading = ["row.group", "reference", "model", "metals", *(f"readings.{metal} in V" for metal in metals)]
    lines = [",".join(heading)]
    several = len({name for name, _ in table}) > 1
    for (name, group), values in table.items():
        who = f"{name} {group}" if several else group
        told = [who, lesson.keys.reference, lesson.keys.paper, ";".join(metals), *(f"{values[metal]:.3f}" for metal in metals)]
        lines.append(",".join(f'"{cell.replace(chr(34), "")}"' if "," in cell or '"' in cell else cell for cell in told))
    return "\n".join(lines) + "\n"
