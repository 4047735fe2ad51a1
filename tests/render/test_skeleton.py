"""Skeletons: splitting written HTML at its markers, and joining it again."""

from __future__ import annotations

from html.parser import HTMLParser

from hypothesis import given
from hypothesis import strategies as st

from saltbridge.render.skeleton import escape, join, place, split

FORMS = ("html", "words", "maths", "figure")
literal = st.text(st.characters(exclude_categories=("Cs", "Co")), max_size=20)
uses = st.tuples(st.integers(0, 12), st.sampled_from(FORMS))


class _Events(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.text = ""
        self.values: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.values += [value or "" for _, value in attrs]

    def handle_data(self, data):
        self.text += data


@given(st.lists(st.one_of(literal, uses)))
def test_joining_gives_what_putting_texts_in_for_markers_gives(parts):
    written = "".join(part if isinstance(part, str) else place(*part) for part in parts)
    skeleton = split(written)
    texts = [f"[{index} {form}]" for index, form in skeleton.uses]
    direct = "".join(part if isinstance(part, str) else f"[{part[0]} {part[1]}]" for part in parts)
    assert join(skeleton.chunks, texts) == direct


@given(st.lists(uses))
def test_each_slot_and_form_is_one_text_however_often_it_stands_there(parts):
    skeleton = split("".join(place(*part) for part in parts))
    assert sorted(skeleton.uses) == sorted(set(parts))


@given(st.text())
def test_escaped_text_reads_back_as_itself_in_content_and_attributes(text):
    wanted = "".join("\ufffd" if "\ue000" <= sign <= "\ue00f" else sign for sign in text)
    reader = _Events()
    reader.feed(f'<p title="{escape(text)}"></p>')
    reader.close()
    assert reader.tags == ["p"]
    assert "".join(reader.values) == wanted
    assert not split(escape(text)).uses


def test_a_marker_in_a_text_is_not_taken_for_ours():
    assert split(escape(place(3, "html"))).uses == ()
