"""The shipped bank holds what it promises: every draw can be answered, judged, marked and checked by plain formulas."""

from __future__ import annotations

from decimal import Decimal
from math import lcm, log10
from pathlib import Path

import pytest
from shipped import BANK, IDS, composer, samples

from saltbridge.answers import judge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.check.chemistry import electrons_moved, imbalance
from saltbridge.check.resolve import resolve
from saltbridge.draw.revealed import reveals
from saltbridge.draw.seeds import practice_seed
from saltbridge.policy import policy
from saltbridge.render.text import question_text, spans_text

GOLDEN = Path(__file__).parents[1] / "golden" / "bank"
FOLLOWING = {
    # template: (earlier part, later part, the later value from the student's own earlier one, worked out apart)
    "gibbs-energy": ("b", "c", lambda own, s: -s.number("n") * 96500 * own / 1000),
    "equilibrium-constant": ("a", "b", lambda own, s: s.number("n") * own / 0.059),
    "unequal-charges": ("c", "e", lambda own, s: own - 0.059 / s.number("n") * log10(s.number("Q"))),
    "mass-deposited": ("c", "d", lambda own, s: own / s.number("z") * s.number("M")),
    "time-for-a-mass": ("a", "b", lambda own, s: own * 96500 / s.number("efficiency") / s.number("I") / 60),
}


@pytest.mark.parametrize("template", IDS)
def test_the_printed_answer_is_judged_right(template):
    """What the page prints, typed back letter by letter, is right and lies within the accepted range."""
    for sample in samples(template):
        for part, key in sample.numbers():
            assert Decimal(key["lo"]) <= Decimal(key["value"]) <= Decimal(key["hi"])
            assert judge(key, sample.answer(part.label)).verdict == "right", (sample.variant.number, part.label)


@pytest.mark.parametrize("template", IDS)
def test_right_choices_orders_and_equations_are_judged_right(template):
    for sample in samples(template):
        for part in sample.question.parts:
            key = sample.key(part.label)
            if key["kind"] != "number":
                right = [row["right"] for row in key["rows"]] if key["kind"] == "cases" else key["right"]
                assert judge(key, right).verdict == "right", (sample.variant.number, part.label)


@pytest.mark.parametrize("template", IDS)
def test_slips_lie_outside_and_are_recognised(template):
    """Each slip of a number is outside the accepted range, and its value is judged as that slip or its twin."""
    for sample in samples(template):
        for _, key in sample.numbers():
            found = sample.drawn.outcomes[key["node"]]
            for slip in found.slips:
                assert slip.hi <= found.right.lo or slip.lo >= found.right.hi
                verdict = judge(key, f"{slip.printed} {key['unit']}")
                assert verdict.verdict == "slip", (sample.variant.number, slip.point.slip.id, verdict)
                assert {slip.point.slip.id, *slip.same} & set(verdict.slips)


@pytest.mark.parametrize("template", [each.id for each in BANK.templates if each.must_reveal])
def test_what_must_be_caught_is_caught(template):
    """By the value of a number, or by the option or equation that it leads to."""
    made = BANK.template(template)
    for sample in samples(template):
        caught = {
            name for each in sample.drawn.outcomes.values() for slip in each.slips for name in (slip.point.slip.id, *slip.same)
        }
        assert {
            each for each in made.must_reveal if each not in caught and not reveals(made, sample.drawn, catalogue(), each)
        } == set()


@pytest.mark.parametrize("template", ["two-metals", "same-side-of-zero", "unequal-charges", "with-platinum"])
def test_a_potential_that_follows_from_the_wrong_anode_is_accepted(template):
    """With the electrodes taken the wrong way round the difference changes its sign; that follows."""
    for sample in samples(template):
        choice = sample.key("a")
        own = judge(choice, [1 - choice["right"][0]]).own
        label, key = next((part.label, key) for part, key in sample.numbers() if key["node"] == "E0_cell")
        assert judge(key, f"{-Decimal(key['value'])}", {"a": own}).verdict == "follows", (sample.variant.number, label)


@pytest.mark.parametrize("template", FOLLOWING)
def test_a_value_that_follows_from_the_students_own_is_accepted(template):
    """The student's earlier value is a fifth too large; the later part is worked out from it by a formula of its own."""
    first, later, formula = FOLLOWING[template]
    for sample in samples(template):
        own = float(sample.key(first)["value"]) * 1.2
        key = sample.key(later)
        value = formula(own, sample)
        if not float(key["lo"]) <= value <= float(key["hi"]):
            assert judge(key, f"{value:.4g}", {first: own}).verdict in {"follows", "right-but"}, (sample.variant.number, value)
            assert judge(key, f"{value:.4g}").verdict != "follows"


# ------------------------------------------------------------------ plain formulas


def cell_facts(sample):
    """What plain formulas need of a cell, from the data sheet and the drawn concentrations only."""
    given, sides = sample.drawn.situation.given, ("left", "right")
    potential = {side: float(_row(sample, side).E0) for side in sides}
    strength = {side: given[f"{side}.c"].value for side in sides if f"{side}.c" in given}
    rank = strength if potential["left"] == potential["right"] else potential
    anode = min(sides, key=lambda side: rank[side])
    cathode = next(side for side in sides if side != anode)
    moved = {side: electrons_moved(_row(sample, side).half_reaction) for side in sides}
    n = moved[anode] if potential["left"] == potential["right"] else lcm(*moved.values())
    facts = {"E0_cathode": potential[cathode], "E0_anode": potential[anode], "n": n, "F": 96500.0, "slope": 0.059}
    if strength:
        facts["Q"] = strength[anode] ** (n // moved[anode]) / strength[cathode] ** (n // moved[cathode])
    return anode, facts


def _row(sample, side):
    label = sample.drawn.situation.labels[f"{side}.couple"].plain
    found = [row for row in BANK.sheet.rows if _plain(row.couple) == label.replace("−", "-")]
    assert len(found) == 1, label
    return found[0]


def _plain(couple):
    return couple.replace("^", "").replace("(l)", "")


def bath_facts(sample):
    """What plain formulas need of a bath: drawn values and the sheet's atomic mass."""
    metal = sample.drawn.situation.labels["product"].plain
    facts = {"z": 1.0 if metal == "Ag" else 2.0, "M": float(BANK.sheet.atomic_masses[metal]), "F": 96500.0}
    for name, node, factor in (("I", "I", 1), ("t", "t:min", 60), ("m", "m", 1), ("efficiency", "efficiency:%", 0.01)):
        if node in sample.drawn.situation.given:
            facts[name] = sample.drawn.situation.given[node].value * factor
    return facts


FACTORS = {"mV": 1e-3, "kJ/mol": 1e3, "min": 60}


PLAIN = (
    "concentration-cell", "equilibrium-constant", "gibbs-energy", "mass-deposited", "same-side-of-zero", "time-for-a-mass",
    "two-metals", "unequal-charges", "unknown-strip", "with-platinum",
)  # fmt: skip
"""Cells and baths whose facts are gathered below from the data sheet alone; proof's own second route sees all templates."""


@pytest.mark.parametrize("template", PLAIN)
def test_plain_formulas_give_the_same_numbers(template):
    """The independent route (``check``) reaches every number from the data sheet, within its accepted range."""
    for sample in samples(template):
        kind = BANK.template(template).scenario.kind
        anode, facts = cell_facts(sample) if kind == "galvanic cell" else ("", bath_facts(sample))
        assert not anode or sample.drawn.situation.words["anode.side"] == anode
        for part, key in sample.numbers():
            name = key["node"].split(":")[0]
            if name == "Q":
                value = facts["Q"]
            elif name == "E0_anode":
                told = float(sample.drawn.situation.given["E0_cell"].printed)
                value = resolve("E0_anode", {"E0_cathode": facts["E0_cathode"], "E0_cell": told})
            elif name == "n_e" and "m" in facts:
                value = resolve("n_e", {each: facts[each] for each in ("m", "M", "z")})
            else:
                value = resolve(name, facts)
            value = value / FACTORS.get(key["unit"], 1)
            assert Decimal(key["lo"]) <= Decimal(f"{value:.12g}") <= Decimal(key["hi"]), (sample.variant.number, part.label)


def test_bench_readings_are_differences_and_shift_by_the_reference():
    for sample in samples("copper-as-reference"):
        given = {name: float(each.printed) for name, each in sample.drawn.situation.given.items() if name.endswith("reading")}
        pair, scale = sample.key("b"), sample.key("c")
        assert float(pair["value"]) == pytest.approx(given["red.reading"] - given["black.reading"])
        assert float(scale["value"]) == pytest.approx(resolve("E", {"reading": given["s1.reading"], "E_ref": 0.34}))


def test_bench_metals_are_ordered_as_on_the_data_sheet():
    """Scatter never turns two metals round: they lie further apart than it reaches."""
    assert {sample.answer("a") for sample in samples("copper-as-reference")} == {"zinc, iron, tin, silver"}


@pytest.mark.parametrize("template", IDS)
def test_equations_asked_for_are_balanced(template):
    for sample in samples(template):
        for part in sample.question.parts:
            key = sample.key(part.label)
            if key["kind"] == "equation":
                assert imbalance(key["right"]) == {}


# ------------------------------------------------------------------ marks, texts, enough of them


@pytest.mark.parametrize("template", IDS)
def test_marks_are_those_of_the_policy(template):
    """Each part earns; a number's marks stand on its lines, other parts have the policy's marks; the question sums them."""
    found = policy(BANK.settings.policy)
    for question in composer(template).questions or [samples(template)[0].question]:
        assert question.marks == sum(part.marks for part in question.parts)
        for part in question.parts:
            on_lines = sum(sum(step.marks.values()) for step in part.working)
            pairs = len(getattr(part.field, "items", ())) - 1  # neighbours of an order
            fixed = {"choice": found.choose, "equation": found.equation, "order": pairs}
            fixed["cases"] = found.choose * len(getattr(part.field, "groups", ()))
            assert part.marks == (on_lines if part.judge["kind"] == "number" else fixed[part.judge["kind"]]) > 0


@pytest.mark.parametrize("template", IDS)
def test_nothing_is_left_open_in_the_texts(template):
    """No hole, no undefined value, no name of the code; every hint and every step says something."""
    for sample in samples(template):
        slots = sample.variant.slots
        hints = [spans_text(hint, slots) for part in sample.question.parts for hint in part.hints]
        text = question_text(sample.question, sample.variant) + "\n".join(hints)
        assert not [mark for mark in ("{", "}", "None", "nan", "E0_", "undefined", "  ,") if mark in text]
        assert all(len(hint.split()) >= 4 for hint in hints)
        assert all(spans_text(step.say, slots).strip() for part in sample.question.parts for step in part.working)


@pytest.mark.parametrize("template", IDS)
def test_options_differ(template):
    for sample in samples(template):
        for part in sample.question.parts:
            for things in (getattr(part.field, "options", ()), getattr(part.field, "items", ())):
                texts = [spans_text(thing, sample.variant.slots) for thing in things]
                assert len(set(texts)) == len(texts)


@pytest.mark.parametrize("template", [each.id for each in BANK.templates if not each.few_versions and "practice" in each.use])
def test_there_are_thirty_variants_that_differ_for_a_student(template):
    """Counted by what is read, not by how it is stored: text, drawing and answers."""
    made = composer(template)
    variants = [made.variant(number, practice_seed(number)) for number in range(1, 31)]
    assert len({question_text(made.question(each), each) for each in variants}) >= 25


def test_at_least_ten_templates_over_both_families_and_the_bench():
    bank = load_bank(Path(__file__).parents[2] / "question_templates")
    kinds = [template.scenario.kind for template in bank.templates]
    assert len(kinds) >= 10
    assert {"galvanic cell", "electrolysis", "bench"} <= set(kinds)
    assert any(template.use == ("exam",) for template in bank.templates)
    assert bank.licence == "CC-BY-4.0"


@pytest.mark.parametrize("template", IDS)
def test_one_variant_reads_as_it_was_read(template):
    """The golden texts were read by a person; a change of a sentence or number shows here."""
    sample = samples(template)[0]
    text = question_text(sample.question, sample.variant) + "\n"
    assert text == (GOLDEN / f"{template}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("template", ["two-metals", "unequal-charges", "concentration-cell"])
def test_the_wrong_electrode_is_recognised(template):
    """Taking the other electrode for the anode is a known slip in every draw."""
    wanted = "stronger-solution-is-anode" if template == "concentration-cell" else "higher-potential-is-oxidised"
    for sample in samples(template):
        key = sample.key("a")
        verdict = judge(key, [1 - key["right"][0]])
        assert verdict.verdict == "slip"
        assert wanted in verdict.slips
