"""Building blocks that every scenario shares: constants of the sheet, given quantities in any unit, names in prose."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from math import isfinite

from saltbridge import units
from saltbridge.catalogue.catalogue import Catalogue, Quantity, catalogue
from saltbridge.chemistry.inscriptions import inscribe_species
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import Faulty, fault
from saltbridge.graph.laws import Conversion, Given, How, Situation, given_name, quantity_of
from saltbridge.tables import Metal, Sheet, constant, metals

SLOPE_HOLDS_WITHIN = 0.2  # K


def read_potential(printed: str, sheet: Sheet) -> Given:
    """A potential in V as read from the sheet."""
    return Given(float(printed), "V", printed, "read", sheet.title)


def read_constant(symbol: str, sheet: Sheet) -> Given:
    """A constant as read from the sheet."""
    constant = sheet.constants[symbol]
    return Given(float(constant.printed), constant.unit, constant.printed, "read", sheet.title)


@cache
def _constants() -> tuple[str, ...]:
    """The quantities that are constants."""
    return tuple(symbol for symbol, each in catalogue().quantities.items() if each.constant)


def add_constants(situation: Situation, sheet: Sheet) -> None:
    """The constants as the sheet prints them."""
    for symbol in _constants():
        situation.given.setdefault(symbol, read_constant(symbol, sheet))


def is_25(situation: Situation) -> bool:
    """Whether the temperature is 25 °C, so that the slope of the sheet holds."""
    given = situation.given.get("T") or situation.given.get("T:°C")
    if given is None or not isinstance(given.value, float):
        return False
    return near_25(given.value + (constant("T_zero") if given.unit == "°C" else 0.0))


def near_25(kelvin: float) -> bool:
    """Whether a temperature in K counts as 25 °C, as 298 K does."""
    return abs(kelvin - constant("T_25")) <= SLOPE_HOLDS_WITHIN


SMALLEST, LARGEST = 1e-30, 1e30  # as in a bank; only what is told by its logarithm may be larger


def add_given(situation: Situation, catalogue: Catalogue, name: str, printed: str, unit: str, source: str = "") -> None:
    """A given quantity; in a unit other than the coherent one it becomes a node of its own and a conversion.

    Raises ``Faulty`` (code ``impossible``) for a value outside the quantity's range, ``quantity-size`` for one of a size beyond all
    use, and ``dimension`` for a unit of another kind.
    """
    quantity = quantity_of(name, catalogue.quantities)
    if quantity is None:
        raise fault("unknown-quantity", expected="a quantity such as I, t or E_cell", found=name)
    value = float(Decimal(printed))
    coherent = quantity.unit
    celsius = unit == "°C" and coherent == "K"
    factor = 1.0 if celsius or unit == coherent else units.factor(unit, coherent)
    offset = constant("T_zero") if celsius else 0.0
    refuse_impossible(quantity.least, name, value * factor + offset, f"{printed} {unit}".strip())
    if not quantity.flags.by_logarithm and value and not SMALLEST <= abs(value) <= LARGEST:
        raise fault(
            "quantity-size",
            expected=f"zero or a size from {SMALLEST:g} to {LARGEST:g} for {name}",
            found=f"{printed} {unit}".strip(),
        )
    how: How = "read" if source else "given"
    if unit == coherent:
        situation.given[name] = Given(value, unit, printed, how, source)
        return
    node = given_name(name, unit)
    situation.given[node] = Given(value, unit, printed, how, source)
    situation.laws.append(Conversion(name, node, unit, coherent, factor, offset))


def refuse_impossible(least: str, name: str, value: float, shown: str) -> None:
    """Raise ``Faulty`` where a value lies outside the range of its quantity."""
    if not isfinite(value):
        raise fault("impossible", expected=f"a number of some size for {name}", found=shown)
    if least == "fraction" and not 0 < value <= 1:
        hint = f'Write "{name} = {shown} %".' if 1 < value <= 100 and "%" not in shown else ""
        raise fault("impossible", expected=f"{name} above zero and up to 100 %", found=shown, hint=hint)
    if (least == "positive" and value <= 0) or (least == "not negative" and value < 0):
        raise fault("impossible", expected=f"{name} {'above zero' if least == 'positive' else 'not below zero'}", found=shown)


def add_print_unit(situation: Situation, catalogue: Catalogue, name: str, unit: str) -> str:
    """The node of ``name`` in the unit wanted: itself, or a conversion from it. Raises ``Faulty`` for a unit of another kind."""
    quantity = quantity_of(name, catalogue.quantities)
    if quantity is None or unit == quantity.unit:
        return name
    refuse_unit(quantity, unit)
    node = given_name(name, unit)
    if unit == "°C" and quantity.unit == "K":
        situation.laws.append(Conversion(node, name, "K", "°C", 1.0, -constant("T_zero")))
    else:
        situation.laws.append(Conversion(node, name, quantity.unit, unit, units.factor(quantity.unit, unit)))
    return node


def refuse_unit(quantity: Quantity, unit: str) -> None:
    """Raise ``Faulty`` for a unit that is unknown or measures another kind of thing, naming the usual ones."""
    usual = ", ".join(units.known_units(quantity.unit)[:6]) or "a pure number"
    wanted = f"{quantity.symbol} in a unit of its kind ({usual})"
    try:
        fits = units.same_dimension(unit, quantity.unit)
    except Faulty as error:
        raise fault("unit", expected=wanted, found=unit) from error
    if not fits:
        raise fault("dimension", expected=wanted, found=unit or "a pure number")


def metal_of(species: Species) -> Metal | None:
    """The metal that a solid electrode is made of, where it is one of the table."""
    return metals().get(species.formula)


def name_metal(situation: Situation, owner: str, metal: Metal) -> None:
    """Prose names of a metal: ``left.metal`` zinc, ``left.ion``, ``left.symbol``, ``left.salt``."""
    ion, symbol = parse_species(metal.ion), parse_species(metal.symbol)
    situation.words[f"{owner}.metal"] = metal.name
    situation.words[f"{owner}.salt"] = metal.salt
    situation.labels[f"{owner}.ion"] = inscribe_species(ion, say=situation.say)
    situation.labels[f"{owner}.symbol"] = inscribe_species(symbol, say=situation.say)
