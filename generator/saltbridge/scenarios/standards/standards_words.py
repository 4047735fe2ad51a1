"""Words of standard potentials told at the command line: couples to compare, a reaction, two steps, a reference electrode."""

from __future__ import annotations

import difflib
from collections.abc import Mapping

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import parse_half_reaction
from saltbridge.faults import fault
from saltbridge.graph.laws import Situation
from saltbridge.scenarios.standards.standards import Zero, add_steps, add_zero, table_of
from saltbridge.tables import Sheet, SheetRow, metals
from saltbridge.tables.benches import reference_electrodes

Words = Mapping[str, str]


def add_couples(situation: Situation, words: Words, sheet: Sheet, _catalogue: Catalogue) -> None:
    """``couples = Zn^2+/Zn, Cu^2+/Cu``: strongest and weakest agents. Raises ``Faulty`` for fewer than two."""
    rows = [_row(sheet, word.strip()) for word in words["couples"].split(",")]
    if len({row.couple for row in rows}) < max(2, len(rows)):
        raise fault("couples", expected="two or more different couples, with commas between them", found=words["couples"][:60])
    made = table_of(rows, sheet)
    situation.given |= made.given
    situation.labels |= made.labels
    situation.words |= made.words
    situation.about |= made.about
    situation.laws += made.laws


def add_told_steps(situation: Situation, words: Words, sheet: Sheet, _catalogue: Catalogue) -> None:
    """``chain = Cu^2+/Cu^+, Cu^+/Cu``: both steps together. Raises ``Faulty`` where they share no species."""
    rows = [_row(sheet, word.strip()) for word in words["chain"].split(",")]
    if len(rows) != 2:
        raise fault("no-chain", expected="two couples with a comma between them", found=words["chain"][:60])
    add_steps(situation, rows[0], rows[1], sheet)


def add_told_reference(situation: Situation, words: Words, sheet: Sheet, _catalogue: Catalogue) -> None:
    """``reference = calomel`` or a metal: its potential. Raises ``Faulty`` for an unknown one."""
    _give_way(situation, ("E_ref",))
    add_zero(situation, zero_of(words["reference"], sheet), sheet)


def zero_of(word: str, sheet: Sheet) -> Zero:
    """The reference of a word: an electrode of the table by id, or a metal of the sheet. Raises ``Faulty`` (``unknown-reference``)."""
    known = reference_electrodes()
    if word in known:
        electrode = known[word]
        return Zero(electrode.name, electrode.filling, electrode.E, electrode.source)
    metal = metals().get(word) or next((each for each in metals().values() if each.name == word.lower()), None)
    if metal is None:
        near = difflib.get_close_matches(word, [*known, *metals()], 3, 0.5)
        hint = f"Near: {', '.join(near)}." if near else f"Known: {', '.join(known)}, or the symbol of a metal."
        raise fault("unknown-reference", expected="a reference electrode or a metal", found=word[:40], hint=hint)
    row = sheet.required(metal.couple)
    return Zero(metal.name, metal.salt, row.E0, sheet.title, row)


def _row(sheet: Sheet, word: str) -> SheetRow:
    """The row of a couple as typed. Raises ``Faulty`` (``couple-not-on-sheet``) naming the nearest."""
    plain = word.replace(" ", "")
    for row in sheet.rows:
        if plain in {row.couple, row.couple.replace("^", ""), parse_half_reaction(row.half_reaction).couple_label}:
            return row
    near = difflib.get_close_matches(word, [row.couple for row in sheet.rows], 3, 0.4)
    hint = f"Near: {', '.join(near)}." if near else "Write it as Cu^2+/Cu."
    raise fault("couple-not-on-sheet", expected=f"a couple of {sheet.title}", found=word[:40], hint=hint)


def _give_way(situation: Situation, names: tuple[str, ...]) -> None:
    """What the sheet gives would stand against what was told: raises ``Faulty`` (code ``told-twice``)."""
    told = next((name for name in names if name in situation.given), None)
    if told:
        raise fault("given-twice", expected=f"{told} from the words given", found=f"{told} given as well", hint="Leave one out.")
