"""The kinds of things that a scenario in data may hold: what each brings with it, for questions and the command line alike."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.inscriptions import inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Rule, Situation
from saltbridge.scenarios.bath.cautions import add_caution, caution_of_metal
from saltbridge.scenarios.bath.electrolysis import PRODUCT_HALF, add_product, metal_deposit
from saltbridge.scenarios.bath.products import add_coat, add_named_product
from saltbridge.scenarios.battery.battery_situation import add_battery, add_material, battery_of
from saltbridge.scenarios.battery.fuel_cells import add_efficiencies, add_fuel, fuel_of
from saltbridge.scenarios.corrosion.corrosion_situation import add_metal, add_rusting
from saltbridge.scenarios.energy.energy import add_formation
from saltbridge.scenarios.equation_laws import add_half
from saltbridge.scenarios.joining import bind
from saltbridge.scenarios.redox.oxidation_numbers import add_oxidation_number
from saltbridge.scenarios.redox.redox import add_couple_in_role
from saltbridge.scenarios.situations import name_metal
from saltbridge.scenarios.standards.standards import add_reaction, row_holding
from saltbridge.scenarios.transfer import Ways
from saltbridge.tables import Sheet, metals
from saltbridge.tables.choices_of_couples import halogens
from saltbridge.tables.corrosion import rust_tubes
from saltbridge.tables.reactions import reactions


@dataclass(frozen=True, slots=True)
class Making:
    """A situation in the making: it knows its quantities; ``picked`` are all words by name, ``ways`` how the bank prints."""

    situation: Situation
    sheet: Sheet
    catalogue: Catalogue
    picked: Mapping[str, str]
    ways: Ways = field(default_factory=Ways)

    @property
    def told(self) -> frozenset[str]:
        """The names of the quantities that are given, in whatever unit."""
        return frozenset(name.split(":")[0] for name in self.situation.given)


Adder = Callable[[Making, str, str], None]


def _metal(making: Making, owner: str, word: str) -> None:
    add_metal(making.situation, owner, word, making.sheet)


def _deposit(making: Making, _owner: str, word: str) -> None:
    """A metal laid down from its usual ion."""
    half, product = metal_deposit(word, making.sheet)
    add_product(making.situation, half, product, making.sheet)
    add_half(making.situation, making.catalogue, "cathode", "deposit", (PRODUCT_HALF,))


def _dissolving(making: Making, _owner: str, word: str) -> None:
    """A metal that goes into solution as its usual ion."""
    half, product = metal_deposit(word, making.sheet)
    add_product(making.situation, half, product, making.sheet, oxidised=True)
    add_half(making.situation, making.catalogue, "anode", "dissolving", (PRODUCT_HALF,))


def _corroding(making: Making, owner: str, word: str) -> None:
    """The same with the density of the metal, for the depth that is lost."""
    _dissolving(making, owner, word)
    density = metals()[making.situation.labels["product"].plain].density
    making.situation.given.setdefault("density", Given(float(density), "g/cm3", density, "read", "metals.csv"))


def _rusting(making: Making, _owner: str, word: str) -> None:
    add_rusting(making.situation, word, making.sheet, making.catalogue)


def _coat(making: Making, _owner: str, word: str) -> None:
    refuse_second_product(making.situation, "coating or metal")
    add_coat(making.situation, word, making.sheet, making.catalogue)
    add_caution(making.situation, caution_of_metal(making.situation.labels["product"].plain))


def _named_metal(making: Making, owner: str, word: str) -> None:
    """A metal by its names alone."""
    name_metal(making.situation, owner, metals()[word])


def _product(making: Making, _owner: str, word: str) -> None:
    add_named_product(making.situation, word, making.sheet, making.catalogue)


def _halogen_added(making: Making, owner: str, word: str) -> None:
    _halogen(making, owner, word, "taking")


def _halide(making: Making, owner: str, word: str) -> None:
    _halogen(making, owner, word, "giving")


def _halogen(making: Making, owner: str, symbol: str, role: Literal["taking", "giving"]) -> None:
    """A halogen of the table: its names, its colour in water, and the potential of its couple in its role."""
    situation, halogen = making.situation, halogens()[symbol]
    situation.words |= {f"{owner}.halogen": halogen.name, f"{owner}.salt": halogen.halide, f"{owner}.colour": halogen.colour}
    situation.labels[f"{owner}.molecule"] = inscribe_species(parse_species(f"{symbol}2"), say=situation.say)
    situation.labels[f"{owner}.ion"] = inscribe_species(parse_species(f"{symbol}^-"), say=situation.say)
    add_told_word(situation, f"{owner}.seen", halogen.colour)
    add_couple_in_role(situation, making.sheet, role, making.sheet.required(halogen.couple))


def _fuel_burnt(making: Making, _owner: str, word: str) -> None:
    add_formation(making.situation, reactions()[word], making.catalogue, making.ways)


def _reaction(making: Making, _owner: str, word: str) -> None:
    """What takes electrons with what gives them, each a couple or a species of it."""
    for name in ("E0_cathode", "E0_anode"):
        if name in making.told:
            hint = "Leave one out."
            raise fault("given-twice", expected=f"{name} from the words given", found=f"{name} given as well", hint=hint)
    rows = (row_holding(making.sheet, word, 0), row_holding(making.sheet, making.picked["giver"], 1))
    add_reaction(making.situation, *rows, making.sheet, making.catalogue)


def _marked(making: Making, _owner: str, word: str) -> None:
    element, _, species = word.partition(" in ")
    add_oxidation_number(making.situation, parse_species(species.strip()), element.strip())


def _tube(making: Making, _owner: str, word: str) -> None:
    """A tube of the table: what it looks like, and whether air and water reach the iron."""
    found = rust_tubes()[word]
    making.situation.words["tube.set_up"] = found.set_up
    add_told_word(making.situation, "air", "yes" if found.air else "no")
    add_told_word(making.situation, "water", "yes" if found.water else "no")


def _yes_or_no(making: Making, owner: str, word: str) -> None:
    if word not in {"yes", "no"}:
        raise fault("yes-no", expected=f"{owner} = yes or {owner} = no", found=word[:40])
    add_told_word(making.situation, owner, word)


def _battery(making: Making, _owner: str, word: str) -> None:
    """A battery of the table; its whole capacity is usable unless a share of it is told, its potential as printed unless it is told."""
    situation, kind, told = making.situation, battery_of(word), making.told
    add_battery(situation, kind, making.catalogue)
    if "usable" not in told:
        bind(situation, making.catalogue, "Batteries: capacity", {"q_usable": "q_cap"})
    if "E_cell" not in told:
        source, rule = ("E0_cell", "printed-potential") if kind.E_negative else ("U_nom", "nominal-voltage")
        situation.laws.append(Rule("E_cell", rule, (source,)))


def _electrode_material(making: Making, _owner: str, word: str) -> None:
    formula, _, electrons = word.partition(" ")
    add_material(making.situation, formula, int(electrons), making.sheet)


def _fuel(making: Making, _owner: str, word: str) -> None:
    """A fuel of the table with oxygen in the medium told; energies are told for one mole of fuel and hold in acid."""
    situation, fuel, medium = making.situation, fuel_of(word), making.picked["medium"]
    refuse_second_product(situation, "a fuel alone")
    add_fuel(situation, fuel, medium, making.sheet, making.catalogue)
    situation.given["n"] = situation.given["z"]
    if medium == "acid":
        add_efficiencies(situation, fuel, making.catalogue)


def refuse_second_product(situation: Situation, expected: str) -> None:
    """Raise ``Faulty`` where another product is told already."""
    if "product" in situation.labels:
        raise fault("two-products", expected=expected, found="another product beside it")


def add_told_word(situation: Situation, node: str, word: str) -> None:
    """A word as a value that rules may take."""
    situation.given[node] = Given(word, "", word)


THING_ADDERS: Mapping[str, Adder] = {
    "metal": _metal,
    "deposit": _deposit,
    "dissolving metal": _dissolving,
    "corroding metal": _corroding,
    "rusting iron": _rusting,
    "rust tube": _tube,
    "battery": _battery,
    "electrode material": _electrode_material,
    "fuel": _fuel,
    "coat": _coat,
    "named metal": _named_metal,
    "fuel burnt": _fuel_burnt,
    "reaction": _reaction,
    "product": _product,
    "halogen added": _halogen_added,
    "halide": _halide,
    "element in a species": _marked,
    "yes or no": _yes_or_no,
}
"""What each kind of thing adds; every kind of the closed list is here."""


def name_choice(situation: Situation, node: str, owners: Sequence[str]) -> None:
    """What a choice among metals says when it is told alone: the name of the metal."""
    for owner in owners:
        name = situation.words.get(f"{owner}.metal")
        if name is not None:
            situation.labels[f"{owner}.{node}"] = Inscription("symbol", (Piece("base", name),), name)
