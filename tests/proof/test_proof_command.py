"""The command: what it prints, writes and ends with."""

from __future__ import annotations

import json
import re
from pathlib import Path

import jsonschema
import pytest
from banks import change, small_bank
from click.testing import CliRunner

from saltbridge.cli import main
from saltbridge.home import shipped

GOLDEN = Path(__file__).parent / "golden"


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Runs the command line in an empty folder."""
    monkeypatch.chdir(tmp_path)
    return lambda *words: CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture
def bank(tmp_path):
    return small_bank(tmp_path / "bank")


def _faulty(bank):
    change(bank / "cell.yaml", "    decimals: 2", "    decimals: 2\n    marks: 5")
    return bank


def test_the_whole_summary_of_a_sound_bank(run, bank):
    result = run("proof", bank, "--draws", 100)
    assert result.stdout == (GOLDEN / "summary.txt").read_text(encoding="utf-8")
    assert result.exit_code == 0


def test_the_whole_summary_of_a_faulty_bank(run, bank):
    result = run("proof", _faulty(bank), "--draws", 40, "--notes")
    assert result.stdout == (GOLDEN / "faulty-summary.txt").read_text(encoding="utf-8")
    assert result.exit_code == 1


def test_a_template_or_a_folder_is_proved_alone(run, bank):
    """What is wrong with another template is not told, but what is wrong with the bank is."""
    (bank / "cells").mkdir()
    text = (bank / "cell.yaml").read_text(encoding="utf-8")
    (bank / "cells" / "other.yaml").write_text(text.replace("title: ", "title: Another "), encoding="utf-8")
    (bank / "cells" / "broken.yaml").write_text("title: Broken\n", encoding="utf-8")
    change(bank / "bank.yaml", "format: 1", "format: 2")
    _faulty(bank)
    one = run("proof", bank / "cells" / "other.yaml", "--draws", 5, "--json")
    assert [each["id"] for each in json.loads(one.stdout)["templates"]] == ["other"]
    assert {each["file"] for each in json.loads(one.stdout)["findings"] if each["weight"] == "fault"} == {"bank.yaml"}
    topic = json.loads(run("proof", bank / "cells", "--draws", 5, "--json").stdout)
    assert {each["file"] for each in topic["findings"] if each["weight"] == "fault"} == {"bank.yaml", "cells/broken.yaml"}
    whole = json.loads(run("proof", bank / "bank.yaml", "--draws", 5, "--json").stdout)
    assert {each["file"] for each in whole["findings"] if each["weight"] == "fault"} > {"bank.yaml", "cells/broken.yaml"}
    assert "compares whole banks" in run("proof", bank / "cells", "--against", bank).stderr


def test_progress_and_speed_go_to_the_other_stream(run, bank):
    result = run("proof", bank, "--draws", 5)
    assert re.fullmatch(r"Drawing and checking\n[0-9.]+ s; \d+ variants a second on each core\.\n", result.stderr)


def test_the_report_stands_beside_unless_named(run, bank, tmp_path):
    run("proof", bank, "--draws", 5)
    assert "saltbridge proof" in (tmp_path / "proof.html").read_text(encoding="utf-8")
    run("proof", bank, "--draws", 5, "--to", "deep/er/page.html")
    assert (tmp_path / "deep" / "er" / "page.html").is_file()


def test_a_file_of_somebody_else_is_not_overwritten(run, bank, tmp_path):
    (tmp_path / "proof.html").write_text("<p>mine</p>", encoding="utf-8")
    result = run("proof", bank, "--draws", 5)
    assert result.exit_code == 1
    assert result.stderr.endswith("found proof.html. Name a new file with --to. [file-not-ours]\n")
    assert (tmp_path / "proof.html").read_text(encoding="utf-8") == "<p>mine</p>"
    (tmp_path / "proof.html").unlink()
    assert run("proof", bank, "--draws", 5).exit_code == 0
    assert run("proof", bank, "--draws", 5).exit_code == 0


def test_json_keeps_its_schema_and_nothing_else_is_printed(run, bank, tmp_path):
    result = run("proof", _faulty(bank), "--draws", 40, "--json")
    data = json.loads(result.stdout)
    jsonschema.validate(data, json.loads((shipped("data") / "proof.schema.json").read_text(encoding="utf-8")))
    assert result.exit_code == 1
    assert result.stderr == ""
    assert not (tmp_path / "proof.html").exists()
    fault = data["findings"][0]
    assert (fault["code"], fault["file"], fault["line"], fault["key"]) == ("marks", "cell.yaml", 21, "parts[2].marks")
    assert (fault["times"], fault["draws"]) == (40, 40)
    assert data["counts"]["faults"] == 1
    assert [each["id"] for each in data["templates"]] == ["bath", "bench", "cell"]


def test_the_same_run_gives_the_same_data(run, bank):
    one, other = (json.loads(run("proof", bank, "--draws", 30, "--json").stdout) for _ in range(2))
    assert one.pop("seconds") > 0
    assert other.pop("seconds") > 0
    assert one == other


def test_no_bank_is_a_fault_in_words(run, tmp_path):
    result = run("proof", tmp_path / "nowhere")
    assert result.exit_code == 1
    assert result.stderr.endswith("found nothing at `" + str(tmp_path / "nowhere") + "` [no-such-file]\n")


def test_what_moved_is_told_with_exit_code_zero(run, bank, tmp_path):
    small_bank(tmp_path / "old")
    change(bank / "cell.yaml", "decimals: 2", "decimals: 3")
    result = run("proof", bank, "--against", tmp_path / "old", "--draws", 10)
    assert result.exit_code == 0
    assert "because of the template: parts[2].decimals 2 -> 3 (cell.yaml:20)" in result.stdout
    data = json.loads(run("proof", bank, "--against", tmp_path / "old", "--draws", 10, "--json").stdout)
    assert data["templates"][2]["causes"][0]["what"] == "parts[2].decimals"


def test_signing_and_withdrawing(run, bank):
    signed = run("sign", "cell", "--by", "A. Moderator", "--on", "2026-11-25", "--bank", bank)
    assert (signed.stdout, signed.exit_code) == ("cell is signed by A. Moderator, 2026-11-25.\n", 0)
    assert (bank / "signed.yaml").read_text(encoding="utf-8").startswith("# Written by `saltbridge sign`")
    data = json.loads(run("proof", bank, "--draws", 5, "--json").stdout)
    assert data["templates"][2]["sign_off"] == {"state": "signed", "by": "A. Moderator", "on": "2026-11-25", "changed": []}
    assert run("sign", "cell", "--withdraw", "--bank", bank).stdout == "The signature on cell is withdrawn.\n"


def test_a_template_with_faults_can_not_be_signed(run, bank):
    result = run("sign", "cell", "--by", "A. Moderator", "--bank", _faulty(bank))
    assert result.exit_code == 1
    assert "cell.yaml:21: parts[2].marks" in result.stderr
    assert not (bank / "signed.yaml").exists()


def test_faults_of_another_template_do_not_keep_one_from_being_signed(run, bank):
    assert run("sign", "bath", "--by", "A. Moderator", "--bank", _faulty(bank)).exit_code == 0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["cel", "--by", "A"], "Did you mean cell?"),
        (["cell"], "Give either --by NAME to sign, or --withdraw."),
        (["cell", "--by", "A", "--withdraw"], "Give either --by NAME to sign, or --withdraw."),
    ],
)
def test_wrong_use_is_told(run, bank, words, says):
    result = run("sign", *words, "--bank", bank)
    assert result.exit_code == 2
    assert says in result.stderr
