"""Right templates of every kind, the bank round them, and the whole way from bytes to a page: what hostile files are made from."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from saltbridge import build, words
from saltbridge.bank.bank import Bank, load_bank, read_template
from saltbridge.forms.strict_yaml import parse_yaml
from saltbridge.forms.validation_messages import Reading
from saltbridge.home import shipped
from saltbridge.render import pages

BANK = "format: 1\nid: ferry\ntitle: Ferry bank\n"

CELL = """\
title: Cell potential of two metals
outcome: T3.4
level: core
use: [practice, homework]
context: [ferry, lamp]
scenario:
  galvanic cell:
    metals: [Zn, Cu, Ag, Ni]
    concentrations: {from: [0.010, 0.10, 1.0]}
    temperature: 25 °C
keep only if: E0_cell >= 0.20 V
must reveal: [add-both-as-printed]
figure: galvanic cell
text: |
  {% if context == "ferry" %}A **ferry** light{% else %}A lamp{% endif %} runs on {{ left.metal | name }} in `{{ left.ion }}(aq)`
  and {{ right.metal | name }}; see [the sheet](sheet.html).

  - left: {{ left.c }}
  - right: {{ right.c }}
parts:
  - ask: Which electrode is the anode?
    choose: anode.metal
    from: [left.metal, right.metal]
  - ask: Write the equation, such as `2Ag^+ + Zn -> 2Ag + Zn^2+`.
    balance: cell equation
  - ask: Calculate the standard cell potential.
    find: E0_cell
    decimals: 2
    hint: Look at the *sheet*.
  - ask: Calculate the potential.
    find: E_cell
"""

PLATING = """\
title: Plating a rail
outcome: T6.8
level: core
scenario:
  electrolysis:
    metals: [Cu, Ag]
    current: {between: [0.20 A, 1.00 A], step: 0.05 A}
    time: {from: [20 min, 30 min]}
    efficiency: 95 %
keep only if: [m >= 0.010 g]
rules: [R-LAB]
given: [M]
text: A rail is plated with {{ product.metal }} at {{ I }} for {{ t }}; efficiency {{ efficiency }}.
parts:
  - ask: Calculate the mass of {{ product.metal }}.
    find: m
    in: g
    figures: 3
"""

STRIPS = """\
title: Strips on paper
outcome: T9.2
level: introductory
scenario:
  bench:
    reference: Cu
    metals: [Zn, Fe, Sn, Ag]
    scatter: 0.02 V
    model: own ions
text: Strips lie on paper beside a plate.
parts:
  - ask: Put the metals in order.
    order: metals
    by: reading
    direction: ascending
"""

TWICE = """\
title: Silver on both sides
outcome: T4.6
level: advanced
scenario:
  galvanic cell:
    couples: [Ag^+/Ag]
    half cells: same
    concentrations: {from: [0.0010, 0.010, 0.10, 1.0]}
    temperature: {between: [20 °C, 30 °C], step: 5 °C}
figure: number line
text: Two `Ag(s)` wires dip into solutions of `Ag^+(aq)` at {{ T }}.
parts:
  - ask: What is the potential?
    find: E_cell
    in: mV
    figures: 3
"""

SAMPLES = {"cell": CELL, "plating": PLATING, "strips": STRIPS, "twice": TWICE} | {
    path.stem: path.read_text(encoding="utf-8") for path in sorted(shipped("question_templates").glob("*/*.yaml"))
}


def write_bank(folder: Path, files: dict[str, str | bytes]) -> Path:
    """A bank folder with ``bank.yaml``, unless given, and these files."""
    for name, content in {"bank.yaml": BANK, **files}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)
    return folder


@cache
def sample_bank() -> Bank:
    """The bank that templates are tried in: the shipped one."""
    return load_bank(shipped("question_templates"))


def page_of(raw: bytes, variants: int = 1) -> str:
    """The whole way: bytes of a template file → its page as HTML. Raises ``Faulty``."""
    bank = sample_bank()
    template = read_template(parse_yaml(raw, "t.yaml"), "t.yaml", Reading(rows=bank.sheet.rows))
    questions, made = build.practice_variants(bank, template, variants)
    return pages.question_page(questions, made, build.frame_of(bank), words.catalogue("en"), level=template.level, outcome="o")
