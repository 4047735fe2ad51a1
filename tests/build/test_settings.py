"""Each setting of bank.yaml changes what the bank prints, on page, paper and working, and the key that answers are judged by."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

import pytest
from printing_bank import Changes, Printed, printed

from saltbridge.records import Settings

PLACES = ("page", "paper", "working")


@dataclass(frozen=True)
class Case:
    """Keys changed; texts that then stand in every place (and did not before), and texts of before that no place has any more."""

    changes: Changes
    there: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    places: tuple[str, ...] = PLACES


def _case(
    key: str, value: str, *, there: tuple[str, ...] = (), gone: tuple[str, ...] = (), places: tuple[str, ...] = PLACES
) -> Case:
    return Case(((key, value),), there, gone, places)


CASES = {
    "German": _case("language", "de", there=("Lies aus dem Datenblatt ab:", "Die Ladung ist die Stromstärke"), gone=("Read from",)),
    "decimal comma": _case("decimal mark", "comma", there=("−0,76 V", "0,059"), gone=("−0.76 V", "0.059")),
    "z electrons": _case("electrons", "z", there=("−zFE",), gone=("−nFE",)),
    "mol/L": _case("concentration unit", "mol/L", there=("mol/L",), gone=("mol/dm3",), places=("page", "paper")),
    "plimsoll": _case("standard sign", "⦵", there=("E⦵",), gone=("E°",)),
    "bridge": _case("bridge sign", "‖", there=(" ‖ ",), gone=("¦¦",), places=("page", "paper")),
    "power": _case("unit style", "power", there=("J mol−1", "g mol−1"), gone=("J/mol", "g/mol")),
    "EMF": _case("potential name", "EMF", there=("EMF",), gone=("cell potential",), places=("page", "paper")),
    "college": _case("data sheet", "college", there=("−0.762 V", "96 485"), gone=("−0.76 V", "96 500")),
    "own sheet": _case("data sheet", "sheets/ours.yaml", there=("−0.762 V", "96 490"), gone=("−0.76 V", "96 500")),
    "formula": _case("method", "formula", there=("I t M(",), gone=("q = I t",), places=("working",)),
    "formula on page and paper": _case("method", "formula", gone=("The charge is the current",), places=("page", "paper")),
    "units kept": _case("units in lines", "kept", there=("96 500 C/mol",), gone=("/96 500",), places=("working",)),
    "exercise books": _case("answers", "none", there=("Write down one letter.",), gone=("Ring one letter.",), places=("paper",)),
    "candidate number": _case("students", "number", there=("Candidate number:",), gone=("Name:",), places=("paper",)),
    "school": _case("school", "School above the Locks", there=("School above the Locks",), places=("paper",)),
    "ln": _case("nernst form", "ln", there=("ln Q", "8.31 × 298"), gone=("lg Q",)),
}  # fmt: skip


def _squeezed(text: str) -> str:
    """Formulas run together differently on a page, on paper and at a terminal."""
    return text.replace(" ", "")


def _told(bank: Printed, place: str) -> str:
    return _squeezed(getattr(bank, place))


@pytest.mark.parametrize("name", CASES)
def test_a_setting_changes_page_paper_and_working(name: str):
    each = CASES[name]
    usual, changed = printed(), printed(*each.changes)
    for place in each.places:
        before, after = _told(usual, place), _told(changed, place)
        for text in map(_squeezed, each.there):
            assert text in after, f"{place} lacks {text!r}"
            assert text not in before, f"{place} has {text!r} without the setting"
        for text in map(_squeezed, each.gone):
            assert text in before, f"{place} never had {text!r}"
            assert text not in after, f"{place} still has {text!r}"


def test_every_setting_that_a_bank_can_make_is_tried_here():
    """A new field of the settings needs a case; title and licence stand in tests of their own below, large print in tests/render."""
    keys = {key for each in CASES.values() for key, _ in each.changes} | {
        "marking policy",
        "paper",
        "print size",
        "title",
        "licence",
    }
    named = {"sheet": "data sheet", "policy": "marking policy", "nernst": "nernst form"}
    assert {named.get(field.name, field.name.replace("_", " ")) for field in dataclasses.fields(Settings)} == keys


def test_the_marking_policy_moves_the_marks():
    """Steps: one mark for a line; three lines: formula, substitution and answer, so that a calculation is worth three."""
    steps, lines = printed(), printed(("marking policy", "three-lines"))
    assert "One mark for each ticked line." in steps.paper
    assert "one mark for the formula, one for the substitution" in lines.paper
    assert "14 marks" in steps.paper
    assert "14 marks" not in lines.paper
    for line in ("E°(cell) = E°(cathode) − E°(anode) [1]", "= (−0.45) − (−0.76) [1]", "= 0.31 V [1]"):
        assert line in lines.working
    assert "[1 mark]" in lines.page
    assert "E°cell=E°cathode−E°anode[1 mark]" in lines.page


@pytest.mark.parametrize(("paper", "size"), [("a4", (595.28, 841.89)), ("us-letter", (612.0, 792.0)), ("a3", (841.89, 1190.55))])
def test_the_paper_has_its_size_in_points(paper: str, size: tuple[float, float]):
    """Sizes of ISO 216 A4 (210 × 297 mm) and A3 (297 × 420 mm), and ANSI A (8.5 × 11 in), at 72 points an inch."""
    assert printed(("paper", paper)).size == pytest.approx(size, abs=0.1)


def test_title_and_licence_stand_on_page_and_title_on_paper():
    bank = printed(("title", "Sailing chemistry"), ("licence", "CC-BY-SA-4.0"))
    assert "Sailing chemistry" in bank.page
    assert "Sailing chemistry" in bank.paper
    assert "Licence: CC-BY-SA-4.0" in bank.page


def test_an_emf_is_called_so_in_every_sentence():
    bank = printed(("potential name", "EMF"))
    assert "cell potential" not in bank.page + bank.paper + bank.working
    assert "Calculate the standard EMF." in bank.page
    assert "Your answer for standard EMF" in bank.page
    german = printed(("potential name", "EMF"), ("language", "de"))
    assert "Zellspannung" not in german.page + german.paper + german.working
    assert "zellspannung" not in german.page + german.paper + german.working
    assert "Deine Antwort für: Standard-EMK" in german.page


def test_a_german_comma_reaches_the_judges_and_every_number_of_the_sheet():
    bank = printed(("language", "de"), ("decimal mark", "comma"))
    assert {key["mark"] for key in bank.keys if key["kind"] == "number"} == {","}
    assert {key["mark"] for key in printed().keys if key["kind"] == "number"} == {"."}
    numbers = bank.sheet.partition("potentials.csv")[0]
    assert "39,1" in numbers
    assert "0,059 V" in numbers
    assert not any(
        left.isdigit() and dot == "." and right.isdigit()
        for left, dot, right in zip(numbers, numbers[1:], numbers[2:], strict=False)
    )


def test_a_german_bank_reads_its_formulas_aloud_in_german():
    page = printed(("language", "de"), ("decimal mark", "comma")).page
    assert "E Standard Zelle gleich E Standard Kathode minus E Standard Anode gleich plus 0,34 minus minus 0,76" in page
    for english in (" equals ", " over ", " gives ", "aqueous", "electrons", "standard cell"):
        assert english not in page


def test_an_own_sheet_is_the_sheet_of_the_papers():
    sheet = printed(("data sheet", "sheets/ours.yaml")).sheet
    assert sheet.startswith("Trial sheet")
    assert "−0.762" in sheet
    assert "The strongest oxidising agent stands at the top." in sheet
