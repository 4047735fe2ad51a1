"""Two banks compared, as text for the terminal and as plain data (``schema`` 1, as ``asjson``)."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict

from saltbridge import __version__
from saltbridge.deliver.proof.causes import Cause
from saltbridge.deliver.proof.compare import Changes, Moved

SCHEMA = 1
_COUNTS = (
    ("answers", "the answer moved"),
    ("accepted", "only the accepted range moved"),
    ("told", "only the numbers told moved"),
    ("other", "other things are drawn"),
    ("lost", "a draw has come or gone"),
)


def changes_text(found: Changes) -> str:
    """What moved and why, template by template; those that stand as they were come last, in one line."""
    lines = [f"{found.new.settings.title}, against {found.old.folder}: the same {found.draws} draws of each template in both."]
    for each in sorted(found.both, key=lambda moved: (-moved.moved, moved.template)):
        lines += _template(each)
    for title, names in (("New", found.added), ("Gone", found.gone), ("As they were", _still(found))):
        lines += [f"{title}: {', '.join(names)}"] if names else []
    return "\n".join(lines)


def _still(found: Changes) -> tuple[str, ...]:
    return tuple(each.template for each in found.both if not each.moved and not each.causes)


def _template(each: Moved) -> Iterator[str]:
    if not each.moved and not each.causes:
        return
    told = [f"{text} in {getattr(each, name)}" for name, text in _COUNTS if getattr(each, name)]
    yield f"{each.template}: {', '.join(told) or 'no draw moved'} (of {each.draws})"
    for cause in each.causes:
        yield f"  because of {_cause(cause)}"
    for example in each.examples:
        yield f"  as in {example.seed}: {example.name} {example.before} -> {example.after}"


def _cause(cause: Cause) -> str:
    place = ":".join(str(part) for part in (cause.file, cause.line) if part)
    return f"the {cause.kind}: {cause.what} {cause.before} -> {cause.after}" + (f" ({place})" if place else "")


def changes_json(found: Changes) -> str:
    """The comparison as data."""
    data = {
        "schema": SCHEMA,
        "saltbridge": __version__,
        "bank": found.new.id,
        "against": found.old.id,
        "draws": found.draws,
        "new": list(found.added),
        "gone": list(found.gone),
        "templates": [{**asdict(each), "moved": each.moved} for each in found.both],
    }
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False)
