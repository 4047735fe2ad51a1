"""An exam to a blueprint: the questions meet it, two versions go round, sections and a front page are printed."""

from __future__ import annotations

import json
import zipfile

import pytest
import yaml
from homework.sets_for_tests import make, write

from saltbridge.bank.bank import load_bank
from saltbridge.bank.plan import read_plan
from saltbridge.deliver.homework.moderation import moderation_pack
from saltbridge.document import Grid
from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.render.text import spans_text
from saltbridge.words import of_bank as words_of

PLAN = """\
title: Cells and electrolysis
list: class.csv
columns: {name: [Forename, Surname], number: Candidate, class: Group}
use: homework
marks: 24
versions: 2
sections:
  - {title: Section A, marks: 6}
  - {title: Section B, marks: 18}
must include: [two-metals]
blueprint:
  outcomes: {T3: 8, T6: 6}
  tolerance: 4
"""
EXAM = PLAN.replace("use: homework", "use: exam")


@pytest.fixture(scope="module")
def exam(tmp_path_factory):
    folder, seen = tmp_path_factory.mktemp("exam"), []
    with pytest.MonkeyPatch.context() as patch:
        make(folder, folder / "out", patch, plan=PLAN, look=seen.append)
    (made,) = seen
    return folder, made


def test_the_questions_meet_the_blueprint(exam):
    _, made = exam
    bank = load_bank(shipped("question_templates"))
    asked = [bank.template(each.templates[0]) for each in made.record.asked]
    first = made.record.papers[made.members[0][1].code]
    marks = {question.id: question.marks for question, _ in first}
    assert sum(marks.values()) == 24
    assert "two-metals" in marks
    for start, wished in (("T3", 8), ("T6", 6)):
        inside = sum(marks[each.id] for each in asked if each.outcome.startswith(f"{start}."))
        assert abs(inside - wished) <= 4


def test_two_versions_go_round_the_class(exam):
    _, made = exam
    keys = [tuple(draw.key for draw in entry.draws) for _, entry in made.members]
    assert len(set(keys)) == 2
    assert keys[0] == keys[2] != keys[1] == keys[3]


def test_sections_stand_before_their_first_question(exam):
    _, made = exam
    (first, title), (second, other) = made.record.head.headings
    assert (first, title, other) == (1, "Section A (6 marks)", "Section B (18 marks)")
    paper = made.record.papers[made.members[0][1].code]
    assert sum(question.marks for question, _ in paper[: second - 1]) == 6


def test_a_late_joiner_gets_the_next_version_and_nobody_elses_changes(exam, monkeypatch, tmp_path):
    folder, made = exam
    seen = []
    rows = ("007,Ada,Brook,11B", "012,Bo,Cliff,11B", "013,Cy,Dale,11B", "021,Di,Esker,11B", "022,Ed,Fell,11B")
    record = next(folder.rglob("record.zip"))
    make(tmp_path, tmp_path / "out", monkeypatch, plan=PLAN, rows=rows, record=record, look=seen.append)
    again = {entry.number: [draw.key for draw in entry.draws] for _, entry in seen[0].members}
    before = {entry.number: [draw.key for draw in entry.draws] for _, entry in made.members}
    assert {number: again[number] for number in before} == before
    assert again["022"] in before.values()


def test_the_record_holds_headings_and_versions(exam):
    folder, _ = exam
    with zipfile.ZipFile(next(folder.rglob("record.zip"))) as packed:
        told = json.loads(packed.read("record.json"))
    assert "Section A" in json.dumps(told)


@pytest.fixture(scope="module")
def pack(exam):
    """The text of the moderation pack of the set of the other tests."""
    _, made = exam
    return moderation_pack(made, words_of(made.record.settings))


def cells_of(pack, heading):
    section = next(each for each in pack.sections if each.heading == heading)
    (grid,) = [block for block in section.blocks if isinstance(block, Grid)]
    return [[spans_text(cell, ()) for cell in row] for row in grid.rows]


def test_the_moderation_pack_sums_marks_both_ways(exam, pack):
    *rows, total, share = cells_of(pack, "Marks by outcome and demand")
    assert total[-1] == "24"
    assert sum(int(row[-1]) for row in rows) == 24
    assert share[-1] == "100 %"
    for at in range(1, len(total) - 1):
        assert sum(int(row[at] or 0) for row in rows) == int(total[at])


def test_the_moderation_pack_sets_the_answers_of_both_versions_side_by_side(exam, pack):
    _, made = exam
    rows = cells_of(pack, "The versions side by side")
    papers = [made.record.papers[made.members[at][1].code] for at in (0, 1)]
    assert len(rows) == sum(len(question.parts) for question, _ in papers[0])
    answers = [
        [spans_text(part.answer, variant.slots) for question, variant in paper for part in question.parts] for paper in papers
    ]
    assert [row[2:] for row in rows] == [list(pair) for pair in zip(*answers, strict=True)]
    assert answers[0] != answers[1]


FAULTS = [
    ("marks: 24\n", "", "`marks`, the total that the blueprint is to meet"),
    ("blueprint:", "questions: [{template: two-metals}]\nblueprint:", "either `questions` or `blueprint`"),
    ("marks: 18", "marks: 17", "sections that make 24 marks together"),
    ("{T3: 8, T6: 6}", "{T3: 20, T6: 6}", "outcomes of 24 marks or fewer together"),
    ("{T3: 8, T6: 6}", "{T99: 8}", "a topic such as `T3`"),
    ("tolerance: 4", "demand: {recall: 15 %, routine: 80 %}", "shares that make 100 % together"),
    ("tolerance: 4", "at most: {choice: many}", "a share of the marks, as `15 %`"),
]


@pytest.mark.parametrize(("old", "new", "said"), FAULTS)
def test_a_faulty_blueprint_is_told_at_its_line(old, new, said, tmp_path):
    with pytest.raises(Faulty) as trouble:
        read_plan(write(tmp_path, PLAN.replace(old, new)))
    (fault,) = trouble.value.faults
    assert said in str(fault)
    assert fault.line >= 0
    assert fault.file == "plan.yaml"


def test_what_the_bank_cannot_meet_is_told_before_anything_is_written(tmp_path):
    with pytest.raises(Faulty) as trouble:
        make(
            tmp_path, tmp_path / "out", plan=PLAN.replace("{T3: 8, T6: 6}", "{T10.3: 20}").replace("tolerance: 4", "tolerance: 0")
        )
    told = [str(each) for each in trouble.value.faults]
    assert any(each.startswith("plan.yaml:") and "blueprint.outcomes.T10.3: expected 20 marks" in each for each in told)
    assert not (tmp_path / "out").exists()


def test_an_exam_takes_exam_questions_only_and_has_a_front_page(tmp_path, monkeypatch):
    """The marks of the shipped exam questions; the front page stands alone before the first question."""
    bank = load_bank(shipped("question_templates"))
    of_exam = [each.id for each in bank.templates if "exam" in each.use]
    seen = []
    plan = yaml.safe_load(EXAM) | {"marks": None, "questions": [{"template": of_exam[0]}]}
    told = {key: value for key, value in plan.items() if key not in ("marks", "sections", "must include", "blueprint")}
    make(tmp_path, tmp_path / "out", monkeypatch, plan=yaml.safe_dump(told), look=seen.append)
    head = seen[0].record.head
    assert [path.name for path in (tmp_path / "out").glob("*moderation.pdf")] == ["cells-and-electrolysis-moderation.pdf"]
    assert head.front[0] == "Do not turn this page over until you are told to."
    with pytest.raises(Faulty, match="a template for exam"):
        make(tmp_path / "two", tmp_path / "two" / "out", plan=yaml.safe_dump(told | {"questions": [{"template": "two-metals"}]}))
