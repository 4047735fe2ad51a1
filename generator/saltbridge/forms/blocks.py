"""Markdown to document blocks: the library builds its element tree once, and this walks it with a short list of elements.

Raw HTML, images, headings, quotations and code blocks are refused; a link may lead to https, mailto or a page beside.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable
from functools import cache
from typing import TYPE_CHECKING, cast
from urllib.parse import urlsplit

import markdown
from markdown.extensions.tables import TableExtension

from saltbridge.document import Emphasis, Grid, Inscription, Items, LineBreak, Link, Paragraph, Strong, Text
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.holes import Hole, RawBranch, Tokens, prose_fault
from saltbridge.forms.prose_nodes import Branch, Notation, ProseNode

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

    from saltbridge.document import Block, Spans

Nodes = tuple[ProseNode, ...]
_REFUSED = {
    "h1": "a heading", "h2": "a heading", "h3": "a heading", "h4": "a heading", "h5": "a heading", "h6": "a heading",
    "pre": "an indented block", "blockquote": "a quotation", "hr": "a ruled line", "img": "an image",
}  # fmt: skip
_SCHEMES = ("https", "mailto")
_RELATIVE = re.compile(r"[A-Za-z0-9_#?][A-Za-z0-9._~/?=&%#+-]*", re.ASCII)
_OFF = {
    "preprocessors": ("html_block",),
    "inlinePatterns": (
        "html",
        "entity",
        "autolink",
        "automail",
        "reference",
        "short_reference",
        "image_reference",
        "short_image_ref",
    ),
    "treeprocessors": ("prettify",),
}


class BlockReader:
    """Reads the Markdown of one text. ``inscribe`` sets a code span of chemistry; its faults become ours."""

    def __init__(self, source: str, tokens: Tokens, inscribe: Callable[[str], Inscription | None]) -> None:
        self.faults: list[Fault] = []
        self._source = source
        self._tokens = tokens
        self._inscribe = inscribe

    def blocks(self, text: str) -> Nodes:
        """The blocks of a Markdown text with tokens; what is wrong goes to ``faults``."""
        found: list[ProseNode] = []
        for element in _element_tree(text):
            found.extend(self._block(element))
        return tuple(found)

    # -------------------------------------------------------------- blocks

    def _block(self, element: Element) -> Nodes:
        match element.tag:
            case "p":
                alone = self._tokens.get(element.text) if element.text and len(element.text) == 1 and not len(element) else None
                if isinstance(alone, RawBranch):
                    sides = self.blocks(alone.then), self.blocks(alone.otherwise)
                    return (Branch(alone.condition, *sides, blocks=True),)
                spans = self._spans(element)
                return (Paragraph(spans),) if spans else ()
            case "ul" | "ol":
                return (Items(element.tag == "ol", tuple(self._item(item) for item in element)),)
            case "table":
                return (self._grid(element),)
            case _:
                self._complain("prose-block", _REFUSED.get(element.tag, f"`{element.tag}`"), _words(element))
                return ()

    def _item(self, item: Element) -> tuple[Block, ...]:
        """A list item: its line, if it has one, as a paragraph, then the blocks inside it."""
        inner: list[ProseNode] = []
        line = _copy_without_blocks(item)
        if spans := self._spans(line):
            inner.append(Paragraph(spans))
        for child in item:
            if child.tag in _BLOCK_TAGS:
                inner.extend(self._block(child))
        return cast("tuple[Block, ...]", tuple(inner))

    def _grid(self, table: Element) -> Grid:
        rows = [[*row] for row in table.iter("tr")]
        head, *body = [tuple(self._spans(cell) for cell in row) for row in rows]
        numeric = tuple(index for index, cell in enumerate(rows[0]) if "right" in cell.get("style", ""))
        return Grid((), head, tuple(body), numeric=numeric)

    # -------------------------------------------------------------- inline

    def _spans(self, element: Element) -> Spans:
        """The spans of a line; holes and branches stand among them, which compose replaces."""
        spans: list[ProseNode] = [*self._texts(element.text or "")]
        for child in element:
            spans.extend(self._inline(child))
            spans.extend(self._texts(child.tail or ""))
        if spans and isinstance(spans[-1], Text):
            spans[-1] = Text(spans[-1].text.rstrip())
        return cast("Spans", tuple(span for span in spans if span != Text("")))

    def _inline(self, element: Element) -> Nodes:
        match element.tag:
            case "strong":
                return (Strong(self._spans(element)),)
            case "em":
                return (Emphasis(self._spans(element)),)
            case "br":
                return (LineBreak(),)
            case "code":
                return self._code(html.unescape(element.text or ""))
            case "a":
                return self._link(element)
            case _:
                self._complain("prose-block", _REFUSED.get(element.tag, f"`{element.tag}`"), _words(element))
                return ()

    def _texts(self, text: str) -> Nodes:
        nodes: list[ProseNode] = []
        plain = ""
        for character in text:
            token = self._tokens.get(character)
            if token is None:
                plain += " " if character == "\n" else character
                continue
            if plain:
                nodes.append(Text(plain))
            plain = ""
            nodes.append(token if isinstance(token, Hole) else self._inline_branch(token))
        return (*nodes, Text(plain)) if plain else tuple(nodes)

    def _inline_branch(self, raw: RawBranch) -> Branch:
        return Branch(raw.condition, self._side(raw.then), self._side(raw.otherwise), blocks=False)

    def _side(self, text: str) -> Nodes:
        """A side of a branch within a line; the spaces at its ends are kept, since words stand next to it."""
        alone = self._tokens.get(text.strip()) if len(text.strip()) == 1 else None
        blocks = (Paragraph(cast("Spans", (self._inline_branch(alone),))),) if isinstance(alone, RawBranch) else self.blocks(text)
        if not blocks:
            return (Text(" "),) if text else ()
        only = blocks[0]
        if len(blocks) > 1 or not isinstance(only, Paragraph):
            self._complain("prose-branch", "several paragraphs, a list or a table inside a line", text)
            return ()
        lead = (Text(" "),) if text[0].isspace() else ()
        tail = (Text(" "),) if text[-1].isspace() else ()
        return (*lead, *only.spans, *tail)

    def _code(self, text: str) -> Nodes:
        pieces: list[str | Hole] = []
        plain = ""
        for character in text:
            token = self._tokens.get(character)
            if isinstance(token, RawBranch):
                self._complain("prose-branch", "a branch inside a code span", text)
                return ()
            if token is None:
                plain += character
            else:
                pieces.extend([plain, token] if plain else [token])
                plain = ""
        if plain:
            pieces.append(plain)
        if pieces != [text]:
            return (Notation(tuple(pieces)),)
        try:
            set_ = self._inscribe(text)
        except Faulty as trouble:
            line = self._line(f"`{text}`")
            self.faults.extend(each.at(line=line) for each in trouble.faults)
            return ()
        return (set_ if set_ is not None else Notation((text,)),)

    def _link(self, element: Element) -> Nodes:
        target = element.get("href", "")
        if not _allowed(target):
            shown = "".join("…" if self._tokens.get(each) else each for each in target)
            hint = "Write it as `[words](https://…)`."
            line = self._line(target)
            fault = Fault("prose-link", "a link to https, mailto or a page beside", f"`{shown}`", hint, line=line)
            self.faults.append(fault)
        return (Link(target, self._spans(element)),)

    # -------------------------------------------------------------- faults

    def _complain(self, code: str, found: str, near: str) -> None:
        expected, hint = _EXPECTED[code]
        self.faults.append(Fault(code, expected, found, hint, line=self._line(near)))

    def _line(self, near: str) -> int:
        """The line of the source where these words stand first; the first line if they can't be found."""
        longest = max(re.split("[\ue000-\uf8ff\n]", near), key=len, default="").strip()
        return self._source.count("\n", 0, max(0, self._source.find(longest))) + 1


_EXPECTED = {
    "prose-block": (
        "paragraphs, lists and tables",
        "Headings and drawings come from other keys; emphasis is `**strong**` or `*light*`.",
    ),
    "prose-branch": ("words inside the line", "Leave an empty line before and after the branch to branch whole paragraphs."),
}
_BLOCK_TAGS = frozenset({"p", "ul", "ol", "table", *_REFUSED}) - {"img"}


@cache
def _library() -> markdown.Markdown:
    """Make the library once, with raw HTML, entities, automatic links and references off, and tables on."""
    library = markdown.Markdown(extensions=[TableExtension()], output_format="xhtml")
    for registry, names in _OFF.items():
        for name in names:
            getattr(library, registry).deregister(name)
    library.parser.blockprocessors.deregister("reference")
    return library


def _element_tree(text: str) -> Element:
    """Give the library's element tree of a text, inline patterns done."""
    library = _library().reset()
    lines = text.split("\n")
    try:
        for step in library.preprocessors:
            lines = step.run(lines)
        root = cast("Element", library.parser.parseDocument(lines).getroot())
        for treatment in library.treeprocessors:
            changed = treatment.run(root)
            root = root if changed is None else changed
    except RecursionError:
        raise prose_fault("prose-too-big", "few lists and emphases inside each other", "too many", "", 1) from None
    return root


def _copy_without_blocks(item: Element) -> Element:
    line = item.makeelement("p", {})
    line.text = item.text
    for child in item:
        if child.tag not in _BLOCK_TAGS:
            line.append(child)
    return line


def _words(element: Element) -> str:
    return max((text for text in element.itertext()), key=len, default="") or element.get("alt", "") or ""


def _allowed(target: str) -> bool:
    try:
        parts = urlsplit(target)
    except ValueError:  # a bracket that never closes
        return False
    if parts.scheme:
        return (
            parts.scheme in _SCHEMES
            and re.fullmatch(r"[A-Za-z0-9._~:/?#\[\]@!$&()*+,;=%-]+", target) is not None
            and (parts.scheme == "mailto" or bool(parts.netloc))
        )
    return _RELATIVE.fullmatch(target) is not None and ".." not in target
