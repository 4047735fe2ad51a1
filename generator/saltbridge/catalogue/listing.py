"""What can be known and found at the command line, by family."""

from __future__ import annotations

from dataclasses import dataclass

from saltbridge.catalogue.catalogue import Catalogue, Quantity
from saltbridge.catalogue.catalogue_records import Example
from saltbridge.catalogue.examples import example_of

CONSTANTS_FAMILY = "Constants, read from the data sheet"
UNKNOWNS_FAMILY = "Unknowns of a diagram, written ?"
_DANIELL = "Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)"
_ROLES = (
    ("anode", "where oxidation happens"),
    ("cathode", "where reduction happens"),
    ("equation", "the cell reaction as written"),
)
_UNKNOWNS = (
    ("c_anode", "concentration at the anode", "mol/L", "Zn(s) | Zn^2+(aq, ?) || Cu^2+(aq) | Cu(s)", "1.13 V"),
    ("c_cathode", "concentration at the cathode", "mol/L", "Zn(s) | Zn^2+(aq) || Cu^2+(aq, ?) | Cu(s)", "1.08 V"),
    ("p_anode", "pressure at the anode", "bar", "Pt(s) | H2(g, ?) | H^+(aq) || Ag^+(aq) | Ag(s)", "0.79 V"),
    ("p_cathode", "pressure at the cathode", "bar", "Zn(s) | Zn^2+(aq) || Cl^-(aq) | Cl2(g, ?) | Pt(s)", "2.11 V"),
)
_TOLD = (
    ("E0(Cu^2+/Cu)", "standard potential of a couple of the cell", "V", _DANIELL, "0.337 V"),
    ("c(Cu^2+)", "concentration of a species of the cell", "mol/L", _DANIELL, "0.050 mol/L"),
    ("p(H2)", "pressure of a gas of the cell", "bar", "Pt(s) | H2(g) | H^+(aq) || Ag^+(aq) | Ag(s)", "0.50 bar"),
)


@dataclass(frozen=True, slots=True)
class Listed:
    """A line of the list: name, meaning, the unit a result is given in, and a derivation in which it is given or found."""

    name: str
    meaning: str
    unit: str
    example: Example | None


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


def listed(catalogue: Catalogue) -> dict[str, list[Listed]]:
    """Every name by heading, with its example; constants are read from the data sheet and need none."""
    groups = families(catalogue)
    constants = groups.pop(CONSTANTS_FAMILY)
    found = {
        family: [Listed(each.symbol, each.name, each.show, example_of(each, catalogue)) for each in quantities]
        for family, quantities in groups.items()
    }
    found["Named, not measured (with a cell diagram)"] = [
        Listed(name, meaning, "", Example(name, (), _DANIELL)) for name, meaning in _ROLES
    ]
    found[UNKNOWNS_FAMILY] = [
        Listed(name, meaning, unit, Example(name, (f"E_cell = {volts}",), diagram))
        for name, meaning, unit, diagram, volts in _UNKNOWNS
    ]
    found["Only to be given"] = [
        Listed(name, meaning, unit, Example("E_cell", (f"{name} = {value}",), diagram))
        for name, meaning, unit, diagram, value in _TOLD
    ]
    found[CONSTANTS_FAMILY] = [Listed(each.symbol, each.name, each.show, None) for each in constants]
    return found


def listing(catalogue: Catalogue) -> str:
    """Every name with what it means, the unit a result is given in and an example, for a terminal."""
    groups = listed(catalogue)
    first = max(len(line.name) for lines in groups.values() for line in lines)
    return "\n\n".join("\n".join([family, *_columns(lines, first)]) for family, lines in groups.items())


def _columns(lines: list[Listed], first: int) -> list[str]:
    """Lines of one family: names in a column as wide as every family's, units close behind their own family's meanings."""
    second = max((len(line.meaning) for line in lines if line.unit), default=0)
    shown = []
    for line in lines:
        shown.append(f"  {line.name:<{first}}  {line.meaning:<{second}}  {line.unit}".rstrip())
        shown += [f"      {_asked(line.example)}"] if line.example else []
    return shown


def _asked(example: Example) -> str:
    """The arguments of an example, as they are typed after ``saltbridge work``."""
    diagram = [f'"{example.diagram}"'] if example.diagram else []
    return " ".join([*diagram, *(f'--given "{each}"' for each in example.given), f"--find {example.find}"])
