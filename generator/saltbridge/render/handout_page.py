"""A sheet for hands or for reading as one HTML file: no script, no request."""

from __future__ import annotations

from collections.abc import Iterator

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from saltbridge.document import Block, Caution, Figure, Handout, Items
from saltbridge.home import shipped
from saltbridge.render.figures import sprites
from saltbridge.render.html import blocks_html
from saltbridge.render.payload import digest
from saltbridge.words import Words

_STYLES = ("site.css", "frame.css", "question.css")


def handout_page(handout: Handout, words: Words, language: str) -> str:
    """The handout as an HTML file that needs nothing else."""
    style = "\n".join((shipped("site") / "styles" / name).read_text(encoding="utf-8") for name in _STYLES)
    loader = FileSystemLoader(shipped("site") / "layouts")
    layouts = Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    sections = [(each.heading, Markup(blocks_html(each.blocks, words))) for each in handout.sections]  # noqa: S704 - escaped by our writers
    return layouts.get_template("handout.html").render(
        handout=handout,
        words=words,
        language=language,
        csp=f"default-src 'none'; style-src '{digest(style)}'; img-src data:; base-uri 'none'; form-action 'none'",
        style=Markup(style),  # noqa: S704 - our own file
        lead=Markup(blocks_html(handout.lead, words)),  # noqa: S704 - escaped by our writers
        sections=sections,
        sprites=Markup(sprites(_figures(handout))),  # noqa: S704 - escaped by our writers
    )


def _figures(handout: Handout) -> list[Figure]:
    return [figure for blocks in (handout.lead, *(each.blocks for each in handout.sections)) for figure in _within(blocks)]


def _within(blocks: tuple[Block, ...]) -> Iterator[Figure]:
    for block in blocks:
        if isinstance(block, Figure):
            yield block
        elif isinstance(block, Caution):
            yield from _within(block.blocks)
        elif isinstance(block, Items):
            for item in block.items:
                yield from _within(item)
