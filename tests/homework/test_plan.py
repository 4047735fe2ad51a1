"""A plan is read as strictly as a template: all faults at once, each with line, key, what was expected and a cure."""

from __future__ import annotations

import json

import jsonschema
import pytest
from homework.sets_for_tests import PLAN, make, write

from saltbridge.bank.plan import PlanKeys, read_plan
from saltbridge.bank.schema import schema_of
from saltbridge.faults import Faulty
from saltbridge.forms.strict_yaml import read_yaml
from saltbridge.home import shipped


def faults_of(tmp_path, text):
    with pytest.raises(Faulty) as told:
        read_plan(write(tmp_path, text))
    return [str(each) for each in told.value.faults]


def test_all_that_is_wrong_is_told_in_one_run(tmp_path):
    told = faults_of(
        tmp_path,
        "title: T\ncolums: {name: Name}\ndate: {due: 5.12.2026}\norder: nme\nquestions:\n  - template: two-metals\n    marks: 3\n",
    )
    keys, hint = ", ".join(f"`{each.alias}`" for each in PlanKeys.model_fields.values()), "As `template: two-metals`."
    mixture = "expected either `template`, or `outcome` with `marks`; found another mixture"
    assert told == [
        f"plan.yaml:2: colums: expected one of the keys {keys}; found `colums`. Did you mean `columns`? [unknown-key]",
        "plan.yaml:3: date.due: expected a day, as `2026-12-01`; found `5.12.2026` [day]",
        "plan.yaml:4: order: expected one of `list`, `name`, `number`, `code`; found `nme`. Did you mean `name`? [unknown-word]",
        f"plan.yaml:6: questions[1]: {mixture}. {hint} [plan-question]",
    ]


@pytest.mark.parametrize("path", ["../class.csv", "/etc/passwd", "a\\b.csv", "C:x.csv"])
def test_a_plan_reads_no_list_outside_its_folder(tmp_path, path):
    told = faults_of(tmp_path, PLAN.replace("class.csv", path))
    assert len(told) == 1
    assert "[path-outside]" in told[0]


@pytest.mark.parametrize("day", ["2026-02-30", "2026-1-1", "yesterday", "", "2026-12-01T00:00"])
def test_a_day_that_there_is_not_is_refused(tmp_path, day):
    assert any("[day]" in each or "[wrong-type]" in each for each in faults_of(tmp_path, PLAN.replace("2026-12-05", f"'{day}'")))


def test_faults_of_plan_list_and_bank_are_told_together(tmp_path):
    plan = PLAN.replace("mass-deposited", "mass-depositd").replace("Candidate", "Candidat")
    with pytest.raises(Faulty) as told:
        make(tmp_path, tmp_path / "out", plan=plan)
    codes = [(each.code, each.key) for each in told.value.faults]
    assert codes == [("class-list", "columns.number"), ("no-template", "questions[2].template")]
    assert "Did you mean `Candidate`?" in str(told.value)
    assert "Did you mean `mass-deposited`?" in str(told.value)
    assert not (tmp_path / "out").exists()


def test_a_template_that_is_not_for_homework_is_refused(tmp_path):
    with pytest.raises(Faulty, match=r"expected a template for homework; found `use: practice`.*\[template-use\]"):
        make(tmp_path, tmp_path / "out", plan=PLAN.replace("mass-deposited", "time-for-a-mass"))


def test_an_outcome_finds_a_template_by_its_marks(tmp_path):
    seen = []
    by_outcome = "questions:\n  - {outcome: T6.8, marks: 7}\n"
    make(tmp_path, tmp_path / "out", plan=PLAN[: PLAN.index("questions:")] + by_outcome, look=seen.append)
    assert seen[0].loads[0].templates == ("mass-deposited",)
    wrong = PLAN[: PLAN.index("questions:")] + by_outcome.replace("7", "99")
    with pytest.raises(Faulty, match=r"outcome T6.8 with 99 marks.*found .*`mass-deposited` \(7 marks\).*\[no-template\]"):
        make(tmp_path / "b", tmp_path / "other", plan=wrong)


def test_the_schema_in_data_is_that_of_the_model_and_takes_the_plan_of_the_demonstration():
    told = json.loads((shipped("data") / "plan.schema.json").read_text("utf-8"))
    assert told == schema_of(PlanKeys)
    plan = read_yaml(shipped("data") / "demo" / "week-3.yaml", "week-3.yaml").plain()
    jsonschema.Draft7Validator(told).validate(plan)
