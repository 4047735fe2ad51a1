"""The second opinion on a variant: what is given to the student, handed to plain formulas that know nothing of the derivation.

Charges, electrons, quotients and molar masses are counted anew from the texts of the half-equations; only what was given
or read from the data sheet is taken over.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import isclose, lcm, log10

from saltbridge.bank.bank import Bank
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.template import Template
from saltbridge.check import formulas
from saltbridge.check.chemistry import electrons_moved, molar_mass, quotient, sides
from saltbridge.check.factors import to_coherent
from saltbridge.check.resolve import resolve
from saltbridge.deliver.proof.counted_anew import ascii_formula, counted_anew, electrode_masses, run_down
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_tables import table_texts
from saltbridge.faults import Faulty
from saltbridge.tables import Sheet

CLOSE = 1e-9
SIDES = ("left", "right")
_COUNTED = frozenset({"n", "n_cathode", "n_anode", "nu_cathode", "nu_anode", "Q"})


def agrees(find: str, ours: float, theirs: float) -> bool:
    """Whether two values of a quantity are the same to nine digits; an equilibrium constant is compared by its logarithm."""
    if find == "K" and ours > 0 and theirs > 0:
        return isclose(log10(ours), log10(theirs), rel_tol=CLOSE, abs_tol=CLOSE)
    return isclose(ours, theirs, rel_tol=CLOSE, abs_tol=1e-12)


def second_opinion(find: str, drawn: Drawn, template: Template, bank: Bank) -> float | None:
    """The value of ``find`` in its coherent unit by plain formulas, or ``None`` where there is no such route.

    Where the template turns a question round, what the student reads goes before what was drawn behind it.
    """
    slope = bank.settings.nernst == "lg"  # the printed RT ln 10 / F at 25 °C
    try:
        known = _told(drawn, slope=slope)
        told = _only_told(known, drawn, template) if template.given else known
        if _in_another_unit(find, drawn):
            return told.get(find)
        found = _by_formulas(find, told, drawn, bank.sheet, turned=bool(template.given))
        return found if found is not None or told == known else _by_formulas(find, known, drawn, bank.sheet)
    except (Faulty, ArithmeticError, ValueError):
        return None


def _in_another_unit(find: str, drawn: Drawn) -> bool:
    """Whether what is asked is only a given value in another unit, as in a step of a working."""
    step = drawn.graph.step(find) if find in drawn.graph.index else None
    return step is not None and step.how == "convert" and all(name in drawn.situation.given for name in step.inputs)


def _by_formulas(find: str, known: Mapping[str, float], drawn: Drawn, sheet: Sheet, *, turned: bool = False) -> float | None:
    if f"{SIDES[0]}.reduction text" in drawn.situation.words:
        return _of_cell(find, {**known, **electrode_masses(drawn, sheet)}, drawn, turned=turned)
    bath = _of_bath(drawn, sheet) if "half-equation" in drawn.situation.words else {}
    counted = counted_anew(drawn, known, sheet)
    return counted[find] if find in counted else _of_bench(find, {**known, **bath, **counted})


def _only_told(known: Mapping[str, float], drawn: Drawn, template: Template) -> dict[str, float]:
    """What stands in the texts, in ``given`` or on the sheet: the student knows nothing else that was drawn."""
    told = {*told_names(template, drawn), *(text.partition(" in ")[0] for text in template.given)}
    hidden = {node.partition(":")[0] for node, given in drawn.situation.given.items() if given.how == "given"} - told
    return {name: value for name, value in known.items() if name not in hidden}


def told_names(template: Template, drawn: Drawn) -> frozenset[str]:
    """The names that the student reads in the text, in the questions and in given cells of tables."""
    tables = [part for part in template.parts if isinstance(part, TablePart)]
    texts = [text for part in tables for _, text in table_texts(part, drawn.lists)]
    return frozenset(
        (*template.text.names, *(name for text in (*(part.ask for part in template.parts), *texts) for name in text.names))
    )


def anode_side(drawn: Drawn) -> str | None:
    """The side of the anode by potentials alone; ``None`` where they are not known."""
    known = _told(drawn, slope=False)
    if f"{SIDES[0]}.reduction text" not in drawn.situation.words:
        return None
    cathode = _cathode(known, drawn)
    return next((side for side in SIDES if side != cathode), None) if cathode else None


def _told(drawn: Drawn, *, slope: bool) -> dict[str, float]:
    """Every given number in its coherent unit. Whole numbers that can be counted anew are, and put in place of these."""
    found = {}
    for node, given in drawn.situation.given.items():
        name = node.partition(":")[0]
        if isinstance(given.value, float):
            found[name] = to_coherent(given.value, given.unit)
    if not slope:
        found.pop("slope", None)
    return found


# ------------------------------------------------------------------ cells


def _of_cell(find: str, known: Mapping[str, float], drawn: Drawn, *, turned: bool) -> float | None:
    halves = {side: drawn.situation.words[f"{side}.reduction text"] for side in SIDES}
    counts = {side: electrons_moved(halves[side]) for side in SIDES}
    amounts = {side: dict(_amounts(side, drawn)) for side in SIDES} | run_down(drawn, known)
    unknown = [(side, species) for side in SIDES for species, value in amounts[side].items() if value is None]
    owner, _, name = find.rpartition(".")
    if owner in SIDES and not unknown:
        mine = _half(owner, known, halves[owner], counts[owner], amounts[owner])
        return resolve(name, {**_constants(known), **mine})
    cathode = _cathode(known, drawn)
    if cathode is None:
        return None
    anode = "left" if cathode == "right" else "right"
    values = {key: value for key, value in known.items() if "." not in key}
    n = lcm(counts["left"], counts["right"])
    values |= {"n": float(n), "n_cathode": float(counts[cathode]), "n_anode": float(counts[anode])}
    values |= {"nu_cathode": n / counts[cathode], "nu_anode": n / counts[anode]}
    potentials = _potentials(known, {"cathode": cathode, "anode": anode})
    if unknown:
        return _unknown_amount(find, values | potentials, unknown, (halves, counts, amounts, cathode, n), drawn)
    values["Q"] = _whole_quotient(halves, counts, amounts, cathode, n)
    if find in _COUNTED:
        return values[find]
    found = resolve(find, _without(values, find)) if turned else None
    return found if found is not None else resolve(find, _without(values | potentials, find))


def _potentials(known: Mapping[str, float], sides: Mapping[str, str]) -> dict[str, float]:
    """Standard potentials by the role of their side; with temperature coefficients, those of 25 °C beside them."""
    warm = all(f"{side}.dEdT" in known for side in sides.values())
    found = {}
    for role, side in sides.items():
        if f"{side}.E0" in known:
            found[f"E0_{role}_25" if warm else f"E0_{role}"] = known[f"{side}.E0"]
        if warm:
            found[f"dEdT_{role}"] = known[f"{side}.dEdT"]
    return found


def _without(values: Mapping[str, float], find: str) -> dict[str, float]:
    return {name: value for name, value in values.items() if name != find}


Halves = tuple[dict[str, str], dict[str, int], dict[str, dict[str, float | None]], str, int]


def _unknown_amount(
    find: str, values: Mapping[str, float], unknown: list[tuple[str, str]], cell: Halves, drawn: Drawn
) -> float | None:
    """One concentration or pressure asked for: Q from the potential, then the amount from Q."""
    if len(unknown) != 1:
        return None
    halves, counts, amounts, cathode, n = cell
    side, species = unknown[0]
    rest = _whole_quotient(halves, counts, amounts, cathode, n)
    moved = dict(amounts)
    moved[side] = {**amounts[side], species: 10.0}
    exponent = log10(_whole_quotient(halves, counts, moved, cathode, n) / rest)
    if find.rpartition(".")[0] == side and _species_of(find, drawn) == species:
        q = resolve("Q", values)
        return None if q is None else formulas.one_activity(q, exponent, rest)
    return resolve(find, values) if find in {"Q", "E0_cell", "dG0", "lgK", "K"} else None


def _whole_quotient(
    halves: Mapping[str, str], counts: Mapping[str, int], amounts: Mapping[str, Mapping[str, float | None]], cathode: str, n: int
) -> float:
    """Q of the cell from those of its halves as reductions: what happens at the anode is turned round."""
    anode = "left" if cathode == "right" else "right"
    parts = {side: quotient(halves[side], _known(amounts[side])) ** (n // counts[side]) for side in SIDES}
    return parts[cathode] / parts[anode]


def _known(amounts: Mapping[str, float | None]) -> dict[str, float]:
    return {species: value for species, value in amounts.items() if value is not None}


def _cathode(known: Mapping[str, float], drawn: Drawn) -> str | None:
    """The side of the cathode: as told, or by the higher standard potential, or by the higher potential of equal couples."""
    told = drawn.situation.given.get("cathode")
    if told is not None:
        return str(told.value)
    standard = [known.get(f"{side}.E0") for side in SIDES]
    one, other = standard
    if one is None or other is None:
        return None
    if one != other:
        return "left" if one > other else "right"
    halves = {}
    for side in SIDES:
        text = drawn.situation.words[f"{side}.reduction text"]
        mine = _half(side, known, text, electrons_moved(text), dict(_amounts(side, drawn)))
        halves[side] = resolve("E", {**_constants(known), **mine})
    left, right = halves["left"], halves["right"]
    return None if left is None or right is None or left == right else "left" if left > right else "right"


def _half(side: str, known: Mapping[str, float], text: str, count: int, amounts: Mapping[str, float | None]) -> dict[str, float]:
    """What is known of one electrode, written as a reduction."""
    found = {name.rpartition(".")[2]: value for name, value in known.items() if name.startswith(f"{side}.")}
    q = quotient(text, _known(amounts))
    return found | {"n": float(count), "n_half": float(count), "Q": q, "Q_half": q}


def _constants(known: Mapping[str, float]) -> dict[str, float]:
    return {name: value for name, value in known.items() if name in {"T", "R", "F", "slope"}}


def _amounts(side: str, drawn: Drawn) -> Iterator[tuple[str, float | None]]:
    """Each named species of a half-cell with its activity; ``None`` where it is asked for."""
    for label, inscription in drawn.situation.labels.items():
        if label.startswith(f"{side}.") and label.endswith(".species"):
            given = drawn.given(label.removesuffix(".species"))
            value = None
            if given is not None and isinstance(given.value, float):
                value = to_coherent(given.value, given.unit)
            yield ascii_formula(inscription), value


def _species_of(node: str, drawn: Drawn) -> str:
    return ascii_formula(drawn.situation.labels[f"{node}.species"])


# ------------------------------------------------------------------ baths and benches


def _of_bath(drawn: Drawn, sheet: Sheet) -> dict[str, float]:
    """Electrons and molar mass of the product, counted from the half-equation and added up from the data sheet."""
    half = drawn.situation.words["half-equation"]
    product = ascii_formula(drawn.situation.labels["product"])
    made = next((times for terms in sides(half) for times, formula in terms if formula.partition("(")[0] == product), None)
    found = {} if made is None else {"z": electrons_moved(half) / made}
    return found | {"M": molar_mass(product, sheet.atomic_masses)}


def _of_bench(find: str, known: Mapping[str, float]) -> float | None:
    """A quantity of one owner (``s1.E``) from what is known of it, or of the whole."""
    owner, _, name = find.rpartition(".")
    values = {key: value for key, value in known.items() if "." not in key}
    if owner:
        values |= {key.removeprefix(f"{owner}."): value for key, value in known.items() if key.startswith(f"{owner}.")}
        values |= {"reading_zero": known["new.reading"]} if "new.reading" in known else {}
    elif find == "E0_cell" and {"E_ref", "r1.E0", "r2.E0"} <= known.keys():
        return abs(known["r1.E0"] - known["r2.E0"])  # of two rows on any scale, the higher is the cathode
    else:
        values |= {f"reading_{lead}": known[f"{lead}.reading"] for lead in ("red", "black") if f"{lead}.reading" in known}
    return resolve(name, _without(values | _rows(known), name))


def _rows(known: Mapping[str, float]) -> dict[str, float]:
    """The first two rows of a table of potentials, all told against one zero."""
    for told in ("E0_vs", "E0"):
        if f"r1.{told}" in known and f"r2.{told}" in known:
            return {f"of_row_{row}": known[f"r{row}.{told}"] for row in (1, 2)}
    return {}
