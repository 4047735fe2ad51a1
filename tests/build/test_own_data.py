"""A bank with couples, quantities, relations, slips and ideas of its own, all the way to page, paper and proof."""

from __future__ import annotations

import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from saltbridge.answers.judge import judge, merge
from saltbridge.api import work
from saltbridge.bank.bank import load_bank, survey_bank
from saltbridge.build import publish
from saltbridge.compose.question import Composer
from saltbridge.derivation.catalogue import catalogue
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
    assert "BiO" in (done.site / "sheet.html").read_text(encoding="utf-8")
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
    assert told["value"] == pytest.approx(0.32 + 0.76 - 0.15, abs=1e-9)  # the bank's couple, the school sheet, the lamp
    assert told["equation"] == "2BiO^+ + 4H^+ + 3Zn -> 2Bi + 2H2O + 3Zn^2+"


def test_without_the_bank_neither_couple_nor_quantity_is_known():
    with pytest.raises(Faulty, match="U_spare"):
        work("Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s)", [], "U_spare")


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
