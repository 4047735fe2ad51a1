"""What the counts of a template's draws say: findings in the words of a moderator."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.table_part import TablePart
from saltbridge.bank.template import Template
from saltbridge.bank.written_part import WrittenPart
from saltbridge.deliver.proof.distinct import distinct
from saltbridge.deliver.proof.draw_statistics import Tally
from saltbridge.deliver.proof.findings import Finding, Weight
from saltbridge.deliver.proof.language import HARDEST, LONGEST_SENTENCE, words_in
from saltbridge.deliver.proof.locate_fault import placed
from saltbridge.deliver.proof.words_alone import of_words

CLASS = 30
"""Students of a class: a template should have as many variants."""

FEW_KEPT = 0.2
_ENOUGH = 50  # draws: fewer say nothing of shares


def of_tally(template: Template, tally: Tally) -> Iterator[Finding]:
    """Everything found by drawing."""
    for each in tally.stopped:
        # A fault of the first draw is one of the template, unless it says that it is one of the draw.
        at = tally.stopped_at if tally.draws or "this draw" in each.hint else ""
        yield Finding("fault", placed(template, each), template.id, 1 if at else 0, tally.draws + 1, at)
    yield from _hits(template, tally)
    yield from _kept(template, tally)
    if not tally.stopped and tally.draws >= _ENOUGH:
        yield from _repeats(template, tally)
        yield from _constant(template, tally)
        yield from _slips(template, tally)
    yield from _language(template, tally)


def _hits(template: Template, tally: Tally) -> Iterator[Finding]:
    for key, (hit, seed) in tally.counts.first.items():
        fault = template.fault(hit.key, hit.code, expected=hit.expected, found=hit.found, hint=hit.hint)
        yield Finding(hit.weight, fault, template.id, tally.counts.times[key], tally.draws, seed)


def _kept(template: Template, tally: Tally) -> Iterator[Finding]:
    log = tally.log
    if tally.stopped or log.draws < _ENOUGH:
        return
    if fault := log.fault():
        yield Finding("fault", fault, template.id, log.rejected, log.draws)
    elif log.kept < FEW_KEPT * log.draws:
        reason, times = log.lines()[0]
        found = f"only {log.kept} of {log.draws}; {times} were dropped because of {reason.what}"
        key = reason.key or "scenario"
        yield _found(template, "warning", key, "rejects-many", f"at least {FEW_KEPT:.0%} of the draws kept", found)


def _repeats(template: Template, tally: Tally) -> Iterator[Finding]:
    """Answers count, not stories: two students with one key can copy. Words of one's own are no key."""
    if all(isinstance(part, WrittenPart) for part in template.parts):
        return
    known = distinct(tally.keys)
    if known.estimate >= CLASS or known.draws < CLASS:
        return
    weight: Weight = "warning"
    key, hint = (
        "scenario",
        "Let the scenario draw from more values, loosen `keep only if`, or ask for one thing more that differs.",
    )
    if words := next(of_words(template), ""):
        weight, key, hint = "note", words, "Add to what is drawn from, or ask about several at once, as `draw: 3`."
    if template.few_versions:
        weight, hint = "note", f"The author says: {template.few_versions}"
    expected = f"at least {CLASS} variants with answers of their own, one for each student of a class"
    yield _found(template, weight, key, "few-variants", expected, f"about {known.estimate}", hint)


def _constant(template: Template, tally: Tally) -> Iterator[Finding]:
    """Parts that every student answers alike, and choices whose right option never changes its place."""
    constant = {key: min(said) for key, said in tally.answers.items() if len(said) == 1}
    hint = "It may be meant so; students can pass it on."
    for key, answer in constant.items():
        if "." not in key:
            yield _found(template, "note", key, "answer-constant", "an answer that differs", f"`{answer}` in every draw", hint)
    for at, part in enumerate(template.parts, 1):
        cells = {
            key: answer for key, answer in constant.items() if key.startswith(f"parts[{at}].") and f"parts[{at}]" not in constant
        }
        if isinstance(part, TablePart) and cells:
            told = ", ".join(f"`{answer}` at {key.rpartition('table.')[2]}" for key, answer in cells.items())
            yield _found(
                template, "note", f"parts[{at}].table", "cells-constant", "cells that differ", f"in every draw {told}", hint
            )
    for at, places in tally.places.items():
        if len(places) == 1:
            hint = "Let the sides swap, or draw so that another option is right too."
            found = f"option {min(places) + 1} is right in every draw"
            yield _found(
                template,
                "warning",
                f"parts[{at}].from",
                "option-never-moves",
                "a right option that changes its place",
                found,
                hint,
            )


def _slips(template: Template, tally: Tally) -> Iterator[Finding]:
    if tally.possible and not tally.caught:
        hint = "A student who makes one is told nothing about it."
        yield _found(template, "warning", "parts", "no-slip-told", "a common error that some variant reveals", "none", hint)
        return
    never = [slip for slip in tally.possible if not tally.caught[slip]]
    if never:
        expected = "every common error revealed by some variant"
        yield _found(template, "note", "parts", "slips-never-told", expected, "no variant for: " + ", ".join(never))


def _language(template: Template, tally: Tally) -> Iterator[Finding]:
    for each in tally.readings:
        long = words_in(each.longest)
        if long > LONGEST_SENTENCE:
            hint = f"It begins: {' '.join(each.longest.split()[:6])} …"
            expected = f"sentences of at most {LONGEST_SENTENCE} words"
            yield _found(template, "warning", "text", "long-sentence", expected, f"one of {long}", hint)
            break
    hardest = max((each.lix for each in tally.readings), default=0.0)
    if hardest > HARDEST:
        hint = "Shorter sentences and everyday words; LIX counts words in a sentence and long words."
        yield _found(
            template, "warning", "text", "hard-to-read", f"a reading level (LIX) up to {HARDEST}", f"{hardest:.0f}", hint
        )


def _found(template: Template, weight: Weight, key: str, code: str, expected: str, found: str, hint: str = "") -> Finding:
    return Finding(weight, template.fault(key, code, expected=expected, found=found, hint=hint), template.id)
