"""The keys of a table: what is read, what is refused with line, key and cure, and how large it may be."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.answers.plain_words import plain_word
from saltbridge.bank.bank import load_bank, read_template
from saltbridge.bank.table_part import MOST_COLUMNS, MOST_ROWS, MOST_WRITTEN
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.forms.stand_in import named_for
from saltbridge.forms.strict_yaml import parse_yaml
from saltbridge.forms.validation_messages import Reading
from saltbridge.render.text import question_text

HEAD = """title: A
outcome: T3.8
level: core
scenario:
  reference electrode: {references: [Cu], metals: [Mg, Zn, Fe, Ni], rows: 3}
text: Against {{ reference.name }}.
parts:
  - ask: Complete the table.
    table:
"""
BANK = (
    "format: 1\nid: tables\ntitle: Tables\ndata sheet: college\nmarking policy: steps\nlicence: CC-BY-4.0\nauthors: [a teacher]\n"
)
WHOLE = """      rows: rows
      columns:
        - {head: Couple, given: "{{ each.couple }}"}
        - {head: New, find: each.E0_vs, decimals: 3}
"""


def read(body):
    return read_template(parse_yaml((HEAD + body).encode(), "t.yaml"), "t.yaml", Reading())


def faults(body):
    """Line, key, code and hint of each fault."""
    with pytest.raises(Faulty) as caught:
        read(body)
    return [(each.line, each.key, each.code) for each in caught.value.faults]


WRONG = {
    "a misspelt key of a cell": ("      columns: [A, B]\n      rows:\n        - [a, {choos: b}]\n", [(12, "parts[1].table.rows[1][2]", "cell-kind")]),
    "a misspelt key of a column": ("      columns: [A, {head: B, form: [a, b]}]\n      rows:\n        - [a, {choose: a, from: [a, b]}]\n", [(10, "parts[1].table.columns[2].form", "unknown-key")]),
    "two things asked in a cell": ("      columns: [A, B]\n      rows: [[a, {choose: b, word: c, from: [b, c]}]]\n", [(11, "parts[1].table.rows[1][2]", "cell-kind")]),
    "one column": ("      columns: [A]\n      rows: [[a, b]]\n", [(10, "parts[1].table.columns", "list-length")]),
    "too many columns": (f"      columns: [{', '.join('abcdefghi')}]\n      rows: [[a, b]]\n", [(10, "parts[1].table.columns", "list-length")]),
    "no list of columns": ("      columns: {a: b}\n      rows: rows\n", [(10, "parts[1].table.columns", "wrong-type")]),
    "rows of different lengths": ("      columns: [A, B]\n      rows:\n        - [a, {word: b}]\n        - [a, {word: b}, c]\n", [(9, "parts[1].table", "table-row")]),
    "a row that nothing names": ("      columns: [A, B]\n      rows: [[{word: a}, b]]\n", [(9, "parts[1].table", "table-row")]),
    "nothing to answer": ("      columns: [A, B]\n      rows: [[a, b]]\n", [(9, "parts[1].table", "table-asks-nothing")]),
    "columns without what stands in them": ("      columns: [A, B]\n      rows: rows\n", [(9, "parts[1].table", "table-column")]),
    "what stands in a column beside written rows": ("      columns: [A, {head: B, find: E_ref}]\n      rows: [[a, {word: b}]]\n", [(9, "parts[1].table", "table-column")]),
    "more drawn rows than written": ("      columns: [A, B]\n      rows: [[a, {word: b}]]\n      drawn rows: 2\n", [(9, "parts[1].table", "table-rows")]),
    "drawn rows of things": (f"{WHOLE}      drawn rows: 2\n", [(9, "parts[1].table", "table-rows")]),
    "an unknown way of marking": (f"{WHOLE}      mark: column\n", [(14, "parts[1].table.mark", "unknown-word")]),
    "figures and decimals": ("      rows: rows\n      columns:\n        - {head: A, given: b}\n        - {head: B, find: each.E0_vs, decimals: 1, figures: 2}\n", [(13, "parts[1].table.columns[2]", "rounding")]),
    "one word twice": ("      columns: [A, B]\n      rows: [[a, {word: Fuel cell, also: [fuel-cell]}]]\n", [(11, "parts[1].table.rows[1][2]", "repeated")]),
    "a word of signs": ("      columns: [A, B]\n      rows: [[a, {word: '--'}]]\n", [(11, "parts[1].table.rows[1][2]", "word")]),
}  # fmt: skip


@pytest.mark.parametrize("what", WRONG)
def test_what_is_wrong_with_a_table_is_told_at_its_line_and_key(what):
    body, wanted = WRONG[what]
    assert faults(body) == wanted


def made(tmp_path: Path, body: str, count: int = 3):
    """The questions and variants of a bank of one template."""
    (tmp_path / "bank.yaml").write_text(BANK, encoding="utf-8")
    (tmp_path / "table.yaml").write_text(HEAD + body, encoding="utf-8")
    bank = load_bank(tmp_path)
    composer = Composer(bank.template("table"), bank, catalogue())
    variants = [composer.variant(number, practice_seed(number)) for number in range(1, count + 1)]
    return [(composer.question(each), each) for each in variants]


DRAWN_WRONG = {
    "a list that there is not": (WHOLE.replace("rows: rows", "rows: metls"), "parts[1].table.rows", "`metls`"),
    "a part that a thing has not": (WHOLE.replace("each.couple", "each.coupel"), "parts[1].table.columns[1]", "`r1.coupel`"),
    "marks that cells can't share": (WHOLE + "    marks: 2\n", "parts[1]", "`marks: 2`"),
    "a word that is a formula": (WHOLE.replace("find: each.E0_vs, decimals: 3", "word: each.couple"), "parts[1].table.columns[2]", "`r1.couple`"),
}  # fmt: skip


@pytest.mark.parametrize("what", DRAWN_WRONG)
def test_what_only_a_draw_shows_is_told_at_its_key(tmp_path, what):
    body, key, found = DRAWN_WRONG[what]
    with pytest.raises(Faulty) as caught:
        made(tmp_path, body)
    assert any(each.key == key and found in each.found for each in caught.value.faults), [
        str(each) for each in caught.value.faults
    ]


def test_a_cell_takes_from_its_column_what_it_does_not_say():
    part = read(
        "      columns: [A, {head: B, in: mV, decimals: 1, from: [a, b]}]\n      rows:\n        - [a, {find: E_ref}]\n        - [b, {find: E_ref, figures: 2}]\n        - [c, {choose: a}]\n"
    ).parts[0]
    (_, plain), (_, own), (_, chosen) = part.table.written
    assert (plain.unit, plain.decimals, plain.figures) == ("mV", 1, None)
    assert (own.unit, own.decimals, own.figures) == ("mV", None, 2)
    assert [option.text for option in chosen.options] == ["a", "b"]


def test_a_text_stands_instead_in_the_row_of_a_thing(tmp_path):
    body = WHOLE.replace("decimals: 3}", 'decimals: 3, except: {r1: "known: {{ r1.E0_vs }}"}}')
    for question, variant in made(tmp_path, body):
        assert len(question.parts[0].field.blanks) == question.parts[0].marks == 2
        assert "known: " in question_text(question, variant, workings=False)


def test_drawn_rows_and_blanks_are_as_many_as_asked_for_and_differ_between_versions(tmp_path):
    rows = "".join(f"        - [row {number}, {{choose: a}}, {{choose: b}}]\n" for number in range(6))
    body = f"      columns: [A, {{head: B, from: [a, b]}}, {{head: C, from: [a, b]}}]\n      rows:\n{rows}      drawn rows: 4\n      blanks: 3\n"
    found = made(tmp_path, body, 12)
    for question, _ in found:
        field = question.parts[0].field
        assert (len(field.rows), len(field.blanks), question.parts[0].marks) == (4, 3, 3)
    assert len({question_text(question, variant) for question, variant in found}) > 6
    again = made(tmp_path, body, 12)
    assert [question_text(*each) for each in again] == [question_text(*each) for each in found]


def test_the_largest_table_is_composed_and_printed(tmp_path):
    """Most rows of most columns; what is printed holds every cell."""
    heads = ", ".join(f"{{head: C{number}, from: [yes it is, no it is not]}}" for number in range(MOST_COLUMNS - 1))
    cells = ", ".join("{choose: yes it is}" for _ in range(MOST_COLUMNS - 1))
    rows = "".join(f"        - [row {number}, {cells}]\n" for number in range(MOST_WRITTEN))
    body = f"      columns: [A, {heads}]\n      rows:\n{rows}      drawn rows: {MOST_ROWS}\n      mark: whole\n"
    question, variant = made(tmp_path, body, 1)[0]
    assert len(question.parts[0].field.blanks) == MOST_ROWS * (MOST_COLUMNS - 1)
    assert question.parts[0].marks == 1
    assert question_text(question, variant).count("yes it is / no it is not") == MOST_ROWS * (MOST_COLUMNS - 1)


# ------------------------------------------------------------------ what holds for any text


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=60))
def test_a_plain_word_stays_as_it_is_and_takes_no_heed_of_capitals_spaces_and_hyphens(text):
    plain = plain_word(text)
    assert plain_word(plain) == plain or not plain.isascii()
    if text.isascii():
        assert plain_word(f"  {text.upper()} - ") == plain_word(text)


@settings(max_examples=100, deadline=None)
@given(st.from_regex(r"[a-z][a-z0-9_]{0,8}(\.[a-z][a-z0-9_]{0,8})?", fullmatch=True), st.sampled_from(["r1", "m12", "left"]))
def test_only_the_stand_in_is_replaced_by_a_thing(name, thing):
    replaced = named_for(name, thing)
    assert replaced == (f"{thing}{name[4:]}" if name.startswith("each.") else name)


CELLS = st.sampled_from(["given", "{word: zinc}", "{choose: a, from: [a, b]}", "{find: E_ref}"])


@settings(max_examples=60, deadline=None)
@given(st.lists(st.lists(CELLS, min_size=1, max_size=5), min_size=1, max_size=8))
def test_any_written_table_is_read_or_refused_with_a_reason(rows):
    """Round trip: as many rows and cells as were written, each of its kind."""
    columns = max(map(len, rows)) + 1
    body = f"      columns: [{', '.join(f'C{at}' for at in range(columns))}]\n      rows:\n"
    body += "".join(f"        - [row, {', '.join(row)}]\n" for row in rows)
    try:
        table = read(body).parts[0].table
    except Faulty as refused:
        assert {each.code for each in refused.faults} <= {"table-row", "table-asks-nothing"}  # noqa: PT017 - one of the two outcomes
        assert any(len(row) + 1 != columns for row in rows) or all(cell == "given" for row in rows for cell in row)
    else:
        assert [len(row) for row in table.written] == [columns] * len(rows)
