"""The conditions of a template: which of them a draw breaks, and which can be seen to be broken before anything is worked out."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.template import Template
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.log import Reason
from saltbridge.faults import FaultList, Faulty
from saltbridge.forms.conditions import Condition, Measured
from saltbridge.scenarios.scene import Scene


class KeepOnlyIf:
    """The conditions of one template."""

    def __init__(self, template: Template) -> None:
        several = len(template.keep_only_if) > 1
        keys = [f"keep only if[{at}]" if several else "keep only if" for at, _ in enumerate(template.keep_only_if, 1)]
        self._file = template.file
        self._conditions = [
            (condition, Reason(condition.source, key, template.lines.get(key, 0)))
            for condition, key in zip(template.keep_only_if, keys, strict=True)
        ]
        early = () if template.given else self._conditions  # a question turned round forgets givens
        self._early = [pair for pair in early if not set(pair[0].names) & set(template.further_quantities)]

    def unkept(self, drawn: Drawn) -> Iterator[Reason]:
        """The conditions that a draw breaks. Raises ``Faulty`` with what is wrong in any of them, at its line."""
        faults = FaultList()
        for condition, reason in self._conditions:
            try:
                kept = condition.holds(drawn.lookup)
            except Faulty as error:
                faults.extend(each.at(file=self._file, line=reason.line, key=reason.key) for each in error.faults)
            else:
                if not kept:
                    yield reason
        faults.stop_if_any()

    def unkept_at_once(self, scene: Scene) -> tuple[Reason, ...]:
        """Those that the numbers of the scene itself break, such as how many electrons move."""
        return tuple(reason for condition, reason in self._early if _is_broken(condition, scene))


def _is_broken(condition: Condition, scene: Scene) -> bool:
    """Whether all that a condition names are numbers of the scene, and these break it."""
    given = scene.situation.given
    told = {
        name: Measured(known.value, known.unit)
        for name in condition.names
        if (known := given.get(name)) is not None and isinstance(known.value, float)
    }
    return len(told) == len(condition.names) and not condition.holds(told.__getitem__)
