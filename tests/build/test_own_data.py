"""A bank with couples, quantities, relations, slips and ideas of its own, all the way to page, paper and proof."""

from __future__ import annotations

import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from click.testing import CliRunner

from saltbridge.answers.judge import judge, merge
from saltbridge.api import known_names, work
from saltbridge.bank.bank import load_bank, survey_bank
from saltbridge.build import publish
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.cli.work import command
from saltbridge.compose.question import Composer
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.faults import Faulty
from saltbridge.render.text import question_text

OWN = Path(__file__).resolve().parent / "own_bank"
CELL = "Zn(s) | Zn^2+(aq) || H^+(aq), BiO^+(aq) | Bi(s)"


def _variants(count: int):
    bank = load_bank(OWN)
    composer = Composer(bank.templates[0], bank, catalogue(bank.folder))
    for number in range(1, count + 1):
        variant = composer.variant(number, f"practice {number}")
        yield composer.question(variant), variant


def test_page_paper_and_sheet_print_the_banks_own_data(tmp_path):
    done = publish(OWN, tmp_path / "out", executor=ThreadPoolExecutor(1), variants=6)
    assert "What the lamp does not need is to spare." in (done.site / "spare.html").read_text(encoding="utf-8")
    sheet = (done.site / "sheet.html").read_text(encoding="utf-8")
    assert all(said in sheet for said in ("BiO", "Sheet of our own"))
    assert len(list((done.teacher / "papers").glob("*.pdf"))) == 4


def test_the_working_says_the_banks_sentence_and_the_slip_is_recognised():
    for question, variant in _variants(12):
        assert "What the lamp does not need is to spare." in question_text(question, variant)
        key = merge(question.parts[0].judge, variant.judge[0])
        assert judge(key, key["value"]).verdict == "right"
        low, high = (float(bound) for bound in key["slip_ranges"]["lamp-added"])
        verdict = judge(key, f"{(low + high) / 2:.2f}")
        assert (verdict.verdict, "lamp-added" in verdict.slips) == ("slip", True)


def test_the_couple_that_only_the_bank_has_is_drawn():
    assert any("BiO" in question_text(question, variant) for question, variant in _variants(20))


def test_the_command_line_sees_the_banks_sheet_and_relations():
    told = work(CELL, ["U_lamp = 0.15 V"], "U_spare", bank=OWN)
    assert told["value"] == pytest.approx(0.32 + 0.76 - 0.15, abs=1e-9)  # the bank's couple and sheet, the lamp
    assert told["equation"] == "2BiO^+ + 4H^+ + 3Zn -> 2Bi + 2H2O + 3Zn^2+"


def test_without_the_bank_neither_couple_nor_quantity_is_known():
    with pytest.raises(Faulty, match="U_spare"):
        work("Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)", [], "U_spare")


def test_the_list_of_names_has_the_banks_own():
    assert "U_spare" in known_names(OWN)
    assert "U_spare" not in known_names()


def test_the_command_takes_the_banks_sheet_or_a_shipped_one_not_both():
    told = CliRunner().invoke(command, [CELL, "--find", "E_cell", "--bank", str(OWN), "--sheet", "school"])
    assert told.exit_code == 2
    assert told.output.splitlines()[-1] == "Error: A bank has its own data sheet: leave out --sheet or --bank."


def test_proof_says_that_the_banks_relation_is_not_independently_checked():
    proof = prove(OWN, 20, executor=ThreadPoolExecutor(1))
    assert [(each.weight, each.fault.code, each.fault.found) for each in proof.findings] == [
        ("warning", "not-checked", "none to U_spare")
    ]


def test_relations_in_a_folder_are_read_and_are_no_templates(tmp_path):
    folder = tmp_path / "bank"
    shutil.copytree(OWN, folder)
    for kind in ("quantities", "relations", "slips"):
        (folder / kind).mkdir()
        (folder / f"{kind}.yaml").rename(folder / kind / "lamps.yaml")
    bank = load_bank(folder)
    assert [each.id for each in bank.templates] == ["spare"]
    assert catalogue(folder).own == ("spare-voltage",)


def test_relations_changed_between_two_builds_are_read_again(tmp_path):
    folder = tmp_path / "bank"
    shutil.copytree(OWN, folder)
    file = folder / "relations.yaml"
    assert catalogue(folder).relations["spare-voltage"].say == "What the lamp does not need is to spare."
    file.write_text(file.read_text(encoding="utf-8").replace("is to spare.", "is left over."), encoding="utf-8")
    assert catalogue(folder).relations["spare-voltage"].say == "What the lamp does not need is left over."


def test_faults_of_all_own_files_are_told_at_once_with_file_and_line(tmp_path):
    folder = tmp_path / "bank"
    shutil.copytree(OWN, folder)
    for name, old, new in (
        ("relations.yaml", "- U_lamp", "- U_lampe"),
        ("slips.yaml", "  hint: Does a lamp give volts or take them?\n", ""),
        ("ideas.yaml", "outcome: T2.3", "outcome: lamps"),
        ("sheets/ours.yaml", "BiO^+/Bi: 0.32", "BiO^+/Bi: high"),
        ("couples.csv", ",3,0.32,", ",3,high,"),
    ):
        text = (folder / name).read_text(encoding="utf-8")
        assert old in text
        (folder / name).write_text(text.replace(old, new), encoding="utf-8")
    _, faults = survey_bank(folder)
    assert [str(each) for each in faults] == [
        'couples.csv:2: E0/V: expected a decimal number such as -0.76; found "high" [bad-cell]',
        "ideas.yaml:7: lamp-eats-current.outcome: expected the id of an outcome, such as T8.1; found lamps [outcome]",
        (
            "relations.yaml:3: spare-voltage.equation: expected a name of quantities.yaml; found U_lampe. Did you mean U_lamp? "
            "[unknown-quantity]"
        ),
        (
            "relations.yaml:8: spare-voltage.cases[1].U_lamp: expected a key of this kind of entry; found U_lamp. Did you mean U_lampe? "
            "[unknown-key]"
        ),
        "relations.yaml:8: spare-voltage.cases[1]: expected the key U_lampe; found none [missing-key]",
        (
            'sheets/ours.yaml:14: rows.BiO^+/Bi: expected a decimal number; found "high". Write a decimal point and no spaces; '
            "the bank's settings choose how numbers print. [bad-number]"
        ),
        "slips.yaml:2: lamp-added: expected the key hint; found none [missing-key]",
    ]


@pytest.mark.parametrize(
    ("name", "old", "new", "message"),
    [
        ("couples.csv", ",3,0.32,", ",2,0.32,", "couples.csv:2: n: expected 3, the number of electrons in BiO^+(aq) + 2 H^+(aq) + 3 e- -> "),
        ("couples.csv", ",3,0.32,", ",3,320,", "couples.csv:2: E0/V: expected a potential from -10 to 10 V; found "),
        ("couples.csv", ",3,0.32,", f",{'9' * 5000},0.32,", "couples.csv:2: n: expected a whole number above zero; found 5000 characters"),
        ("sheets/ours.yaml", "BiO^+/Bi: 0.32", "BiO^+/Bi: 100000", "sheets/ours.yaml:14: rows.BiO^+/Bi: expected a potential from -10 to 10 V"),
    ],
)  # fmt: skip
def test_a_couple_that_cannot_be_is_a_fault_at_its_place(tmp_path, name, old, new, message):
    folder = tmp_path / "bank"
    shutil.copytree(OWN, folder)
    file = folder / name
    file.write_text(file.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    (told,) = [str(each) for each in survey_bank(folder)[1]]
    assert told.startswith(message)


@pytest.mark.parametrize("name", ["relations", "slips/lamps.yaml", "couples.csv", "sheets/ours.yaml"])
def test_links_out_of_the_bank_are_refused(tmp_path, name):
    folder = tmp_path / "bank"
    shutil.copytree(OWN, folder)
    place = folder / name
    place.parent.mkdir(exist_ok=True)
    place.unlink(missing_ok=True)
    place.symlink_to(OWN if name == "relations" else OWN / "slips.yaml")
    _, faults = survey_bank(folder)
    links = [(each.file, each.found) for each in faults if each.code == "link"]
    assert links == [(name, "a link to another place")]


@pytest.fixture
def spoilt(tmp_path):
    def copy(row: str) -> list[str]:
        folder = tmp_path / "bank"
        shutil.copytree(OWN, folder)
        (folder / "couples.csv").write_text(f"id,half_reaction,n,E0/V,citation\n{row}\n", encoding="utf-8")
        bank, faults = survey_bank(folder)
        return [str(each) for each in (*faults, *bank.warnings) if each.file == "couples.csv"]

    return copy


def test_a_couple_that_does_not_balance_is_told_with_its_line(spoilt):
    (told,) = spoilt("BiO^+/Bi,BiO^+(aq) + 3 e- -> Bi(s) + H2O(l),3,0.32,invented")
    assert told.startswith("couples.csv:2: half_reaction: expected ")
    assert told.endswith("[unbalanced]")


def test_all_bad_cells_are_told_at_once(spoilt):
    told = spoilt("BiO^+/Bi,BiO^+(aq) + 2 H^+(aq) + 3 e- -> Bi(s) + H2O(l),three,high,")
    assert [each.split(":")[2].strip() for each in told] == ["n", "E0/V", "citation"]


def test_a_potential_far_from_ours_is_a_warning(spoilt):
    (told,) = spoilt("Cu^2+/Cu,Cu^2+(aq) + 2 e- -> Cu(s),2,0.50,invented")
    assert (
        told
        == "couples.csv:2: E0/V: expected a potential within 0.05 V of ours, 0.340 V; found 0.50. Look once more. [far-potential]"
    )
