"""Words of electrolysis told at the command line: a gas, a second product, a coating, a salt with its state and electrodes, an impurity."""

from __future__ import annotations

import difflib
from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.faults import fault
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.bath.bath_products import Bath, add_products
from saltbridge.scenarios.bath.cautions import add_caution, caution_of
from saltbridge.scenarios.bath.electrolysis import add_product
from saltbridge.scenarios.bath.products import (
    add_gas_facts,
    add_molar_volume,
    add_named_product,
    add_second,
    add_second_species,
    electrons_for_one,
)
from saltbridge.tables import Sheet
from saltbridge.tables.electrolytes import Electrolyte, electrolytes

Words = Mapping[str, str]


def add_gas_word(situation: Situation, words: Words, sheet: Sheet, catalogue: Catalogue) -> None:
    """``gas = H2``: its electrons, molar mass and molar volume."""
    if "metal" in words or "coating" in words:
        raise fault("two-products", expected="one product", found=f"a metal and gas = {words['gas']}", hint="Write second = …")
    add_named_product(situation, words["gas"], sheet, catalogue)
    add_molar_volume(situation, sheet)


def add_second_word(situation: Situation, words: Words, sheet: Sheet, _catalogue: Catalogue) -> None:
    """``second = Ag``: what the same electrons give in a second place."""
    add_second(situation, words["second"], sheet)
    add_molar_volume(situation, sheet)


def add_salt_words(situation: Situation, words: Words, sheet: Sheet, catalogue: Catalogue) -> None:
    """``salt = CuSO4`` with ``state`` and, in water, ``electrodes``: both products and what follows from them.

    Raises ``Faulty`` (R-STATE) where state or electrodes are not told.
    """
    if "salt" not in words:
        raise fault("salt", expected="salt beside state and electrodes", found="none", hint='As "salt = CuSO4".')
    bath = told_bath(words)
    found = add_products(situation, bath, sheet, catalogue)
    add_caution(situation, caution_of(bath))
    if {"metal", "gas", "coating"} & set(words):
        return
    product = found.matter("cathode")
    add_product(situation, found.cathode.half, product, sheet)
    add_gas_facts(situation, product)
    add_molar_volume(situation, sheet)
    if "second" not in words and found.decided:
        anode, half = found.matter("anode"), found.anode.half
        add_second_species(situation, half, anode, electrons_for_one(half, anode), sheet)


def told_bath(words: Words) -> Bath:
    """The bath of the words told. Raises ``Faulty``: ``unknown-salt``, ``R-STATE``."""
    state = words.get("state", "")
    if state not in {"molten", "aqueous"}:
        raise fault(
            "R-STATE", expected="state = molten or state = aqueous", found=state or "no state", hint="Products depend on it."
        )
    salt = salt_of(words["salt"])
    electrodes = words.get("electrodes", "inert" if state == "molten" else "")
    if not electrodes:
        hint = "An active anode dissolves; an inert one does not."
        raise fault("R-STATE", expected="electrodes = inert, or the metal of the anode", found="none", hint=hint)
    return Bath(salt, state == "molten", "" if electrodes == "inert" else electrodes)


def salt_of(word: str) -> Electrolyte:
    """The salt of a formula or name. Raises ``Faulty`` (code ``unknown-salt``) naming the nearest."""
    known = electrolytes()
    found = known.get(word) or next((each for each in known.values() if each.name == word.lower()), None)
    if found is None:
        near = difflib.get_close_matches(word, [*known, *(each.name for each in known.values())], 3, 0.5)
        hint = f"Near: {', '.join(near)}." if near else f"Known: {', '.join(known)}."
        raise fault("unknown-salt", expected="the formula of a salt of the table", found=word[:40], hint=hint)
    return found
