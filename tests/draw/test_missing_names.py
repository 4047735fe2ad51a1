"""A wrong name is told at its own part, with what to write and the command that lists all; whole messages."""

from __future__ import annotations

import pytest

from saltbridge.deliver.proof.proof_run import prove

TEMPLATE = """title: T
outcome: T3.4
level: core
scenario:
  {kind}: {body}
text: "{text}"
parts:
  - ask: Q?
    {first}
    {second}
"""
CELL = ("galvanic cell", "{metals: [Zn, Cu, Ag]}")
GRID = ("displacement", "{metals: [Zn, Fe, Cu, Ag]}")
BATH = ("salt bath", "{salts: [CuSO4, NaCl], state: aqueous, concentration: 4.0 mol/L}")
ALL_OF_CELL = '`saltbridge names "galvanic cell"` lists them all.'
ALL_OF_BATH = '`saltbridge names "salt bath"` lists them all.'
ALL_OF_GRID = '`saltbridge names "displacement"` lists them all.'
FOLLOWS = "expected a quantity that follows from what is given"


def told(tmp_path, scenario, text, first, second):
    kind, body = scenario
    (tmp_path / "bank.yaml").write_text("format: 1\nid: names\ntitle: Names\n", encoding="utf-8")
    template = TEMPLATE.format(kind=kind, body=body, text=text, first=first, second=second)
    (tmp_path / "t.yaml").write_text(template, encoding="utf-8")
    return [str(each.fault) for each in prove(tmp_path, 8).weighing("fault")]


@pytest.mark.parametrize(
    ("scenario", "first", "second", "message"),
    [
        (CELL, "find: dS", "decimals: 1", f"t.yaml:9: parts[1].find: expected a quantity such as E0_cell; found `dS`. Did you mean `dS0`? {ALL_OF_CELL} [unknown-quantity]"),
        (CELL, "choose: cations_too", "from: [left, right]", f"t.yaml:9: parts[1].choose: expected a name of this scenario; found `cations_too`. Did you mean `cations_to`? {ALL_OF_CELL} [unknown-name]"),
        (CELL, "choose: anode.metall", "from: [left.metal, right.metal]", f"t.yaml:9: parts[1].choose: expected a name of this scenario; found `anode.metall`. Did you mean `anode.metal`? {ALL_OF_CELL} [unknown-name]"),
        (CELL, "choose: anode", "from: [gold, tin]", "t.yaml:10: parts[1].from: expected exactly one option for ANODE; found gold, tin. List every answer that a draw can have, each once, as `from: [left, right]`. [no-right-option]"),
        (CELL, "choose: drift_reason", "from: [they repel, they attract]", "t.yaml:10: parts[1].from: expected exactly one option for both solutions stay neutral; found they repel, they attract. List every answer that a draw can have, each once, as `from: [both solutions stay neutral, the signs of the electrodes]`. [no-right-option]"),
        (CELL, "choose: anode.metal", "from: equations", "t.yaml:10: parts[1].from: expected a list; found `equations`. Write 2 or more, each by itself, in square brackets. [wrong-type]"),
        (CELL, "order: metals", "by: E0", f"t.yaml:9: parts[1].order: expected a list or things of this scenario; found `metals`. {ALL_OF_CELL} [unknown-name]"),
        (CELL, "order: [left, rigth]", "by: E0", f"t.yaml:9: parts[1].order: expected a list or things of this scenario; found `rigth`. Did you mean `right`? {ALL_OF_CELL} [unknown-name]"),
        (CELL, "order: [left, right]", "by: M", f"t.yaml:10: parts[1].by: expected a quantity that left, right have; found `M`. They have `E0`. {ALL_OF_CELL} [unknown-name]"),
        (GRID, "order: metals", "by: m1.reacting", "t.yaml:10: parts[1].by: expected a quantity without an owner; found `m1.reacting`. As `by: reacting`: the things are told by `order`. [name]"),
        (BATH, "find: m", "decimals: 2", f"t.yaml:9: parts[1].find: expected enough to derive m; found c_salt. Also give one of q, n_e, n_B, V_gas, n_2, m_2, V_gas_2. {ALL_OF_BATH} [not-derivable]"),
    ],
)  # fmt: skip
def test_a_wrong_name_of_a_part_is_told_there(tmp_path, scenario, first, second, message):
    found = told(tmp_path, scenario, "x", first, second)
    sides = {message.replace("ANODE", side) for side in ("left", "right")}
    assert len(found) == 1
    assert found[0] in sides


def test_what_is_shown_of_things_in_order_is_looked_at(tmp_path):
    found = told(tmp_path, GRID, "x", "order: metals\n    by: reacting", "show: colour")
    assert found == [
        f"t.yaml:11: parts[1].show: expected a name of this scenario; found `m1.colour`. {ALL_OF_GRID} [unknown-name]"
    ]


@pytest.mark.parametrize(
    ("scenario", "name", "advice"),
    [
        (CELL, "left.metla", f"expected a name of this scenario; found `left.metla`. Did you mean `left.metal`? {ALL_OF_CELL} [unknown-name]"),
        (CELL, "anode.c", f"{FOLLOWS}; found anode.c. There is `left.c`, `right.c`. {ALL_OF_CELL} [not-derivable]"),
        (BATH, "product_anode.couple", f"{FOLLOWS}; found product_anode.couple. There is `anion.couple`, `anode.couple`, `basic.couple`, `cathode.couple` and others. {ALL_OF_BATH} [not-derivable]"),
        (BATH, "cathode.metal", f"{FOLLOWS}; found cathode.metal. It is a name of this kind, but this draw does not have it: let the scenario draw only what has it, or leave it out. {ALL_OF_BATH} [not-derivable]"),
    ],
)  # fmt: skip
def test_a_wrong_name_of_a_text_is_told_there(tmp_path, scenario, name, advice):
    choose = ("choose: anode", "from: [left, right]") if scenario is CELL else ("balance: cathode half", "marks: 1")
    assert f"t.yaml:6: text: {advice}" in told(tmp_path, scenario, f"x {{{{ {name} }}}}", *choose)


def test_a_number_line_on_which_nothing_stands_is_told(tmp_path):
    found = told(tmp_path, GRID, 'x"\nfigure: "number line', "order: metals", "by: reacting")
    wrong = "t.yaml:7: figure: expected left.E0, right.E0, E_ref told in the scenario, to stand in the figure `number line`; found none in this scenario."
    assert found == [f"{wrong} Write `figure: none`, or another scenario. {ALL_OF_GRID} [figure]"]


def test_the_command_names_the_bank_where_a_kind_is_its_own(tmp_path):
    (tmp_path / "scenarios.yaml").write_text(
        "worn ring:\n  is: A ring.\n  families: [Faraday's laws]\n  draws:\n    metals: {one of: metals, as: product, needed: true, means: Metals.}\n"
        "  things: {product: dissolving metal}\n  names: {product: the ring}\n",
        encoding="utf-8",
    )
    found = told(tmp_path, ("worn ring", "{metals: [Zn]}"), "x {{ product.metl }}", "balance: anode half", "marks: 1")
    every = '`saltbridge names "worn ring" --bank DIR` lists them all.'
    wrong = "t.yaml:6: text: expected a name of this scenario; found `product.metl`. Did you mean `product.metal`?"
    assert found == [f"{wrong} {every} [unknown-name]"]


def test_a_name_that_only_some_draws_have_is_told_with_such_a_draw(tmp_path):
    told(
        tmp_path,
        BATH,
        "It is {{ cathode.metal }}.",
        "choose: product_cathode",
        "from: [cation.product_cathode, hydrogen.product_cathode]",
    )
    (found,) = prove(tmp_path, 8).weighing("fault")
    assert "this draw does not have it" in found.fault.hint
    assert (found.times, found.seed.startswith("proof ")) == (1, True)


@pytest.mark.parametrize(
    ("slip", "part", "why"),
    [
        ("nernst-without-n", "choose: anode\n    from: [left, right]", "which no part of the question can show"),
        ("coefficients-multiply-potential", "find: E0_cell", "which gives the right answer, or that of another error"),
    ],
)
def test_a_draw_dropped_for_an_error_that_it_does_not_show_says_why(tmp_path, slip, part, why):
    """Between two ions of one charge the coefficients are 1, so that multiplying by them changes nothing."""
    (tmp_path / "bank.yaml").write_text("format: 1\nid: names\ntitle: Names\n", encoding="utf-8")
    template = TEMPLATE.format(kind="galvanic cell", body="{metals: [Zn, Ni, Cu]}", text="A cell.", first=part, second="")
    (tmp_path / "t.yaml").write_text(template.replace("text:", f"must reveal: [{slip}]\ntext:"), encoding="utf-8")
    (found,) = prove(tmp_path, 60).weighing("fault")
    assert found.fault.key == "must reveal"
    assert f"200 were dropped because of {slip}, {why}." in str(found.fault)
