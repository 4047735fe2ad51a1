"""Standard potentials as situations: rows to compare, a reaction to judge, a reagent to choose, steps to combine, a new zero."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import half_cell
from saltbridge.chemistry.half_reactions import HalfReaction, combine, parse_half_reaction
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Rule, Say, Situation, instance
from saltbridge.scenarios.cell.galvanic import name_equation
from saltbridge.scenarios.equation_laws import add_electrons, add_half, add_sum, give_equation
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import add_constants, metal_of, name_metal, read_potential
from saltbridge.tables import Sheet, SheetRow, metals

WHOLE_CELLS_RULE = Rule("k_cells", "whole-cells", ("k_exact",))


def row_holding(sheet: Sheet, word: str, place: int) -> SheetRow:
    """The row of a couple, or the one whose oxidised (0) or reduced (1) species this is. Raises ``Faulty`` where none or several hold it."""
    named = sheet.row(word)
    if named is not None:
        return named
    bare = parse_species(word).bare
    rows = [row for row in sheet.rows if parse_half_reaction(row.half_reaction).principal[place].bare == bare]
    role = "takes" if place == 0 else "gives"
    if not rows:
        raise fault("species-not-on-sheet", expected=f"a species that {role} electrons on {sheet.title}", found=word[:40])
    if len(rows) > 1:
        usual = {metal.couple for metal in metals().values()}
        of_metals = [row for row in rows if row.couple in usual]
        rows = of_metals if len(of_metals) == 1 else rows
    if len(rows) > 1:
        hint = f"Give a diagram; its couples: {', '.join(row.couple for row in rows)}."
        expected = f"a species that {role} electrons in one couple of the sheet"
        raise fault("several-couples", expected=expected, found=word[:40], hint=hint)
    return rows[0]


def add_row(situation: Situation, owner: str, row: SheetRow, sheet: Sheet, node: str = "") -> HalfReaction:
    """A row's potential as ``node`` (``r1.E0``) and its names in prose: couple, both species, half-equation, metal."""
    half = parse_half_reaction(row.half_reaction)
    oxidised, reduced = half.principal
    node = node or f"{owner}.E0"
    situation.given[node] = read_potential(row.E0, sheet)
    situation.about[node] = f"{owner}.couple"
    situation.labels[f"{owner}.couple"] = couple_label(oxidised, reduced, situation.say)
    situation.labels[f"{owner}.oxidised"] = inscribe_species(oxidised, say=situation.say)
    situation.labels[f"{owner}.reduced"] = inscribe_species(reduced, say=situation.say)
    situation.labels[f"{owner}.reduction"] = inscribe_equation(half.reduction, say=situation.say)
    situation.words[f"{owner}.reduction text"] = half.reduction.bare.text
    metal = metal_of(half_cell(row).electrode)
    if metal is not None and metal.couple == row.couple:
        name_metal(situation, owner, metal)
    return half


# ------------------------------------------------------------------ several rows


def table_of(rows: Sequence[SheetRow], sheet: Sheet, say: Say = in_english) -> Situation:
    """Rows ``r1``, ``r2``… in printed order: strongest and weakest agents, their ranking, and among metals the pairs."""
    situation = Situation(say=say)
    keys = tuple(f"r{place}" for place in range(1, len(rows) + 1))
    for key, row in zip(keys, rows, strict=True):
        add_row(situation, key, row, sheet)
    inputs = tuple(f"{key}.E0" for key in keys)
    oxidised, reduced = (tuple(f"{key}.{side}" for key in keys) for side in ("oxidised", "reduced"))
    situation.laws += [
        Rule("strongest_oxidant", "strongest-oxidant", inputs, keys=oxidised),
        Rule("weakest_reductant", "weakest-reductant", inputs, keys=reduced),
        Rule("strongest_reductant", "strongest-reductant", inputs, keys=reduced),
        Rule("weakest_oxidant", "weakest-oxidant", inputs, keys=oxidised),
        Rule("ranking", "ranking-by-potential", inputs, keys=keys),
    ]
    if all(f"{key}.metal" in situation.words for key in keys):
        _add_pairs(situation, keys, inputs)
    situation.shape = (f"{len(rows)} rows",)
    return situation


def _add_pairs(situation: Situation, keys: Sequence[str], inputs: tuple[str, ...]) -> None:
    pairs = tuple(f"pair{place}" for place in range(1, len(keys) * (len(keys) - 1) // 2 + 1))
    name_pairs(situation, keys)
    situation.laws += [
        Rule("widest_pair", "widest-pair", inputs, keys=pairs),
        Rule("narrowest_pair", "narrowest-pair", inputs, keys=pairs),
    ]


def name_pairs(situation: Situation, keys: Sequence[str]) -> None:
    """Labels of all pairs of metals, ``pair1.metals``: zinc and copper."""
    for place, two in enumerate(combinations(keys, 2), 1):
        one, other = (situation.say(situation.words[f"{key}.metal"]) for key in two)
        text = f"{one} {situation.say('and')} {other}"
        situation.labels[f"pair{place}.metals"] = Inscription("symbol", (Piece("base", text),), text)


# ------------------------------------------------------------------ a reaction


def add_reaction(situation: Situation, taker: SheetRow, giver: SheetRow, sheet: Sheet, catalogue: Catalogue) -> None:
    """Both potentials, the cell potential of the reaction as written, and what its sign says. Raises ``Faulty`` for one couple twice."""
    if taker.couple == giver.couple:
        raise fault("one-couple", expected="two different couples", found=f"{taker.couple} twice")
    cathode = add_row(situation, "cathode", taker, sheet, "E0_cathode")
    anode = add_row(situation, "anode", giver, sheet, "E0_anode")
    combined = combine(cathode, anode)
    name_equation(situation, combined.equation)
    counts = {
        "nu_cathode": combined.cathode_times, "nu_anode": combined.anode_times, "n_cathode": cathode.n, "n_anode": anode.n,
    }  # fmt: skip
    for name, count in counts.items():
        situation.given[name] = Given(float(count), "", str(count), "balance")
    for role, half in (("cathode", cathode), ("anode", anode)):
        give_equation(situation, f"{role}.half", half.reduction)
    add_half(situation, catalogue, "cathode", "half-at-cathode", ("cathode.half",))
    add_half(situation, catalogue, "anode", "half-at-anode", ("anode.half",))
    add_sum(situation, catalogue)
    add_electrons(situation, catalogue, combined.n)
    inputs = ("E0_cell", "E0_cathode")
    situation.laws += [
        Rule("goes", "reaction-that-goes", inputs, keys=("yes", "no")),
        Rule("keeps", "solution-that-keeps", ("E0_cell",), keys=("no", "yes")),
    ]


def reagent(low: SheetRow, high: SheetRow, candidates: Sequence[SheetRow], sheet: Sheet, say: Say = in_english) -> Situation:
    """Which candidate ``r1``, ``r2``… oxidises the reduced species of ``low`` (``a``) but not that of ``high`` (``b``)."""
    situation = Situation(say=say)
    add_row(situation, "a", low, sheet)
    add_row(situation, "b", high, sheet)
    keys = tuple(f"r{place}" for place in range(1, len(candidates) + 1))
    for key, row in zip(keys, candidates, strict=True):
        add_row(situation, key, row, sheet)
    inputs = ("a.E0", "b.E0", *(f"{key}.E0" for key in keys))
    oxidised = tuple(f"{key}.oxidised" for key in keys)
    situation.laws.append(Rule("reagent", "reagent-between", inputs, keys=oxidised))
    situation.shape = (f"{len(keys)} candidates",)
    return situation


# ------------------------------------------------------------------ steps


def steps_of(first: SheetRow, second: SheetRow, sheet: Sheet, say: Say = in_english) -> Situation:
    """Two reductions one after the other; raises ``Faulty`` (code ``no-chain``) where they share no middle species."""
    situation = Situation(say=say)
    add_constants(situation, sheet)
    add_steps(situation, first, second, sheet)
    return situation


def add_steps(situation: Situation, first: SheetRow, second: SheetRow, sheet: Sheet) -> None:
    """The potentials and electrons of both steps and what follows from them.

    Raises ``Faulty`` (code ``no-chain``) where the first does not end at the species from which the second starts.
    """
    halves = [
        add_row(situation, f"step{place}", row, sheet, f"E0_{name}")
        for place, (name, row) in enumerate((("first", first), ("second", second)), 1)
    ]
    (top, middle), (start, bottom) = (half.principal for half in halves)
    if middle.bare != start.bare or middle.phase != start.phase:
        hint = "As Cu^2+/Cu^+ and Cu^+/Cu."
        raise fault(
            "no-chain",
            expected="a second step that starts where the first ends",
            found=f"{first.couple} and {second.couple}",
            hint=hint,
        )
    atoms = [_moles(half, species) for half, species in zip(halves, (middle, start), strict=True)]
    if len({*atoms, 1}) != 1:
        raise fault("no-chain", expected="one middle species in each half-equation", found=f"{first.couple} and {second.couple}")
    situation.labels["chain.couple"] = couple_label(top, bottom, situation.say)
    situation.labels["middle"] = inscribe_species(middle, say=situation.say)
    situation.about["E0_chain"] = "chain.couple"
    for name, half in zip(("n_first", "n_second"), halves, strict=True):
        situation.given[name] = Given(float(half.n), "", str(half.n), "balance")
    situation.laws.append(Rule("disproportionates", "middle-species", ("E0_dispro",), keys=("yes", "no")))


def _moles(half: HalfReaction, species: object) -> int:
    return next(term.coefficient for term in (*half.oxidised, *half.reduced) if term.species == species)


# ------------------------------------------------------------------ another zero


@dataclass(frozen=True, slots=True)
class Zero:
    """A reference: its name, filling and potential as printed; ``row`` where it is a metal of the sheet."""

    name: str
    filling: str
    E: str
    source: str
    row: SheetRow | None = None


def rebased(zero: Zero, rows: Sequence[SheetRow], sheet: Sheet, catalogue: Catalogue, say: Say = in_english) -> Situation:
    """Rows ``r1``, ``r2``… on the hydrogen scale and against a reference; the first two make a cell."""
    situation = Situation(say=say)
    add_zero(situation, zero, sheet)
    keys = tuple(f"r{place}" for place in range(1, len(rows) + 1))
    relation = catalogue.relations["potential-against-reference"]
    for key, row in zip(keys, rows, strict=True):
        add_row(situation, key, row, sheet)
        situation.about[f"{key}.E0_vs"] = f"{key}.couple"
        told = relation.say_here.replace("{couple}", f"{{{key}.couple}}")
        situation.laws.append(instance(relation, {"E0_vs": f"{key}.E0_vs", "E0": f"{key}.E0"}, say=told))
    if len(keys) > 1:
        _add_shifted_cell(situation, keys[:2])
    situation.shape = (f"{len(rows)} rows",)
    return situation


def add_zero(situation: Situation, zero: Zero, sheet: Sheet) -> None:
    """The potential of the reference and its names in prose."""
    if zero.row is not None:
        add_row(situation, "reference", zero.row, sheet, "E_ref")
    else:
        situation.given["E_ref"] = Given(float(zero.E), "V", zero.E, "given", zero.source)
    situation.words["reference.name"] = zero.name
    situation.words["reference.filling"] = zero.filling


def _add_shifted_cell(situation: Situation, keys: Sequence[str]) -> None:
    """The cell of the first two rows, worked out with values against the reference."""
    inputs = tuple(f"{key}.E0_vs" for key in keys)
    situation.laws += [
        Rule("cathode", "higher-value-is-cathode", inputs, keys=tuple(keys)),
        Rule("anode", "other", ("cathode",), keys=tuple(keys)),
    ]
    for symbol in ("E0_vs", "E0"):
        for role in ("cathode", "anode"):
            names = (role, *(f"{key}.{symbol}" for key in keys))
            situation.laws.append(Rule(f"{symbol}_{role}", "pick", names, keys=tuple(keys)))


# ------------------------------------------------------------------ cells in series


def add_cells_in_series(situation: Situation) -> None:
    """How many equal cells reach a voltage."""
    situation.laws.append(WHOLE_CELLS_RULE)
