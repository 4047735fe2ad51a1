"""What can be seen of a bank and its templates without drawing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import ChoosePart
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.template import Template
from saltbridge.bank.word_part import WordPart
from saltbridge.check.chemistry import imbalance
from saltbridge.deliver.proof.findings import Finding, Weight
from saltbridge.deliver.proof.words_alone import words_alone
from saltbridge.draw.drawn_tables import finds_of, leaves, table_texts
from saltbridge.draw.finds import Asking
from saltbridge.draw.hidden_rows import asks_for_row
from saltbridge.faults import Fault
from saltbridge.forms.registries import LEVELS, outcomes

_EQUATION = re.compile(r"`([^`{]*(?:->|→)[^`{]*)`")


def of_bank(bank: Bank) -> Iterator[Finding]:
    """Doubts about the sheet, and templates that can't be told apart by their titles."""
    for doubt in bank.warnings:
        yield Finding("warning", doubt)
    first: dict[str, Template] = {}
    for template in bank.templates:
        title = template.title.casefold()
        if title in first:
            hint = "Students tell questions apart by their titles."
            yield _at(
                template,
                "warning",
                "title",
                "title-twice",
                "each title once",
                f"`{template.title}`, as {first[title].file}",
                hint,
            )
        first.setdefault(title, template)


def of_template(template: Template) -> Iterator[Finding]:
    """Answers told in the text, exam questions open to all, words drawn for nothing."""
    yield from _answers_told(template)
    if "exam" in template.use and len(template.use) > 1:
        others = " and ".join(use for use in template.use if use != "exam")
        hint = "Make a second template for practice."
        yield _at(template, "fault", "use", "exam-open", "an exam question for exams only", f"{others} too", hint)
    if template.context and "context" not in _names(template):
        hint = 'Tell the words apart: `{% if context == "…" %}`.'
        yield _at(template, "warning", "context", "context-unused", "the drawn word in the text", "no `context` there", hint)
    yield from _hidden_row(template)
    level = outcomes()[template.outcome].level
    if LEVELS.index(level) > LEVELS.index(template.level):
        yield _at(template, "note", "level", "level-low", f"`{level}`, the level of {template.outcome}", f"`{template.level}`")
    yield from words_alone(template)
    yield from _asked_twice(template)
    yield from _equations(template)


def _hidden_row(template: Template) -> Iterator[Finding]:
    asked = [part.find for part in finds_of(template, None)]
    if template.hide_row and not any(asks_for_row(name) for name in asked):
        expected = "a part that asks for a potential of the data sheet, as `find: E0_anode`"
        yield _at(template, "fault", "hide row", "no-row-to-hide", expected, "none", "Take the key out.")


def _answers_told(template: Template) -> Iterator[Finding]:
    """Answers that stand in what the student reads before or with the part that asks for them."""
    read = dict.fromkeys(template.text.names, "text")
    for at, part in enumerate(template.parts, 1):
        read |= {name: f"parts[{at}].ask" for name in part.ask.names if name not in read}
        if isinstance(part, TablePart):
            read |= {
                name: f"parts[{at}].{key}" for key, text in table_texts(part, None) for name in text.names if name not in read
            }
        for answer in _answers(template, at):
            hinted = part.hint.names if part.hint is not None else ()
            if answer in read:
                hint = f"Take `{{{{ {answer} }}}}` out."
                expected = f"a text that leaves {answer} to part {at}"
                yield _at(template, "fault", read[answer], "answer-told", expected, "it stands there", hint)
            elif answer in hinted:
                hint = "Ask a question instead."
                expected = f"a hint without {answer}"
                yield _at(template, "fault", f"parts[{at}].hint", "answer-told", expected, "it stands there", hint)


def _answers(template: Template, at: int) -> Iterator[str]:
    """The names whose value is asked for in a part, or in the cells of its table."""
    for leaf in leaves(template, None):
        if leaf.at + 1 == at:
            match leaf.part:
                case ChoosePart(choose=name) | WordPart(word=name):
                    yield name
                case asking if isinstance(asking, Asking):
                    yield asking.find
                case _:
                    pass


def _asked_twice(template: Template) -> Iterator[Finding]:
    seen: dict[str, int] = {}
    for at, part in enumerate(template.parts, 1):
        asked = " ".join(part.ask.source.split()).casefold()
        if asked in seen:
            yield _at(
                template, "warning", f"parts[{at}].ask", "asked-twice", "each question once", f"the same as part {seen[asked]}"
            )
        seen.setdefault(asked, at)


def _equations(template: Template) -> Iterator[Finding]:
    """Equations written out in a text that do not balance; a question may show one on purpose, so it is a warning."""
    texts = [("text", template.text.source)]
    for at, part in enumerate(template.parts, 1):
        texts += [(f"parts[{at}].{key}", text.source) for key, text in part.texts.items()]
    for key, source in texts:
        for text in _EQUATION.findall(source):
            surplus = imbalance(text)
            if surplus:
                wrong = ", ".join(f"{name} {number:+d}" for name, number in surplus.items())
                hint = "Leave it where students are to find that out."
                yield _at(
                    template, "warning", key, "not-balanced", "an equation in balance", f"`{text}` ({wrong} on the right)", hint
                )


def _names(template: Template) -> Sequence[str]:
    return (*template.text.names, *(name for part in template.parts for name in part.ask.names))


def _at(template: Template, weight: Weight, key: str, code: str, expected: str, found: str, hint: str = "") -> Finding:
    fault: Fault = template.fault(key, code, expected=expected, found=found, hint=hint)
    return Finding(weight, fault, template.id)
