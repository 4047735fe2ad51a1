"""What the second opinion counts anew from formulas and equations, before plain formulas go on from there.

Oxidation numbers, electrons, coefficients, molar masses and quotients come from the texts of species and equations; only
what was given or read from the data sheet is taken over.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import lcm

from saltbridge.check.chemistry import count, electrons_moved, molar_mass, oxidation_numbers, quotient, sides
from saltbridge.check.factors import to_coherent
from saltbridge.document import Inscription
from saltbridge.draw.drawn import Drawn
from saltbridge.tables import Sheet

ROLES = {"lost": "anode", "gained": "cathode"}
NEUTRAL_SUM = 14.0  # pH + pOH at 25 °C, as taught
HYDROGEN, HYDROXIDE = "H^+", "OH^-"
CONCORDANT = 0.10e-3 + 1e-9  # dm3: titres within 0.10 cm3 agree, as taught


def counted_anew(drawn: Drawn, known: Mapping[str, float], sheet: Sheet) -> dict[str, float]:
    """What can be counted of a species, reaction, electrode, bath or fuel, by the names of data/quantities and of the rows of ``check``."""
    words, labels = drawn.situation.words, drawn.situation.labels
    found = {f"E0_{name.removesuffix('.E0')}": value for name, value in known.items() if name.endswith(".E0")}
    if "species" in labels and "element" in labels:
        found["ox"], found["ox_rest"] = oxidation_numbers(ascii_formula(labels["species"]), labels["element"].plain)
    if "oxidation.half" in words and "equation" in words:
        moved = [electrons_moved(words[f"{half}.half"]) for half in ("reduction", "oxidation")]
        found |= {"n": _electrons(words["equation"], words["oxidation.half"]), "n_common": float(lcm(*moved))}
    if "reduction text" in words and not any(name.startswith("E_at_") for name in known):
        found |= _electrode(drawn, known)
    if "cathode.reduction text" in words and "anode.reduction text" in words:
        found |= _bath_potentials(drawn, known)
    if "salt" in labels and "cation.symbol" in labels and "c_salt" in known:
        found["c_bath"] = known["c_salt"] * count(ascii_formula(labels["salt"]))[labels["cation.symbol"].plain]
    if "fuel.name" in words and "product" in labels:
        fuel = ascii_formula(labels["product"])
        times = next(number for number, formula in sides(words["anode.oxidation text"])[0] if formula.partition("(")[0] == fuel)
        found |= {"z": electrons_moved(words["anode.oxidation text"]) / times, "M": molar_mass(fuel, sheet.atomic_masses)}
    if "second" in labels:
        found["M_2"] = molar_mass(ascii_formula(labels["second"]), sheet.atomic_masses)
    if any(name.startswith("Gf_products") for name in known):
        found |= _formation(drawn, known)
    return found | readings(known)


def _electrons(equation: str, oxidation: str) -> float:
    """Electrons that move when the equation runs once as written, by the first species that its oxidation consumes."""
    times, species = sides(oxidation)[0][0]
    written = next(each for each, formula in sides(equation)[0] if formula == species)
    return electrons_moved(oxidation) * written / times


def _electrode(drawn: Drawn, known: Mapping[str, float]) -> dict[str, float]:
    """Quotients of one electrode with and without its hydrogen ions; what no amount is told of counts as 1."""
    text = drawn.situation.words["reduction text"]
    rest = {}
    for label, inscription in drawn.situation.labels.items():
        given = drawn.given(label.removesuffix(".species")) if label.endswith(".species") else None
        if given is not None and isinstance(given.value, float):
            rest[ascii_formula(inscription)] = to_coherent(given.value, given.unit)
    ions = {}
    if "pH" in known:
        ions = {HYDROGEN: 10 ** -known["pH"], HYDROXIDE: 10 ** (known["pH"] - NEUTRAL_SUM)}
    protons = sum(times for times, formula in sides(text)[0] if formula == HYDROGEN)
    found = {"n_half": float(electrons_moved(text)), "m_H": float(protons), "Q_without_H": quotient(text, rest)}
    return found | ({} if protons and not ions and HYDROGEN not in rest else {"Q_half": quotient(text, rest | ions)})


def _bath_potentials(drawn: Drawn, known: Mapping[str, float]) -> dict[str, float]:
    """Standard potentials of what happens at each electrode, found among those of the bath by the text of the half-equation.

    Where water makes both gases, both values belong to one solution: that of oxygen is then the one in a base.
    """
    words = drawn.situation.words
    found = {}
    for role in ("cathode", "anode"):
        for name, value in known.items():
            owner = name.removesuffix(".E0")
            if owner not in {name, role} and words.get(f"{owner}.reduction text") == words[f"{role}.reduction text"]:
                found[f"E0_{role}"] = value
    if HYDROXIDE in words["cathode.reduction text"] and HYDROGEN in words["anode.reduction text"]:
        found["E0_anode"] = known["basic.E0"]
    return found


def _formation(drawn: Drawn, known: Mapping[str, float]) -> dict[str, float]:
    """Gibbs energies of formation of each side, every one times its coefficient; elements count nothing."""
    left, right = sides(drawn.situation.words["equation"])
    found = {}
    for side, terms in (("reactants", left), ("products", right)):
        times = {formula.partition("(")[0]: number for number, formula in terms}
        found[f"Gf_{side}"] = sum(
            times[ascii_formula(drawn.situation.labels[f"{name}.species"])] * value
            for name, value in known.items()
            if name.startswith(f"Gf_{side}")
        )
    return found


# ------------------------------------------------------------------ readings


def readings(known: Mapping[str, float]) -> dict[str, float]:
    """What follows from several readings: the mean titre, the mean of repeats without the one far off, the steepest step, joined metals."""
    found = {}
    if titres := sorted(value for name, value in known.items() if name.startswith("run") and name.endswith(".V_titre")):
        groups = [[each for each in titres if 0 <= each - lowest <= CONCORDANT] for lowest in titres]
        best = max(groups, key=len)
        found["V_titrant"] = sum(best) / len(best)
    if repeats := sorted(value for name, value in known.items() if name.startswith("x") and name.endswith(".U_measured")):
        middle = repeats[len(repeats) // 2]
        kept = sorted(repeats, key=lambda each: abs(each - middle))[:-1]
        found |= {"U_mean": sum(kept) / len(kept), "u_mean": (max(kept) - min(kept)) / 2}
    curve = sorted((known[f"{point}.V_point"], known[f"{point}.E_point"]) for point in _points(known))
    if steps := [(after[1] - before[1], before[0], after[0]) for before, after in pairwise(curve)]:
        _, found["V_low"], found["V_high"] = max(steps)
    if known.get("H_titrant") == 0:
        found["E_titrant"] = known["E0_titrant"]
    for told in ("E_sea", "E0"):
        if f"one.{told}" in known and f"other.{told}" in known:
            pair = known[f"one.{told}"], known[f"other.{told}"]
            found |= {"E_noble": max(pair), "E_base": min(pair)}
    return found | ({"reading_of_new": known["new.reading"]} if "new.reading" in known else {})


def _points(known: Mapping[str, float]) -> list[str]:
    return [name.removesuffix(".V_point") for name in known if name.endswith(".V_point")]


# ------------------------------------------------------------------ cells


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


def run_down(drawn: Drawn, known: Mapping[str, float]) -> dict[str, dict[str, float | None]]:
    """Concentrations by side in a cell that has run for a while, in equal volumes; nothing for any other cell."""
    if "x_reacted" not in known:
        return {}
    words, labels = drawn.situation.words, drawn.situation.labels
    counts = {role: electrons_moved(words[f"{role}.reduction text"]) for role in ("anode", "cathode")}
    used = known["c_reactant_0"] * known["x_reacted"]
    after = {
        "cathode": known["c_reactant_0"] - used,
        "anode": known["c_product_0"] + used * counts["cathode"] / counts["anode"],
    }
    return {words[f"{role}.side"]: {ascii_formula(labels[f"{role}.ion"]): value} for role, value in after.items()}


# ------------------------------------------------------------------ labels


def ascii_formula(label: Inscription) -> str:
    """The formula in the notation of the data files: ``Zn^2+`` for Zn²⁺; what stands after a comma is not part of it."""
    return ascii_text(label).partition(",")[0].strip()


def ascii_text(label: Inscription) -> str:
    """A label in the notation of the data files."""
    return "".join(("^" if kind == "sup" else "") + piece for kind, piece in label.pieces).replace("−", "-")
