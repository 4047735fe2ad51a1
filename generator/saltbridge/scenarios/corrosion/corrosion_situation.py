"""Corrosion as situations: joined metals, scratched coatings, protection, rust in air and water, rates and anode blocks.

Owners: ``one`` and ``other`` are joined metals, ``coating`` and ``base`` a coat and what it covers, ``structure`` with helpers
``h1``, ``h2``… what protects it.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.half_reactions import combine, parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english
from saltbridge.document import Inscription, Piece
from saltbridge.faults import Faulty, fault
from saltbridge.graph.laws import Given, Rule, Say, Situation
from saltbridge.scenarios.battery.battery_situation import add_cell, started
from saltbridge.scenarios.equation_laws import add_electrons
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import name_metal, read_potential
from saltbridge.tables import Metal, Sheet, SheetRow, metals
from saltbridge.tables.corrosion import Material, seawater
from saltbridge.tables.reading import nearest

SERIES = ("standard", "seawater")
PAIR = ("one", "other")
UNDECIDED = Decimal(
    "0.05"
)  # V; a material's potential in sea water differs by so much from place to place (common practice, no source)
IRON, OXYGEN, OXYGEN_IN_BASE = "Fe^2+/Fe", "O2/H2O", "O2/OH^-"


def metal_row(symbol: str, sheet: Sheet) -> tuple[Metal, SheetRow]:
    """A metal and the row of its usual ion. Raises ``Faulty`` (``unknown-metal``, ``couple-not-on-sheet``)."""
    known = metals()
    metal = known.get(symbol) or next((each for each in known.values() if each.name == symbol.lower()), None)
    if metal is None:
        raise fault("unknown-metal", expected="the symbol of a metal", found=symbol[:40], hint=nearest(symbol, known))
    row = sheet.row(metal.couple)
    if row is None:
        raise fault("couple-not-on-sheet", expected=f"a metal with its couple on {sheet.title}", found=symbol)
    return metal, row


def material_of(word: str) -> Material:
    """A material of the sea-water series by id, or by the symbol it stands for. Raises ``Faulty`` (``unknown-material``)."""
    known = seawater()
    found = known.get(word) or next((each for each in known.values() if each.metal == word), None)
    if found is None:
        raise fault("unknown-material", expected="a material of the sea-water series", found=word[:40], hint=nearest(word, known))
    return found


def add_metal(situation: Situation, owner: str, symbol: str, sheet: Sheet) -> None:
    """A metal as an owner: its names and the standard potential of the sheet."""
    metal, row = metal_row(symbol, sheet)
    name_metal(situation, owner, metal)
    situation.words[f"{owner}.film"] = "no" if metal.film == "no" else "yes"
    situation.labels[f"{owner}.couple"] = couple_label(*parse_half_reaction(row.half_reaction).principal, situation.say)
    situation.given[f"{owner}.E0"] = read_potential(row.E0, sheet)
    situation.about[f"{owner}.E0"] = f"{owner}.couple"


def add_material(situation: Situation, owner: str, word: str) -> None:
    """A material of the sea-water series as an owner."""
    material = material_of(word)
    situation.words.setdefault(f"{owner}.metal", material.name)
    situation.words[f"{owner}.material"] = material.name
    situation.labels[f"{owner}.material_name"] = Inscription(
        "symbol", (Piece("base", material.name),), situation.say(material.name)
    )
    situation.given[f"{owner}.E_sea"] = Given(float(material.E_sea), "V", material.E_sea)
    situation.about[f"{owner}.E_sea"] = f"{owner}.material_name"


def _named(situation: Situation, node: str, owners: Sequence[str]) -> None:
    """What a rule that gives an owner says when it is told alone: the name of the metal."""
    for owner in owners:
        text = situation.words[f"{owner}.metal"]
        situation.labels[f"{owner}.{node}"] = Inscription("symbol", (Piece("base", text),), text)


# ------------------------------------------------------------------ which metal goes


def joined(pair: tuple[str, str], series: str, sheet: Sheet, catalogue: Catalogue, say: Say = in_english) -> Situation:
    """Two metals that touch. ``series``: standard, seawater, or both, where the two tables can be compared."""
    situation = started({}, sheet, catalogue, say)
    add_joined(situation, pair, series, sheet)
    return situation


def add_joined(situation: Situation, pair: tuple[str, str], series: str, sheet: Sheet) -> None:
    """Both metals, the rule which corrodes, and the gap. Raises ``Faulty`` (code ``undecided``) for two near in the sea-water series."""
    for owner, word in zip(PAIR, pair, strict=True):
        if series != "seawater":
            add_metal(situation, owner, word, sheet)
        if series != "standard":
            add_material(situation, owner, word)
    if series != "standard":
        _refuse_undecided(situation)
    _named(situation, "corrodes", PAIR)
    kind = "E_sea" if series == "seawater" else "E0"
    values = tuple(f"{owner}.{kind}" for owner in PAIR)
    rule = "metal-that-corrodes-in-sea" if series == "seawater" else "metal-that-corrodes"
    laws = situation.laws
    laws.append(Rule("corrodes", rule, values, keys=PAIR))
    laws.append(Rule("nobler", "other", ("corrodes",), keys=PAIR))
    laws.append(Rule("E_base", "pick", ("corrodes", *values), keys=PAIR))
    laws.append(Rule("E_noble", "pick", ("nobler", *values), keys=PAIR))
    if series == "both":
        _named(situation, "corrodes_in_sea", PAIR)
        in_sea = tuple(f"{owner}.E_sea" for owner in PAIR)
        laws.append(Rule("corrodes_in_sea", "metal-that-corrodes-in-sea", in_sea, keys=PAIR))
        laws.append(Rule("orders", "two-tables", ("corrodes", "corrodes_in_sea"), keys=("agree", "swap")))
    _add_outlasts(situation)


def told_apart_in_sea(pair: tuple[str, str]) -> bool:
    """Whether the sea-water series holds both materials, far enough apart."""
    try:
        first, second = (Decimal(material_of(word).E_sea) for word in pair)
    except Faulty:
        return False
    return abs(first - second) >= UNDECIDED


def _refuse_undecided(situation: Situation) -> None:
    """Raise ``Faulty`` where two potentials in sea water lie within what one material's varies."""
    values = [Decimal(situation.given[f"{owner}.E_sea"].printed) for owner in PAIR]
    if abs(values[0] - values[1]) < UNDECIDED:
        names = " and ".join(situation.words[f"{owner}.material"] for owner in PAIR)
        raise fault(
            "undecided",
            expected=f"two materials at least {UNDECIDED} V apart in the sea-water series",
            found=f"{names}: {values[0]} V and {values[1]} V",
            hint="So near each other either may corrode. Take another pair.",
        )


def _add_outlasts(situation: Situation) -> None:
    """Where one metal alone carries a film: it outlasts the other in air, whatever its potential."""
    films = {owner: situation.words.get(f"{owner}.film") for owner in PAIR}
    if sorted(str(film) for film in films.values()) == ["no", "yes"]:
        situation.given |= {f"{owner}.film": Given(str(film), "", str(film)) for owner, film in films.items()}
        _named(situation, "outlasts", PAIR)
        inputs = tuple(f"{owner}.{what}" for what in ("film", "E0") for owner in PAIR)
        situation.laws.append(Rule("outlasts", "metal-that-outlasts", inputs, keys=PAIR))


# ------------------------------------------------------------------ rust


def add_rusting(situation: Situation, medium: str, sheet: Sheet, catalogue: Catalogue) -> None:
    """Iron in water with air: equations, and the standard potentials of oxygen and iron. ``medium``: neutral or acid equations."""
    oxygen, iron = (parse_half_reaction(sheet.required(couple).half_reaction) for couple in (_oxygen(medium), IRON))
    add_cell(situation, oxygen, iron, catalogue)
    add_electrons(situation, catalogue, combine(oxygen, iron).n)
    for name, couple in (("oxygen", OXYGEN), ("iron", IRON)):
        situation.given[f"E0_{name}"] = read_potential(sheet.required(couple).E0, sheet)


def _oxygen(medium: str) -> str:
    if medium not in {"neutral", "acid"}:
        raise fault("medium", expected="neutral or acid", found=medium[:40])
    return OXYGEN_IN_BASE if medium == "neutral" else OXYGEN
