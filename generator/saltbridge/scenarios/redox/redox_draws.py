"""Redox foundations drawn: a species, a change, a reaction, the odd one out, a displacement."""

from __future__ import annotations

from decimal import Decimal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.equations import imbalance, parse_equation
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation
from saltbridge.chemistry.oxidation import disproportionates, electrons_passed
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.chemistry.reshaping import reshaped
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Rule, Situation
from saltbridge.scenarios.redox.redox import Half, add_pair, add_reaction, halves_of
from saltbridge.scenarios.redox.redox_models import (
    ChangeScenario,
    DisplacementScenario,
    OddScenario,
    RedoxScenario,
)
from saltbridge.scenarios.redox.redox_words import add_single_half, half_of_change
from saltbridge.scenarios.scene import Means, Scene, Source, sheet_row
from saltbridge.scenarios.situations import name_metal
from saltbridge.tables import metals
from saltbridge.units import convert, parse_quantity
from saltbridge.words import of_bank as words_of


def _situation(means: Means) -> Situation:
    return Situation(say=words_of(means.settings))


def change_scene(body: ChangeScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A change, balanced in its medium."""
    change = source.pick("change", body.changes)
    half = half_of_change(change, body.medium)
    situation = _situation(means)
    situation.labels["change"] = inscribe_equation(parse_equation(change), say=situation.say)
    situation.words["medium"] = body.medium
    add_single_half(situation, catalogue, half)
    situation.shape = (body.medium,)
    _add_forms(situation, half, source)
    return Scene(situation, Facts())


def _add_forms(situation: Situation, half: Half, source: Source) -> None:
    """The half-equation as three students write it: right, electrons on the wrong side, electrons forgotten."""
    right = half.equation
    wrong = [reshaped(name, (), right) for name in ("electrons on the other side", "charge ignored")]
    keys = ("form1", "form2", "form3")
    for key, equation in zip(keys, source.shuffle("forms", [right, *filter(None, wrong)]), strict=True):
        left, other = imbalance(equation).get("charge", (0, 0))
        situation.labels[f"{key}.half"] = inscribe_equation(equation, say=situation.say)
        situation.given[f"{key}.surplus"] = Given(float(left - other), "", str(left - other), "balance")
    inputs = tuple(f"{key}.surplus" for key in keys)
    situation.laws.append(Rule("half_form", "half-with-equal-charges", inputs, keys=keys))


def redox_scene(body: RedoxScenario, source: Source, means: Means, catalogue: Catalogue) -> Scene:
    """A reaction of two halves. Raises ``Faulty`` where the couples drawn do not react far enough."""
    situation = _situation(means)
    situation.words["medium"] = body.medium
    if body.reactions is not None:
        skeleton = source.pick("reaction", body.reactions)
        situation.labels["skeleton"] = inscribe_equation(parse_equation(skeleton), say=situation.say)
        halves = halves_of(skeleton, body.medium)
        add_reaction(situation, catalogue, *halves)
        return Scene(situation, Facts())
    above, below = (
        sheet_row(means, source.pick(name, ids))
        for name, ids in (("oxidant", body.oxidants or ()), ("reductant", body.reductants or ()))
    )
    least = convert(*parse_quantity(body.least), "V")
    if Decimal(above.E0) - Decimal(below.E0) < least:
        raise fault(
            "no-reaction",
            expected=f"{above.couple} at least {least} V above {below.couple}",
            found=f"{above.E0} V and {below.E0} V",
        )
    add_pair(situation, means.sheet, above, below)
    reduction, oxidation = (parse_half_reaction(row.half_reaction) for row in (above, below))
    add_reaction(
        situation,
        catalogue,
        Half(reduction, oxidation=False),
        Half(oxidation, oxidation=True),
    )
    for role, half in (("reduction", reduction), ("oxidation", oxidation)):
        situation.labels[f"{role}.couple"] = situation.labels["taking.couple" if role == "reduction" else "giving.couple"]
        situation.words[f"{role}.n"] = str(half.n)
    return Scene(situation, Facts(E0=float(Decimal(above.E0) - Decimal(below.E0))))


def odd_scene(body: OddScenario, source: Source, means: Means, _catalogue: Catalogue) -> Scene:
    """One equation of the kind wanted among others. Raises ``Faulty`` where another one is of that kind too."""
    situation = _situation(means)
    drawn = (source.pick("fitting", body.fitting), *source.sample("others", body.others, body.options - 1))
    order = source.shuffle("equations", drawn)
    keys = tuple(f"e{place}" for place in range(1, len(order) + 1))
    for key, text in zip(keys, order, strict=True):
        equation = parse_equation(text)
        situation.labels[f"{key}.equation"] = inscribe_equation(equation, say=situation.say)
        holds = any("O" in dict(species.atoms) for _, species in (*equation.left, *equation.right))
        splits = disproportionates(equation.left, equation.right)
        for name, value in (
            ("passed", electrons_passed(equation.left, equation.right)),
            ("oxygen", int(holds)),
            ("splits", int(splits)),
        ):
            situation.given[f"{key}.{name}"] = Given(float(value), "", str(value), "balance")
    fits = [
        key
        for key in keys
        if (situation.given[f"{key}.passed"].value == 0 if body.wanted == "not redox" else situation.given[f"{key}.splits"].value)
    ]
    if len(fits) != 1:
        raise fault("odd-one-out", expected=f"exactly one equation that is: {body.wanted}", found=str(len(fits)))
    situation.labels["odd.equation"] = situation.labels[f"{fits[0]}.equation"]
    if body.wanted == "not redox":
        inputs = (*(f"{key}.passed" for key in keys), *(f"{key}.oxygen" for key in keys))
        situation.laws.append(Rule("odd", "equation-without-change", inputs, keys=keys))
    else:
        situation.laws.append(Rule("odd", "equation-that-splits", tuple(f"{key}.splits" for key in keys), keys=keys))
    return Scene(situation, Facts(), {"equations": keys})


def displacement_scene(body: DisplacementScenario, source: Source, means: Means, _catalogue: Catalogue) -> Scene:
    """A grid of metals and solutions, and one test of it."""
    situation = _situation(means)
    order = source.shuffle("metals", body.metals)
    rows = {symbol: sheet_row(means, metals()[symbol].couple) for symbol in order}
    owners = [f"m{place}" for place in range(1, len(order) + 1)]
    for place, (owner, symbol) in enumerate(zip(owners, order, strict=True)):
        _name(situation, owner, symbol, "PQRSTUVW"[place] if body.letters else "")
        wins = [Decimal(rows[other].E0) > Decimal(rows[symbol].E0) for other in order]
        for other, (another, won) in enumerate(zip(order, wins, strict=True), 1):
            situation.words[f"{owner}.with{other}"] = "–" if another == symbol else "reaction" if won else "no reaction"
        situation.given[f"{owner}.reacting"] = Given(float(sum(wins)), "", str(sum(wins)), "balance")
        situation.about[f"{owner}.reacting"] = f"{owner}.symbol"
    keys = tuple(owners)
    situation.laws.append(Rule("ranking", "ranking-by-reactions", tuple(f"{owner}.reacting" for owner in owners), keys=keys))
    solid, dissolved = source.sample("test", order, 2)
    for role, symbol in (("solid", solid), ("dissolved", dissolved)):
        _name(situation, role, symbol, "PQRSTUVW"[order.index(symbol)] if body.letters else "")
    add_pair(situation, means.sheet, rows[dissolved], rows[solid])
    situation.laws.append(Rule("reacts", "metal-displaces", ("taking.E0", "giving.E0"), keys=("yes", "no")))
    situation.shape = (f"{len(order)} metals",)
    return Scene(situation, Facts(metals=order), {"metals": keys})


def _name(situation: Situation, owner: str, symbol: str, letter: str) -> None:
    name_metal(situation, owner, metals()[symbol])
    if letter:
        situation.words[f"{owner}.metal"] = letter
