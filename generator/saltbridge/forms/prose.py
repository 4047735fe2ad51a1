"""Prose: Markdown with holes, parsed once into document blocks; a variant only fills the holes.

Blocks and spans are those of ``document`` with three kinds more (``Hole``, ``Notation``, ``Branch``), which stand where
spans or blocks stand until compose turns them into slots. A code span is chemistry and nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, fields, is_dataclass

from saltbridge.chemistry.diagrams import parse_diagram
from saltbridge.chemistry.equations import parse_equation
from saltbridge.chemistry.inscriptions import in_english, inscribe_equation, inscribe_species
from saltbridge.chemistry.species import parse_species
from saltbridge.document import Inscription
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.blocks import BlockReader
from saltbridge.forms.conditions import Condition
from saltbridge.forms.holes import FILTERS, Hole, prose_fault, tokenise
from saltbridge.forms.prose_nodes import Branch, Notation, ProseNode
from saltbridge.forms.validation_messages import Say
from saltbridge.tables import SheetRow

__all__ = ["FILTERS", "Branch", "Hole", "Notation", "Prose", "ProseNode", "inscribe", "read_prose"]

MOST_MARKS = 300  # each kind of mark that Markdown has to pair up


@dataclass(frozen=True, slots=True)
class Prose:
    """A parsed text. ``source`` is what the teacher wrote; ``blocks`` are Paragraph, Items, Grid or Branch.

    ``names`` are those that it looks up, in holes, notations and conditions, each once; ``conditions`` those of its branches.
    """

    source: str
    blocks: tuple[ProseNode, ...] = field(repr=False)
    names: tuple[str, ...] = field(init=False, repr=False, compare=False)
    conditions: tuple[Condition, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        found = tuple(_lookups(self.blocks))
        names = (name for each in found for name in ((each.name,) if isinstance(each, Hole) else each.names))
        object.__setattr__(self, "names", tuple(dict.fromkeys(names)))
        object.__setattr__(self, "conditions", tuple(each for each in found if isinstance(each, Condition)))


def _lookups(node: object) -> Iterator[Hole | Condition]:
    if isinstance(node, Hole | Condition):
        yield node
    elif isinstance(node, tuple):
        for each in node:
            yield from _lookups(each)
    elif is_dataclass(node):
        for each in fields(node):
            yield from _lookups(getattr(node, each.name))


def read_prose(source: str, rows: Sequence[SheetRow] = (), say: Say = in_english) -> Prose:
    """Parse a text. ``rows`` of the data sheet check the diagrams in it; ``say`` gives spoken words in the bank's language.

    Raises ``Faulty`` with every fault found; their lines count from the first line of the text.
    """
    text, tokens = tokenise(source)
    faults = [*_raw_html(source), *_typed_numbers(source)]
    _refuse_too_many_marks(source)
    reader = BlockReader(source, tokens, lambda span: inscribe(span, rows, say))
    blocks = reader.blocks(text)
    faults.extend(reader.faults)
    if faults:
        raise Faulty(sorted(faults, key=lambda fault: fault.line))
    return Prose(source, blocks)


def inscribe(span: str, rows: Sequence[SheetRow] = (), say: Say = in_english) -> Inscription | None:
    """Set a species or an equation. A cell diagram is only checked (against ``rows``, if any) and gives None.

    Raises ``Faulty``.
    """
    text = span.strip()
    if re.search(r"\||¦|‖", text):
        if rows:
            parse_diagram(text, rows)
        return None
    if re.search(r"->|→|<=>|⇌|\s=\s", text):
        return inscribe_equation(parse_equation(text), phase=True, say=say)
    return inscribe_species(parse_species(text), phase=True, say=say)


# ------------------------------------------------------------------ what a text may not hold


def _blanked(source: str, pattern: str) -> str:
    """The text with every match replaced by as many spaces, so that places stay where they are."""
    return re.sub(pattern, lambda found: re.sub(r"[^\n]", " ", found[0]), source, flags=re.DOTALL)


_TAGS = r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}"
_CODE = r"`[^`]*`"


def _line(source: str, position: int) -> int:
    return source.count("\n", 0, position) + 1


def _raw_html(source: str) -> Iterator[Fault]:
    """Give the first piece of HTML on each line."""
    for number, line in enumerate(_blanked(_blanked(source, _TAGS), _CODE).split("\n"), 1):
        if found := re.search(r"<[A-Za-z!?/][^>]{0,30}>?", line):
            hint = "Write `**strong**`, `*light*`, `[words](https://…)`, or put a space after the `<`."
            yield Fault("raw-html", "Markdown without HTML", f"`{found[0]}`", hint, line=number)


_NUMBER = r"[0-9][0-9 .,\u2009\u202f]{0,20}"  # counted, so that a long row of digits costs no more than its length
_SPACE = r"[ \u00a0\u2009\u202f\n]{0,6}"
_PER_MOLE = r"(?:k?g|k?J|C)(?:/mol|[ ·]mol(?:\^?-1|⁻¹))"
_PER_KELVIN = r"J/\(mol[ ·]K\)|J[ ·](?:K(?:\^?-1|⁻¹)[ ·]mol(?:\^?-1|⁻¹)?|mol(?:\^?-1|⁻¹)[ ·]K(?:\^?-1|⁻¹)?)"
_TYPED = (
    (
        rf"(?<![\w.,]){_NUMBER}{_SPACE}(?:[mk]?V)(?![\w])",
        "a potential",
        "Write a hole such as `{{ left.E0 }}` or `{{ E_cell }}`.",
    ),
    (
        rf"(?<![\w.,]){_NUMBER}{_SPACE}(?:{_PER_KELVIN}|{_PER_MOLE})",
        "a molar mass, a molar energy or a constant",
        "It stands on the data sheet; write a hole such as `{{ M }}` or `{{ F }}` where the text needs it.",
    ),
    (
        r"(?<![\w.,])(?:96[ \u2009\u202f]?(?:485|500)|8[.,]314[0-9]{0,9}|0[.,]059(?:2|16)?|0[.,]0257|6[.,]022)(?![0-9])",
        "a constant",
        "It stands on the data sheet; write a hole such as `{{ F }}`, `{{ R }}` or `{{ slope }}`.",
    ),
)


def _typed_numbers(source: str) -> Iterator[Fault]:
    """Potentials, molar masses and constants come from the data sheet; concentrations, temperatures and counts may be typed."""
    text = _blanked(_blanked(source, _TAGS), _CODE).replace("*", " ").replace("_", " ")
    taken: list[range] = []
    for pattern, what, hint in _TYPED:
        for found in re.finditer(pattern, text):
            if any(found.start() in each for each in taken):
                continue
            taken.append(range(found.start(), found.end()))
            shown = " ".join(found[0].split())
            yield Fault(
                "typed-number",
                "no number that the data sheet prints",
                f"`{shown}`, {what}",
                hint,
                line=_line(source, found.start()),
            )


def _refuse_too_many_marks(source: str) -> None:
    for mark in "[]*_`!\\|<>":
        if source.count(mark) > MOST_MARKS:
            raise prose_fault(
                "prose-too-big", f"at most {MOST_MARKS} of each mark", f"{source.count(mark)} times `{mark}`", "", 1
            )
