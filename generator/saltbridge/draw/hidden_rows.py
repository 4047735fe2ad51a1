"""Which rows of the data sheet a question asks for, so that a paper can leave them out, and which it reads."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.template import Template
from saltbridge.draw.drawn import Drawn
from saltbridge.draw.drawn_tables import finds_of

_ROLES = ("anode", "cathode")


def asks_for_row(name: str) -> bool:
    """Whether what is to be found stands in a row of the data sheet: the standard potential of a couple."""
    return name.rpartition(".")[2] == "E0" or name in {f"E0_{role}" for role in _ROLES}


def hidden_rows(template: Template, drawn: Drawn) -> frozenset[str]:
    """The couples, as printed, whose potential the question asks for; none where it does not want their rows hidden."""
    asked = [part.find for part in finds_of(template, drawn.lists) if asks_for_row(part.find)]
    return frozenset(_couples(asked, drawn)) if template.hide_row else frozenset()


def rows_read(drawn: Drawn) -> frozenset[str]:
    """The couples, as printed, whose potentials the question reads off the sheet."""
    situation = drawn.situation
    nodes = [node for node, given in situation.given.items() if given.how == "read" and node in situation.about]
    return frozenset(situation.labels[label].plain for node in nodes if (label := situation.about[node]) in situation.labels)


def _couples(asked: list[str], drawn: Drawn) -> Iterator[str]:
    labels = drawn.situation.labels
    for name in asked:
        owner = name.rpartition(".")[0] or name.rpartition("_")[2]
        label = labels.get(f"{owner}.couple")
        if label is not None:
            yield label.plain
