"""The technician's list: amounts for all classes of the week, recipes, labels, a count out and in; and the notes on risks."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from saltbridge.chemistry.species import molar_mass, parse_species
from saltbridge.deliver.bench.lesson import Lesson, paragraph, steps, table_of, text
from saltbridge.deliver.bench.worksheet import lines_of_safety, own_words
from saltbridge.document import Block, Grid, Handout, Section, Spans
from saltbridge.sigfigs import to_figures
from saltbridge.tables.benches import bridge_salts
from saltbridge.tables.substances import metals
from saltbridge.units import convert

SPARE_SHARE = Decimal("1.2")  # a fifth more than is handed out: common practice, no source
STEP = 50  # mL to which a volume is rounded up
SPOT = Decimal(1)  # mL of a metal's own solution for a group: some drops a reading, common practice, no source
OWN_CONCENTRATION = Decimal("0.1")  # mol/L of the solutions of own ions: common practice, no source


def technicians_list(lesson: Lesson) -> Handout:
    """The list for all classes."""
    words, keys = lesson.words, lesson.keys
    sections = (
        Section(words("Classes"), (_classes(lesson),)),
        Section(words("Set out"), (_set_out(lesson),)),
        Section(words("Solutions"), (*_recipes(lesson), paragraph(words(_HYDRATE)))),
        Section(words("Labels"), (_labels(lesson), paragraph(words(_HAZARDS)))),
        Section(words("Count out and in"), (_counts(lesson),)),
        Section(words("Before the lesson"), (_trial(lesson),)),
    )
    return Handout(
        words("Technician's list: {title}", title=keys.title),
        (),
        sections,
        (words("Date:"),),
        words("Your school's rules come first."),
    )


_HYDRATE = "The masses are for salts without water of crystallisation. For a hydrate, weigh by the molar mass on its bottle."
_HAZARDS = "Write the hazards on each label from your current safety data sheet: they hang on the concentration, and this list does not know them."


def _most_groups(lesson: Lesson) -> int:
    return max(each.groups for each in lesson.keys.classes)


def _all_groups(lesson: Lesson) -> int:
    return sum(each.groups for each in lesson.keys.classes)


def _classes(lesson: Lesson) -> Block:
    words = lesson.words
    rows = tuple((text(each.name), text(str(each.groups))) for each in lesson.keys.classes)
    total = (text(words("All")), text(str(_all_groups(lesson))))
    return table_of((words("Class"), words("Groups")), (*rows, total), numeric=(1,))


def _set_out(lesson: Lesson) -> Block:
    """What stays from class to class is set out once, for the largest class; what is used up, for all."""
    words, keys = lesson.words, lesson.keys
    sets = _most_groups(lesson) + keys.spares
    papers = _all_groups(lesson) * len(keys.metals) + keys.spares
    rows: list[tuple[Spans, ...]] = [
        (text(words("{metal} strip", metal=lesson.metal(symbol))), text(str(sets))) for symbol in (keys.reference, *keys.metals)
    ]
    rows += [
        (text(words("Meter with two leads and clips, 10 MΩ or more")), text(str(sets))),
        (text(words("Filter paper, wider than a strip")), text(str(papers))),
        (text(words("Abrasive paper, a piece for each metal")), text(str(_all_groups(lesson) * (len(keys.metals) + 1)))),
        (text(words("Dropping bottle of the salt solution")), text(str(sets))),
        (text(words("Eye protection")), text(words("one a person"))),
        (text(words("Labelled bucket for used paper and solutions")), text("1")),
    ]
    return table_of((words("Thing"), words("How many")), tuple(rows), numeric=(1,))


def _recipes(lesson: Lesson) -> tuple[Block, ...]:
    words = lesson.words
    rows = tuple(_recipe(lesson, *each) for each in solutions(lesson))
    head = (words("Solution"), words("Volume to make"), words("Mass of the salt"))
    return (table_of(head, rows, numeric=(1, 2)),)


def solutions(lesson: Lesson) -> Iterator[tuple[str, str, Decimal, Decimal]]:
    """Each solution: name of the salt, its formula, concentration in mol/L, volume in mL for all classes with spare."""
    keys = lesson.keys
    wet = bridge_salts()[keys.wet.salt]
    value, _, unit = keys.wet.a_group.partition(" ")
    share = convert(value, unit, "mL")
    amount, _, of = keys.wet.concentration.partition(" ")
    yield wet.name, wet.formula, convert(amount, of, "mol/L"), _volume(share * _all_groups(lesson))
    if keys.paper == "own ions":
        for symbol in (keys.reference, *keys.metals):
            metal = metals()[symbol]
            yield metal.salt, metal.salt_formula, OWN_CONCENTRATION, _volume(SPOT * keys.repeats * _all_groups(lesson))


def _volume(needed: Decimal) -> Decimal:
    """With spare, up to the next step."""
    return STEP * -(-(needed * SPARE_SHARE) // STEP)


def mass_of_salt(formula: str, concentration: Decimal, volume: Decimal, masses: dict[str, str]) -> Decimal:
    """The mass of a salt without water for a solution, g: c in mol/L times V in mL times M in g/mol, to three figures."""
    molar = Decimal(repr(molar_mass(parse_species(formula), masses)))
    return to_figures(concentration * volume / 1000 * molar, 3)


def _recipe(lesson: Lesson, name: str, formula: str, concentration: Decimal, volume: Decimal) -> tuple[Spans, ...]:
    printer = lesson.printer
    mass = mass_of_salt(formula, concentration, volume, dict(lesson.bank.sheet.atomic_masses))
    what = lesson.words.spans(
        "{name}, {concentration}", name=lesson.words(name), concentration=printer.quantity(str(concentration), "mol/L")
    )
    return what, (printer.quantity(f"{volume:f}", "mL"),), (printer.quantity(f"{mass:f}", "g"),)


def _labels(lesson: Lesson) -> Block:
    words, printer = lesson.words, lesson.printer
    head = (words("Solution"), words("Concentration"), words("Hazards, by your safety data sheet"), words("Made on, by"))
    rows = tuple(
        (text(words(name)), (printer.quantity(str(concentration), "mol/L"),), (), ())
        for name, _, concentration, _ in solutions(lesson)
    )
    return table_of(head, rows, ruled=True)


def _counts(lesson: Lesson) -> Block:
    words, keys = lesson.words, lesson.keys
    head = (
        words("Class"),
        *(words("{metal} out / in", metal=symbol) for symbol in (keys.reference, *keys.metals)),
        words("Meters out / in"),
    )
    rows = tuple((text(each.name), *[()] * (len(keys.metals) + 2)) for each in keys.classes)
    return table_of(head, rows, ruled=True)


def _trial(lesson: Lesson) -> Block:
    words = lesson.words
    return steps(
        words("Read each metal once on the school's own meters, paper and solution, with its sign."),
        words(
            "Write these readings into the plan under {key}, and make the sheets again: they replace the expected bands.",
            key="trial:",
        ),
        words("Check that each strip is the metal of its label: coins, nails and foils are often coated or alloys."),
        ordered=False,
    )


def risk_notes(lesson: Lesson) -> Handout:
    """Notes for the teacher's own risk assessment, which they are not."""
    words, keys = lesson.words, lesson.keys
    lead = (
        paragraph(words("These notes help with your own risk assessment. They are none, and your employer's rules come first.")),
        *own_words(lesson),
    )
    rows = tuple((text(words(line.line)), text(line.source)) for line in lines_of_safety(lesson))
    return Handout(
        words("Notes on risks: {title}", title=keys.title), lead,
        (
            Section(words("Usual cautions, with their basis"), (Grid((), (text(words("Caution")), text(words("Basis"))), rows),)),
            Section(words("Solutions of this lesson"), (_labels(lesson), paragraph(words(_HAZARDS)))),
            Section(words("Not in this lesson"), (steps(
                words("No lead or nickel, unless the school allows it by name. Never mercury, cadmium, chromates or cyanides."),
                words("No mains supply, no joined batteries: the strips are the only source."),
                words("Nothing of this is homework."),
                ordered=False,
            ),)),
        ),
        (words("Checked by:"), words("Date:")),
        words("Your school's rules come first."),
    )  # fmt: skip
