"""A situation without a scenario: quantities told one by one, and every relation that may join them."""

from __future__ import annotations

from collections.abc import Sequence

from saltbridge.derivation.catalogue import Catalogue
from saltbridge.derivation.electrolysis import FARADAY, add_faraday, add_product, metal_deposit
from saltbridge.derivation.knowns import Told
from saltbridge.derivation.laws import Given, Situation, instance
from saltbridge.derivation.situations import add_constants, add_given
from saltbridge.faults import fault
from saltbridge.tables import Sheet


def loose(told: Sequence[Told], sheet: Sheet, catalogue: Catalogue, *, nernst: str) -> Situation:
    """The situation of quantities told without a cell; a metal takes its usual ion. Raises ``Faulty`` for impossible values."""
    situation = Situation()
    for each in told:
        if each.word:
            continue
        if each.of:
            raise fault(
                "needs-diagram",
                expected="a cell diagram for a quantity of a couple or species",
                found=each.source,
                hint="Give the diagram first.",
            )
        add_given(situation, catalogue, each.name, each.quantity.printed, each.quantity.unit)
    metal = next((each.word for each in told if each.name == "metal"), "")
    if metal:
        add_product(situation, *metal_deposit(metal, sheet), sheet)
    add_constants(situation, sheet)
    names = {name.split(":")[0] for name in situation.given}
    if "T" not in names:
        constant = sheet.constants["T"]
        situation.given["T"] = Given(float(constant.printed), constant.unit, constant.printed, "read", sheet.title)
    add_faraday(situation, catalogue, with_efficiency="efficiency" in names)
    form = nernst if nernst == "lg" else ""
    for relation in catalogue.relations.values():
        if relation.id not in FARADAY:
            situation.laws.append(
                instance(relation, form=form if any(each.id == form for each in relation.forms) else "", say=relation.say)
            )
    return situation
