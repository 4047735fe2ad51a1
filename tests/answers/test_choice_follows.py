"""A choice or an order of a real question follows from the student's own earlier answer, by the graph that the question carries."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.compose.question import Composer
from saltbridge.draw.seeds import practice_seed

FAMILIES = Path(__file__).parents[1] / "families"


def keys_of(family: str, template: str, number: int) -> dict[str, Any]:
    """The keys of one variant of a family's bank by the letter of their part."""
    return keys_in(FAMILIES / family / "bank", template, number)


def keys_in(folder: Path, template: str, number: int) -> dict[str, Any]:
    """The keys of one variant by the letter of their part."""
    bank = load_bank(folder)
    composer = Composer(bank.template(template), bank, catalogue(bank.folder))
    variant = composer.variant(number, practice_seed(number))
    question = composer.question(variant)
    return {
        part.label: merge(part.judge, variant.judge[place], question.graph, variant.given)
        for place, part in enumerate(question.parts)
    }


def test_a_choice_follows_from_the_anode_that_the_student_chose():
    keys = keys_of("galvanic", "roles-and-ways", 1)
    (label, first), *_ = [(label, key) for label, key in keys.items() if key.get("node") == "anode"]
    wrong = first["values"][1 - first["right"][0]]
    (later, *_) = [key for key in keys.values() if [label, "anode"] in key.get("earlier", [])]
    other = 1 - later["right"][0]
    assert judge(later, [other], {label: wrong}).verdict == "follows"
    assert judge(later, [other], {label: wrong}).parts == (label,)
    assert judge(later, [other], {label: first["values"][first["right"][0]]}).verdict != "follows"
    assert judge(later, later["right"], {label: wrong}).verdict == "right"


def test_a_choice_follows_from_the_number_that_the_student_found():
    keys = keys_of("standards", "can-it-go", 1)
    (label, first), *_ = [(label, key) for label, key in keys.items() if key["kind"] == "number"]
    (later, *_) = [key for key in keys.values() if any(each[:2] == [label, first["node"]] for each in key.get("earlier", []))]
    turned = str(-float(first["value"]))
    other = 1 - later["right"][0]
    assert judge(later, [other], {label: turned}).verdict == "follows"
    assert judge(later, [other], {label: first["value"]}).verdict != "follows"


BANK = "format: 1\nid: quay\ntitle: Quay\nlicence: CC-BY-4.0\n"
STRIPS = """\
title: Strips in order
outcome: T9.2
level: core
scenario:
  bench: {reference: Cu, metals: [Mg, Zn, Fe, Sn, Ag], model: own ions}
rules: [R-SAFE]
text: |
  {{ safety.general }} {{ safety.waste }} {{ safety.metals }} {{ safety.rules }}
  The black lead is on {{ reference.metal }}.
  {{ s1.metal }}: {{ s1.reading }}, {{ s2.metal }}: {{ s2.reading }}, {{ s3.metal }}: {{ s3.reading }}.
parts:
  - ask: Estimate the potential of {{ s1.metal }}.
    find: s1.E
  - ask: Put the metals in order.
    order: [s1, s2, s3]
    by: E
    direction: DIRECTION
  - ask: And once more.
    order: [s1, s2, s3]
    by: E
"""
WORDS = """\
title: Which metal is it
outcome: T2.1
level: core
scenario:
  galvanic cell: {metals: [Zn, Ag]}
text: |
  A cell of {{ left.metal }} and {{ right.metal }}.
parts:
  - ask: Which metal is the anode?
    choose: anode.metal
    from: [zinc, silver, gold]
  - ask: Which metal is the cathode?
    choose: cathode.metal
    from: [zinc, silver, gold]
"""


def written(folder: Path, template: str) -> Path:
    """A bank of one template."""
    (folder / "bank.yaml").write_text(BANK, encoding="utf-8")
    (folder / "one.yaml").write_text(template, encoding="utf-8")
    return folder


@pytest.mark.parametrize("direction", ["ascending", "descending"])
def test_an_order_follows_from_the_number_that_the_student_found(tmp_path: Path, direction: str):
    folder = written(tmp_path, STRIPS.replace("DIRECTION", direction))
    for number in range(1, 6):
        keys = keys_in(folder, "one", number)
        key = keys["b"]
        things = [key["values"][place] for place in key["right"]]
        at = things.index("s1")
        for own, wanted in ((-9.99, 0), (9.99, 2)):  # so low, or so high, that it stands at an end
            led = [*things[:at], *things[at + 1 :]]
            led.insert(wanted if direction == "ascending" else 2 - wanted, "s1")
            typed = [key["values"].index(thing) for thing in led]
            verdict = judge(key, typed, {"a": own})
            assert verdict.verdict == ("right" if typed == key["right"] else "follows")
            again = [keys["c"]["values"].index(thing) for thing in (led if direction == "ascending" else led[::-1])]
            if typed != key["right"]:
                assert verdict.parts == ("a",)
                assert judge(keys["c"], again, {"b": verdict.own}).parts == ("b",)
                assert judge(key, typed, {"a": keys["a"]["value"]}).verdict != "follows"


def test_an_order_without_a_ranking_of_its_scenario_tells_the_error_of_signs():
    found = [judge(key, [int(each) for each in name.split(",")]) for key, name in _by_size("corrosion", "scratched-coat", "c")]
    assert found
    assert {each.slips for each in found} == {("signs-dropped-in-ranking",)}


def _by_size(family: str, template: str, label: str):
    """The key of a part in each of ten variants, with each wrong order that it knows."""
    for number in range(1, 11):
        key = keys_of(family, template, number)[label]
        yield from ((key, name) for name in key["slips"])


def test_words_stand_for_the_values_of_what_decides(tmp_path: Path):
    """The options are words, so that what stands behind each differs from variant to variant; gold is nothing of this cell."""
    folder = written(tmp_path, WORDS)
    sides = set()
    for number in range(1, 9):
        keys = keys_in(folder, "one", number)
        right, wrong = judge(keys["a"], [0]), judge(keys["a"], [1])
        assert (right.verdict, judge(keys["a"], [2]).own) == ("right", None)
        sides.add(right.own)
        assert judge(keys["b"], [0], {"a": wrong.own}).verdict == "follows"
        assert judge(keys["b"], [0], {"a": right.own}).verdict != "follows"
        assert judge(keys["b"], [1], {"a": wrong.own}).verdict == "right"
    assert sides == {"left", "right"}


def test_an_equation_follows_from_the_half_equations_as_they_were_written():
    """The electrons counted by the charge of the whole species, and both halves the other way round."""
    seen = set()
    for number in range(1, 13):
        keys = keys_of("redox", "whole-equation", number)
        whole = next(key for key in keys.values() if key["kind"] == "equation" and key["earlier"])
        halves = dict(each[:2] for each in whole["earlier"])
        nodes = {node: label for label, node in halves.items()}
        for outcomes, text, wrong in whole["led"]:
            own = {nodes[node]: judge(keys[nodes[node]], half).own for node, half in outcomes.items()}
            assert own == {nodes[node]: half for node, half in outcomes.items()}
            assert judge(whole, text, own).verdict == "follows"
            assert judge(whole, text, own).parts[0] in own
            assert judge(whole, text, {}).verdict != "follows"
            seen.add(len(outcomes))
            for equation in wrong:
                found = judge(whole, equation, own).verdict
                assert found in {"slip", "slip-on-own", "right"}  # two turns the other way round make it right
                seen.add(found)
    assert seen >= {1, 2, "slip-on-own"}
