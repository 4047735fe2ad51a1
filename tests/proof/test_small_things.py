"""Counting variants, reading levels, overlapping labels, and the place of a fault."""

from __future__ import annotations

from collections import Counter

import pytest
from banks import small_bank
from hypothesis import given
from hypothesis import strategies as st
from planted import CELL

from saltbridge.bank.bank import load_bank
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.deliver.proof.distinct import distinct
from saltbridge.deliver.proof.draws import Share, draw_share
from saltbridge.deliver.proof.language import reading
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.document import Figure
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.seeds import Seed, practice_seed
from saltbridge.render.overlaps import overlapping

# ------------------------------------------------------------------ variants


def test_few_variants_met_often_are_counted():
    counts = Counter({bytes([at]): 10 for at in range(12)})
    assert distinct(counts).estimate == 12
    assert not distinct(counts).open_ended


def _drawn(kinds: int, seed: int) -> Counter[bytes]:
    """200 draws of so many equal things."""
    source = Seed("bank", "template", str(seed))
    return Counter((source.number(str(at)) % kinds).to_bytes(2, "big") for at in range(200))


@given(st.integers(20, 400), st.integers(0, 10**6))
def test_the_estimate_is_never_below_what_was_met(kinds, seed):
    found = distinct(_drawn(kinds, seed))
    assert found.met <= found.estimate


def test_the_estimate_comes_near_the_truth():
    """The middle one of twenty estimates of 150 things is within a quarter."""
    estimates = sorted(distinct(_drawn(150, seed)).estimate for seed in range(20))
    assert estimates[10] == pytest.approx(150, rel=0.25)


def test_all_different_is_a_lower_bound():
    assert distinct(Counter({bytes([at]): 1 for at in range(50)})).open_ended


def test_answers_that_are_the_same_count_once_whatever_the_story(tmp_path):
    """Two metals, drawn on either side: two variants for a reader, one answer for a key."""
    pair = CELL.replace("[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn, Cu]\n    swap sides: sometimes")
    folder = small_bank(tmp_path, pair=pair)
    tally = draw_share(Share(folder, "pair", 1, 20))
    assert (len(tally.contents), len(tally.keys)) == (2, 1)


# ------------------------------------------------------------------ language


def test_lix_by_hand():
    """Ten words, two sentences, three long words: 5 + 30."""
    found = reading(["The electrode is copper. It stands in a blue solution."])
    assert (found.words, found.sentences, found.lix) == (10, 2, 5 + 20.0)


def test_umlauts_and_hyphens_make_one_word():
    assert reading(["Die Größe des Cu-Blechs ändert sich nicht."]).words == 7


def test_numbers_and_formulas_are_no_words():
    assert reading(["0.50 A; 12"]).words == 1
    assert reading([""]).lix == 0.0


# ------------------------------------------------------------------ drawings


def _line(**volts):
    return Figure("number-line", dict(zip(volts, volts, strict=True)), volts, frozenset(), "told")


def test_labels_of_a_number_line_stand_clear():
    assert overlapping(_line(zinc=-0.76, chromium=-0.74, iron=-0.45, nickel=-0.26, copper=0.34)) == ()


def test_labels_that_share_a_place_are_found():
    """In the drawing of a cell each label has its own spot; a label far too long runs into the next one."""
    labels = {"left_electrode": "x" * 60, "right_electrode": "y" * 60}
    assert overlapping(Figure("galvanic-cell", labels, {}, frozenset(), "told")) == (("x" * 60, "y" * 60),)


# ------------------------------------------------------------------ shares and shapes


def test_shares_add_up_to_the_whole(tmp_path):
    folder = small_bank(tmp_path)
    whole, first, rest = (draw_share(Share(folder, "cell", *ends)) for ends in ((1, 40), (1, 15), (16, 40)))
    first.join(rest)
    assert first.draws == whole.draws == 40
    assert first.contents == whole.contents
    assert first.caught == whole.caught
    assert first.log.reasons == whole.log.reasons
    assert [each.seed for each in first.samples] == [each.seed for each in whole.samples]


def test_three_samples_of_each_template(tmp_path):
    proof = prove(small_bank(tmp_path), 30)
    assert [len(each.tally.samples) for each in proof.templates] == [3, 3, 3]


def test_an_answer_on_the_edge_of_two_roundings_is_not_drawn(tmp_path):
    """0.41 A for 25 min is 615 C; at two figures 6.15 × 10² lies on the edge of 6.1 and 6.2. With 0.42 A it is 630 C."""
    bath = """\
title: Edge
outcome: T6.8
level: core
scenario:
  electrolysis:
    metals: [Cu]
    current: {from: [0.41 A, 0.42 A]}
    time: 25 min
text: A current of {{ I }} flows for {{ t }}.
parts:
  - ask: Calculate the charge.
    find: q
    figures: 2
"""
    bank = load_bank(small_bank(tmp_path, edge=bath))
    drawer = Drawer(bank.templates[0], bank, catalogue())
    assert {drawer.draw(practice_seed(number)).situation.given["I"].printed for number in range(1, 21)} == {"0.42"}
    assert any("on the edge of two roundings" in line for line in map(str, drawer.log.lines()))


# ------------------------------------------------------------------ answers that tell themselves


def _codes(folder, draws=60):
    return {(each.weight, each.fault.key, each.fault.code) for each in prove(folder, draws).findings}


def test_a_right_option_that_never_moves_is_a_warning_and_a_constant_answer_a_note(tmp_path):
    """Never swapped, the anode always stands on the left."""
    still = (
        CELL.replace("Ag, Pb]\n", "Ag, Pb]\n    swap sides: never\n")
        .replace("choose: anode.metal", "choose: anode")
        .replace("[left.metal, right.metal]", "[left, right]")
    )
    found = _codes(small_bank(tmp_path, still=still))
    assert ("warning", "parts[1].from", "option-never-moves") in found
    assert ("note", "parts[1]", "answer-constant") in found
    assert ("note", "parts[2]", "answer-constant") not in found


def test_a_class_needs_answers_that_differ_not_stories(tmp_path):
    """Many currents that all lead to one mass are one answer; two metals on two sides are one too."""
    pair = CELL.replace("[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn, Cu]\n    swap sides: sometimes")
    assert ("warning", "scenario", "few-variants") in _codes(small_bank(tmp_path / "unsaid", pair=pair))
    said = _codes(small_bank(tmp_path / "said", pair=pair.replace("text:", "few versions: Two metals make one pair.\ntext:")))
    assert ("note", "scenario", "few-variants") in said
    assert ("warning", "scenario", "few-variants") not in said


def test_salt_paper_is_not_judged_as_solutions_of_own_ions(tmp_path):
    """Aluminium and magnesium read low there for the film, which the bands of that model hold already."""
    paper = """\
title: Salt paper
outcome: T9.3
level: core
scenario:
  bench: {reference: Cu, metals: [Mg, Zn, Al, Fe], model: MODEL}
text: |
  {{ s1.metal }} {{ s1.reading }}, {{ s2.metal }} {{ s2.reading }}, {{ s3.metal }} {{ s3.reading }}, {{ s4.metal }} {{ s4.reading }}

  {{ caution }}
parts:
  - ask: Which reading has the pair?
    find: reading_pair
    decimals: 2
"""
    of_rules = {}
    for model in ("own ions", "salt only"):
        proof = prove(small_bank(tmp_path / model, paper=paper.replace("MODEL", model)), 20)
        of_rules[model] = {
            each.fault.found for each in proof.findings if each.fault.code == "unreal-allowed" and each.weight == "warning"
        }
    assert len(of_rules["own ions"]) == 2
    assert of_rules["salt only"] == set()


def test_a_bridge_that_falls_out_is_seen_in_the_draw(tmp_path):
    """Chloride in the bridge makes a solid with silver and lead ions only."""
    told = (
        CELL.replace("Ag, Pb]\n", "Ag, Pb]\n    bridge: KCl\n")
        .replace("stands in a solution of `{{ right.ion }}`.", "stands in `{{ right.ion }}`; the bridge holds {{ bridge.name }}.")
        .replace(", R-BRIDGE", "")
    )
    found = [each for each in prove(small_bank(tmp_path, told=told), 60).findings if "bridge with KCl" in each.fault.found]
    assert [(each.weight, each.fault.code) for each in found] == [("warning", "unreal-allowed")]
    assert 0 < found[0].times < 60


# ------------------------------------------------------------------ figures of constants


@pytest.mark.parametrize(
    ("asked", "sheet", "found"),
    [
        ("find: lgK\n    decimals: 1", "school", "1"),
        ("find: lgK\n    decimals: 0", "school", ""),
        ("find: lgK\n    decimals: 1", "college", ""),
        ("find: K\n    figures: 3", "college", "3"),
        ("find: K\n    figures: 1", "school", ""),
    ],
)
def test_more_figures_of_a_constant_than_its_potentials_leave_are_told(tmp_path, asked, sheet, found):
    """Zinc and copper, two electrons: each potential is good to half its last place, 0.010 V together on the school sheet and
    0.001 V on the college one; n u/0.0592 V makes 0.34 and 0.034 of lg K (arithmetic of the Nernst equation)."""
    text = CELL.replace("find: E0_cell\n    decimals: 2", asked).replace("[Zn, Fe, Ni, Cu, Ag, Pb]", "[Zn, Cu]")
    text = text.replace("must reveal: [add-both-as-printed]\n", "")
    tally = draw_share(Share(small_bank(tmp_path, settings=f"data sheet: {sheet}\n", pair=text), "pair", 1, 5))
    hits = [hit for hit, _ in tally.counts.first.values() if hit.code == "figures-of-K"]
    assert [hit.found for hit in hits] == ([found] if found else [])
    assert all(hit.weight == "warning" for hit in hits)
