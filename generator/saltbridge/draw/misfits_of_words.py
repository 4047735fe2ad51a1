"""What is wrong with parts that ask in words alone: options that a list lacks, beliefs that there are not, values that a case lacks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from saltbridge.bank.beliefs import WrongOption, unknown_beliefs
from saltbridge.bank.cases_part import OWNER, Case, CasesPart, values_named
from saltbridge.bank.parts import AnyPart, ChoosePart
from saltbridge.bank.reason import Reason
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.template import Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import Fault
from saltbridge.forms.validation_messages import nearest, shown


def of_words(template: Template, key: str, part: AnyPart, catalogue: Catalogue) -> Iterator[Fault]:
    """What is wrong with a part as far as it asks in words."""
    match part:
        case CasesPart():
            yield from _of_cases(template, key, part, catalogue)
        case SeveralPart():
            yield from of_beliefs(template, f"{key}.leave", part.leave, catalogue)
        case SequencePart():
            yield from of_beliefs(template, f"{key}.steps", tuple(step.option for step in part.steps), catalogue)
        case ChoosePart(reason=Reason() as reason):
            yield from of_beliefs(template, f"{key}.reason.wrong", reason.wrong, catalogue)
        case _:
            return


def told_twice(template: Template) -> Iterator[Fault]:
    """Values of one name that two parts tell of their cases: a text could print either."""
    first: dict[str, int] = {}
    for at, part in enumerate(template.parts, 1):
        cases = part.cases if isinstance(part, CasesPart) and part.draw == 1 else ()
        for name in dict.fromkeys(name for case in cases for name in case.values):
            if name in first:
                key, hint = f"parts[{at}].cases", "Call one of the two otherwise."
                yield template.fault(
                    key, "repeated", expected=f"a name that part {first[name]} does not tell", found=f"`{name}`", hint=hint
                )
            first.setdefault(name, at)


def _of_cases(template: Template, key: str, part: CasesPart, catalogue: Catalogue) -> Iterator[Fault]:
    """The options of each case against those that are common, what they show, and the values that other texts print."""
    yield from of_beliefs(template, f"{key}.shows", part.shows, catalogue)
    yield from _strange(template, f"{key}.shows", part, (each.option.text for each in part.shows))
    for at, case in enumerate(part.cases, 1):
        place = f"{key}.cases[{at}]"
        yield from of_beliefs(template, f"{place}.wrong", case.wrong, catalogue)
        yield from _of_options(template, place, part, case)
        yield from _untold(template, place, part, case)


def of_beliefs(template: Template, key: str, options: tuple[WrongOption, ...], catalogue: Catalogue) -> Iterator[Fault]:
    """The ids of beliefs that there are not, each at its option."""
    known: Mapping[str, object] = {**catalogue.slips, **catalogue.ideas}
    for each in unknown_beliefs({f"{key}.{option.option.text}": option for option in options}, known):
        line = template.lines.get(each.key) or template.lines.get(key, 0)
        yield Fault(each.code, each.expected, each.found, each.hint, template.file, line, each.key)


def _of_options(template: Template, place: str, part: CasesPart, case: Case) -> Iterator[Fault]:
    wrong = [each.option.text for each in case.wrong]
    if part.options is not None:
        yield from _strange(template, f"{place}.right", part, [case.right.text])
        yield from _strange(template, f"{place}.wrong", part, wrong)
    elif not wrong:
        hint = "Or give the part options that are common to all cases, as `from: [a clip is loose, the leads are swapped]`."
        yield template.fault(place, "no-options", expected="wrong options under `wrong`", found="none", hint=hint)
    if case.right.text in wrong:
        hint = "An option is right or wrong in one case."
        yield template.fault(
            f"{place}.wrong", "repeated", expected="other options than the right one", found=shown(case.right.text), hint=hint
        )


def _strange(template: Template, key: str, part: CasesPart, texts: object) -> Iterator[Fault]:
    """Options that the common list does not have."""
    common = [option.text for option in part.options or ()]
    for text in texts if part.options is not None and isinstance(texts, list | Iterator) else ():
        if text not in common:
            hint = nearest(text, common) or f"They are {', '.join(shown(each) for each in common)}."
            yield template.fault(
                key, "no-right-option", expected="one of the options under `from`, word for word", found=shown(text), hint=hint
            )


def _untold(template: Template, place: str, part: CasesPart, case: Case) -> Iterator[Fault]:
    """Values that the text or the question prints and that this case does not tell."""
    texts = (template.text, part.ask) if part.draw == 1 else ()
    names = dict.fromkeys(name for text in texts for name in values_named(text))
    carried = {name for each in part.cases for name in each.values}
    for name in names:
        if name in carried and name not in case.values:
            hint = f"Add `with: {{{name}: …}}`."
            yield template.fault(
                place, "not-told", expected=f"a value for `{OWNER}.{name}`, which a text prints", found="none", hint=hint
            )
