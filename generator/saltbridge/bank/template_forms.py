"""One derivation in several forms: a template that names several of them becomes a question for each."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.template import Template
from saltbridge.words import Words

STANDARD, SCAFFOLD, STRETCH = "standard", "scaffold", "stretch"


def in_forms(template: Template, words: Words) -> Iterator[Template]:
    """The questions of a template: as it stands, with a number for each step, and with the last part alone.

    Their ids and titles say which they are, but for the standard one.
    """
    for form in template.form:
        if form == STANDARD:
            yield template.model_copy(update={"form": (STANDARD,)})
            continue
        said = {SCAFFOLD: "{title}, step by step", STRETCH: "{title}, in one go"}[form]
        changed = {"form": (form,), "id": f"{template.id}-{form}", "title": words(said, title=template.title)}
        yield template.model_copy(update={**changed, **(_last_alone(template) if form == STRETCH else {})})


def _last_alone(template: Template) -> dict[str, object]:
    """The last part as the only one, its keys on their lines; its marks are counted anew, since it has those of the others too."""
    old = f"parts[{len(template.parts)}]"
    lines = {key: line for key, line in template.lines.items() if not key.startswith("parts[")}
    lines |= {f"parts[1]{key.removeprefix(old)}": line for key, line in template.lines.items() if key.startswith(old)}
    return {"parts": (template.parts[-1].model_copy(update={"marks": None}),), "lines": lines}
