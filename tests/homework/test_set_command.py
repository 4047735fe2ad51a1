"""The commands `set`, `paper` and `memo` as a teacher calls them."""

from __future__ import annotations

from click.testing import CliRunner
from homework.sets_for_tests import PLAN, contents, write
from pdf_reading import text

from saltbridge.cli import main


def run(*args):
    return CliRunner().invoke(main, [str(each) for each in args])


def test_the_table_is_shown_before_anything_is_written(tmp_path):
    shown = run("set", write(tmp_path), "--look")
    assert shown.exit_code == 0, shown.output
    assert "question        distinct keys  on the site  set before  needed  one key for  versions match" in shown.output
    assert "  two-metals  " in shown.output
    assert {path.name for path in tmp_path.iterdir()} == {"plan.yaml", "class.csv"}


def test_a_set_is_written_and_any_paper_printed_again(tmp_path):
    made = run("set", write(tmp_path), "--to", tmp_path / "out")
    assert made.exit_code == 0, made.output
    assert "Setting papers, file 1 of 1" in made.output
    code = (tmp_path / "out" / "names.csv").read_text("utf-8-sig").splitlines()[1].split(",")[0]
    record = tmp_path / "out" / "record.zip"
    paper = run("paper", code, "--record", record, "--to", tmp_path / "one.pdf", "--name", "Ada Brook", "--print-size", "18")
    memo = run("memo", code, "--record", record, "--to", tmp_path / "memo.pdf")
    assert (paper.exit_code, memo.exit_code) == (0, 0), paper.output + memo.output
    assert "Ada Brook" in text((tmp_path / "one.pdf").read_bytes())
    assert "version 1" in text((tmp_path / "memo.pdf").read_bytes())
    before = (tmp_path / "one.pdf").read_bytes()
    again = run("paper", code, "--record", record, "--to", tmp_path / "one.pdf")
    assert (again.exit_code, "[file-there]" in again.output) == (1, True)
    assert (tmp_path / "one.pdf").read_bytes() == before


def test_wrong_use_and_faults_have_their_exit_codes(tmp_path):
    plan = write(tmp_path, PLAN.replace("two-metals", "two-metal"))
    assert run("set", plan).exit_code == 2
    assert run("set", plan, "--look", "--to", tmp_path / "x").exit_code == 2
    wrong = run("set", plan, "--to", tmp_path / "out")
    assert (wrong.exit_code, "Did you mean `two-metals`?" in wrong.output) == (1, True)
    assert not (tmp_path / "out").exists()
    missing = run("paper", "W4R-ZD6L-R", "--record", tmp_path / "none.zip")
    assert (missing.exit_code, "[record]" in missing.output) == (1, True)


def test_a_folder_of_ones_own_is_never_written_into(tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mine.txt").write_text("mine", "utf-8")
    refused = run("set", write(tmp_path), "--to", tmp_path / "out")
    assert (refused.exit_code, "[folder-not-ours]" in refused.output) == (1, True)
    assert contents(tmp_path / "out") == {"mine.txt": b"mine"}
