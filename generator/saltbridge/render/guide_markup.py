"""The guide for authors, Markdown of our own, as HTML for the site."""

from __future__ import annotations

import re
from functools import cache

from markdown import Markdown

from saltbridge.home import shipped

_PAGES = {'href="NAMES.md"': 'href="names.html"', 'href="GUIDE.md"': 'href="authors.html"'}
_WIDE = {
    "<table>": '<div class="grid" tabindex="0" role="group" aria-label="Table"><table>',
    "</table>": "</table></div>",
    "<pre>": '<pre tabindex="0" role="group" aria-label="As it is written">',
}
"""What may be wider than a screen scrolls by itself, and can be reached by keyboard."""


@cache
def guide_html(source: str) -> str:
    """A file of the data folder as HTML, without its title's own page around it."""
    text = (shipped("data") / source).read_text(encoding="utf-8")
    html = Markdown(extensions=["tables", "fenced_code", "toc"], output_format="html").convert(text)
    for old, new in (_PAGES | _WIDE).items():
        html = html.replace(old, new)
    html = re.sub(r"<th>", '<th scope="col">', html)
    return re.sub(r"<code>([^<]*)</code>", lambda code: f"<code>{code[1].replace(chr(92) + '|', '|')}</code>", html)
