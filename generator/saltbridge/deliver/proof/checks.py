"""What every variant is held against: one function a check, each giving what it finds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal
from functools import lru_cache

from saltbridge.bank.parts import BalancePart, ChoosePart, FindPart, OrderPart
from saltbridge.check.chemistry import imbalance
from saltbridge.check.factors import to_coherent
from saltbridge.chemistry import realism
from saltbridge.deliver.proof.figures_of_constants import figures_of_constants
from saltbridge.deliver.proof.findings import Hit, Weight
from saltbridge.deliver.proof.independent import agrees, anode_side, second_opinion
from saltbridge.deliver.proof.notation_checks import written_again
from saltbridge.deliver.proof.reader_checks import data_told, options_in_words
from saltbridge.deliver.proof.safety_checks import caution_told, fit_for_home
from saltbridge.deliver.proof.sets_checked import sets_agree
from saltbridge.deliver.proof.told_slips import caught_slips
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.deliver.proof.working_checks import estimates_hold, spares_change_nothing, wrong_steps_tell
from saltbridge.document import ChoiceField, ChoicesField, Field, OrderField, SeveralField, Spans
from saltbridge.faults import Faulty
from saltbridge.graph.routes import WIDEST
from saltbridge.render.text import spans_text
from saltbridge.scenarios.equation_laws import EQUATIONS

Check = Callable[[Seen], Iterator[Hit]]
WIDE = 3.0  # last places: a wider accepted range is doubtful, one wider than WIDEST is refused
ROUNDED = 0.01  # of the value: as much as rounding each result on the way to three figures may come to

# Realism rules that a template did not name: what is dangerous or can't be done is a warning, the rest a note. R-N is only
# for questions in which n must be counted, R-PLANT and R-LAB for plants and for what a class does at the bench, so they speak
# only where they are named; a concentration cell has one couple.
_UNSAFE = frozenset({"R-WATER", "R-SALT", "R-BRIDGE", "R-CONC", "R-TOX"})
_SILENT = frozenset({"R-N", "R-PLANT", "R-LAB"})
_OF_TWO_COUPLES = frozenset({"R-EMF", "R-SIGN"})


# ------------------------------------------------------------------ numbers


def solved_twice(seen: Seen) -> Iterator[Hit]:
    """Each number solved again by plain formulas; one without such a route is told of."""
    for place, find in seen.finds:
        key = f"{place}.find"
        theirs = second_opinion(find.name, seen.drawn, seen.template, seen.bank)
        if theirs is None:
            hint = "Work one variant out by hand before you sign."
            yield Hit("not-checked", key, "a second route to the answer", f"none to {find.name}", hint, "warning")
            continue
        ours = to_coherent(seen.drawn.outcomes[find.node].exact, find.unit)
        if not agrees(find.name.rpartition(".")[2], ours, theirs):
            hint = "A relation, the data sheet or the reading of the scenario is wrong."
            yield Hit("routes-differ", key, f"{find.name} = {theirs:.10g} by plain formulas", f"{ours:.10g}", hint)


def anode_agrees(seen: Seen) -> Iterator[Hit]:
    """The electrode taken for the anode, held against the potentials alone."""
    if "anode" not in seen.drawn.graph.index:
        return
    ours, theirs = seen.drawn.graph.value(seen.drawn.cells, "anode"), anode_side(seen.drawn)
    if theirs is not None and ours != theirs:
        yield Hit("anode-differs", "scenario", f"the anode on the {theirs}, by the potentials", f"on the {ours}")


def accepted_width(seen: Seen) -> Iterator[Hit]:
    """An accepted range so wide that a slip could pass, or so narrow that its own answer falls out."""
    for place, find in seen.finds:
        right, key = seen.drawn.outcomes[find.node].right, f"{place}.find"
        shown = f"{right.lo.normalize():f} to {right.hi.normalize():f}"
        if right.width > WIDEST:
            hint = "Ask for fewer figures."
            yield Hit("range-too-wide", key, f"an accepted range of at most {WIDEST} last places", shown, hint)
        elif right.width > WIDE and right.hi - right.lo > abs(right.printed) * Decimal(ROUNDED):
            hint = "Ask for a figure less."
            expected = f"an accepted range of at most {WIDE:g} last places, or {ROUNDED:.0%} of the value"
            yield Hit("range-wide", key, expected, shown, hint, "warning")
        if not right.lo <= right.printed <= right.hi:
            yield Hit("answer-outside", key, f"the answer within {shown}", str(right.printed))


# ------------------------------------------------------------------ chemistry


def balanced(seen: Seen) -> Iterator[Hit]:
    """Charge and atoms of every equation that the variant prints or asks for, counted a second time."""
    words = seen.drawn.situation.words
    for name, text in words.items():
        if (name == "equation" and "(aq, " not in text) or name.endswith((" text", "half-equation")):
            yield from _imbalance(text)
    for at, part in enumerate(seen.template.parts):
        node = EQUATIONS[part.balance] if isinstance(part, BalancePart) else ""
        if node:
            text = str(seen.drawn.graph.value(seen.drawn.cells, node))
            yield from _imbalance(text)
            whole = node.startswith("equation")
            if ("e-" in text) == whole:
                expected = "a whole equation without electrons" if whole else "a half-equation with its electrons"
                yield Hit("electrons-left", f"parts[{at + 1}].balance", expected, text)


@lru_cache(maxsize=4096)
def _imbalance(text: str) -> tuple[Hit, ...]:
    try:
        surplus = imbalance(text)
    except Faulty as error:
        return (Hit("unreadable-equation", "scenario", "an equation", text, error.faults[0].hint, value=text),)
    if not surplus:
        return ()
    wrong = ", ".join(f"{name} {number:+d}" for name, number in surplus.items())
    return (Hit("not-balanced", "scenario", "an equation in balance", f"{text} ({wrong} on the right)", value=text),)


def realistic(seen: Seen) -> Iterator[Hit]:
    """The realism rules: a broken one that the template names is a fault, one that it does not name at least worth a word."""
    named = seen.template.rules
    for code, sentence in realism.rejections(tuple(realism.RULES), seen.facts):
        if code in named:
            yield Hit("unreal", "rules", f"a draw that keeps {code}", sentence, realism.RULES[code].sentence, value=code)
        elif code not in _SILENT and not (code in _OF_TWO_COUPLES and seen.facts.E0 == 0):
            weight: Weight = "warning" if code in _UNSAFE else "note"
            hint = f"Say in the text how that is met, or add {code} to `rules`."
            yield Hit("unreal-allowed", "rules", f"a draw that keeps {code}", sentence, hint, weight, code)


# ------------------------------------------------------------------ what the student meets


def choices_distinct(seen: Seen) -> Iterator[Hit]:
    """Options and things to order that read alike, and things that stand level in their order."""
    for asked in seen.asked:
        key = f"{asked.key}.{'order' if isinstance(asked.field, OrderField) else 'from'}"
        for options in _offered(asked.field):
            texts = Counter(spans_text(option, seen.variant.slots).strip() for option in options)
            for text, times in texts.items():
                if times > 1:
                    yield Hit("options-alike", key, "options that differ", f"`{text}` {times} times")
        if isinstance(asked.part, OrderPart):
            yield from _level(asked.key, asked.part, seen)


def _offered(field: Field) -> tuple[tuple[Spans, ...], ...]:
    """What can be chosen, ticked or put in order; for each group where there are several."""
    match field:
        case ChoiceField(options) | SeveralField(options):
            return (options,)
        case ChoicesField(groups):
            return tuple(group.options for group in groups)
        case OrderField(items):
            return (items,)
        case _:
            return ()


def _level(key: str, part: OrderPart, seen: Seen) -> Iterator[Hit]:
    owners = [owner for name in part.order for owner in seen.drawn.lists.get(name, (name,))]
    values = Counter(seen.drawn.graph.value(seen.drawn.cells, f"{owner}.{part.by}") for owner in owners)
    for value, times in values.items():
        if times > 1:
            hint = "Draw from things that lie further apart."
            yield Hit("order-level", f"{key}.by", "things with one order", f"{times} of them at {value}", hint)


def right_option(seen: Seen) -> Iterator[Hit]:
    """A choice with another number of right options than one."""
    for asked in seen.asked:
        if isinstance(asked.part, ChoosePart):
            right = asked.share.get("right", ())
            if len(right) != 1 or not 0 <= right[0] < len(asked.part.options):
                yield Hit("no-right-option", f"{asked.key}.from", "exactly one right option", f"{len(right)}")


def marks_add_up(seen: Seen) -> Iterator[Hit]:
    """Marks of the parts against the whole, and those at the lines of a calculation against its part."""
    whole = sum(part.marks for part in seen.question.parts)
    if whole != seen.question.marks:
        yield Hit("marks", "parts", f"{seen.question.marks} marks", f"{whole} in the parts")
    for at, part in enumerate(seen.question.parts):
        key = f"parts[{at + 1}].marks"
        earned = sum(count for step in part.working for count in step.marks.values())
        if part.marks < 1:
            yield Hit("no-marks", key, "at least one mark", f"{part.marks}")
        elif isinstance(seen.template.parts[at], FindPart) and earned != part.marks:
            expected = f"{earned}, as the policy {seen.bank.settings.policy} puts at the lines of the working"
            yield Hit("marks", key, expected, f"{part.marks}", "Leave `marks` out, or give as many as the lines earn.")


def order_to_make(seen: Seen) -> Iterator[Hit]:
    """Things shown in the right order already, so that whoever touches nothing is right."""
    for at, part in enumerate(seen.template.parts):
        right = seen.variant.judge[at].get("right", ()) if isinstance(part, OrderPart) else ()
        if right and list(right) == list(range(len(right))):
            yield Hit(
                "order-untouched", f"parts[{at + 1}].order", "things shown in another order than the right one", "the right one"
            )


def figures_told(seen: Seen) -> Iterator[Hit]:
    """Drawings without words for those who can't see them."""
    for figure in seen.variant.figures:
        if not figure.spoken.strip() or "{" in figure.spoken:
            yield Hit("figure-not-told", "figure", "a drawing described in words", figure.spoken or "nothing")


def must_reveal_kept(seen: Seen) -> Iterator[Hit]:
    """Slips that the template must tell from the right answer, in this very variant."""
    if not seen.template.must_reveal:
        return
    caught = caught_slips(seen)
    for at, slip in enumerate(seen.template.must_reveal):
        if slip not in caught:
            yield Hit(
                "slip-missed", f"must reveal[{at + 1}]", f"{slip} and the right answer apart", "the same answer", value=slip
            )


CHECKS: tuple[Check, ...] = (
    solved_twice, written_again, sets_agree, wrong_steps_tell, estimates_hold, spares_change_nothing, anode_agrees, accepted_width,
    balanced, realistic, choices_distinct, right_option,
    marks_add_up, figures_told, must_reveal_kept, figures_of_constants, data_told, options_in_words,
    caution_told, fit_for_home, order_to_make,
)  # fmt: skip
