"""Variants of the shipped bank, from seed to HTML, against Jinja2 writing the same question from ready strings.

The rival has every text of a variant ready as a string and fills a layout of the same parts, options, hints and lines, with
escaping on, as a page maker without a document tree would.
"""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory

from jinja2 import Environment
from measure import Ratio, seconds

from saltbridge.bank.bank import Bank, load_bank
from saltbridge.bank.template import Template
from saltbridge.build import publish
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.document import Question, Variant
from saltbridge.home import shipped
from saltbridge.render.part_markup import question_skeleton, variant_texts
from saltbridge.render.skeleton import Skeleton, join
from saltbridge.render.text import blocks_text, math_text, spans_text
from saltbridge.words import of_bank

LAYOUT = """<article><h1>{{ title }}</h1><div class="situation">{{ text }}</div>
{% for part in parts %}<section class="part" data-part="{{ part.label }}"><h2>({{ part.label }})</h2><p>{{ part.ask }}</p>
<form>{% for option in part.options %}<label><input type="radio" value="{{ loop.index0 }}">{{ option }}</label>{% endfor %}
<input name="typed"></form>{% for hint in part.hints %}<details><summary>Hint {{ loop.index }}</summary><p>{{ hint }}</p></details>{% endfor %}
<details><summary>Working</summary><ol>{% for step in part.steps %}<li>{{ step.say }}<table>{% for line in step.lines %}<tr><td>{{ line[0] }}</td>
<td>{{ line[1] }}</td><td>{{ line[2] }}</td></tr>{% endfor %}</table></li>{% endfor %}</ol><p>{{ part.answer }}</p></details></section>
{% endfor %}</article>"""
MEMORY_OF = "two-metals"
FRESH = 100
"""Variants in a round of a template: drawn by a new drawer each time, so that no round lives on what the one before kept."""


class Maker:
    """Makes one variant after another of a template, each with numbers of its own."""

    def __init__(self, template: Template, bank: Bank) -> None:
        self.composer, self.words = Composer(template, bank, catalogue()), of_bank(bank.settings)
        self.skeletons: dict[int, Skeleton] = {}
        self.numbers = count(1)

    def variant(self) -> Variant:
        """Draw, solve and compose the next one."""
        number = next(self.numbers)
        return self.composer.variant(number, f"benchmark {number}")

    def html(self) -> str:
        """The next one as HTML."""
        variant = self.variant()
        if variant.shape not in self.skeletons:
            self.skeletons[variant.shape] = question_skeleton(self.composer.question(variant), self.words)
        skeleton = self.skeletons[variant.shape]
        return join(skeleton.chunks, variant_texts(skeleton, variant))


def ready(question: Question, variant: Variant) -> dict[str, object]:
    """Every text of a variant as a string."""
    slots = variant.slots
    return {
        "title": question.title,
        "text": blocks_text(question.blocks, variant),
        "parts": [
            {
                "label": part.label,
                "ask": blocks_text(part.body, variant),
                "options": [spans_text(option, slots) for option in getattr(part.field, "options", ())],
                "hints": [spans_text(hint, slots) for hint in part.hints],
                "steps": [
                    {"say": spans_text(step.say, slots), "lines": [_line(line, slots) for line in step.lines]}
                    for step in part.working
                ],
                "answer": spans_text(part.answer, slots),
            }
            for part in question.parts
        ],
    }


def _line(line: object, slots: object) -> tuple[str, str, str]:
    left, right = getattr(line, "left", None), getattr(line, "right", None)
    if right is None:
        return ("", "", spans_text(line, slots))
    return (math_text(left, slots) if left is not None else "", "=", math_text(right, slots))


def ratios() -> Iterator[Ratio]:
    """The memory that many variants take, each template, then the whole bank."""
    bank = load_bank(shipped("question_templates"))
    yield from _memory(bank)  # first: what others take would hide it
    layout = Environment(autoescape=True).from_string(LAYOUT)
    for template in bank.templates:
        maker = Maker(template, bank)
        variant = maker.variant()
        texts = ready(maker.composer.question(variant), variant)
        yield Ratio(
            f"a variant of {template.id}", _fresh(template, bank), "Jinja2 on ready strings", seconds(lambda t=texts: layout.render(t)),
            "at least 1 000 a second, at most 4 ×",
        )  # fmt: skip
    yield _whole_bank()


def _fresh(template: Template, bank: Bank, rounds: int = 4) -> float:
    """Processor seconds a variant, once its shapes are composed: the quickest of several rounds of the same hundred variants."""
    spent = []
    for _ in range(rounds):
        maker = Maker(template, bank)
        for _ in range(FRESH // 2):
            maker.html()
        begin = time.process_time()
        for _ in range(FRESH):
            maker.html()
        spent.append((time.process_time() - begin) / FRESH)
    return min(spent)


def _whole_bank() -> Ratio:
    """The shipped bank, 30 variants a template, to a site and papers, by two processes and by one, by the clock on the wall."""
    spent = []
    for workers in (2, 1):
        with TemporaryDirectory() as room, ProcessPoolExecutor(workers) as pool:
            begin = time.perf_counter()
            publish(None, Path(room) / "out", executor=pool, variants=30)
            spent.append(time.perf_counter() - begin)
    return Ratio(
        "the shipped bank to a site and papers, two processes, by the clock on the wall", spent[0], "one process", spent[1],
        "at most 10 s",
    )  # fmt: skip


def _memory(bank: Bank) -> Iterator[Ratio]:
    """The most memory in use after 1 000 and after 20 000 variants of one template, none of them kept."""
    template = bank.template(MEMORY_OF)
    if template is None:
        raise LookupError(MEMORY_OF)
    maker = Maker(template, bank)
    begin = time.process_time()
    peaks = {}
    for number in range(1, 20_001):
        maker.html()
        if number in {1_000, 20_000}:
            peaks[number] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024) / 2**20
            yield Ratio(
                f"{number:,} variants (most memory {peaks[number]:.0f} MiB)",
                (time.process_time() - begin) / number,
                "the aim",
                1e-3,
            )
