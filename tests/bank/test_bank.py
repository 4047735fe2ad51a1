"""Banks: every key of the examples is read into its place, and a bad bank tells all that is wrong with it."""

from __future__ import annotations

from pathlib import Path

import pytest
from bank_samples import ASKED, BANK, GALVANIC, bank_messages, changed, write_bank

from saltbridge.bank.bank import load_bank
from saltbridge.bank.parts import BalancePart, ChoosePart, FindPart, OrderPart
from saltbridge.records import Settings
from saltbridge.scenarios.bench.bench_models import BenchScenario
from saltbridge.scenarios.cell.cell_models import GalvanicScenario
from saltbridge.scenarios.declared_models import Declared
from saltbridge.units import Quantity

EXAMPLES = Path(__file__).parent / "examples"


@pytest.fixture(scope="module")
def examples():
    return load_bank(EXAMPLES)


def named(bank, template_id):
    found = bank.template(template_id)
    assert found is not None
    return found


def test_settings_of_every_key(examples):
    """Each key of ``bank.yaml`` reaches its field of the settings; the example sets each to another than its default."""
    assert examples.settings == Settings(
        title="Electrochemistry at the tram depot",
        language="en",
        decimal_mark=",",
        electrons="z",
        concentration_unit="mol/L",
        standard_sign="⦵",
        bridge_sign="‖",
        unit_style="power",
        potential_name="EMF",
        sheet="college",
        policy="steps",
        method="formula",
        nernst="ln",
        paper="us-letter",
        licence="CC-BY-SA-4.0",
    )
    assert (examples.id, examples.licence, examples.authors) == ("tram-depot", "CC-BY-SA-4.0", ("Depot evening class",))
    assert examples.sheet.name == "college"


def test_templates_are_in_order_of_their_ids(examples):
    assert [each.id for each in examples.templates] == ["lamp-cell", "rail-plating", "salt-paper", "silver-twice"]
    assert named(examples, "lamp-cell").file == "cells/lamp-cell.yaml"
    assert examples.template("none") is None


def test_a_galvanic_cell(examples):
    cell = named(examples, "lamp-cell")
    body = cell.scenario.body

    assert isinstance(body, GalvanicScenario)
    assert cell.scenario.kind == "galvanic cell"
    assert (body.metals, body.couples, body.half_cells) == (("Zn", "Cu", "Ag", "Ni"), None, "different")
    assert body.concentrations is not None
    assert body.concentrations.values == (Quantity("0.010", "mol/L"), Quantity("0.10", "mol/L"), Quantity("1.0", "mol/L"))
    assert body.temperature is not None
    assert body.temperature.values == (Quantity("25", "°C"),)
    assert (body.pressures, body.swap_sides, body.written) == (None, "sometimes", "as drawn")
    assert (cell.use, cell.minutes, cell.context) == (("practice", "homework"), 8, ("lamp", "clock"))
    assert [condition.source for condition in cell.keep_only_if] == [
        "E0_cell >= 0.20 V and E_cell >= 0.10 V",
        "left.metal != right.metal",
    ]
    assert (cell.rules, cell.must_reveal, cell.method) == (("R-CLOSE", "R-CONC"), ("nernst-without-n",), "steps")
    assert (cell.figure.name, cell.hide_row, cell.given) == ("galvanic cell", False, ())
    assert cell.text.names == (
        "context", "left.metal", "right.metal", "T", "left.ion", "left.c", "right.ion", "right.c",
    )  # fmt: skip


def test_kinds_of_parts(examples):
    choose, balance, find = named(examples, "lamp-cell").parts
    order, _ = named(examples, "salt-paper").parts

    assert isinstance(choose, ChoosePart)
    assert (choose.choose, [option.text for option in choose.options], choose.marks) == (
        "anode.metal",
        ["left.metal", "right.metal"],
        1,
    )
    assert all(option.may_be_name for option in choose.options)
    assert isinstance(balance, BalancePart)
    assert balance.balance == "cell equation"
    assert isinstance(find, FindPart)
    assert (find.find, find.unit, find.decimals, find.figures) == ("E_cell", None, 2, None)
    assert find.hint is not None
    assert find.hint.source == "The concentrations are not standard."
    assert isinstance(order, OrderPart)
    assert (order.order, order.by, order.direction) == (("metals",), "reading", "ascending")


def test_an_electrolysis(examples):
    body = named(examples, "rail-plating").scenario.body

    assert isinstance(body, Declared)
    assert body.current is not None
    assert [each.printed for each in body.current.values[:3]] == ["0.20", "0.25", "0.30"]
    assert body.current.values[-1] == Quantity("1.00", "A")
    assert body.mass is None
    assert body.efficiency is not None
    assert body.efficiency.values == (Quantity("95", "%"),)


def test_a_bench(examples):
    body = named(examples, "salt-paper").scenario.body

    assert isinstance(body, BenchScenario)
    assert (body.reference, body.scatter, body.model) == ("Cu", "0.02 V", "own ions")


def test_defaults_of_a_short_bank(tmp_path):
    bank = load_bank(write_bank(tmp_path, cell_yaml=GALVANIC))

    assert bank.settings == Settings(title="Harbour bank", licence="CC-BY-4.0")
    assert bank.templates[0].use == ("practice",)


def test_a_bank_may_bring_its_own_sheet(tmp_path):
    """A sheet beside the bank is read as one of ours is, and doubts about it are handed on."""
    shipped = (Path(__file__).parents[2] / "data" / "sheets" / "school.yaml").read_text(encoding="utf-8")
    bank = write_bank(tmp_path, bank_yaml=BANK + "data sheet: sheets/ours.yaml\n", sheets__ours_yaml=shipped, cell_yaml=GALVANIC)

    assert load_bank(bank).sheet.rows


def test_a_fault_of_a_template_finds_its_line(examples):
    """Later stages put their faults at the nearest key that stands in the file."""
    template = named(examples, "salt-paper")

    fault = template.fault("parts[1].by.x", "unreachable", expected="a", found="b")
    assert str(fault) == "salt-paper.yaml:16: parts[1].by.x: expected a; found b [unreachable]"
    assert template.fault("parts[2].from[9].x[1]", "x", expected="a", found="b").line == 20
    assert template.fault("minutes", "x", expected="a", found="b").line == 0


# ------------------------------------------------------------------ faults


def test_faults_of_all_files_come_in_one_run(tmp_path):
    bank = write_bank(
        tmp_path,
        bank_yaml=BANK + "papr: a4\n",
        a_yaml=changed("level: core", "level: hard"),
        b_yaml="title: [\n",
        topic__c_yaml=changed("    find: E0_cell\n", ""),
    )

    assert bank_messages(bank) == [
        "a.yaml:3: level: expected one of `introductory`, `core`, `advanced`, `first-year`; found `hard` [unknown-word]",
        (
            "b.yaml:2: expected keys, lists and texts; found a slip in the YAML (expected the node content, but found '<stream end>'). "
            "A text with `: ` or ` #` in it, or starting with `{`, `[`, `*`, `&`, `!`, `%`, `@` or a backtick, needs quotes. [yaml-syntax]"
        ),
        (
            "bank.yaml:4: papr: expected one of the keys `format`, `id`, `title`, `language`, `decimal mark`, `electrons`, "
            "`concentration unit`, `standard sign`, `bridge sign`, `unit style`, `potential name`, `data sheet`, `marking policy`, "
            "`method`, `nernst form`, `units in lines`, `paper`, `print size`, `answers`, `students`, `school`, `publish unsigned`, `licence`, `authors`; found `papr`. Did you mean `paper`? [unknown-key]"
        ),
        (f"topic/c.yaml:13: parts[2]: expected exactly one of {ASKED}; found none of them. As `find: E0_cell`. [part-kind]"),
    ]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("format: 2", "bank.yaml:1: format: expected `format: 1`; found `2`. The bank was written for another version of saltbridge. [format]"),
        ("id: Our Bank", "bank.yaml:2: id: expected small letters, digits and hyphens, such as `add-both-as-printed`; found `Our Bank` [identifier]"),
        ("title:", "bank.yaml:3: title: expected a text; found nothing [wrong-type]"),
        ("language: NO", "bank.yaml:4: language: expected a language that the pages speak; found `NO`. Known: `en`, `de`. [language]"),
        ("decimal mark: ','", "bank.yaml:4: decimal mark: expected one of `point`, `comma`; found `,` [unknown-word]"),
        ("print size: 36", "bank.yaml:4: print size: expected `paper: a3`; found `paper: a4`. Letters of 36 points need a larger sheet. [print-size]"),
        ("paper: A4", "bank.yaml:4: paper: expected one of `a4`, `us-letter`, `a3`; found `A4`. Did you mean `a4`? [unknown-word]"),
        ("licence: free", "bank.yaml:4: licence: expected the SPDX name of a licence, such as `CC-BY-4.0`; found `free` [licence]"),
        ("data sheet: schol", 'bank.yaml:4: data sheet: expected one of college, school; found "schol". Did you mean "school"? [unknown-sheet]'),
        ("data sheet: sheets/no.yaml", "bank.yaml:4: data sheet: expected a file of the bank; found no `sheets/no.yaml` [no-file]"),
    ],
)  # fmt: skip
def test_keys_of_the_bank_file(tmp_path, line, expected):
    """A wrong value of ``bank.yaml`` is told with its line and what may stand there."""
    key = line.partition(":")[0]
    kept = [each for each in BANK.splitlines() if each.partition(":")[0] != key]
    place = {"format": 0, "id": 1, "title": 2}.get(key, 3)
    text = "\n".join([*kept[:place], line, *kept[place:]]) + "\n"

    assert bank_messages(write_bank(tmp_path, bank_yaml=text)) == [expected]


def test_a_folder_without_a_bank_file(tmp_path):
    assert bank_messages(tmp_path) == [
        f"expected a folder with a `bank.yaml`; found `{tmp_path}`. Give the folder of the bank. [no-bank]"
    ]


@pytest.mark.parametrize("path", ["../ours.yaml", "/etc/ours.yaml", "sheets/../../ours.yaml", "C:\\ours.yaml"])
def test_no_path_leads_out_of_the_bank(tmp_path, path):
    """Neither dots nor an absolute path reach a file outside, be it there or not."""
    (tmp_path / "ours.yaml").write_text("title: x\n", encoding="utf-8")
    bank = write_bank(tmp_path / "bank", bank_yaml=BANK + f"data sheet: {path}\n")

    assert bank_messages(bank) == [
        f"bank.yaml:4: data sheet: expected a path inside the bank; found `{path}`. As `sheets/ours.yaml`. [path-outside]"
    ]


def test_links_are_refused(tmp_path):
    """A link in the folder is never followed, whether it is a template, a topic folder or a sheet."""
    outside = tmp_path / "outside"
    write_bank(outside, cell_yaml=GALVANIC)
    bank = write_bank(tmp_path / "bank", bank_yaml=BANK + "data sheet: sheets/ours.yaml\n")
    (bank / "cell.yaml").symlink_to(outside / "cell.yaml")
    (bank / "topic").symlink_to(outside)
    (bank / "sheets").mkdir()
    (bank / "sheets" / "ours.yaml").symlink_to(outside / "cell.yaml")

    said = "expected files and folders of the bank; found a link to another place. Put the file itself there. [link]"
    assert bank_messages(bank) == [f"cell.yaml: {said}", f"sheets/ours.yaml: {said}", f"topic: {said}"]


def test_a_linked_bank_file_is_refused(tmp_path):
    write_bank(tmp_path / "outside")
    bank = tmp_path / "bank"
    bank.mkdir()
    (bank / "bank.yaml").symlink_to(tmp_path / "outside" / "bank.yaml")

    assert bank_messages(bank) == [
        "bank.yaml: expected files and folders of the bank; found a link to another place. Put the file itself there. [link]"
    ]


def test_file_names(tmp_path):
    bank = write_bank(tmp_path, cell_yaml=GALVANIC, a__cell_yaml=GALVANIC)
    (bank / "My Cell.yaml").write_text(GALVANIC, encoding="utf-8")
    (bank / "cell.yml").write_text(GALVANIC, encoding="utf-8")
    (bank / ".hidden.yaml").write_text("no: [", encoding="utf-8")

    assert bank_messages(bank) == [
        "My Cell.yaml: expected small letters, digits and hyphens; found `My Cell.yaml`. As `cell-potential.yaml`. [file-name]",
        "a/cell.yaml: expected each file name once; found `cell.yaml` too. The file's name is the question's id; rename one. [template-twice]",
        "cell.yml: expected the ending `.yaml`; found `.yml` [file-name]",
    ]


def test_folders_go_one_deep(tmp_path):
    bank = write_bank(tmp_path, a__b__cell_yaml=GALVANIC)

    assert bank_messages(bank) == [
        (
            "a/b: expected topic folders only; found folders inside them. Put templates into the bank's folder or one topic folder. "
            "[folder-too-deep]"
        )
    ]


def test_too_many_templates(tmp_path, monkeypatch):
    monkeypatch.setattr("saltbridge.bank.bank.MOST_TEMPLATES", 1)

    assert bank_messages(write_bank(tmp_path, a_yaml=GALVANIC, b_yaml=GALVANIC)) == [
        "expected at most 1 templates; found 2. Make it two banks. [too-many-templates]"
    ]


def test_too_many_bytes(tmp_path, monkeypatch):
    monkeypatch.setattr("saltbridge.bank.bank.MOST_BYTES", 100)

    assert bank_messages(write_bank(tmp_path, a_yaml=GALVANIC)) == [
        f"expected at most 100 bytes of templates; found {len(GALVANIC)}. Make it two banks. [bank-too-big]"
    ]
