"""What the student reads, held against what is used and keyed: data never told, and options that are names of the program."""

from __future__ import annotations

import re
from collections.abc import Iterator

from saltbridge.bank.parts import ChoosePart
from saltbridge.deliver.proof.findings import Hit
from saltbridge.deliver.proof.independent import told_names
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.document import TableField
from saltbridge.draw.drawn_figures import names_in_figure
from saltbridge.forms.conditions import NAME
from saltbridge.graph.laws import Given
from saltbridge.render.text import blocks_text, table_text

_PLAIN = str.maketrans({"−": "-", ",": ".", "\u2009": None, "\u202f": None, "\u00a0": None})


def data_told(seen: Seen) -> Iterator[Hit]:
    """A measured value that an answer follows from and that stands neither in what is read nor on the data sheet.

    A bare whole number may be told in words ("on both faces").
    """
    told, read = told_names(seen.template, seen.drawn) | names_in_figure(seen.template.figure, seen.drawn), ""
    for place, find in seen.finds:
        for step in seen.drawn.graph.upstream(find.node):
            given = seen.drawn.situation.given.get(step.node)
            name = step.node.partition(":")[0]
            if given is None or name in told or not _must_be_told(given):
                continue
            read = read or _plain(text_read(seen))
            if not re.search(rf"(?<![0-9.]){re.escape(_plain(given.printed).lstrip('-'))}(?![0-9])", read):
                expected = f"a text that tells {name}, from which {find.name} follows"
                hint = f"Say it in the text: `{{{{ {name} }}}}`."
                yield Hit("not-told", f"{place}.find", expected, "it stands nowhere", hint, value=name)


def _must_be_told(given: Given) -> bool:
    if given.how != "given" or not isinstance(given.value, float):
        return False
    return bool(given.unit) or not given.value.is_integer()


def text_read(seen: Seen) -> str:
    """What stands there before anything is answered."""
    blocks = [*seen.question.blocks, *(block for part in seen.question.parts for block in part.body)]
    tables = [table_text(part.field, seen.variant.slots) for part in seen.question.parts if isinstance(part.field, TableField)]
    return "\n".join([blocks_text(blocks, seen.variant), *tables])


def _plain(text: str) -> str:
    """Numbers as the data files write them, whatever the bank's locale."""
    return text.translate(_PLAIN)


def options_in_words(seen: Seen) -> Iterator[Hit]:
    """Options that would be printed as a name of the program: a misspelt name with a dot, or an inner key."""
    known = seen.drawn.names()
    for asked in seen.asked:
        for option in asked.part.options if isinstance(asked.part, ChoosePart) else ():
            inner = "_" in option.text or "." in option.text
            if inner and NAME.fullmatch(option.text) and option.text not in known:
                hint = seen.drawn.unknown_fault(option.text).hint
                yield Hit("option-not-words", f"{asked.key}.from", "words that a student reads, or a name of this scenario", f"`{option.text}`", hint, value=option.text)  # fmt: skip
