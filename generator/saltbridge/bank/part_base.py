"""What every kind of part has."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import Field

from saltbridge.forms.fields import Counted, Keys
from saltbridge.forms.prose import Prose
from saltbridge.forms.value_types import Markdown


class PartKeys(Keys):
    """A part (a), (b)… of a question."""

    ask: Markdown = Field(description="The question, in Markdown with holes.")
    marks: Counted | None = Field(None, description="Marks; without it, the marking policy counts the steps.")
    hint: Markdown | None = Field(None, description="A first hint in your own words; further hints come from the working.")

    @property
    def stands_alone(self) -> bool:
        """Whether it may be asked without a scenario."""
        return False

    def texts(self) -> Iterator[tuple[str, Prose]]:
        """Every text that it prints, each at its key."""
        found = ((key, getattr(self, key, None)) for key in ("ask", "hint", "why"))
        yield from ((key, text) for key, text in found if isinstance(text, Prose))
