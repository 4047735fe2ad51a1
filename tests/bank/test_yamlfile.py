"""Strict YAML: texts stay as typed, and what could trick a reader is refused with its line."""

from __future__ import annotations

import pytest
from bank_samples import messages

from saltbridge.forms.strict_yaml import MOST_BYTES, Listing, Scalar, Table, lines_of, locate, parse_yaml, read_yaml


@pytest.mark.parametrize(
    "typed", ["NO", "no", "yes", "on", "1e-5", "1:30", "0.50", "012", "0x1F", "~", "null", "2026-11-24", ".inf", "1_000"]
)
def test_scalars_stay_as_typed(typed):
    """What a YAML reader would turn into false, 90, a date or nothing stays the characters the teacher typed."""
    assert parse_yaml(f"key: {typed}\n".encode(), "t.yaml").plain() == {"key": typed}


def test_nodes_know_their_lines():
    table = parse_yaml(b"a: x\nb:\n  - c: y\n  - z\ntext: |\n  one\n  two\n", "t.yaml")

    assert list(lines_of(table)) == [("a", 1), ("b", 2), ("b[1]", 3), ("b[1].c", 3), ("b[2]", 4), ("text", 5)]
    text = table.get("text")
    assert text is not None
    assert text.value == Scalar("one\ntwo\n", 5, 6)


def test_a_path_is_followed_as_far_as_the_file_goes():
    table = parse_yaml(b"parts:\n  - find: E\n", "t.yaml")

    place = locate(table, ("parts", 0, "find", "deeper"))
    assert (place.key, place.line, place.node) == ("parts[1].find", 2, Scalar("E", 2, 2))
    assert locate(table, ("nothing",)).key == ""


def test_a_byte_order_mark_is_no_key_character():
    assert parse_yaml(b"\xef\xbb\xbfa: 1\n", "t.yaml").plain() == {"a": "1"}


def test_kinds_of_nodes():
    table = parse_yaml(b"a: [1, {b: 2}]\n", "t.yaml")

    assert isinstance(table, Table)
    assert isinstance(table.entries[0].value, Listing)
    assert table.plain() == {"a": ["1", {"b": "2"}]}


SYNTAX_HINT = "A text with `: ` or ` #` in it, or starting with `{`, `[`, `*`, `&`, `!`, `%`, `@` or a backtick, needs quotes. [yaml-syntax]"
REFUSED = {
    "repeated key": (
        b"a: 1\nb: 2\na: 3\n",
        "t.yaml:3: a: expected each key once; found `a` again. It stands on line 1 already; keep one. [duplicate-key]",
    ),
    "repeated key inside": (
        b"x:\n  - a: 1\n    a: 2\n",
        "t.yaml:3: x[1].a: expected each key once; found `a` again. It stands on line 2 already; keep one. [duplicate-key]",
    ),
    "tag": (
        b"a: !!python/object/apply:os.system [x]\n",
        (
            "t.yaml:1: a: expected a value without a tag; found the tag `tag:yaml.org,2002:python/object/apply:os.system`. "
            "Types are known from the key; if `!` begins a text, put the text in quotes. [yaml-tag]"
        ),
    ),
    "plain tag": (
        b"a: !!str NO\n",
        (
            "t.yaml:1: a: expected a value without a tag; found the tag `tag:yaml.org,2002:str`. "
            "Types are known from the key; if `!` begins a text, put the text in quotes. [yaml-tag]"
        ),
    ),
    "anchor": (
        b"a: &x 1\n",
        (
            "t.yaml:1: a: expected a value; found the anchor `&x`. "
            "Write the value out where it is needed; if `&` begins a text, put the text in quotes. [yaml-anchor]"
        ),
    ),
    "alias": (
        b"a: *x\n",
        (
            "t.yaml:1: a: expected a value; found the alias `*x`. "
            "Write the value out; if `*` begins a text, put the text in quotes. [yaml-alias]"
        ),
    ),
    "tab": (
        b"a:\n\tb: 1\n",
        "t.yaml:2: expected spaces before a key; found a tab. YAML counts spaces; set the editor to write two of them. [yaml-tab]",
    ),
    "not UTF-8": (b"a: 1\nb: \xff\n", "t.yaml:2: expected text in UTF-8; found the byte FF. Save the file as UTF-8. [not-utf-8]"),
    "too big": (
        b"a: " + b"x" * MOST_BYTES,
        "t.yaml: expected at most 1 MB; found a bigger file. Split it into several files. [file-too-big]",
    ),
    "too deep": (
        b"a: " + b"[" * 100 + b"]" * 100,
        "t.yaml:1: expected at most 20 levels; found more. Nothing here needs so many. [yaml-too-deep]",
    ),
    "too many": (
        b"".join(b"k%d: v\n" % number for number in range(6000)),
        "t.yaml:5000: expected at most 10000 keys and values; found more. Split it into several files. [yaml-too-many]",
    ),
    "control character": (
        b"a: 1\nb: \x07\n",
        "t.yaml:2: expected printable characters; found U+0007. Delete it. [yaml-character]",
    ),
    "two documents": (
        b"a: 1\n---\nb: 2\n",
        "t.yaml:2: expected one document; found a second `---`. Put it in a file of its own. [yaml-documents]",
    ),
    "directive": (
        b"%YAML 1.1\n---\na: 1\n",
        "t.yaml:1: expected no directives; found a line starting with `%`. Delete it. [yaml-directive]",
    ),
    "list": (b"- a\n", "t.yaml:1: expected keys with values, as `title: \u2026`; found a list [yaml-no-keys]"),
    "text": (b"hello\n", "t.yaml:1: expected keys with values, as `title: \u2026`; found a text [yaml-no-keys]"),
    "empty": (
        b"# only a remark\n",
        "t.yaml:1: expected keys with values, as `title: \u2026`; found an empty file [yaml-no-keys]",
    ),
    "key that is a list": (b"? [a]\n: 1\n", "t.yaml:1: expected a text as key; found a list [yaml-key]"),
    "colon in a text": (
        b"a: b: c\n",
        "t.yaml:1: expected keys, lists and texts; found a slip in the YAML (mapping values are not allowed here). "
        + SYNTAX_HINT,
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_is_refused(case):
    """Each trick or slip gives one whole message with file, line, what was expected, what was found and what to write."""
    raw, expected = REFUSED[case]

    assert messages(lambda: parse_yaml(raw, "t.yaml")) == [expected]


def test_all_faults_of_a_file_are_told_at_once():
    found = messages(lambda: parse_yaml(b"a: &x 1\na: *x\nb: !t 2\n", "t.yaml"))

    assert [text.rpartition(" ")[2] for text in found] == ["[yaml-anchor]", "[yaml-alias]", "[duplicate-key]", "[yaml-tag]"]


def test_a_file_is_read_no_further_than_its_limit(tmp_path):
    """A file far over the limit is refused without reading all of it."""
    path = tmp_path / "big.yaml"
    with path.open("wb") as stream:
        stream.truncate(50 * MOST_BYTES)

    assert messages(lambda: read_yaml(path, "big.yaml")) == [
        "big.yaml: expected at most 1 MB; found a bigger file. Split it into several files. [file-too-big]"
    ]
