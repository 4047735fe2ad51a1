"""The text catalogue and its German."""

from __future__ import annotations

import csv
import subprocess
import sys
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from saltbridge.answers.sentences import VERDICTS, WHY, page_sentences
from saltbridge.document import Inscription, Piece, Text
from saltbridge.faults import Faulty
from saltbridge.home import shipped
from saltbridge.sigfigs import ENGLISH
from saltbridge.words import catalogue, holes, languages

FILES = sorted((shipped("data") / "words").glob("*.po"))


def messages(file: Path) -> list[tuple[str, str]]:
    with file.open("rb") as opened:
        return [(str(message.id), str(message.string)) for message in read_po(opened, abort_invalid=True) if message.id]


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
