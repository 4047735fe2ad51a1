"""Where the controls of an answer stand on the page, and the box that most kinds type into."""

from __future__ import annotations

from dataclasses import dataclass

from saltbridge.render.skeleton import escape
from saltbridge.words import Words


@dataclass(frozen=True, slots=True)
class Place:
    """Where controls stand: the part's label and element name, and the legend of a group, which is the question itself."""

    label: str
    name: str
    asked: str
    words: Words

    @property
    def of_part(self) -> str:
        """The part's letter before a label, read aloud only."""
        return f'<span class="unseen">({escape(self.label)}) </span>'


def box(name: str, looks: str, told: str = "") -> str:
    """A box to type in, with the id of what is ``told`` beside it. Not ``type=number`` (scrolling changes it), nor ``inputmode=decimal`` (some phones then lack a minus)."""
    return (
        f'<input id="{name}-typed" name="typed" class="{looks}" type="text" inputmode="text" autocapitalize="off" '
        f'autocorrect="off" spellcheck="false" autocomplete="off" aria-describedby="{told and told + " "}{name}-verdict">'
    )
