"""A bank with planted faults: each entry changes one sound template, sheet, catalogue or settings file at one place."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

CELL = """\
title: {title}
outcome: T3.4
level: core
scenario:
  galvanic cell:
    metals: [Zn, Fe, Ni, Cu, Ag, Pb]
keep only if: E0_cell >= 0.20 V
rules: [R-WATER, R-CLOSE, R-BRIDGE]
must reveal: [add-both-as-printed]
figure: galvanic cell
text: |
  A strip of {{ left.metal }} stands in a solution of `{{ left.ion }}`.
  A strip of {{ right.metal }} stands in a solution of `{{ right.ion }}`.
parts:
  - ask: Which metal is the anode?
    choose: anode.metal
    from: [left.metal, right.metal]
  - ask: Calculate the standard cell potential.
    find: E0_cell
    decimals: 2
  - ask: Write the equation of the cell reaction.
    balance: cell equation
"""

BATH = """\
title: {title}
outcome: T6.8
level: core
scenario:
  electrolysis:
    metals: [Cu, Ag, Ni]
    current: {between: [0.21 A, 1.51 A], step: 0.02 A}
    time: {from: [11 min, 13 min, 17 min, 19 min, 23 min]}
rules: [R-LAB]
must reveal: [minutes-used-as-seconds]
text: |
  A current of {{ I }} flows for {{ t }} through a solution of `{{ product.ion }}`.

  {{ caution }}
parts:
  - ask: Calculate the mass of metal.
    find: m
    in: g
    figures: 3
"""

BENCH = """\
title: {title}
outcome: T9.3
level: core
scenario:
  bench:
    reference: Cu
    metals: [Zn, Fe, Ag]
    scatter: 0.02 V
text: |
  | red lead on | reading |
  | --- | --- |
  | {{ s1.metal }} | {{ s1.reading }} |
  | {{ s2.metal }} | {{ s2.reading }} |
  | {{ s3.metal }} | {{ s3.reading }} |

  {{ safety.general }} {{ safety.rules }}
parts:
  - ask: Put the metals in order.
    order: metals
    by: reading
    direction: ascending
  - ask: Predict the reading of the pair.
    find: reading_pair
    decimals: 2
"""


STORY = CELL.replace("level: core\n", "level: core\ncontext: [quay, lock]\n").replace(
    "A strip of {{ left.metal }} stands", '{% if context == "quay" %}A{% else %}One{% endif %} strip of {{ left.metal }} stands'
)


class Plant(NamedTuple):
    """One fault: what is replaced in which base by what, the code expected, and the line (0: where the text first differs)."""

    name: str
    base: str
    old: str
    new: str
    code: str
    line: int = 0

    @property
    def file(self) -> str:
        """The file of the bank that carries it."""
        return f"planted/{self.name}.yaml"

    @property
    def sound(self) -> str:
        """The base with the plant's own title."""
        return self.base.replace("{title}", f"Planted {self.name}")

    @property
    def text(self) -> str:
        """The file's text with the fault in it."""
        assert self.sound.count(self.old) == 1, self.name
        return self.sound.replace(self.old, self.new)

    @property
    def at(self) -> int:
        """The line on which it must be told."""
        return self.line or first_difference(self.sound, self.text)


def first_difference(sound: str, faulty: str) -> int:
    """The first line in which two texts differ."""
    pairs = zip(sound.splitlines(), faulty.splitlines(), strict=False)
    return next(number for number, (one, other) in enumerate(pairs, 1) if one != other)


PLANTS = (
    # the file itself
    Plant("tab-in-yaml", CELL, "  galvanic cell:\n", "\tgalvanic cell:\n", "yaml-tab"),
    Plant("open-bracket", CELL, "[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn, Fe", "yaml-syntax", 7),
    Plant("key-twice", CELL, "level: core\n", "level: core\nlevel: core\n", "duplicate-key", 4),
    Plant("anchor", CELL, "level: core", "level: &a core", "yaml-anchor"),
    Plant("tag", CELL, "level: core", "level: !x core", "yaml-tag"),
    # keys and words
    Plant("unknown-key", CELL, "keep only if:", "keep if:", "unknown-key"),
    Plant("missing-outcome", CELL, "outcome: T3.4\n", "", "missing-key", 1),
    Plant("unknown-outcome", CELL, "T3.4", "T3.44", "unknown-outcome"),
    Plant("unknown-level", CELL, "level: core", "level: easy", "unknown-word"),
    Plant("minutes-as-time", CELL, "level: core", "level: core\nminutes: 1:30", "wrong-type", 4),
    Plant("endless-title", CELL, "title: Planted endless-title", "title: " + "long " * 30, "too-long"),
    Plant("unknown-use", CELL, "level: core", "level: core\nuse: [practice, test]", "unknown-word", 4),
    Plant("use-twice", CELL, "level: core", "level: core\nuse: [exam, exam]", "repeated", 4),
    Plant("exam-and-practice", CELL, "level: core", "level: core\nuse: [practice, exam]", "exam-open", 4),
    # the scenario
    Plant("unknown-metal", CELL, "[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn, Fe, Xx]", "unknown-metal"),
    Plant("one-metal", CELL, "[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn]", "half-cells", 5),
    Plant("metal-twice", CELL, "[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn, Fe, Zn]", "repeated"),
    Plant("unknown-couple", CELL, "metals: [Zn, Fe, Ni, Cu, Ag, Pb]", "couples: [Zn^2+/Zn, Cu^2+/Co]", "unknown-couple"),
    Plant("concentration-in-volts", CELL, "Ag, Pb]\n", "Ag, Pb]\n    concentrations: {from: [0.10, 1.0 V]}\n", "quantity-kind", 7),
    Plant("negative-concentration", CELL, "Ag, Pb]\n", "Ag, Pb]\n    concentrations: -1 mol/L\n", "quantity-sign", 7),
    Plant("same-without-strengths", CELL, "Ag, Pb]\n", "Ag, Pb]\n    half cells: same\n", "half-cells", 5),
    Plant("unknown-swap", CELL, "Ag, Pb]\n", "Ag, Pb]\n    swap sides: often\n", "unknown-word", 7),
    Plant("grid-misses-its-end", BATH, "1.51 A", "1.50 A", "drawn"),
    Plant("three-givens", BATH, "rules:", "    mass: 1 g\nrules:", "two-of", 5),
    Plant("current-in-grams", BATH, "{between: [0.21 A, 1.51 A], step: 0.02 A}", "0.50 g", "quantity-kind"),
    Plant("reference-among-metals", BENCH, "[Zn, Fe, Ag]", "[Zn, Cu, Ag]", "bench-reference", 5),
    Plant("scatter-in-grams", BENCH, "scatter: 0.02 V", "scatter: 0.02 g", "quantity-kind", 5),
    # conditions and rules
    Plant("no-comparison", CELL, "E0_cell >= 0.20 V", "E0_cell => 0.20 V", "condition"),
    Plant("name-not-there", CELL, "E0_cell >= 0.20 V", "E0_sell >= 0.20 V", "unknown-name"),
    Plant("volts-against-amperes", CELL, "E0_cell >= 0.20 V", "E0_cell >= 0.20 A", "dimension"),
    Plant("never-true", CELL, "E0_cell >= 0.20 V", "E0_cell >= 20 V", "rejects-almost-every-draw"),
    Plant("order-of-words", CELL, "E0_cell >= 0.20 V", "left.metal >= right.metal", "condition-kind"),
    Plant("unknown-rule", CELL, "R-CLOSE", "R-CLSE", "unknown-rule"),
    Plant("rule-against-all", BATH, "{between: [0.21 A, 1.51 A], step: 0.02 A}", "{from: [21 A, 151 A]}", "rejects-almost-every-draw", 9),
    # slips
    Plant("unknown-slip", CELL, "[add-both-as-printed]", "[add-both-as-prnted]", "unknown-slip"),
    Plant("slip-of-another-kind", CELL, "[add-both-as-printed]", "[minutes-used-as-seconds]", "rejects-almost-every-draw"),
    Plant("slip-written-odd", CELL, "[add-both-as-printed]", "[Add both]", "identifier"),
    # prose
    Plant("typed-potential", CELL, "the standard cell potential.", "the standard cell potential. Is it 1.10 V?", "typed-number"),
    Plant("typed-molar-mass", BATH, "the mass of metal.", "the mass of metal. Take 63.5 g/mol.", "typed-number"),
    Plant("typed-faraday", BATH, "the mass of metal.", "the mass of metal. Take 96 485.", "typed-number"),
    Plant("raw-html", CELL, "A strip of {{ left.metal }} stands", "A <b>strip</b> of {{ left.metal }} stands", "raw-html"),
    Plant("script-link", CELL, "Which metal is the anode?", "Which [metal](javascript:alert) is the anode?", "prose-link"),
    Plant("picture", CELL, "Which metal is the anode?", "Which ![metal](a.png) is the anode?", "prose-block"),
    Plant("call-in-a-hole", CELL, "{{ left.metal }}", "{{ left.metal() }}", "prose-forbidden"),
    Plant("open-hole", CELL, "{{ left.metal }}", "{{ left.metal", "prose-syntax"),
    Plant("unknown-filter", CELL, "{{ left.metal }}", "{{ left.metal | upper }}", "unknown-filter"),
    Plant("hole-not-there", CELL, "{{ left.metal }}", "{{ left.mettle }}", "unknown-name", 11),
    Plant("ion-unreadable", CELL, "`{{ left.ion }}`", "`Zn^2x`", "species-unread"),
    Plant("equation-unreadable", CELL, "Which metal is the anode?", "Is `Zn + Ag^+ -> Zn^2+ + -> Ag` right?", "equation-unread"),
    Plant("answer-in-the-text", CELL, "{{ right.metal }} stands", "{{ right.metal }} ({{ E0_cell }}) stands", "answer-told", 11),
    Plant("answer-in-the-hint", CELL, "    decimals: 2", "    decimals: 2\n    hint: It is {{ E0_cell }}.", "answer-told", 21),
    # parts, marks, options, units
    Plant("no-kind", CELL, "    find: E0_cell\n", "", "part-kind", 18),
    Plant("two-kinds", CELL, "    find: E0_cell\n", "    find: E0_cell\n    balance: cell equation\n", "part-kind", 18),
    Plant("quantity-not-there", CELL, "find: E0_cell", "find: E0_sell", "unknown-quantity"),
    Plant("not-derivable", CELL, "find: E0_cell", "find: m", "not-derivable"),
    Plant("figures-and-decimals", CELL, "decimals: 2", "decimals: 2\n    figures: 3", "rounding", 18),
    Plant("half-a-decimal", CELL, "decimals: 2", "decimals: 2.5", "wrong-type"),
    Plant("current-not-told", BATH, "A current of {{ I }} flows", "A current flows", "not-told", 17),
    Plant("no-caution-at-the-bath", BATH, "\n\n  {{ caution }}", "", "no-caution", 11),
    Plant("no-caution-on-the-bench", BENCH, "  {{ safety.general }} {{ safety.rules }}\n", "", "no-caution", 9),
    Plant("electrolysis-at-home", BATH, "A current of", "At home, a current of", "not-at-home", 11),
    Plant("silver-at-home", CELL, "A strip of {{ left.metal }} stands", "In your kitchen a strip of {{ left.metal }} stands", "not-at-home", 11),
    Plant("context-not-listed", STORY, 'context == "quay"', 'context == "key"', "condition-word", 12),
    Plant("no-row-to-hide", CELL, "figure: galvanic cell", "figure: galvanic cell\nhide row: true", "no-row-to-hide", 11),
    Plant("bridge-that-falls-out", CELL, "Ag, Pb]\n", "Ag, Pb]\n    bridge: NaOH\n", "rejects-almost-every-draw", 9),
    Plant("option-misspelt", CELL, "[left.metal, right.metal]", "[left.metal, right.metal, cathode.metl]", "option-not-words"),
    Plant("option-inner-key", CELL, "[left.metal, right.metal]", "[left.metal, right.metal, charge_minus]", "option-not-words"),
    Plant("unknown-unit", BATH, "in: g", "in: ggg", "unit"),
    Plant("unit-of-another-kind", BATH, "in: g", "in: mol", "dimension"),
    Plant("one-option", CELL, "from: [left.metal, right.metal]", "from: [left.metal]", "list-length"),
    Plant("no-right-option", CELL, "from: [left.metal, right.metal]", "from: [gold, tin]", "no-right-option"),
    Plant("option-twice", CELL, "from: [left.metal, right.metal]", "from: [left.metal, left.metal]", "repeated"),
    Plant("marks-of-the-line", CELL, "decimals: 2", "decimals: 2\n    marks: 5", "marks", 21),
    Plant("no-marks", CELL, "decimals: 2", "decimals: 2\n    marks: many", "wrong-type", 21),
    Plant("unknown-balance", CELL, "balance: cell equation", "balance: all", "unknown-word"),
    Plant("unknown-direction", BENCH, "direction: ascending", "direction: up", "unknown-word"),
    Plant("order-by-nothing", BENCH, "by: reading", "by: weight", "unknown-name"),
    Plant("figure-of-a-cell", BATH, "rules: [R-LAB]", "rules: [R-LAB]\nfigure: galvanic cell", "figure", 10),
)  # fmt: skip

SOUND = (("sound/cell.yaml", CELL), ("sound/bath.yaml", BATH), ("sound/bench.yaml", BENCH))

BANK = """\
format: 1
id: planted
title: A bank with planted faults
language: klingon
decimal mark: dot
papr: a4
data sheet: sheets/ours.yaml
marking policy: stepz
publish unsigned: perhaps
licence: free for all
"""
BANK_FAULTS = (
    (4, "language"),
    (5, "unknown-word"),
    (6, "unknown-key"),
    (8, "marking-policy"),
    (9, "unknown-word"),
    (10, "licence"),
)

SHEET_CHANGES = (
    ("Zn^2+/Zn: -0.76", "Zn^2+/Zn: -0,76", "bad-number"),
    ("Cu^2+/Cu: 0.34", "Cu^2+/Co: 0.34", "unknown-couple"),
    ("  Zn: 65.4", "  Zn: 6.54", "implausible"),
    ("order: upward", "order: sideways", "bad-value"),
    ("printed: 96500", "printed: 9650", "implausible"),
)

RELATIONS = """\
ours-without-equation:
  family: Cell potential
  say: A sentence.
  valid: always
  source: ours
ours-of-unknown-things:
  family: Cell potential
  equation: E_cell = E_cathode - E_floor
  say: A sentence.
  valid: always
  source: ours
  cases:
    - {E_cell: 1.0, E_cathode: 1.0, E_floor: 0.0, source: ours}
    - {E_cell: 2.0, E_cathode: 2.0, E_floor: 0.0, source: ours}
"""
SLIPS = """\
ours-without-hint:
  at: nernst
  instead: E_cell = E0_cell
  source: ours
ours-nowhere:
  at: nernsts
  instead: E_cell = E0_cell
  hint: A question?
  source: ours
"""
CATALOGUE_FAULTS = (
    ("relations.yaml", 2, "missing-key"),
    ("relations.yaml", 8, "unknown-quantity"),
    ("slips.yaml", 2, "missing-key"),
    ("slips.yaml", 6, "unknown-relation"),
)
SIGNED = """\
cell:
  signed by: "A. Moderator"
  on: 2026-13-01
  template: "0123456789abcdef"
  data sheet: "0123456789abcdef"
  relations: "xyz"
  settings: "0123456789abcdef"
cel:
  signed by: "A. Moderator"
"""
SIGNED_FAULTS = ((3, "date"), (6, "digest"), (8, "unknown-template"))


def plant_bank(folder: Path, school_sheet: str) -> dict[tuple[str, int, str], str]:
    """Write the bank; gives every fault that must be found, as file, line and code, with its name."""
    expected: dict[tuple[str, int, str], str] = {}
    for plant in PLANTS:
        _write(folder / plant.file, plant.text)
        expected[plant.file, plant.at, plant.code] = plant.name
    for file, text in SOUND:
        _write(folder / file, text.replace("{title}", f"Sound {file[6:-5]}"))
    _write(folder / "bank.yaml", BANK)
    expected |= {("bank.yaml", line, code): f"bank {code}" for line, code in BANK_FAULTS}
    sheet = school_sheet
    for old, new, code in SHEET_CHANGES:
        assert sheet.count(f"{old}\n") + sheet.count(f"{old} ") + sheet.count(f"{old},") == 1, old
        sheet = re.sub(re.escape(old) + r"(?=[\n ,])", new, sheet)
        expected["sheets/ours.yaml", sheet[: sheet.index(new)].count("\n") + 1, code] = f"sheet {code}"
    _write(folder / "sheets" / "ours.yaml", sheet)
    _write(folder / "relations.yaml", RELATIONS)
    _write(folder / "slips.yaml", SLIPS)
    _write(folder / "signed.yaml", SIGNED)
    expected |= {place: f"catalogue {place[2]}" for place in CATALOGUE_FAULTS}
    expected |= {("signed.yaml", line, code): f"signed {code}" for line, code in SIGNED_FAULTS}
    return expected


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
