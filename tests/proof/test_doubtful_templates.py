"""A template with a wrong key is read as far as it can be, so that its wrong names are told in the same run."""

from __future__ import annotations

from banks import change, small_bank
from planted import CELL

from saltbridge.deliver.proof.proof_run import prove


def _told(folder):
    return [(each.fault.line, each.fault.code) for each in prove(folder, 5).weighing("fault")]


def test_wrong_keys_words_and_names_are_told_together(tmp_path):
    folder = small_bank(tmp_path, one=CELL)
    for old, new in (
        ("keep only if:", "keep if:"),
        ("level: core", "level: easy"),
        ("{{ left.metal }}", "{{ left.mettle }}"),
        ("[add-both-as-printed]", "[add-both-as-prnted]"),
        ("find: E0_cell", "find: E0_sell"),
        ("[left.metal, right.metal]", "[left.metal, cathode.metl]"),
    ):
        change(folder / "one.yaml", old, new)
    assert _told(folder) == [
        (3, "unknown-word"), (7, "unknown-key"), (9, "unknown-slip"), (11, "unknown-name"), (19, "unknown-quantity"),
    ]  # fmt: skip


def test_nothing_is_said_of_names_where_the_scenario_itself_is_in_doubt(tmp_path):
    """A misspelt key of the scenario may be the very one that gives a name."""
    folder = small_bank(tmp_path, one=CELL)
    change(folder / "one.yaml", "metals: [Zn", "metls: [Zn")
    change(folder / "one.yaml", "{{ left.metal }}", "{{ left.mettle }}")
    assert {code for _, code in _told(folder)} <= {"unknown-key", "half-cells"}


def test_what_stands_in_for_a_faulty_text_is_not_judged(tmp_path):
    folder = small_bank(tmp_path, one=CELL)
    change(folder / "one.yaml", "A strip of {{ left.metal }} stands", "A <b>strip</b> of {{ left.metal }} stands")
    assert _told(folder) == [(12, "raw-html")]


def test_a_name_that_only_some_draws_lack_is_told_with_its_draw(tmp_path):
    """A solid couple has no electrode of metal: `right.metal` is there in some draws only."""
    some = CELL.replace(
        "metals: [Zn, Fe, Ni, Cu, Ag, Pb]", "couples: [Zn^2+/Zn, Cu^2+/Cu, Ag^+/Ag, Fe^2+/Fe, Ni^2+/Ni, Pb^2+/Pb, Fe^3+/Fe^2+]"
    )
    folder = small_bank(tmp_path, one=some)
    found = [each for each in prove(folder, 40).weighing("fault") if each.fault.code == "unknown-name"]
    assert found
    assert all(each.seed.startswith("proof ") and each.draws > 1 for each in found)
