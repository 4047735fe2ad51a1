"""What every kind of part has."""

from __future__ import annotations

from pydantic import Field

from saltbridge.forms.fields import Counted, Keys
from saltbridge.forms.value_types import Markdown


class PartKeys(Keys):
    """A part (a), (b)… of a question."""

    ask: Markdown = Field(description="The question, in Markdown with holes.")
    marks: Counted | None = Field(None, description="Marks; without it, the marking policy counts the steps.")
    hint: Markdown | None = Field(None, description="A first hint in your own words; further hints come from the working.")
