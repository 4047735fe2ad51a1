"""What every kind of part has."""

from __future__ import annotations

from pydantic import Field

from saltbridge.forms.fields import Counted, Keys
from saltbridge.forms.prose import Prose
from saltbridge.forms.validation_messages import wrong
from saltbridge.forms.value_types import Markdown


class PartKeys(Keys):
    """A part (a), (b)… of a question."""

    ask: Markdown = Field(description="The question, in Markdown with holes.")
    marks: Counted | None = Field(None, description="Marks; without it, the marking policy counts the steps.")
    hint: Markdown | None = Field(None, description="A first hint in your own words; further hints come from the working.")

    @property
    def texts(self) -> dict[str, Prose]:
        """Its texts with holes, by key; a kind with further ones adds them."""
        found = {key: getattr(self, key, None) for key in ("ask", "hint", "why")}
        return {key: text for key, text in found.items() if text is not None}

    @property
    def stands_alone(self) -> bool:
        """Whether it may be asked without a scenario."""
        return False


def one_rounding(figures: int | None, decimals: int | None) -> None:
    """Complain where a number is to be given both to figures and to decimals, or to too many."""
    if figures is not None and decimals is not None:
        raise wrong("rounding", "either `figures` or `decimals`", "both", "Keep one.")
    if figures == 0 or (figures or 0) > 10 or (decimals or 0) > 10:
        raise wrong("rounding", "1 to 10 figures, or 0 to 10 decimals", f"{figures or decimals or 0}")
