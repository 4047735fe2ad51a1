"""Texts and shortcuts shared by the tests of the bank room."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from saltbridge.bank.bank import load_bank, read_template
from saltbridge.bank.parts import PART_KINDS
from saltbridge.faults import Faulty
from saltbridge.forms.strict_yaml import parse_yaml
from saltbridge.forms.validation_messages import Reading

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from saltbridge.bank.template import Template

ASKED = ", ".join(f"`{kind}`" for kind in PART_KINDS[:-1]) + f" and `{PART_KINDS[-1]}`"
"""The keys of which a part has exactly one, as a message lists them."""

BANK = "format: 1\nid: harbour\ntitle: Harbour bank\n"

GALVANIC = """\
title: Cell potential of two metals
outcome: T3.4
level: core
scenario:
  galvanic cell:
    metals: [Zn, Cu, Ag]
keep only if: E0_cell >= 0.20 V
text: A {{ left.metal | name }} strip stands in `{{ left.ion }}`.
parts:
  - ask: Which electrode is the anode?
    choose: anode.metal
    from: [left.metal, right.metal]
  - ask: Calculate the standard cell potential.
    find: E0_cell
    decimals: 2
"""


def template_of(text: str) -> Template:
    """The template of a YAML text, as if read from ``t.yaml``."""
    return read_template(parse_yaml(text.encode(), "t.yaml"), "t.yaml", Reading())


def changed(old: str, new: str, text: str = GALVANIC) -> str:
    """The sample with one text replaced; the text must be there."""
    assert text.count(old) == 1
    return text.replace(old, new)


def messages(work: Callable[[], object]) -> list[str]:
    """The whole messages of the faults that the work raises."""
    with pytest.raises(Faulty) as caught:
        work()
    return [str(fault) for fault in caught.value.faults]


def template_messages(old: str, new: str) -> list[str]:
    """The messages for the sample with one text replaced."""
    return messages(lambda: template_of(changed(old, new)))


def write_bank(folder: Path, **files: str) -> Path:
    """A bank folder with ``bank.yaml`` and the files given by name, ``__`` for a slash and ``_yaml`` for the ending."""
    for name, text in {"bank_yaml": BANK, **files}.items():
        path = folder / name.replace("__", "/").replace("_yaml", ".yaml").replace("_", "-")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def bank_messages(folder: Path) -> list[str]:
    """The whole messages of a bank that can't be loaded."""
    return messages(lambda: load_bank(folder))
