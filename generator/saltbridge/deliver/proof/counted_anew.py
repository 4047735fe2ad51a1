"""What the second opinion counts anew from formulas and equations: oxidation numbers, electrons of a reaction, masses of electrodes."""

from __future__ import annotations

from math import lcm

from saltbridge.check.chemistry import electrons_moved, molar_mass, oxidation_numbers, sides
from saltbridge.document import Inscription
from saltbridge.draw.drawn import Drawn
from saltbridge.tables import Sheet

ROLES = {"lost": "anode", "gained": "cathode"}


def counted_anew(drawn: Drawn) -> dict[str, float]:
    """Whole numbers of a species or of a redox reaction, by their names in questions."""
    words, labels = drawn.situation.words, drawn.situation.labels
    if "species" in labels and "element" in labels:
        ox, rest = oxidation_numbers(ascii_formula(labels["species"]), labels["element"].plain)
        return {"ox": ox, "ox_rest": rest}
    if "oxidation.half" in words and "equation" in words:
        moved = [electrons_moved(words[f"{half}.half"]) for half in ("reduction", "oxidation")]
        return {"n": _electrons(words["equation"], words["oxidation.half"]), "n_common": float(lcm(*moved))}
    return {}


def _electrons(equation: str, oxidation: str) -> float:
    """Electrons that move when the equation runs once as written, by the first species that its oxidation consumes."""
    times, species = sides(oxidation)[0][0]
    written = next(each for each, formula in sides(equation)[0] if formula == species)
    return electrons_moved(oxidation) * written / times


def electrode_masses(drawn: Drawn, sheet: Sheet) -> dict[str, float]:
    """Electrons and molar masses of the metals of a cell that lose and gain mass; nothing where an electrode is no metal of its ion."""
    words, labels = drawn.situation.words, drawn.situation.labels
    if not all(f"{role}.symbol" in labels for role in ROLES.values()):
        return {}
    found = {}
    for change, role in ROLES.items():
        found[f"z_{change}"] = float(electrons_moved(words[f"{role}.reduction text"]))
        found[f"M_{change}"] = molar_mass(labels[f"{role}.symbol"].plain, sheet.atomic_masses)
    return found


def ascii_formula(label: Inscription) -> str:
    """The formula in the notation of the data files: ``Zn^2+`` for Zn²⁺; what stands after a comma is not part of it."""
    return ascii_text(label).partition(",")[0].strip()


def ascii_text(label: Inscription) -> str:
    """A label in the notation of the data files."""
    return "".join(("^" if kind == "sup" else "") + piece for kind, piece in label.pieces).replace("−", "-")
