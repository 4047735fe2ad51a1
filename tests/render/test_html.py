"""Text, blocks and workings as HTML."""

from __future__ import annotations

import dataclasses
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import page_specimen as made
import pytest

from saltbridge import document as doc
from saltbridge.render.html import block_html, inline_html, inscription_html, working_html
from saltbridge.render.part_markup import question_skeleton, variant_texts
from saltbridge.render.skeleton import join
from saltbridge.words import catalogue

ENGLISH = catalogue("en")
GOLDEN = Path(__file__).parent / "golden"
EVIL = "</script><script>alert(1)</script><img src=x onerror='a()'>\"&<!--"


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.seen: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag, attrs):
        self.seen.append((tag, dict(attrs)))


def _tags(html: str) -> list[tuple[str, dict[str, str | None]]]:
    reader = _Tags()
    reader.feed(html)
    reader.close()
    return reader.seen


# ------------------------------------------------------------ inline


def test_a_species_is_text_with_raised_and_lowered_runs():
    assert inscription_html(made.SULFATE) == '<span class="set">SO<sub>4</sub><sup>2−</sup></span>'


def test_a_plain_number_needs_no_element():
    assert inscription_html(made.base("−0.76")) == "−0.76"


def test_a_single_raised_run_stays_raised():
    alone = doc.Inscription("unit", (doc.Piece("sup", "3"),), "cubed")
    assert inscription_html(alone) == '<span class="set"><sup>3</sup></span>'


def test_a_diagram_carries_its_words():
    diagram = doc.Inscription("diagram", (doc.Piece("base", "Zn | Zn"), doc.Piece("sup", "2+")), 'zinc "solid"')
    wanted = '<span class="diagram" role="img" aria-label="zinc &quot;solid&quot;">Zn | Zn<sup>2+</sup></span>'
    assert inscription_html(diagram) == wanted


def test_emphasis_links_and_breaks_keep_their_content():
    spans = (doc.Strong((doc.Text("a"),)), doc.LineBreak(), doc.Link("x.html?a=1&b=2", (doc.Emphasis((doc.Text("b"),)),)))
    wanted = '<strong>a</strong><br><a href="x.html?a=1&amp;b=2"><em>b</em></a>'
    assert "".join(inline_html(span) for span in spans) == wanted


# ------------------------------------------------------------ blocks


def test_a_table_names_its_columns_and_rows():
    grid = doc.Grid(
        (), ((doc.Text("c"),), (doc.Text("E"),)), (((doc.Text("Zn"),), (doc.Text("1"),)),), row_heads=True, numeric=(1,)
    )
    wanted = (
        '<div class="grid"><table><thead><tr><th scope="col">c</th><th scope="col" class="number">E</th></tr></thead>'
        '<tbody><tr><th scope="row">Zn</th><td class="number">1</td></tr></tbody></table></div>'
    )
    assert block_html(grid, ENGLISH) == wanted


def test_marks_stand_at_the_line_that_earns_them_and_are_named():
    step = doc.Step((doc.Text("say"),), ((doc.Text("one"),), (doc.Text("two"),)), {1: 2})
    written = working_html((step,), ENGLISH)
    assert '<p class="line-body" data-line>one</p></div>' in written
    assert (
        '<p class="line-body" data-line>two</p><span class="marks">[2<span class="unseen"> marks</span>]</span></div>' in written
    )


def test_a_step_marked_wrong_says_so_in_words():
    step = doc.Step((doc.Text("say"),), (), {}, marked_wrong=True)
    assert "First wrong step" in working_html((step,), ENGLISH)


# ------------------------------------------------------------ whole questions


def _pretty(html: str) -> str:
    return html.replace("><", ">\n<") + "\n"


def test_the_specimen_reads_as_the_page_that_was_read():
    """tests/render/golden/two-metals.html was read line by line and looked at in a browser."""
    written = made.whole(question_skeleton(made.question(), ENGLISH), made.variants()[0])
    assert _pretty(written) == (GOLDEN / "two-metals.html").read_text(encoding="utf-8")


def _filled(node: Any, variant: doc.Variant) -> Any:
    """The question with its slots replaced by the variant's values, so that it can be written without any slot."""
    if isinstance(node, doc.FigureSlot):
        return variant.figures[node.index]
    if dataclasses.is_dataclass(node) and not isinstance(node, type):
        names = [field.name for field in dataclasses.fields(node)]
        return dataclasses.replace(node, **{name: _value(name, getattr(node, name), variant) for name in names})
    if isinstance(node, tuple) and not isinstance(node, doc.Piece):
        return tuple(each for item in node for each in _each(item, variant))
    return node


def _value(name: str, value: Any, variant: doc.Variant) -> Any:
    if name == "spoken" and isinstance(value, tuple):
        return tuple(doc.spoken(variant.slots[word]) if isinstance(word, int) else word for word in value)
    if isinstance(value, doc.Slot):
        (only,) = variant.slots[value.index]
        return only
    return _filled(value, variant)


def _each(item: Any, variant: doc.Variant) -> tuple[Any, ...]:
    return variant.slots[item.index] if isinstance(item, doc.Slot) else (_filled(item, variant),)


@pytest.mark.parametrize("variant", made.variants(), ids=lambda variant: str(variant.number))
def test_joining_a_skeleton_is_the_same_as_writing_the_filled_question(variant):
    joined = made.whole(question_skeleton(made.question(), ENGLISH), variant)
    direct = question_skeleton(_filled(made.question(), variant), ENGLISH)
    assert direct.uses == ()
    assert joined == join(direct.chunks, ())


def _poisoned(node: Any) -> Any:
    """The same tree with every text replaced by one that would break out of wherever it stands."""
    if isinstance(node, doc.Piece):
        return doc.Piece(node.kind, EVIL)
    if isinstance(node, doc.Inscription):
        return doc.Inscription(node.role, _poisoned(node.pieces), EVIL)
    if isinstance(node, doc.Figure):
        labels = {name: _poisoned(label) for name, label in node.labels.items()}
        return doc.Figure(node.name, labels, node.numbers, node.flags, EVIL, _poisoned(node.caption))
    if dataclasses.is_dataclass(node) and not isinstance(node, type):
        kept = {"marks", "judge", "provenance"}
        fields = [field.name for field in dataclasses.fields(node) if field.name not in kept]
        return dataclasses.replace(node, **{name: _poisoned(getattr(node, name)) for name in fields})
    if isinstance(node, tuple):
        return tuple(_poisoned(item) for item in node)
    return EVIL if isinstance(node, str) else node


def test_no_text_of_a_question_can_become_markup():
    clean = made.whole(question_skeleton(made.question(), ENGLISH), made.variants()[0])
    evil = made.whole(question_skeleton(_poisoned(made.question()), ENGLISH), _poisoned(made.variants()[0]))
    assert EVIL.replace("&", "&amp;").replace("<", "&lt;")[:9] in evil
    assert "script" not in {tag for tag, _ in _tags(evil)}
    assert {tag for tag, _ in _tags(evil)} <= {tag for tag, _ in _tags(clean)} | {"span"}
    known = {name for _, attributes in _tags(clean) for name in attributes} | {"class", "role", "aria-label", "tabindex"}
    assert {name for _, attributes in _tags(evil) for name in attributes} <= known


def test_a_variant_is_only_the_texts_that_differ():
    skeleton = question_skeleton(made.question(), ENGLISH)
    own = sum(len(text.encode()) for text in variant_texts(skeleton, made.variants()[0]))
    whole = sum(len(chunk.encode()) for chunk in skeleton.chunks if isinstance(chunk, str))
    assert own < whole / 4
