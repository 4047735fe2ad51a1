"""Parts whose right answer stands in the template: no derivation gives it, so whoever signs has to read it."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.cases_part import CasesPart
from saltbridge.bank.parts import AnyPart, ChoosePart
from saltbridge.bank.reason import Reason
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.template import Template
from saltbridge.deliver.proof.findings import Finding

_SHORTEST = 4  # letters: a shorter option may stand in a hint by chance


def words_alone(template: Template) -> Iterator[Finding]:
    """A note for each such part, and a fault for a hint that reads out a right option."""
    for at, part in enumerate(template.parts, 1):
        for kind, right in _told(part):
            key = f"parts[{at}].{kind}"
            hint = "Read each right answer with its why before you sign."
            fault = template.fault(
                key, "told-by-author", expected="a second route to the answer", found="the template's own words", hint=hint
            )
            yield Finding("note", fault, template.id)
            hinted = part.hint.source.casefold() if part.hint is not None else ""
            if read := next((text for text in right if len(text) >= _SHORTEST and text.casefold().rstrip(".") in hinted), ""):
                fault = template.fault(
                    f"parts[{at}].hint",
                    "answer-told",
                    expected="a hint without the right option",
                    found=f"`{read}`",
                    hint="Ask a question instead.",
                )
                yield Finding("fault", fault, template.id)


def of_words(template: Template) -> Iterator[str]:
    """The keys of parts whose answers the template draws from its own words."""
    for at, part in enumerate(template.parts, 1):
        yield from (f"parts[{at}].{kind}" for kind, _ in _told(part) if kind != "reason")


def _told(part: AnyPart) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The key that tells what is right, and the right options as they are printed."""
    match part:
        case CasesPart():
            options = (option for case in part.cases for option in part.options_of(case) if option.text == case.right.text)
            yield "cases", tuple(option.prose.source for option in options)
        case SeveralPart(where=None):
            yield "tick", tuple(option.prose.source for option in part.tick)
        case SequencePart():
            yield "steps", ()
        case ChoosePart(reason=Reason() as reason):
            yield "reason", (reason.right.prose.source,)
        case _:
            return
