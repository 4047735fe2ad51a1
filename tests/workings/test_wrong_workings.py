"""A working with a wrong step follows line by line but for that step, whatever error is built into it, in every bank."""

from __future__ import annotations

from collections import Counter

import pytest
from snapshot.taking import banks, places
from workings.printed_lines import unlike_lines
from workings.wrong_workings import results, steps_of

from saltbridge.bank.parts import FindPart
from saltbridge.bank.wrong_step_part import WrongStepPart
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.render.text import math_text
from saltbridge.render.text import spans_text as shown_text

SEEDS = 4
TEMPLATES = [
    (name, id_) for name, id_ in places() if any(isinstance(each, FindPart) for each in banks()[name].template(id_).parts)
]
NONE_TO_BUILD_IN = "no common error can stand in the working"


def looked_through(name, template_id):
    """The template with its last number as the end of a working to look through, and nothing else asked."""
    bank = banks()[name]
    template = bank.template(template_id)
    asked = [part for part in template.parts if isinstance(part, FindPart)][-1]
    part = WrongStepPart.model_construct(
        ask=asked.ask, wrong_step_in=asked.find, unit=asked.unit, figures=asked.figures, decimals=asked.decimals, errors=(), marks=None, hint=None
    )  # fmt: skip
    changed = template.model_copy(update={"parts": (part,), "must_reveal": (), "id": template.id})
    return Composer(changed, bank, catalogue(bank.folder))


def drawn_or_none(composer, number):
    """The variant; ``None`` where the template has no error that could be built in, which must be what it says."""
    try:
        return composer.variant(number, practice_seed(number))
    except Faulty as error:
        told = str(error)
    assert NONE_TO_BUILD_IN in told
    return None


@pytest.mark.parametrize(("name", "template"), TEMPLATES, ids=lambda each: each)
def test_every_line_follows_but_that_of_the_wrong_step(name, template):
    composer = looked_through(name, template)
    part = composer.template.parts[0]
    for number in range(1, SEEDS + 1):
        variant = drawn_or_none(composer, number)
        if variant is None:
            return
        drawn = composer.drawer.draw(practice_seed(number))
        planted = composer.drawer.wrong_steps.planted(part, drawn)
        question = composer.question(variant)
        field, wrong = question.parts[0].field, variant.judge[0]["right"][0]
        steps = steps_of(field)
        converts = planted.steps[wrong].how == "convert"
        for at, step in enumerate(steps):
            unlike, _ = unlike_lines(step, variant.slots)
            assert bool(unlike) == (at == wrong and converts), (number, planted.name, at, unlike)


def test_the_wrong_number_is_used_on_and_the_end_is_not_the_right_one():
    """Read from what is printed: where the wrong step gives a number, the next step that needs it is worked from those digits."""
    seen = Counter()
    for name, template in [
        ("shipped", "mass-deposited"),
        ("derivations", "mass-with-a-wrong-step"),
        ("electrolysis", "coat-time"),
    ]:
        composer = looked_through(name, template)
        part = composer.template.parts[0]
        for number in range(1, 13):
            variant = composer.variant(number, practice_seed(number))
            question = composer.question(variant)
            drawn = composer.drawer.draw(practice_seed(number))
            planted = composer.drawer.wrong_steps.planted(part, drawn)
            steps, wrong = steps_of(question.parts[0].field), variant.judge[0]["right"][0]
            node = composer.drawer.find(part).node
            right = drawn.outcomes[node].right
            end = planted.judged.outcomes[node].right.printed
            assert not right.lo <= end < right.hi
            printed = results(steps[-1], variant.slots)
            assert (
                shown_text((composer.printer.quantity(end, drawn.unit(node), signed=composer.printer.signed(node)),))
                in printed[-1]
            )
            told = planted.of(drawn).written[planted.point.node]
            later = [step for step in planted.steps[wrong + 1 :] if planted.point.node in planted.graph.step(step.node).inputs]
            for step in later:
                shown = variant_text(steps[planted.steps.index(step)], variant)
                assert shown_text((composer.printer.number(told),)) in shown
                seen["used on"] += 1
    assert seen["used on"] > 10


def variant_text(step, variant):
    """All numbers of a step in reading order, as they are printed."""
    return " ".join(math_text(line.right, variant.slots) for line in step.lines)


def test_the_error_hangs_on_the_seed_and_its_name_alone():
    composer = looked_through("shipped", "mass-deposited")
    part, found = composer.template.parts[0], []
    for number in range(1, 31):
        drawn = composer.drawer.draw(practice_seed(number))
        again = looked_through("shipped", "mass-deposited").drawer
        assert (
            again.wrong_steps.planted(part, again.draw(practice_seed(number))).name
            == composer.drawer.wrong_steps.planted(part, drawn).name
        )
        found.append(composer.drawer.wrong_steps.planted(part, drawn).name)
    assert len(set(found)) >= 3
