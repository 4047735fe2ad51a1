"""The parts of a template as a draw asks them: with a scaffold, each number that is worked out is preceded by one for each marked step."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from saltbridge import words
from saltbridge.bank.bank import Bank
from saltbridge.bank.parts import AnyPart, BalancePart, ChoosePart, FindPart
from saltbridge.bank.template import Template
from saltbridge.bank.template_forms import SCAFFOLD
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.finds import Finder
from saltbridge.forms.prose import Prose, read_prose
from saltbridge.forms.value_types import Option
from saltbridge.graph.laws import Rule
from saltbridge.graph.walk import WalkLine, WalkStep, picked_sides, shown_nodes, walk
from saltbridge.policy import Policy, mark_points, policy
from saltbridge.scenarios.equation_laws import EQUATIONS

MOST_PARTS = 26  # as many as letters
_LABELS = ("metal", "couple")
_HOLE = re.compile(r"\{([A-Za-z_][\w.-]*)\}")


@dataclass(frozen=True, slots=True)
class AsAsked:
    """The template with its parts as they are asked, and for each the place of the part that it comes from."""

    template: Template
    sources: tuple[int, ...]


@dataclass(frozen=True)
class Scaffold:
    """Builds the parts of one template, of which ``finder`` reads the numbers."""

    template: Template
    bank: Bank
    finder: Finder

    @property
    def method(self) -> str:
        """How the working goes: a scaffold has steps."""
        return "steps" if self.template.form == (SCAFFOLD,) else self.template.method or self.bank.settings.method

    def as_asked(self, drawn: Drawn) -> AsAsked:
        """The parts of a draw; they are the template's own where it is no scaffold."""
        if self.template.form != (SCAFFOLD,):
            return AsAsked(self.template, tuple(range(len(self.template.parts))))
        return drawn.once(lambda: self._built(drawn), "scaffold")

    def _built(self, drawn: Drawn) -> AsAsked:
        known: set[str] = set()
        found: list[tuple[int, AnyPart]] = []
        for place, part in enumerate(self.template.parts):
            found += [(place, each) for each in self._of(part, drawn, known)]
        parts, sources = tuple(part for _, part in found), tuple(place for place, _ in found)
        changed = {"parts": parts[:MOST_PARTS], "lines": _lines(self.template, sources), "method": "steps"}
        return AsAsked(self.template.model_copy(update=changed), sources[:MOST_PARTS])

    def _of(self, part: AnyPart, drawn: Drawn, known: set[str]) -> Iterator[AnyPart]:
        """What a part is asked as; ``known`` collects what its working shows."""
        if isinstance(part, BalancePart):
            node = EQUATIONS[part.balance]
            known.update((node, "n" if node == "equation" else "z"))
        if isinstance(part, ChoosePart) and (node := part.choose.split(".")[0]) in drawn.graph.index:
            known.update((node, *shown_nodes(walk(drawn.graph, node, frozenset(known)))))
        if not isinstance(part, FindPart):
            yield part
            return
        node, picked = self.finder.find(part).node, picked_sides(drawn.graph, drawn.cells)
        steps = walk(drawn.graph, node, frozenset(known), picked=picked)
        known.update((node, *shown_nodes(steps)))
        yield from _blanks(steps, node, drawn, policy(self.bank.settings.policy), self.bank.settings.language)
        yield part.model_copy(update={"marks": None})


def _lines(template: Template, sources: tuple[int, ...]) -> dict[str, int]:
    """The lines of the keys, those of a part under each part that comes from it."""
    found = {key: line for key, line in template.lines.items() if not key.startswith("parts[")}
    for at, source in enumerate(sources, 1):
        old = f"parts[{source + 1}]"
        found |= {f"parts[{at}]{key.removeprefix(old)}": line for key, line in template.lines.items() if key.startswith(old)}
    return found


def _blanks(steps: tuple[WalkStep, ...], target: str, drawn: Drawn, marking: Policy, language: str) -> Iterator[AnyPart]:
    """A part for each marked step but that of the number itself; what earns nothing stays in the working of the next."""
    points = mark_points(marking, steps)
    marked = {number for number, _ in points}
    for number, step in enumerate(steps):
        asked = _question(step, drawn, language) if number in marked and step.node != target else None
        if asked is None:
            continue
        for line in {line.node: line for line in step.lines}.values():
            blank = _choice(line, asked, drawn) if line.kind == "choice" else _number(line, asked, drawn)
            if blank is not None:
                yield blank


def _question(step: WalkStep, drawn: Drawn, language: str) -> Prose | None:
    """The question that helps to find a step, or its sentence; ``None`` where it names what this draw lacks."""
    said = words.catalogue(language).of_owner(step.say if step.how == "convert" else step.hint or step.say)
    if not said or not all(drawn.has(name) for name in _HOLE.findall(said)):
        return None
    return read_prose(_HOLE.sub(r"{{ \1 }}", said))


def _number(line: WalkLine, asked: Prose, drawn: Drawn) -> FindPart | None:
    name, _, unit = line.node.partition(":")
    if not isinstance(drawn.graph.value(drawn.cells, line.node), float):
        return None
    return FindPart.model_construct(
        ask=asked, marks=None, hint=None, find=name, unit=unit or drawn.unit(line.node), figures=None, decimals=None
    )


def _choice(line: WalkLine, asked: Prose, drawn: Drawn) -> ChoosePart | None:
    """The choice of a step among the things that it can be, where they have names."""
    law = drawn.graph.step(line.node).law
    keys = law.keys if isinstance(law, Rule) else ()
    label = next((each for each in _LABELS if keys and all(drawn.has(f"{key}.{each}") for key in keys)), None)
    if label is None:
        return None
    options = tuple(Option(f"{key}.{label}", asked) for key in keys)
    return ChoosePart.model_construct(ask=asked, marks=None, hint=None, choose=line.node, options=options, why=None)
