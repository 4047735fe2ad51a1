"""``saltbridge names``: kinds and their names for a teacher and as data, a bank's own among them, and wrong kinds told."""

from __future__ import annotations

import json
import shutil

import pytest
from click.testing import CliRunner

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.cli import main
from saltbridge.home import shipped
from saltbridge.scenarios.kinds.offered import kinds

BANK = "format: 1\nid: rings\ntitle: Rings\n"
KIND = """
worn ring:
  is: A ring that goes into solution at a steady current.
  families: [Faraday's laws]
  draws:
    metals: {one of: metals, as: product, under: metal, needed: true, means: Metals of the ring.}
    current: {quantity: I, needed: true, means: The current.}
    time: {quantity: t, needed: true, means: How long it flows.}
  things: {product: dissolving metal}
  names: {product: the metal of the ring}
"""
EXAMPLE = "  examples: [{metals: [Zn], current: 0.50 A, time: 20 min}]\n"
TEMPLATE = """
title: A ring that wears
outcome: T3.4
level: core
scenario:
  worn ring: {metals: [Zn, Fe], current: 0.50 A, time: 20 min}
text: A ring of {{ product.metal }} gives {{ I }} for {{ t }}.
parts:
  - ask: What mass does it lose?
    find: m
"""


def names(*arguments):
    done = CliRunner().invoke(main, ["names", *map(str, arguments)])
    return done.exit_code, done.output


def columns(text, heading):
    """The lines under a heading."""
    return text.partition(f"\n{heading}")[2].partition("\n\n")[0].splitlines()[1:]


def test_all_kinds_are_listed_a_line_each():
    code, text = names()

    assert code == 0
    assert [line.split("  ")[0] for line in text.splitlines()] == list(kinds(catalogue()))
    assert all(line.endswith((".", "?")) for line in text.splitlines())


def test_a_kind_is_told_in_groups():
    code, text = names("displacement")

    assert code == 0
    assert text.startswith("displacement: ")
    assert "  displacement: {metals: [Zn, Fe, Cu, Ag]}" in columns(text, "Scenario")
    assert [line.split()[:2] for line in columns(text, "Print") if line.startswith("  solid")] == [["solid:", "the"]]
    assert columns(text, "Choose")[0] == "  reacts: whether the metal displaces the ion"
    assert [line.split()[0] for line in columns(text, "Choose")[1:]] == ["yes", "no"]
    assert "any-metal-displaces" in columns(text, "Choose")[1]
    assert "    by: reacting" in columns(text, "Order")


def test_every_word_of_a_word_answer_stands_with_its_error():
    _, text = names("galvanic cell")
    found = columns(text, "Choose")
    place = found.index("  drift_reason: why the ions drift")

    assert found[place + 1 : place + 3] == [
        "    both solutions stay neutral",
        "    the signs of the electrodes  electrodes-store-net-charge",
    ]


def test_figures_and_equations_stand_too():
    _, text = names("galvanic cell")

    figures = columns(text, "Figure")
    assert [line.split(":")[0] for line in figures if not line.startswith("    ")] == ["  galvanic cell", "  number line"]
    assert "    instrument: meter · lamp · motor" in figures
    assert "    arrows: wire (left.arrow, right.arrow) · salt bridge (left.bridge_arrow, right.bridge_arrow)" in figures
    assert {line.split("  ")[1].strip() for line in columns(text, "Balance")} == {
        "cell equation", "equation", "anode half", "cathode half",
    }  # fmt: skip


def test_what_not_every_draw_has_is_marked():
    _, text = names("salt bath")

    assert any(line.startswith("  U_supply* ") for line in columns(text, "Print"))
    assert any(line.startswith("  salt  ") for line in columns(text, "Print"))
    assert text.rstrip().splitlines()[-1].startswith("* not in every draw")


def test_data_say_the_same_as_the_text():
    _, text = names("electrolysis")
    code, data = names("electrolysis", "--json")
    found = json.loads(data)

    assert code == 0
    assert found["kind"] == "electrolysis"
    assert [each["name"] for each in found["found"]] == [line.split()[0].rstrip("*") for line in columns(text, "Find")]
    assert {each["name"] for each in found["keys"] if each["needed"]} == {"metals"}
    hints = [
        hint
        for choice in json.loads(names("displacement", "--json")[1])["chosen"]
        for word in choice["words"]
        for hint in word["shows"].values()
    ]
    assert hints
    assert all(hint.endswith("?") for hint in hints)
    assert [each["kind"] for each in json.loads(names("--json")[1])] == [line.split("  ")[0] for line in names()[1].splitlines()]


@pytest.fixture
def rings(tmp_path):
    (tmp_path / "bank.yaml").write_text(BANK, encoding="utf-8")
    (tmp_path / "scenarios.yaml").write_text(KIND, encoding="utf-8")
    return tmp_path


def test_a_kind_of_the_bank_is_listed_by_its_own_example(rings):
    (rings / "scenarios.yaml").write_text(KIND + EXAMPLE, encoding="utf-8")
    code, text = names("worn ring", "--bank", rings)

    assert code == 0
    assert "  worn ring: {metals: [Zn], current: 0.50 A, time: 20 min}" in columns(text, "Scenario")
    assert "  m    mass                 0.203 g" in columns(text, "Find")  # 0.50 A × 1200 s / 96485 C/mol / 2 × 65.38 g/mol
    assert "worn ring" in names("--bank", rings)[1]
    assert "worn ring" not in names()[1]


def test_a_kind_of_the_bank_is_listed_by_its_template(rings):
    (rings / "ring.yaml").write_text(TEMPLATE, encoding="utf-8")
    code, text = names("worn ring", "--bank", rings)

    assert code == 0
    assert any(line.startswith("  m ") for line in columns(text, "Find"))


def test_a_kind_that_nobody_has_written_an_example_of_says_so(rings):
    code, text = names("worn ring", "--bank", rings)

    assert code == 1
    assert text == (
        "expected an example of worn ring to draw; found none. Write `examples:` into its entry, a list of what may stand under it, "
        "or a template of that kind. [no-example]\n"
    )


def test_an_example_that_no_template_may_write_says_so(rings):
    (rings / "scenarios.yaml").write_text(KIND + EXAMPLE.replace("20 min", "20 cm"), encoding="utf-8")
    code, text = names("worn ring", "--bank", rings)

    assert code == 1
    assert text.startswith(
        "expected an example of worn ring that a template may write; found example 1: expected a unit of the kind s"
    )


def test_what_a_bank_adds_to_our_kinds_is_listed(tmp_path):
    """Its own relation, with the quantity that its template draws for it."""
    shutil.copytree(shipped("tests") / "build" / "own_bank", tmp_path / "own")
    _, text = names("galvanic cell", "--bank", tmp_path / "own")

    assert any(line.split()[:2] == ["U_spare*", "voltage"] for line in columns(text, "Find"))
    assert "U_spare" not in names("galvanic cell")[1]


def test_a_wrong_kind_is_told_with_the_nearest_and_all():
    code, text = names("salt bth")

    assert code == 1
    assert text.startswith(
        "expected a kind of scenario; found `salt bth`. Did you mean `salt bath`? Known: galvanic cell, battery, "
    )
    assert text.endswith("titration curve. [unknown-kind]\n")


def test_a_folder_that_is_no_bank_is_told(tmp_path):
    assert names("bench", "--bank", tmp_path)[1].startswith("expected a folder with a `bank.yaml`")
