"""The workings with a wrong step that a template asks about: which error stands in each, and the numbers that correct it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from saltbridge.bank.parts import FindPart
from saltbridge.bank.template import Template
from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.finds import Find, Finder
from saltbridge.draw.log import Reason
from saltbridge.draw.planted_errors import Planted, could_be_planted, planted
from saltbridge.faults import fault
from saltbridge.graph.solved import Outcome

NOTHING_TO_FIND = "no common error can stand in the working of {name}"


@dataclass(frozen=True)
class WrongSteps:
    """Those of one template; ``finder`` reads what its parts ask for."""

    template: Template
    finder: Finder

    @property
    def parts(self) -> tuple[WrongStepPart, ...]:
        """The parts that show such a working."""
        return tuple(part for part in self.template.parts if isinstance(part, WrongStepPart))

    def planted(self, part: WrongStepPart, drawn: Drawn) -> Planted:
        """The error in a part's working. Raises ``Faulty`` (code ``no-wrong-step``) where none can stand there."""
        found = planted(self.finder.find(part).node, part.errors, drawn)
        if found is None:
            raise fault("no-wrong-step", expected="a common error that can stand in the working", found=f"none for {part.find}")
        return found

    def names(self, drawn: Drawn) -> tuple[str, ...]:
        """The errors of a draw by name: draws with others have other lines."""
        return tuple(self.planted(part, drawn).name for part in self.parts)

    def missing(self, drawn: Drawn) -> Iterator[Reason]:
        """Why a draw has nothing to look for."""
        for at, part in enumerate(self.template.parts, 1):
            if isinstance(part, WrongStepPart) and planted(self.finder.find(part).node, part.errors, drawn) is None:
                key = f"parts[{at}].errors" if part.errors else f"parts[{at}].wrong step in"
                yield Reason(NOTHING_TO_FIND.format(name=part.find), key, self.template.lines.get(key, 0))

    def corrected(self, part: CorrectPart, drawn: Drawn) -> FindPart:
        """The part as one that asks for the number of the wrong step."""
        return self._asking(part, self.planted(self._before(part), drawn).point.node, drawn)

    def corrections(self, part: CorrectPart, drawn: Drawn, known: Mapping[str, Outcome]) -> tuple[Find, ...]:
        """The numbers of each step that can be the wrong one, since the seed alone decides which is; ``known`` are those before."""
        before = self._before(part)
        node = self.finder.find(before).node
        nodes = dict.fromkeys(each.point.node for each in could_be_planted(node, before.errors, drawn, known[node]))
        return tuple(self.finder.find(self._asking(part, each, drawn)) for each in nodes)

    def _before(self, part: CorrectPart) -> WrongStepPart:
        """The working that a part corrects; the template has one before it (``misfits``)."""
        parts = self.template.parts
        return next(each for each in reversed(parts[: parts.index(part)]) if isinstance(each, WrongStepPart))

    def _asking(self, part: CorrectPart, node: str, drawn: Drawn) -> FindPart:
        name, _, unit = node.partition(":")
        return FindPart.model_construct(
            ask=part.ask,
            marks=part.marks,
            hint=part.hint,
            find=name,
            unit=unit or drawn.unit(node),
            figures=part.figures,
            decimals=part.decimals,
        )
