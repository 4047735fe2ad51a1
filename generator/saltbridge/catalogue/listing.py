"""What can be known and found at the command line, by family."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import Catalogue, Quantity

CONSTANTS_FAMILY = "Constants, read from the data sheet"
UNKNOWNS_FAMILY = "Unknowns of a diagram, written ?"
_ROLES = (
    ("anode", "where oxidation happens"),
    ("cathode", "where reduction happens"),
    ("equation", "the cell reaction as written"),
)
_UNKNOWNS = (
    ("c_anode", "concentration at the anode", "mol/L"),
    ("c_cathode", "concentration at the cathode", "mol/L"),
    ("p_anode", "pressure at the anode", "bar"),
    ("p_cathode", "pressure at the cathode", "bar"),
)
_TOLD = (
    ("E0(Cu^2+/Cu)", "standard potential of a couple of the cell", "V"),
    ("c(Cu^2+)", "concentration of a species of the cell", "mol/L"),
    ("p(H2)", "pressure of a gas of the cell", "bar"),
)

Line = tuple[str, str, str]


def families(catalogue: Catalogue) -> dict[str, list[Quantity]]:
    """The quantities of each family of relations, in file order, each where it comes first."""
    found: dict[str, list[Quantity]] = {}
    seen: set[str] = set()
    for relation in catalogue.relations.values():
        for symbol in relation.symbols:
            quantity = catalogue.quantities[symbol]
            if symbol not in seen and not quantity.constant:
                seen.add(symbol)
                found.setdefault(relation.family, []).append(quantity)
    for quantity in catalogue.quantities.values():
        if quantity.family:
            found.setdefault(quantity.family, []).append(quantity)
    return found | {CONSTANTS_FAMILY: [each for each in catalogue.quantities.values() if each.constant]}


def listing(catalogue: Catalogue) -> str:
    """Every name with what it means and the unit a result is given in, for a terminal."""
    groups: dict[str, list[Line]] = {
        family: [(each.symbol, each.name, each.show) for each in quantities] for family, quantities in families(catalogue).items()
    }
    constants = groups.pop(CONSTANTS_FAMILY)
    groups["Named, not measured (with a cell diagram)"] = [(name, meaning, "") for name, meaning in _ROLES]
    groups[UNKNOWNS_FAMILY] = list(_UNKNOWNS)
    groups["Only to be given"] = list(_TOLD)
    groups[CONSTANTS_FAMILY] = constants
    first = max(len(line[0]) for lines in groups.values() for line in lines)
    return "\n\n".join("\n".join([family, *_columns(lines, first)]) for family, lines in groups.items())


def _columns(lines: list[Line], first: int) -> list[str]:
    """Lines of one family: names in a column as wide as every family's, units close behind their own family's meanings."""
    second = max((len(meaning) for _, meaning, unit in lines if unit), default=0)
    return [f"  {name:<{first}}  {meaning:<{second}}  {unit}".rstrip() for name, meaning, unit in lines]
