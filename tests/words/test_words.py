"""The text catalogue and its German."""

from __future__ import annotations

import csv
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from saltbridge import words
from saltbridge.answers.sentences import VERDICTS, WHY, page_sentences
from saltbridge.bank.bank import load_bank
from saltbridge.document import Inscription, Piece, Text
from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.records import Settings
from saltbridge.sigfigs import ENGLISH
from saltbridge.words import CONTEXT, catalogue, holes, languages, missing_share, of_bank

WHY_GERMAN = "Schreibe eine Zahl wie 1.10 oder 1.8×10^-3, und wenn du magst die Einheit dahinter."
FILES = sorted((shipped("data") / "words").glob("*.po"))


def messages(file: Path) -> list[tuple[str, str]]:
    with file.open("rb") as opened:
        read = [message for message in read_po(opened, abort_invalid=True) if message.id]
        return [(f"{message.context or ''}{CONTEXT}{message.id}".lstrip(CONTEXT), str(message.string)) for message in read]


def test_english_says_the_sentence_itself_without_file_or_library():
    script = "import sys; from saltbridge.words import catalogue; print(catalogue('en')('Not yet.'), 'babel' in sys.modules)"
    result = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert result.stdout == "Not yet. False\n"


def test_german_says_its_own_sentence_and_falls_back_to_english():
    german = catalogue("de")
    assert german("Not yet.") == "Noch nicht."
    assert (
        german("A sentence that nobody has put into German {number}", number=3) == "A sentence that nobody has put into German 3"
    )


def test_values_fill_their_braces_and_an_unfilled_brace_stays():
    say = catalogue("en")
    assert say("This could be {first} or {second}.", first="1", second="2") == "This could be 1 or 2."
    assert say("Give it to {figures} figures.", other=1) == "Give it to {figures} figures."
    assert say("A {value}", value="{value}") == "A {value}"


def test_spans_take_species_and_numbers_in_the_middle_of_a_sentence():
    number = Inscription("number", (Piece("base", "1.10"),), "1.10")
    spans = catalogue("en").spans("{value} is read from {sheet}.", value=number, sheet=(Text("the "), Text("sheet")))
    assert spans == (number, Text(" is read from "), Text("the "), Text("sheet"), Text("."))
    assert catalogue("en").spans("{a}{b}", a="x") == (Text("x"), Text("{b}"))


def test_a_language_without_a_file_is_a_fault_that_names_those_there_are():
    with pytest.raises(Faulty, match=r"expected one of en, de.*found tlh"):
        catalogue("tlh")


def test_one_english_word_of_several_meanings_has_a_german_one_for_each():
    german = catalogue("de")
    assert (german("Name"), german.meant("person", "Name")) == ("Größe", "Name")
    assert (german("end"), german.meant("subscript", "end")) == ("Term Ende", "Ende")
    assert catalogue("en").meant("person", "Name") == "Name"


def test_sentences_take_decimal_mark_and_unit_of_concentration_from_the_bank():
    comma = of_bank(Settings(language="de", decimal_mark=",", concentration_unit="mol/L"))
    assert "1,10 oder 1,8×10^-3" in comma(WHY["not-a-number"])
    assert "0,1 %" in comma(
        "The step ends 0.1 % beyond equivalence, where the excess is 1 part to 1000 parts of the titrant used."
    )
    assert of_bank(Settings(language="de"))(WHY["not-a-number"]) == WHY_GERMAN
    ph = "The pH is minus the common logarithm of the concentration of hydrogen ions in mol/L."
    assert of_bank(Settings())(ph).endswith("in mol/dm³.")
    assert of_bank(Settings(concentration_unit="mol/L"))(ph) == ph


def test_a_language_that_lacks_sentences_is_a_warning_with_the_share(monkeypatch, tmp_path):
    """Three of four sentences are missing; English and the shipped German lack none."""
    known = {"en": {}, "de": {"a": "ä", "b": "b", "c": "c", "d": "d"}, "fy": {"a": "a"}}
    shutil.copytree(shipped("question_templates"), tmp_path / "bank")
    settings = tmp_path / "bank" / "bank.yaml"
    settings.write_text(settings.read_text(encoding="utf-8").replace("language: en", "language: fy"), encoding="utf-8")
    assert (missing_share("de"), missing_share("en")) == (0, 0)
    monkeypatch.setattr(words, "languages", lambda: tuple(known))
    monkeypatch.setattr(words, "_sentences_of", known.__getitem__)
    warned = "bank.yaml:5: language: expected every sentence in `fy`; found 75 % of them in English only. "
    hint = "Add what data/words/fy.po lacks. [language-incomplete]"
    assert [str(each) for each in load_bank(tmp_path / "bank").warnings] == [warned + hint]


def test_german_is_shipped():
    assert "de" in languages()


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_catalogue_parses_has_every_sentence_once_and_translates_it(file: Path):
    ids = [msgid for msgid, _ in messages(file)]
    assert len(ids) == len(set(ids)) > 0
    assert [msgid for msgid, text in messages(file) if not text.strip()] == []


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_the_braces_of_a_translation_are_those_of_its_sentence(file: Path):
    assert [(msgid, text) for msgid, text in messages(file) if holes(msgid) != holes(text)] == []


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_every_sentence_about_an_answer_and_every_unit_is_translated(file: Path):
    with (shipped("data") / "units.csv").open(encoding="utf-8", newline="") as opened:
        rows = list(csv.DictReader(opened))
    wanted = {*VERDICTS.values(), *WHY.values(), *ENGLISH, "per", "square", "cubic", "to the"}
    wanted |= {row["one"] for row in rows} | {row["many"] for row in rows}
    assert wanted - {msgid for msgid, _ in messages(file)} == set()


def test_the_page_gets_every_code_in_its_language():
    german = page_sentences(catalogue("de"))
    assert german["verdict"].keys() == VERDICTS.keys()
    assert german["why"].keys() == WHY.keys()
    assert page_sentences()["verdict"]["not-yet"] == "Not yet."


def test_no_sentence_blames_or_cheers():
    for sentence in [*VERDICTS.values(), *WHY.values()]:
        assert not any(
            word in sentence.lower()
            for word in ("is wrong", "wrong answer", "incorrect", "sorry", "well done", "great", "!", "mistake", "you failed")
        ), sentence
