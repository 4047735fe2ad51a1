"""Which steps of a task a variant shows, and in which order, never a right one."""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge.bank.sequence_part import SequencePart, SequenceStep
from saltbridge.draw.seeds import Seed


def shown_steps(part: SequencePart, seed: str) -> tuple[SequenceStep, ...]:
    """The steps in the order shown: whoever touches nothing has not answered."""
    source = Seed("steps", "", seed)
    drawn = source.shuffle("step", part.steps)
    if part.draw is not None:
        drawn = _of_two_stages(drawn, part.draw)
    turns = (drawn[at:] + drawn[:at] for at in range(len(drawn)))
    return next(turn for turn in turns if not in_order([step.stage for step in turn]))


def _of_two_stages(steps: tuple[SequenceStep, ...], count: int) -> tuple[SequenceStep, ...]:
    """The first so many, with one of another stage last where all are of one stage."""
    first, rest = steps[:count], steps[count:]
    if len({step.stage for step in first}) > 1:
        return first
    other = next(step for step in rest if step.stage != first[0].stage)
    return (*first[:-1], other)


def right_steps(part: SequencePart, seed: str) -> tuple[SequenceStep, ...]:
    """The steps shown in the order in which they are written."""
    shown = {str(step) for step in shown_steps(part, seed)}
    return tuple(step for step in part.steps if str(step) in shown)


def in_order(stages: Sequence[int]) -> bool:
    """Whether no stage stands before an earlier one."""
    return list(stages) == sorted(stages)
