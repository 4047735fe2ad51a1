"""Prose: what a text becomes, and what it may not hold."""

from __future__ import annotations

from contextlib import suppress

import pytest
from bank_samples import messages
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge import tables
from saltbridge.document import Emphasis, Grid, Inscription, Items, LineBreak, Link, Paragraph, Piece, Strong, Text
from saltbridge.faults import Faulty
from saltbridge.forms.conditions import Amount, Comparison, Condition, Name, Word
from saltbridge.forms.prose import Branch, Hole, Notation, read_prose

ZINC_ION = Inscription("species", (Piece("base", "Zn"), Piece("sup", "2+"), Piece("base", "(aq)")), "Zn 2 plus aqueous")


def line(text):
    """The spans of a text of one paragraph."""
    (paragraph,) = read_prose(text).blocks
    assert isinstance(paragraph, Paragraph)
    return paragraph.spans


def equals(left, sign, right):
    return Condition(((Comparison(left, sign, right),),), "")


def test_a_line_with_holes():
    assert line("A **{{ left.metal | name | capital }}** strip, *thin*,\nat {{ T }}.") == (
        Text("A "),
        Strong((Hole("left.metal", ("name", "capital")),)),
        Text(" strip, "),
        Emphasis((Text("thin"),)),
        Text(", at "),
        Hole("T"),
        Text("."),
    )


def test_code_spans_are_chemistry():
    equation = line("`2Ag^+ + Zn -> 2Ag + Zn^2+`")[0]

    assert line("`Zn^2+(aq)`") == (ZINC_ION,)
    assert isinstance(equation, Inscription)
    assert (equation.role, equation.spoken) == ("equation", "2 Ag plus, and Zn gives 2 Ag, and Zn 2 plus")


def test_code_spans_may_have_holes_or_be_diagrams():
    """What hangs on a variant or on the bank's settings is set later."""
    assert line("`{{ left.ion }}(aq)`") == (Notation((Hole("left.ion"), "(aq)")),)
    assert line("`Zn | Zn^2+ || Cu^2+ | Cu`") == (Notation(("Zn | Zn^2+ || Cu^2+ | Cu",)),)


def test_a_diagram_is_checked_against_the_sheet():
    rows = tables.sheet("school").rows

    assert read_prose("`Zn | Zn^2+ || Cu^2+ | Cu`", rows).blocks
    with pytest.raises(Faulty):
        read_prose("`Zn | Zn^2+ || Qq^2+ | Cu`", rows)


def test_a_branch_within_a_line_keeps_its_spaces():
    assert line('Dip it{% if context == "lamp" %} at night{% elif n >= 2 %} twice{% else %} once{% endif %}.') == (
        Text("Dip it"),
        Branch(
            equals(Name("context"), "==", Word("lamp")),
            (Text(" "), Text("at night")),
            (
                Branch(
                    equals(Name("n"), ">=", Amount("2", "")), (Text(" "), Text("twice")), (Text(" "), Text("once")), blocks=False
                ),
            ),
            blocks=False,
        ),
        Text("."),
    )


def test_a_branch_may_say_or_and_the_size_of_a_number():
    (branch,) = read_prose('{% if abs(U) > 2 and (a == "left" or n == 2) %}\nOne.\n{% endif %}\n').blocks

    size = Comparison(Name("U", magnitude=True), ">", Amount("2", ""))
    sides = Comparison(Name("a"), "==", Word("left")), Comparison(Name("n"), "==", Amount("2", ""))
    assert branch.condition.alternatives == ((size, sides[0]), (size, sides[1]))


def test_a_branch_alone_holds_blocks():
    (branch,) = read_prose("{% if left.metal != right.metal and n == 2 %}\nOne.\n\n- {{ x }}\n{% endif %}\n").blocks

    assert branch == Branch(
        Condition(
            ((Comparison(Name("left.metal"), "!=", Name("right.metal")), Comparison(Name("n"), "==", Amount("2", ""))),),
            "",
        ),
        (Paragraph((Text("One."),)), Items(False, ((Paragraph((Hole("x"),)),),))),
        (),
        blocks=True,
    )


def test_lists_tables_links_and_breaks():
    table = "| metal | E / V |\n|---|--:|\n| {{ a }} | {{ b }} |\n"

    assert read_prose(table).blocks == (
        Grid((), ((Text("metal"),), (Text("E / V"),)), (((Hole("a"),), (Hole("b"),)),), numeric=(1,)),
    )
    assert read_prose("1. one\n2. two\n").blocks == (Items(True, ((Paragraph((Text("one"),)),), (Paragraph((Text("two"),)),))),)
    assert line("[the *guide*](guide.html) or [us](mailto:a@b.example)") == (
        Link("guide.html", (Text("the "), Emphasis((Text("guide"),)))),
        Text(" or "),
        Link("mailto:a@b.example", (Text("us"),)),
    )
    assert line("one  \ntwo") == (Text("one"), LineBreak(), Text("two"))


def test_a_list_inside_a_list():
    (outer,) = read_prose("- one\n    - two\n- three\n").blocks

    inner = Items(False, ((Paragraph((Text("two"),)),),))
    assert outer == Items(False, ((Paragraph((Text("one"),)), inner), (Paragraph((Text("three"),)),)))


def test_names_are_gathered_from_everywhere():
    prose = read_prose(
        "{{ a }} **{{ b | name }}** `{{ c }}(s)` {% if d == e %}{{ f }}{% endif %}\n\n- {{ g }}\n\n| h |\n|---|\n| {{ i }} |\n"
    )

    assert prose.names == ("a", "b", "c", "d", "e", "f", "g", "i")


@pytest.mark.parametrize(
    "text", ["1.0 mol/L at 25 °C or 298 K", "0.50 A for 20 min", "100 kPa", "5 g of zinc", "Volt meter 2", "p < 5, q > 3"]
)
def test_numbers_that_may_be_typed(text):
    """Concentrations, temperatures, currents, times and masses are a question's own and may be typed."""
    assert line(text) == (Text(text),)


def test_entities_and_references_stay_plain_text():
    assert line("&#106;avascript &lt;b&gt;") == (Text("&#106;avascript &lt;b&gt;"),)
    assert line("[words][1]") == (Text("[words][1]"),)


FORBIDDEN_HINT = "A hole prints a value the scenario already has; nothing can be worked out in a text. [prose-forbidden]"
COMPARISON_HINT = 'As `{% if anode == "left" %}`; several are joined by `and` or `or`. [prose-condition]'
BLOCK_HINT = "Headings and drawings come from other keys; emphasis is `**strong**` or `*light*`. [prose-block]"
LINK_HINT = "Write it as `[words](https://…)`. [prose-link]"
HTML_HINT = "Write `**strong**`, `*light*`, `[words](https://…)`, or put a space after the `<`. [raw-html]"
POTENTIAL_HINT = "Write a hole such as `{{ left.E0 }}` or `{{ E_cell }}`. [typed-number]"
CONSTANT_HINT = "It stands on the data sheet; write a hole such as `{{ F }}`, `{{ R }}` or `{{ slope }}`. [typed-number]"
MOLAR = "a molar mass, a molar energy or a constant. It stands on the data sheet; write a hole such as `{{ M }}` or `{{ F }}` where the text needs it."
BRANCH_HINT = "Leave an empty line before and after the branch to branch whole paragraphs. [prose-branch]"
NOT_NUMBER = "expected no number that the data sheet prints; found"
ONLY = "expected names, our filters, comparison and `if` only; found"

REFUSED = [
    ("{{ f(x) }}", f"1: {ONLY} a call. {FORBIDDEN_HINT}"),
    ("one\n\n{{ a + b }}", f"3: {ONLY} a sum. {FORBIDDEN_HINT}"),
    ("{{ a * 2 }}", f"1: {ONLY} a product. {FORBIDDEN_HINT}"),
    ("{{ a[0] }}", f"1: {ONLY} an index in square brackets. {FORBIDDEN_HINT}"),
    ("{{ 'abc' }}", f"1: {ONLY} a fixed value. {FORBIDDEN_HINT}"),
    ("{{ a if b else c }}", f"1: {ONLY} an `if` inside a hole. {FORBIDDEN_HINT}"),
    ("{% for x in y %}{% endfor %}", f"1: {ONLY} a loop. {FORBIDDEN_HINT}"),
    ("{% set a = 1 %}", f"1: {ONLY} a `set`. {FORBIDDEN_HINT}"),
    ("{% include 'bank.yaml' %}", f"1: {ONLY} an include. {FORBIDDEN_HINT}"),
    ("{% macro m() %}{% endmacro %}", f"1: {ONLY} a macro. {FORBIDDEN_HINT}"),
    ("{{ a.b(c) | name }}", f"1: {ONLY} a call. {FORBIDDEN_HINT}"),
    ("{{ a.__class__ }}", "1: expected a name such as `E0_cell` or `left.metal`; found `a.__class__` [name]"),
    (
        "{{ x | zzz }}",
        "1: expected one of the filters `name`, `symbol`, `number`, `unit`, `capital`; found `zzz` [unknown-filter]",
    ),
    (
        "{{ x | nam }}",
        "1: expected one of the filters `name`, `symbol`, `number`, `unit`, `capital`; found `nam`. Did you mean `name`? [unknown-filter]",
    ),
    ("{{ x | name('a') }}", "1: expected a filter without brackets; found `name(…)`. Write `| name`. [prose-filter]"),
    ("{% if a %}x{% endif %}", f"1: expected a comparison; found something else. {COMPARISON_HINT}"),
    ("{% if not a == b %}x{% endif %}", f"1: expected a comparison; found a `not`. {COMPARISON_HINT}"),
    ("{% if a == b or c %}x{% endif %}", f"1: expected a comparison; found something else. {COMPARISON_HINT}"),
    (
        "{% if (a == b or c == d or e == f) and (g == h or i == j) %}x{% endif %}",
        "1: expected at most 8 comparisons; found 12. Write several texts, each with a branch of its own. [prose-condition]",
    ),
    ("{% if a in b %}x{% endif %}", f"1: expected a comparison; found something else. {COMPARISON_HINT}"),
    (
        "x\n{{ a",
        (
            "2: expected holes as `{{ left.metal }}` and branches as `{% if a == b %}…{% endif %}`; "
            "found something else (unexpected end of template, expected 'end of print statement') [prose-syntax]"
        ),
    ),
    ("a <b>c</b>", f"1: expected Markdown without HTML; found `<b>`. {HTML_HINT}"),
    ("one\n\n<script>alert(1)</script>", f"3: expected Markdown without HTML; found `<script>`. {HTML_HINT}"),
    ("<!-- x -->", f"1: expected Markdown without HTML; found `<!-- x -->`. {HTML_HINT}"),
    ("<https://a.example>", f"1: expected Markdown without HTML; found `<https://a.example>`. {HTML_HINT}"),
    (
        "[a](javascript:alert(1))",
        f"1: expected a link to https, mailto or a page beside; found `javascript:alert(1)`. {LINK_HINT}",
    ),
    ("[a](JavaScript:x)", f"1: expected a link to https, mailto or a page beside; found `JavaScript:x`. {LINK_HINT}"),
    ("[a](http://b.example)", f"1: expected a link to https, mailto or a page beside; found `http://b.example`. {LINK_HINT}"),
    ("[a](data:text/html,x)", f"1: expected a link to https, mailto or a page beside; found `data:text/html,x`. {LINK_HINT}"),
    ("x\n\n[a](//b.example)", f"3: expected a link to https, mailto or a page beside; found `//b.example`. {LINK_HINT}"),
    ("[a](../secret)", f"1: expected a link to https, mailto or a page beside; found `../secret`. {LINK_HINT}"),
    ("[a]({{ x }})", f"1: expected a link to https, mailto or a page beside; found `…`. {LINK_HINT}"),
    ("[a](https://[)", f"1: expected a link to https, mailto or a page beside; found `https://[`. {LINK_HINT}"),
    ("# Title", f"1: expected paragraphs, lists and tables; found a heading. {BLOCK_HINT}"),
    ("x\n\n> y", f"3: expected paragraphs, lists and tables; found a quotation. {BLOCK_HINT}"),
    ("x\n\n    y", f"3: expected paragraphs, lists and tables; found an indented block. {BLOCK_HINT}"),
    ("![a](b.png)", f"1: expected paragraphs, lists and tables; found an image. {BLOCK_HINT}"),
    ("The cell gives 1.10 V.", f"1: {NOT_NUMBER} `1.10 V`, a potential. {POTENTIAL_HINT}"),
    ("x\n**0,34**\nV", f"2: {NOT_NUMBER} `0,34 V`, a potential. {POTENTIAL_HINT}"),
    ("about 340 mV", f"1: {NOT_NUMBER} `340 mV`, a potential. {POTENTIAL_HINT}"),
    ("Zinc has 65.4 g/mol.", f"1: {NOT_NUMBER} `65.4 g/mol`, {MOLAR} [typed-number]"),
    ("R is 8.314 J/(mol K).", f"1: {NOT_NUMBER} `8.314 J/(mol K)`, {MOLAR} [typed-number]"),
    ("R is 8.314 J mol⁻¹ K⁻¹.", f"1: {NOT_NUMBER} `8.314 J mol⁻¹ K⁻¹`, {MOLAR} [typed-number]"),
    ("Take 96 485 C/mol.", f"1: {NOT_NUMBER} `96 485 C/mol`, {MOLAR} [typed-number]"),
    ("Take F = 96500.", f"1: {NOT_NUMBER} `96500`, a constant. {CONSTANT_HINT}"),
    ("with 0.0592", f"1: {NOT_NUMBER} `0.0592`, a constant. {CONSTANT_HINT}"),
    ("a `Xx^2+` b", "1: expected an element symbol; found 'X' at character 1 of 'Xx^2+' [species-unread]"),
    ("`{% if a == b %}Zn{% endif %}`", f"1: expected words inside the line; found a branch inside a code span. {BRANCH_HINT}"),
    (
        "x {% if a == b %}one\n\ntwo{% endif %} y",
        f"1: expected words inside the line; found several paragraphs, a list or a table inside a line. {BRANCH_HINT}",
    ),
    ("\ue000", "1: expected ordinary characters; found U+E000 (private use). Delete it. [prose-character]"),
    ("x" * 8001, "1: expected at most 8000 characters; found 8001. Split the question. [prose-too-big]"),
    ("{{ x }}" * 201, "1: expected at most 200 holes and branches; found more. Split the question. [prose-too-big]"),
    ("{{ " + "(" * 300 + " }}", "1: expected at most 240 characters in a hole; found 306 [prose-too-big]"),
    ("{" * 8000, "1: expected few brackets and branches inside each other; found too many [prose-too-big]"),
    ("*" * 301, "1: expected at most 300 of each mark; found 301 times `*` [prose-too-big]"),
    (
        "{% if a == b %}" * 11 + "{% endif %}" * 11,
        "1: expected at most 10 branches inside each other; found more [prose-too-big]",
    ),
]


@pytest.mark.parametrize(("text", "expected"), REFUSED, ids=[text[:24] for text, _ in REFUSED])
def test_what_a_text_may_not_hold(text, expected):
    """Each gives one whole message with its line."""
    assert messages(lambda: read_prose(text)) == [expected]


def test_all_faults_of_a_text_are_told_in_order():
    found = messages(lambda: read_prose("<b>\n\n1.10 V\n\n[a](x:y)\n\n# H"))

    assert [text.rpartition(" ")[2] for text in found] == ["[raw-html]", "[typed-number]", "[prose-link]", "[prose-block]"]
    assert [text.partition(":")[0] for text in found] == ["1", "3", "5", "7"]


@settings(deadline=None)
@given(st.text(alphabet="ab {}%|[]()*_`<>#-\n1.V\\&;:/^+→=", max_size=60))
def test_any_text_is_read_or_refused(text):
    """No text makes the reader fail in another way than by faults, and no hole is invented."""
    with suppress(Faulty):
        assert "{{" in text or not read_prose(text).names
