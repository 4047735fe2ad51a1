"""The record: one file without names, from which everything is printed again and the set goes on without moving anything."""

from __future__ import annotations

import json
import shutil
import zipfile
from contextlib import suppress

import pytest
from homework.sets_for_tests import FULL, NAMES, PLAN, ROWS, SECRET, contents, make
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pdf_reading import text

from saltbridge.deliver.homework.class_set import accepted, asked_text
from saltbridge.deliver.homework.rebuilt import rebuilt
from saltbridge.deliver.homework.record import read_record, written
from saltbridge.deliver.papers import paper_code
from saltbridge.faults import Faulty
from saltbridge.home import shipped


def plain(pdf):
    return " ".join(text(pdf).split())


def papers_of(record):
    return {code: [asked_text(*pair) for pair in pairs] for code, pairs in record.papers.items()}


def test_a_record_reads_back_as_it_was_written(made_set, record):
    assert written(record) == (made_set / "record.zip").read_bytes()


def test_a_record_holds_no_name_of_a_student(made_set):
    with zipfile.ZipFile(made_set / "record.zip") as file:
        told = b"\n".join(file.read(name) for name in file.namelist()).decode()
    assert not [part for name in NAMES for part in name.split() if len(part) > 3 and part in told]


def test_a_lost_paper_and_its_memorandum_are_printed_again(made_set, record):
    code = record.entries[0].code
    _, again = rebuilt(made_set / "record.zip", code.lower().replace("-", " "), memorandum=False, name="Ada Brook")
    _, memo = rebuilt(made_set / "record.zip", code, memorandum=True)
    assert again.pdf == (made_set / "papers" / f"{code}.pdf").read_bytes()
    assert plain(memo.pdf) == plain((made_set / "memoranda" / f"{code}.pdf").read_bytes())


def test_a_mistyped_code_is_told_from_one_of_another_set(made_set, record):
    code = record.entries[0].code
    wrong = code[:4] + ("B" if code[4] != "B" else "C") + code[5:]
    with pytest.raises(Faulty, match=r"\[paper-code\]"):
        record.entry(wrong)
    with pytest.raises(Faulty, match=r"\[no-such-paper\]"):
        record.entry(paper_code("CELLS3", "B"))


def test_the_same_record_gives_the_same_bytes(tmp_path, made_set, record):
    plan = PLAN + FULL
    make(tmp_path, tmp_path / "again", plan=plan, record=made_set / "record.zip")
    assert contents(tmp_path / "again") == contents(made_set)


def test_another_secret_gives_other_numbers(tmp_path, record, monkeypatch):
    make(tmp_path, tmp_path / "out", monkeypatch, secret="ff" * 16)
    other = read_record(tmp_path / "out" / "record.zip")
    assert not {each.code for each in other.entries} & {each.code for each in record.entries}
    assert not {draw.seed for each in other.entries for draw in each.draws} & {
        draw.seed for each in record.entries for draw in each.draws
    }


def test_a_late_joiner_changes_nothing_for_the_others(tmp_path, made_set, record):
    rows = (ROWS[0], "099,New,Comer,11B", *ROWS[1:])
    make(tmp_path, tmp_path / "out", rows=rows, record=made_set / "record.zip")
    later = read_record(tmp_path / "out" / "record.zip")
    assert len(later.entries) == len(record.entries) + 1
    assert papers_of(record).items() <= papers_of(later).items()
    keys = [draw.key for each in later.entries for draw in each.draws]
    assert len(keys) == len(set(keys))


def test_one_who_leaves_takes_no_paper_along(tmp_path, made_set, record):
    make(tmp_path, tmp_path / "out", rows=ROWS[1:], record=made_set / "record.zip")
    later = read_record(tmp_path / "out" / "record.zip")
    assert papers_of(later) == papers_of(record)


def test_a_second_attempt_has_other_numbers_and_the_first_stays_in_the_record(tmp_path, made_set, record):
    first = record.entries[2]
    make(tmp_path, tmp_path / "out", record=made_set / "record.zip", again=(first.code,))
    later = read_record(tmp_path / "out" / "record.zip")
    new = next(each for each in later.entries if each.who == first.who and each.current)
    assert (new.attempt, new.code != first.code) == (2, True)
    assert not later.entry(first.code).current
    assert {draw.key for draw in new.draws}.isdisjoint(draw.key for each in record.entries for draw in each.draws)
    assert papers_of(record).items() <= papers_of(later).items()
    third = make(tmp_path / "b", tmp_path / "more", record=tmp_path / "out" / "record.zip")
    assert third == ()
    assert papers_of(read_record(tmp_path / "more" / "record.zip")) == papers_of(later)


def test_one_question_replaced_leaves_the_others(tmp_path, made_set, record):
    make(tmp_path, tmp_path / "out", plan=PLAN.replace("two-metals", "unequal-charges"), record=made_set / "record.zip")
    later = read_record(tmp_path / "out" / "record.zip")
    assert {code: pairs[1] for code, pairs in papers_of(later).items()} == {
        code: pairs[1] for code, pairs in papers_of(record).items()
    }
    assert all(pairs[0][0].id == "unequal-charges" for pairs in later.papers.values())


@pytest.fixture
def own_bank(tmp_path):
    folder = tmp_path / "bank"
    shutil.copytree(shipped("question_templates"), folder)
    return folder


def test_a_changed_potential_of_the_sheet_raises_the_version(tmp_path, made_set, record, own_bank):
    """The question of two metals prints no potential, so its text stays while a value of the sheet moves its answers."""
    sheet = (shipped("data") / "sheets" / "school.yaml").read_text("utf-8")
    (own_bank / "sheets").mkdir(exist_ok=True)
    (own_bank / "sheets" / "ours.yaml").write_text(
        sheet.replace("-0.76", "-0.77").replace("-0.44", "-0.45").replace("-0.26", "-0.25"), "utf-8"
    )
    seen = []
    plan = PLAN + "sheet: sheets/ours.yaml\n"
    make(tmp_path, tmp_path / "out", plan=plan, record=made_set / "record.zip", bank=own_bank, look=seen.append)
    later = read_record(tmp_path / "out" / "record.zip")
    moved = [each for each in seen[0].notes if each.code == "answers-changed"]
    assert (later.version, len(moved)) == (2, 1)
    codes = set(later.changes[-1][1])
    assert codes
    assert all(code in moved[0].found for code in codes)
    for code, pairs in later.papers.items():
        changed = [accepted(*pair) for pair in pairs] != [accepted(*pair) for pair in record.papers[code]]
        assert changed == (code in codes)
        _, memo = rebuilt(tmp_path / "out" / "record.zip", code, memorandum=True)
        assert "version 2" in plain(memo.pdf)


def test_a_template_that_asks_otherwise_now_leaves_papers_that_are_out(tmp_path, made_set, record, own_bank):
    template = own_bank / "cells" / "two-metals.yaml"
    template.write_text(template.read_text("utf-8").replace("Which metal is the anode?", "Which one is the anode?"), "utf-8")
    seen = []
    make(tmp_path, tmp_path / "out", record=made_set / "record.zip", bank=own_bank, look=seen.append)
    assert "template-changed" in {each.code for each in seen[0].notes}
    assert papers_of(read_record(tmp_path / "out" / "record.zip")) == papers_of(record)


def test_a_late_joiner_for_a_template_with_other_parts_now_is_told_what_to_do(tmp_path, made_set, own_bank):
    template = own_bank / "electrolysis" / "mass-deposited.yaml"
    told = template.read_text("utf-8")
    first, second = told.index("  - ask: Calculate the amount of electrons."), told.index("  - ask: Calculate the mass")
    template.write_text(told[:first] + told[second:], "utf-8")
    with pytest.raises(Faulty, match=r"versions of mass-deposited like those of the record.*begin a new set.*\[no-versions\]"):
        make(tmp_path, tmp_path / "out", rows=(*ROWS, "099,New,Comer,11B"), record=made_set / "record.zip", bank=own_bank)


def test_a_set_is_not_forgotten_by_setting_it_anew_in_its_folder(tmp_path, monkeypatch):
    make(tmp_path, tmp_path / "out", monkeypatch)
    before = contents(tmp_path / "out")
    with pytest.raises(Faulty, match=r"holds a set, whose papers may be out.*Go on with it by `--record .*\[set-there\]"):
        make(tmp_path, tmp_path / "out")
    assert contents(tmp_path / "out") == before
    make(tmp_path, tmp_path / "out", record=tmp_path / "out" / "record.zip")
    assert contents(tmp_path / "out") == before


# ------------------------------------------------------------------ broken and hostile records


def _changed(source, to, change):
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(to, "w") as new:
        for name in old.namelist():
            new.writestr(name, change(name, old.read(name)))
    return to


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda name, raw: raw.replace(b'"format":1', b'"format":9') if name == "record.json" else raw, "[record-format]"),
        (lambda name, raw: b"[]" if name == "record.json" else raw, "[record]"),
        (lambda name, raw: b"{" if name == "questions.json" else raw, "[record]"),
        (lambda name, raw: raw.replace(b'"":"Text"', b'"":"Popen"') if name == "questions.json" else raw, "[record]"),
        (lambda name, raw: b"0" * 50_000_000 if name == "questions.json" else raw, "[record-too-big]"),
    ],
)
def test_a_record_that_is_not_as_it_was_written_is_refused(tmp_path, made_set, change, told):
    broken = _changed(made_set / "record.zip", tmp_path / "broken.zip", change)
    with pytest.raises(Faulty) as refused:
        read_record(broken)
    assert told in str(refused.value)


def test_a_record_whose_texts_are_no_texts_is_told_when_printed(tmp_path, made_set, record):
    code = record.entries[0].code

    def change(name, raw):
        if name != "questions.json":
            return raw
        questions = json.loads(raw)
        for each in questions:
            each["title"] = 5
        return json.dumps(questions)

    broken = _changed(made_set / "record.zip", tmp_path / "broken.zip", change)
    with pytest.raises(Faulty, match=r"expected a record as it was written.*\[record\]"):
        rebuilt(broken, code, memorandum=False)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_a_record_with_any_byte_changed_is_read_or_refused(tmp_path, made_set, data):
    raw = bytearray((made_set / "record.zip").read_bytes())
    raw[data.draw(st.integers(0, len(raw) - 1))] ^= data.draw(st.integers(1, 255))
    (tmp_path / "x.zip").write_bytes(raw)
    with suppress(Faulty):
        assert read_record(tmp_path / "x.zip").entries


def test_codes_and_bank_tell_no_seed_without_the_record(record):
    """A seed is the digest of the secret; with another secret the same question and number have another."""
    from saltbridge.draw.allocation import set_seed  # noqa: PLC0415 - beside its use

    draw = record.entries[0].draws[0]
    tried = {set_seed("0" * 32, f"{draw.question} {draw.template}", number) for number in range(500)}
    own = {set_seed(SECRET, f"{draw.question} {draw.template}", number) for number in range(500)}
    assert draw.seed in own
    assert draw.seed not in tried
