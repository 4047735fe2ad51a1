"""What a template may ask wrongly is told at its line, with what to write instead; the schema knows the keys."""

from __future__ import annotations

import json

import jsonschema
import pytest

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.faults import Faulty
from saltbridge.forms.strict_yaml import read_yaml
from saltbridge.home import shipped

BANK = "format: 1\nid: line\ntitle: Line\nlicence: CC-BY-4.0\n"
HEAD = "title: A cell on a line\noutcome: T2.5\nlevel: core\nscenario:\n"
CELL = "  galvanic cell: {metals: [Zn, Cu, Ag]}\n"
TWO = (
    "  galvanic cell: {metals: [Cu], half cells: same, concentrations: {from: [0.10, 0.010]}}\nkeep only if: left.c != right.c\n"
)
BATH = "  salt bath: {salts: [CuSO4], state: aqueous}\n"


def drawn(folder):
    read = load_bank(folder)
    return Composer(read.template("line"), read, catalogue()).variant(1, "1")


def fault_of(tmp_path, scenario, part):
    (tmp_path / "bank.yaml").write_text(BANK, encoding="utf-8")
    text = f"{HEAD}{scenario}text: A question of a cell.\nparts:\n  - ask: Write it.\n    {part}\n"
    (tmp_path / "line.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        drawn(tmp_path)
    return "\n".join(map(str, caught.value.faults))


@pytest.mark.parametrize(
    ("scenario", "part", "told"),
    [
        (CELL, "diagram: cells", "line.yaml:9: parts[1].diagram: expected `cell`; found `cells`. Did you mean `cell`?"),
        (CELL, "expression: R", "line.yaml:9: parts[1].expression: expected one of `Q`, `K`; found `R` [unknown-word]"),
        (CELL, "diagram: cell\n    states: perhaps", "line.yaml:10: parts[1].states: expected `true` or `false`; found `perhaps` [wrong-type]"),
        (CELL, "diagram: cell\n    amounts: yes", "line.yaml:10: parts[1].amounts:"),
        (BATH, "diagram: cell", "expected a scenario that is a cell of two half-cells; found diagram: cell. As in a scenario `galvanic cell`. [no-diagram]"),
        (TWO, "expression: Q", "expected a scenario with one equation; found expression: Q."),
        (CELL, "species: anode.metal", "expected a name that prints one species for `species: anode.metal`;"),
        (CELL, "species: anode.couple", "expected a name that prints one species for `species: anode.couple`;"),
        (CELL, "species: anode.iron", "found `anode.iron`. Did you mean `anode.ion`?"),
        (CELL, "species: E0_cell", "expected a name that prints one species for `species: E0_cell`;"),
    ],
)  # fmt: skip
def test_a_fault_says_where_and_what_instead(tmp_path, scenario, part, told):
    found = fault_of(tmp_path, scenario, part)
    assert told in found


def test_the_schema_describes_the_keys():
    schema = json.loads((shipped("data") / "template.schema.json").read_text(encoding="utf-8"))
    folder = shipped("data").parent / "tests" / "families" / "notation" / "bank"
    files = sorted(folder.glob("*-*.yaml"))
    assert len(files) >= 8
    for file in files:
        jsonschema.Draft7Validator(schema).validate(read_yaml(file, file.name).plain())
