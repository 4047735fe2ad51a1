"""A bank's own quantities, relations and slips, and what is said about bad ones."""

from __future__ import annotations

import shutil
from pathlib import Path
from textwrap import dedent

import pytest

from saltbridge.algebra.expression import as_text
from saltbridge.catalogue.catalogue import catalogue, read_catalogue
from saltbridge.catalogue.dimensions import unlike_sides
from saltbridge.catalogue.entries import Entry
from saltbridge.catalogue.own_entries import MOST_ENTRIES
from saltbridge.faults import FaultList, Faulty
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Situation, instance
from saltbridge.graph.planner import plan
from saltbridge.graph.slips import slip_points
from saltbridge.home import shipped
from saltbridge.scenarios.situations import add_given
from saltbridge.tables.yaml_text import Node

QUANTITIES = """
kappa_volts: {name: terminal voltage, base: U, sub: terminal, unit: V}
inner_ohm: {name: internal resistance, base: r, unit: ohm, range: positive}
"""
RELATIONS = """
clamp-voltage:
  family: Batteries
  equation: kappa_volts = E_cell - I*inner_ohm
  say: Inside the cell some of the potential is lost.
  valid: steady current
  source: our own physics colleagues
  cases:
    - {kappa_volts: 1.4, E_cell: 1.5, I: 0.5, inner_ohm: 0.2, source: made up for this test}
    - {kappa_volts: 8.1, E_cell: 9, I: 0.3, inner_ohm: 3, source: made up for this test}
"""
SLIPS = """
inner-drop-added:
  at: clamp-voltage
  instead: kappa_volts = E_cell + I*inner_ohm
  hint: Does a cell give more when it works?
  twins: [add-both-as-printed]
  source: teacher's experience
"""


@pytest.fixture
def bank(tmp_path: Path):
    """Writes a bank folder and gives it; texts are by file name without .yaml."""

    def write(**texts: str) -> Path:
        for name, text in {"quantities": QUANTITIES, "relations": RELATIONS, **texts}.items():
            (tmp_path / f"{name}.yaml").write_text(dedent(text).lstrip("\n"), encoding="utf-8")
        return tmp_path

    return write


def _faults(folder: Path) -> list[str]:
    with pytest.raises(Faulty) as raised:
        catalogue(folder)
    return str(raised.value).splitlines()


def test_a_banks_files_are_laid_over_the_shipped_ones(bank):
    known = catalogue(bank(slips=SLIPS))
    assert set(catalogue().relations) < set(known.relations)
    assert as_text(known.relations["clamp-voltage"].tree) == "E_cell - I*inner_ohm"
    situation = Situation()
    for name, printed, unit in (("E_cell", "1.50", "V"), ("I", "0.50", "A"), ("inner_ohm", "0.20", "ohm")):
        add_given(situation, known, name, printed, unit)
    situation.laws.append(instance(known.relations["clamp-voltage"]))
    graph = Graph(plan(situation, ["kappa_volts"]))
    start = graph.start(situation.given)
    assert graph.value(graph.run(start), "kappa_volts") == pytest.approx(1.4)
    (point,) = slip_points(graph, "kappa_volts", known, {})
    assert graph.value(graph.run(start, point.put), "kappa_volts") == pytest.approx(1.6)


def test_a_bank_cannot_redefine_what_every_question_reads(bank):
    relations = RELATIONS + dedent("""
        standard-cell-potential:
          family: Cells
          equation: E0_cell = 2*E0_cathode - E0_anode
          say: Twice one less the other.
          valid: never
          source: invented for this test
          cases:
            - {E0_cell: 1.44, E0_cathode: 0.34, E0_anode: -0.76, source: made up for this test}
            - {E0_cell: 2.36, E0_cathode: 0.80, E0_anode: -0.76, source: made up for this test}
    """)
    quantities = QUANTITIES + "E_cell: {name: cell potential, base: U, unit: V}\n"
    hint = "Every question reads ours. Give yours a name of its own. [redefined]"
    assert _faults(bank(relations=relations, quantities=quantities)) == [
        f"quantities.yaml:3: E_cell: expected a name that saltbridge does not use; found E_cell. {hint}",
        f"relations.yaml:12: standard-cell-potential: expected a name that saltbridge does not use; found standard-cell-potential. {hint}",
    ]


def test_the_sides_of_every_shipped_relation_measure_the_same():
    known = catalogue()
    faults = FaultList()
    for relation in known.relations.values():
        equation = {"equation": Node(f"{relation.subject} = {as_text(relation.tree)}", 1)}
        unlike_sides(Entry("relations.yaml", relation.id, 1, equation, faults), relation, known.quantities)
    assert [each.key for each in faults.faults] == ["cost-for-a-kilogram.equation"]  # money has no unit here


def test_a_bank_of_too_many_entries_is_left_at_the_first_one_past_the_limit(bank):
    many = "".join(f"k{number}: {{name: x, base: x, unit: V}}\n" for number in range(MOST_ENTRIES + 5))
    assert _faults(bank(quantities=many, relations="{}\n")) == [
        f"quantities.yaml:{MOST_ENTRIES + 1}: expected at most {MOST_ENTRIES} entries in a bank; found more. Make it two banks. [too-many-entries]"
    ]


def test_a_slip_of_two_relations_of_a_bank_is_carried_over(bank):
    relations = RELATIONS + RELATIONS.replace("clamp-voltage", "clamp-voltage-of-two").replace("kappa_volts", "kappa_charge")
    quantities = QUANTITIES + "kappa_charge: {name: charging voltage, base: U, unit: V}\n"
    slips = SLIPS.replace("at: clamp-voltage", "at: [clamp-voltage, clamp-voltage-of-two]")
    known = catalogue(bank(quantities=quantities, relations=relations, slips=slips))
    situation = Situation()
    for name, printed, unit in (("E_cell", "1.50", "V"), ("I", "0.50", "A"), ("inner_ohm", "0.20", "ohm")):
        add_given(situation, known, name, printed, unit)
    situation.laws.append(instance(known.relations["clamp-voltage-of-two"]))
    graph = Graph(plan(situation, ["kappa_charge"]))
    (point,) = slip_points(graph, "kappa_charge", known, {})
    assert graph.value(graph.run(graph.start(situation.given), point.put), "kappa_charge") == pytest.approx(1.6)


BAD = [
    ("quantities", ("unit: ohm", "unit: A"),
     [("relations.yaml:3: clamp-voltage.equation: expected E_cell and I*inner_ohm of the same kind of quantity; "
      "found kappa_volts = E_cell - I*inner_ohm. Look at the units of the quantities, or for a factor that is missing. [unlike-sides]")]),
    ("quantities", ("unit: ohm", "unit: furlong"), ["quantities.yaml:2: inner_ohm.unit: expected a unit such as V, kJ/mol or A/dm2; found 'furlong'. Write kJ/mol, J/(mol K) or A/dm2. [unit]"]),
    ("relations", ("I*inner_ohm\n", "I*inner_ohms\n"),
     ["relations.yaml:3: clamp-voltage.equation: expected a name of quantities.yaml; found inner_ohms. Did you mean inner_ohm? [unknown-quantity]",
      "relations.yaml:8: clamp-voltage.cases[1].inner_ohm: expected a key of this kind of entry; found inner_ohm. Did you mean inner_ohms? [unknown-key]",
      "relations.yaml:8: clamp-voltage.cases[1]: expected the key inner_ohms; found none [missing-key]"]),
    ("relations", ("E_cell - I*inner_ohm", "E_cell - I*().__class__"),
     [("relations.yaml:3: clamp-voltage.equation: expected numbers, names, + - * / **, brackets and ln, lg, exp, exp10, sqrt, abs, min, max; "
      "found Attribute in 'E_cell - I*().__class__'. Nothing else is read, so that a shared bank can't run anything. [expression]")]),
    ("relations", ("  say:", "  sya:"),
     ["relations.yaml:2: clamp-voltage: expected the key say; found none [missing-key]",
      "relations.yaml:4: clamp-voltage.sya: expected a key of this kind of entry; found sya. Did you mean say? [unknown-key]"]),
    ("relations", ("  valid: steady current\n", "  valid: steady current\n  valid: always\n"),
     ['relations.yaml:6: clamp-voltage.valid: expected a key used once; found "valid" again. It stands on line 5 already. [repeated]']),
    ("relations", ("kappa_volts: 8.1", "kappa_volts: 9.9"),
     [("relations.yaml:9: clamp-voltage.cases[2].kappa_volts: expected kappa_volts = 8.1, as the equation gives; found 9.9. "
      "Look at the equation, or at the units of the case. [case]")]),
    ("relations", ("I: 0.3", "I: 1:30"),
     ["relations.yaml:9: clamp-voltage.cases[2].I: expected a number such as 0.34 or 1.5e-3; found '1:30' [number]"]),
    ("relations", ("    - {kappa_volts: 8.1, E_cell: 9, I: 0.3, inner_ohm: 3, source: made up for this test}\n", ""),
     ["relations.yaml:8: clamp-voltage.cases: expected at least 2 outside cases; found 1 [too-few-cases]"]),
    ("relations", ("E_cell - I*inner_ohm", "E_cell - kappa_volts*inner_ohm"),
     ["relations.yaml:3: clamp-voltage.equation: expected kappa_volts on the left side only; found kappa_volts = E_cell - kappa_volts*inner_ohm [equation]"]),
    ("slips", ("at: clamp-voltage", "at: clamp-votage"),
     ["slips.yaml:2: inner-drop-added.at: expected the id of a relation; found clamp-votage. Did you mean clamp-voltage? [unknown-relation]"]),
    ("slips", ("[add-both-as-printed]", "[add-both-as-print]"),
     ["slips.yaml:5: inner-drop-added.twins: expected the id of a common error; found add-both-as-print. Did you mean add-both-as-printed? [unknown-slip]"]),
    ("slips", ("E_cell + I*inner_ohm", "E_cel + I*inner_ohm"),
     ["slips.yaml:3: inner-drop-added.instead: expected a name of quantities.yaml; found E_cel. Did you mean E_cell? [unknown-quantity]"]),
    ("slips", ("  hint: Does a cell give more when it works?\n", ""),
     ["slips.yaml:2: inner-drop-added: expected the key hint; found none [missing-key]"]),
    ("slips", ("  instead: kappa_volts = E_cell + I*inner_ohm\n", ""),
     ["slips.yaml:2: inner-drop-added.at: expected either instead or read; found neither [bad-shape]"]),
    ("slips", ("  instead: kappa_volts = E_cell + I*inner_ohm\n", "  read: {r: '0'}\n"),
     ["slips.yaml:3: inner-drop-added.read: expected a name of clamp-voltage (kappa_volts, E_cell, I, inner_ohm); found r [unknown-quantity]"]),
    ("slips", ("at: clamp-voltage", "at: 'convert: V'"),
     ["slips.yaml:2: inner-drop-added.at: expected convert: UNIT -> UNIT; found convert: V [bad-value]"]),
    ("quantities", ("range: positive", "range: postive"),
     ["quantities.yaml:2: inner_ohm.range: expected one of any, positive, not negative, fraction; found postive [bad-value]"]),
    ("quantities", ("unit: ohm", "unit: ohm, signed: yes"),
     ["quantities.yaml:2: inner_ohm.signed: expected true or false; found yes [bad-value]"]),
    ("quantities", ("{name: internal resistance, base: r, unit: ohm, range: positive}", "a number"),
     ["quantities.yaml:2: inner_ohm: expected a mapping; found something else [bad-shape]",
      "relations.yaml:3: clamp-voltage.equation: expected a name of quantities.yaml; found inner_ohm. Add it to quantities.yaml. [unknown-quantity]"]),
    ("quantities", ("unit: ohm", "unit: !!python/object:os.system ohm"),
     ["quantities.yaml:2: expected plain keys and values; found a tag (!). Write the value out, or put it in quotes. [bad-yaml]",
      "relations.yaml:3: clamp-voltage.equation: expected a name of quantities.yaml; found kappa_volts. Add it to quantities.yaml. [unknown-quantity]",
      "relations.yaml:3: clamp-voltage.equation: expected a name of quantities.yaml; found inner_ohm. Add it to quantities.yaml. [unknown-quantity]"]),
]  # fmt: skip


@pytest.mark.parametrize(("file", "change", "messages"), BAD, ids=[f"{each[0]}-{place}" for place, each in enumerate(BAD)])
def test_a_bad_file_is_told_whole_with_line_and_key(bank, file: str, change: tuple[str, str], messages: list[str]):
    texts = {"quantities": QUANTITIES, "relations": RELATIONS, **({"slips": SLIPS} if file == "slips" else {})}
    assert change[0] in texts[file]
    assert _faults(bank(**{**texts, file: texts[file].replace(*change)})) == messages


def test_all_faults_of_all_files_come_at_once(bank):
    folder = bank(
        quantities=QUANTITIES.replace("range: positive", "range: high"),
        relations=RELATIONS.replace("  say:", "  sya:"),
        slips=SLIPS.replace("[add-both-as-printed]", "[nothing-like-it]"),
    )
    assert {line.split(":")[0] for line in _faults(folder)} == {"quantities.yaml", "relations.yaml", "slips.yaml"}


@pytest.mark.parametrize(
    ("kind", "name", "entry", "line"),
    [
        ("quantities", "inner_ohm", "inner_ohm: {name: resistance of the meter, base: r, unit: ohm}\n", 1),
        ("relations", "clamp-voltage", RELATIONS, 2),
        ("slips", "inner-drop-added", SLIPS, 2),
    ],
)
def test_a_name_in_two_files_of_one_folder_is_told(bank, kind: str, name: str, entry: str, line: int):
    """The line is that of the entry's first key, as in every message of these files."""
    folder = bank(slips=SLIPS)
    (folder / kind).mkdir()
    (folder / kind / "meters.yaml").write_text(entry.lstrip("\n"), encoding="utf-8")
    (message,) = _faults(folder)
    assert message == (
        f"meters.yaml:{line}: {name}: expected a name used in one file; found it in {kind}.yaml and {kind}/meters.yaml. "
        "Take one out, or give it another name. [repeated]"
    )


def test_a_name_in_two_shipped_files_is_told(tmp_path, monkeypatch):
    """A bank may lay its own over ours; of two of ours one would be lost unseen."""
    data = tmp_path / "data"
    shutil.copytree(shipped("data"), data)
    shutil.copy(data / "relations" / "batteries.yaml", data / "relations" / "zinc.yaml")
    monkeypatch.setattr("saltbridge.catalogue.catalogue.shipped", lambda _: data)
    with pytest.raises(Faulty) as raised:
        read_catalogue.__wrapped__(())
    batteries = [
        name for name in catalogue().relations if f"\n{name}:\n" in (data / "relations" / "zinc.yaml").read_text("utf-8")
    ]
    assert [fault.key for fault in raised.value.faults] == batteries
    assert {fault.found for fault in raised.value.faults} == {"it in relations/batteries.yaml and relations/zinc.yaml"}


def test_the_shipped_catalogue_is_whole():
    known = catalogue()
    for slip in known.slips.values():
        assert len(slip.hint) > 15, slip.id
        assert slip.source, slip.id
        assert slip.id not in slip.twins
    for relation in known.relations.values():
        assert relation.say.endswith("."), relation.id
        assert relation.source, relation.id
