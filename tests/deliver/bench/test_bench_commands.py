"""The practical by the command line: sheets before the lesson, report and questions after it, faults in words."""

from __future__ import annotations

import random
import shutil
import subprocess
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner

from saltbridge.bank.practical import read_practical
from saltbridge.cli import main
from saltbridge.deliver.bench.technician import mass_of_salt
from saltbridge.faults import Faulty
from saltbridge.home import shipped

HERE = Path(__file__).parent
PLAN = HERE / "metals.yaml"
MIDDLES = {"Mg": (-1350, 60), "Zn": (-750, 40), "Al": (-500, 60), "Fe": (-400, 50), "Ag": (120, 30)}


def run(*told):
    return CliRunner().invoke(main, ["bench", *map(str, told)])


def text_of(pdf):
    return subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True).stdout


@pytest.fixture(scope="module")
def sheets(tmp_path_factory):
    out = tmp_path_factory.mktemp("bench") / "sheets"
    assert run("plan", PLAN, "--to", out).exit_code == 0
    return out


def test_the_worksheet_tells_leads_signs_and_the_schools_own_words(sheets):
    told = " ".join(text_of(sheets / "worksheet.pdf").split())
    for said in (
        "Black lead (COM): the copper strip, always.", "A minus sign means that the metal on the red lead is the negative pole",
        "Goggles on from the first strip to the last.", "Ask the head of science.", "If they differ from this sheet, follow them.",
        "This is a guide only.", "−710 mV read on our own meters", "−1600 mV to −1200 mV partly from published readings",
    ):  # fmt: skip
        assert said in told
    assert "Silver nitrate" not in told  # strips of silver only


def test_the_technicians_list_counts_for_all_classes(sheets):
    told = " ".join(text_of(sheets / "technicians-list.pdf").split())
    assert "silver (Ag) strip 11" in told  # nine groups at a time, two spare
    assert "200 mL" in told  # 17 groups of 10 mL and a fifth, up to the next 50 mL: 204 would need 250
    assert "they hang on the concentration, and this list does not know them" in told


def test_the_mass_of_a_salt_is_that_of_a_plain_formula():
    """58.44 g/mol for sodium chloride (IUPAC weights 22.990 and 35.45): 0.250 L of 1.0 mol/L need 14.6 g."""
    assert float(mass_of_salt("NaCl", Decimal(1), Decimal(250), {"Na": "22.990", "Cl": "35.45"})) == pytest.approx(14.6)


def test_the_page_needs_no_script_and_asks_nothing_of_a_host(sheets):
    page = (sheets / "worksheet.html").read_text(encoding="utf-8")
    assert "<script" not in page
    assert "default-src &#39;none&#39;" in page


@pytest.fixture(scope="module")
def readings(tmp_path_factory):
    """Two classes of nine and eight groups, three repeats; one lead turned round."""
    source = random.Random(5)  # noqa: S311 - made-up readings, no secret
    lines = ["class;group;" + ";".join(f"{metal}/mV" for metal in MIDDLES) + ";Mg-Zn/mV"]
    for name, groups in (("10a", 9), ("10b", 8)):
        for group in range(1, groups + 1):
            for repeat in range(3):
                values = {metal: round(source.gauss(*middle)) for metal, middle in MIDDLES.items()}
                if (name, group, repeat) == ("10a", 4, 1):
                    values["Zn"] = -values["Zn"]
                lines.append(f"{name};{group};" + ";".join(map(str, values.values())) + f";{round(source.gauss(-600, 40))}")
    file = tmp_path_factory.mktemp("read") / "readings.csv"
    file.write_text("\n".join(lines), encoding="utf-8-sig")
    return file


@pytest.fixture(scope="module")
def report(readings):
    out = readings.parent / "report"
    done = run("results", readings, "--plan", PLAN, "--to", out)
    assert done.exit_code == 0, done.output
    assert "None was dropped without a word." in done.output
    return out


def test_the_report_flags_orders_and_compares(report):
    told = " ".join(text_of(report / "report-1.pdf").split())
    assert "The leads look turned round: the other sign fits." in told
    assert "From the most negative: magnesium < zinc < aluminium < iron < copper < silver." in told
    assert "zinc and aluminium stand the other way round in the table." in told
    assert "A film of oxide covers the metal and holds its reaction back." in told
    assert "Mg–Zn" in told


def test_the_questions_prove_clean_and_each_version_is_a_groups_own(report, tmp_path):
    done = CliRunner().invoke(main, ["proof", str(report / "questions"), "--to", str(tmp_path / "proof.html")])
    assert done.exit_code == 0, done.output
    assert "no faults, no warnings" in done.output
    rows = (report / "questions" / "rows" / "readings.csv").read_text(encoding="utf-8").splitlines()
    assert len(rows) == 1 + 17
    assert rows[1].startswith("10a 1,Cu,salt only,Ag;Al;Fe;Mg;Zn,")


def test_a_german_build_with_comma(readings, tmp_path):
    bank = shutil.copytree(shipped("question_templates"), tmp_path / "bank")
    settings = (bank / "bank.yaml").read_text(encoding="utf-8")
    (bank / "bank.yaml").write_text(
        settings.replace("language: en", "language: de").replace("decimal mark: point", "decimal mark: comma")
    )
    out = tmp_path / "out"
    done = run("results", readings, "--plan", PLAN, "--to", out, "--bank", bank)
    assert done.exit_code == 0, done.output
    told = " ".join(text_of(out / "report-1.pdf").split())
    assert "Die Kabel sehen vertauscht aus" in told
    assert "Rangkorrelation der beiden Reihen (Spearman): +0,94" in told
    assert "Unsere Metalle der Reihe nach" in (out / "questions" / "bench" / "order-of-our-metals.yaml").read_text(
        encoding="utf-8"
    )
    assert run("plan", PLAN, "--to", tmp_path / "plan", "--bank", bank).exit_code == 0
    assert "Schwarzes Kabel (COM)" in text_of(tmp_path / "plan" / "worksheet.pdf")


def test_few_readings_make_a_report_and_no_questions(tmp_path):
    file = tmp_path / "few.csv"
    file.write_text("class,group,Zn/mV\n10a,1,-750\n", encoding="utf-8")
    done = run("results", file, "--plan", PLAN, "--to", tmp_path / "out")
    assert done.exit_code == 0, done.output
    assert "No questions were made" in done.output
    assert "one group: no uncertainty" in text_of(tmp_path / "out" / "report-1.pdf")


# ------------------------------------------------------------------ faults of the plan

WITH = "title: Metals\nmetals: [Mg, Zn]\nclasses: [{name: 10a, groups: 8}]\nsafety: Goggles on, hands washed.\n"
FAULTS = [
    (WITH.replace("safety: Goggles on, hands washed.\n", ""), "no-safety", "`safety` with the school's own words"),
    (WITH.replace("[Mg, Zn]", "[Mg, Pb]"), "not-allowed", "`allowed: [Pb]`"),
    (WITH.replace("[Mg, Zn]", "[Mg, Hg]"), "unknown-metal", "read on paper"),
    (WITH.replace("[Mg, Zn]", "[Mg, Na]"), "never-in-class", "a class may handle"),
    (WITH.replace("[Mg, Zn]", "[Mg, Cu]"), "metals", "Leave it out"),
    (WITH + "also: [[Mg, Fe]]\n", "also", "`Fe`"),
    (WITH + "wet: {concentration: 9 mol/L}\n", "size", "from 0.05 to 2 mol/L"),
    (WITH + "wet: {salt: CuSO4}\n", "paper-salt", "a salt for wetting the paper"),
    (WITH + "wet: {a group: 3 g}\n", "unit", "in mL"),
    (WITH.replace("groups: 8", "groups: 80"), "size", "at most 40 groups"),
    (WITH + "repaets: 2\n", "unknown-key", "repeats"),
]


@pytest.mark.parametrize(("text", "code", "said"), FAULTS, ids=[code for _, code, _ in FAULTS])
def test_a_faulty_plan_is_told_with_line_and_cure(text, code, said, tmp_path):
    file = tmp_path / "metals.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Faulty) as trouble:
        read_practical(file)
    (fault,) = trouble.value.faults
    assert fault.code == code
    assert fault.file == "metals.yaml"
    assert said in str(fault)
    done = run("plan", file, "--to", tmp_path / "out")
    assert done.exit_code == 1
    assert "Traceback" not in done.output
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (None, "readings.csv: expected a list in a file; found no such file. Name the file that holds the list. [list]"),
        (b"group,Zn/mV\n1,-7\xff\n", "readings.csv:2: expected text in UTF-8; found the byte FF."),
        (b"group,Zn/mV\n" + b"1,-750\n" * 5_001, "expected at most 5000 rows; found 5001."),
    ],
)
def test_readings_that_cannot_be_read_are_told_as_a_list(raw, said, tmp_path):
    file = tmp_path / "readings.csv"
    if raw is not None:
        file.write_bytes(raw)
    done = run("results", file, "--plan", PLAN, "--to", tmp_path / "out")
    assert done.exit_code == 1
    assert said in done.output
    assert "students" not in done.output
    assert not (tmp_path / "out").exists()
