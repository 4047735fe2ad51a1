"""A wrong scenario of a bank is told to its teacher: file, line, key, what was expected, and all faults at once."""

from __future__ import annotations

import pytest

from saltbridge.bank.bank import survey_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.scenario_things import THINGS
from saltbridge.faults import Faulty
from saltbridge.scenarios.things import THING_ADDERS
from saltbridge.tables import metals

KNOWN = "Known: " + ", ".join(f"`{symbol}`" for symbol in metals()) + "."
RING = """worn ring:
  is: A ring that goes into solution at a steady current.
  families: [Faraday's laws]
  draws:
    metals: {one of: metals, as: product, under: metal, needed: true, means: Metals of the ring.}
    current: {quantity: I, needed: true, means: The current.}
    time: {quantity: t, means: How long it flows.}
    mass: {quantity: m, means: The mass that is lost.}
  either: [time, mass]
  things: {product: dissolving metal}
"""
TEMPLATE = """title: A ring that wears
outcome: T3.4
level: core
scenario:
  worn ring: {metals: [Zn, Fe], current: 0.50 A, time: 20 min}
text: A ring of {{ product.metal }} gives {{ I }}.
parts:
  - ask: What mass does it lose?
    find: m
"""


def faults_of(folder, text):
    """What is told of a bank's scenarios."""
    (folder / "scenarios.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(Faulty) as caught:
        catalogue(folder)
    return [str(each) for each in caught.value.faults]


def test_the_sample_itself_is_right(tmp_path):
    (tmp_path / "scenarios.yaml").write_text(RING, encoding="utf-8")
    assert catalogue(tmp_path).scenarios["worn ring"].things == {"product": "dissolving metal"}


WRONG = [
    ("an unknown key", "either:", "eiter:", "9: worn ring.eiter: expected a key of this kind of entry; found eiter. Did you mean either? [unknown-key]"),
    ("no draws", RING[RING.index("  draws") :], "", "2: worn ring: expected the key draws; found none [missing-key]"),
    ("a name of ours", "worn ring:", "bench:", "2: bench: expected a name that saltbridge does not use; found bench. Every question reads ours. Give yours a name of its own. [redefined]"),
    ("capital letters", "worn ring:", "Worn Ring:", "2: Worn Ring: expected small letters, digits and hyphens, words with spaces between; found Worn Ring [kind]"),
    ("a family that there is not", "[Faraday's laws]", "[Faradays laws]", "3: worn ring.families: expected a family of relations or facts; found Faradays laws. Did you mean Faraday's laws? [unknown-family]"),
    ("no way of drawing", "quantity: I, needed", "needed", "6: worn ring.draws.current: expected exactly one of one of, some of, given, quantity, count, word; found none of them [way]"),
    ("a list that there is not", "one of: metals,", "one of: metal,", "5: worn ring.draws.metals.one of: expected a list of words; found metal. Did you mean metals? [unknown-list]"),
    ("a quantity that there is not", "quantity: m,", "quantity: ququ,", "8: worn ring.draws.mass.quantity: expected a quantity that is a number; found ququ. Add it to quantities.yaml. [unknown-quantity]"),
    ("no meaning", ", means: The current.", "", "6: worn ring.draws.current: expected the key means; found none [missing-key]"),
    ("a key of another way", "quantity: t,", "quantity: t, how many: 2,", "7: worn ring.draws.time.how many: expected a key of this kind of entry; found how many. Known keys: quantity, means, as, under, order, only with, needed, least, most, whole, bare, any sign. [unknown-key]"),
    ("several without a number", "one of: metals, as: product", "some of: metals, as: product", "5: worn ring.draws.metals: expected the key how many; found none. Give a number or the key that tells it; or write a name for each under as. [missing-key]"),
    ("a kind of thing that there is not", "dissolving metal}", "disolving metal}", "10: worn ring.things.product: expected a kind of thing; found disolving metal. Did you mean dissolving metal? [unknown-thing]"),
    ("a thing of nothing", "{product: d", "{ring: d", "10: worn ring.things.ring: expected the name of something that is drawn; found ring. A key under draws says it with as: or all as:. [unknown-name]"),
    ("a thing of another list", "dissolving metal}", "battery}", "10: worn ring.things.product: expected battery from a list of: batteries; found metals [wrong-list]"),
    ("a thing without its partner", "one of: metals, as: product", "one of: fuels, as: product", "10: worn ring.things.product: expected dissolving metal from a list of: metals, metals without a film, metals that last in water; found fuels [wrong-list]"),
    ("a key that there is not", "[time, mass]", "[time, masse]", "9: worn ring.either: expected a key under draws; found masse. Did you mean mass? [unknown-name]"),
    ("a constant that there is not", "  things:", "  reads: [G]\n  things:", "10: worn ring.reads: expected one of F, R, slope, T, V_m; found G [unknown-constant]"),
    ("a rule that there is not", "  things:", "  rules: {goes: {rule: lowst, of: [I], keys: [a]}}\n  things:", "10: worn ring.rules.goes.rule: expected the id of a rule; found lowst. Did you mean lowest? [unknown-rule]"),
    ("a rule that does not fit", "  things:", "  rules: {goes: {rule: lowest, of: [I], keys: [a, b]}}\n  things:", None),
    ("a fact that there is not", "  things:", "  facts: [in_wires]\n  things:", "10: worn ring.facts: expected the id of a fact; found in_wires. Did you mean in_wire? [unknown-fact]"),
    ("a comparison that can't be read", "  things:", "  refuse unless: {odd: {holds: I is small, expected: a small current}}\n  things:", "10: worn ring.refuse unless.odd.holds: expected two or three terms with < or > between; found I is small. As `U_term < E_cell`. [comparison]"),
    ("terms that can't be read", "  things:", "  refuse unless: {odd: {holds: 'I < f(t)', expected: a small current}}\n  things:", None),
    ("a list of nothing", "  things:", "  lists: {rings: k}\n  things:", "10: worn ring.lists.rings: expected the name that numbers follow; found k. A key of several says it with as: or all as:. [unknown-name]"),
    ("a word that is no word", "  things:", "  words: {I: product}\n  things:", "10: worn ring.words.I: expected a quantity that is a word; found I. Add it to quantities.yaml with word: true. [unknown-word]"),
    ("names of a kind that there is not", "  things:", "  names as in: worn\n  things:", "10: worn ring.names as in: expected a kind of scenario; found worn. It must stand before this one. [unknown-kind]"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), [each[1:] for each in WRONG], ids=[each[0] for each in WRONG])
def test_one_slip_gives_one_message(tmp_path, old, new, expected):
    assert old in RING
    found = faults_of(tmp_path, RING.replace(old, new, 1))
    assert len(found) == 1
    assert found[0].startswith("scenarios.yaml:")
    if expected is not None:
        assert found == [f"scenarios.yaml:{expected}"]


def test_all_slips_are_told_at_once(tmp_path):
    found = faults_of(
        tmp_path, RING.replace("metals, as", "metal, as").replace("quantity: t", "quantity: tt").replace("[time, mass]", "[tim]")
    )
    assert [each.split(": ")[0] for each in found] == ["scenarios.yaml:5", "scenarios.yaml:7", "scenarios.yaml:9"]


def survey(folder, template=TEMPLATE, scenarios=RING):
    (folder / "bank.yaml").write_text("format: 1\nid: ring\ntitle: A bank with a ring\n", encoding="utf-8")
    (folder / "scenarios.yaml").write_text(scenarios, encoding="utf-8")
    (folder / "ring.yaml").write_text(template, encoding="utf-8")
    return [str(each) for each in survey_bank(folder)[1]]


def test_a_template_of_the_banks_own_kind_is_held_to_it(tmp_path):
    """Units, words and keys that go together are told as for ours, the own kind among those that are known."""
    assert survey(tmp_path) == []
    assert survey(tmp_path, TEMPLATE.replace("0.50 A", "0.50 V").replace("Fe]", "Xx]")) == [
        f"ring.yaml:5: scenario.worn ring.metals[2]: expected the symbol of a metal; found `Xx`. {KNOWN} [unknown-metal]",
        "ring.yaml:5: scenario.worn ring.current: expected a unit of the kind A; found `0.50 V`. Usual: A, mA, uA, kA. [quantity-kind]",
    ]
    assert survey(tmp_path, TEMPLATE.replace(", time: 20 min", "")) == [
        "ring.yaml:5: scenario.worn ring: expected one of: `time`; `mass`; found none of them [either]"
    ]
    (found,) = survey(tmp_path, TEMPLATE.replace("worn ring", "worn rings"))
    assert found.endswith("`worn ring`; found `worn rings`. Did you mean `worn ring`? [unknown-key]")


def test_where_the_kinds_cannot_be_read_their_templates_are_not_blamed(tmp_path):
    """One slip gives one message: that the kind is unknown to the template only follows from it."""
    (found,) = survey(tmp_path, scenarios=RING.replace("either", "eiter"))
    assert found.startswith("scenarios.yaml:9: worn ring.eiter")


@pytest.mark.parametrize("name", ["value", "copy", "model config", "entry", "json"])
def test_a_key_may_have_any_name(tmp_path, name):
    """Also one that stands for something else inside the program."""
    assert survey(tmp_path, TEMPLATE.replace("current: 0", f"{name}: 0"), RING.replace("    current:", f"    {name}:")) == []


def test_every_kind_of_thing_of_the_list_can_be_made():
    assert THINGS.keys() == THING_ADDERS.keys()
