"""Seeds: what they draw is pinned, and each name stands alone."""

from __future__ import annotations

import hashlib
import json
import re
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.draw.seeds import Seed, number, pick

GOLDEN = Path(__file__).parent / "golden_seeds.json"
TEXTS = st.text(max_size=12)
METALS = ("Mg", "Zn", "Fe", "Ni", "Sn", "Cu", "Ag")


def draws(seed):
    """What the golden file holds for one seed."""
    return {
        "number": str(seed.number("current")),
        "pick": seed.pick("metal", METALS),
        "sample": [*seed.sample("pair", METALS, 2)],
        "shuffle": [*seed.shuffle("order", METALS)],
        "decimal": str(seed.decimal("current", Decimal("0.20"), Decimal("1.00"), Decimal("0.05"))),
        "redraw": seed.redraw(3).pick("metal", METALS),
    }


def test_golden_draws():
    """A change here changes every question ever printed: it needs a major version."""
    golden = json.loads(GOLDEN.read_text(encoding="utf-8"))

    assert len(golden) == 12
    assert [draws(Seed(*case["seed"])) for case in golden] == [case["draws"] for case in golden]


@settings(deadline=None)
@given(bank=TEXTS, template=TEXTS, seed=TEXTS, name=TEXTS)
def test_the_number_is_what_the_documentation_says(bank, template, seed, name):
    """SHA-256 of the JSON list, big-endian: anyone can work it out in another language."""
    text = json.dumps([bank, template, seed, name], separators=(",", ":"))

    assert number(bank, template, seed, name) == int(hashlib.sha256(text.encode()).hexdigest(), 16)


@settings(deadline=None)
@given(st.lists(TEXTS, min_size=4, max_size=4), st.lists(TEXTS, min_size=4, max_size=4))
def test_other_words_give_another_number(one, other):
    """No two lists of words run together, as "ab","c" and "a","bc" would by mere joining."""
    assert (number(*one) == number(*other)) == (one == other)


@settings(deadline=None)
@given(seed=TEXTS, options=st.lists(TEXTS, min_size=1, max_size=6, unique=True), more=st.lists(TEXTS, max_size=6, unique=True))
def test_a_new_option_changes_only_what_it_wins(seed, options, more):
    """With options added, a pick is the old one or one of the new."""
    before = pick("bank", "t", seed, "metal", options)
    after = pick("bank", "t", seed, "metal", [*more, *options])

    assert after == before or after in more


@settings(deadline=None)
@given(seed=TEXTS, names=st.lists(TEXTS, min_size=1, max_size=6, unique=True), added=TEXTS)
def test_a_new_variable_reshuffles_nothing_else(seed, names, added):
    """Values drawn by name are the same, however many other names are drawn before or after."""
    source = Seed("bank", "t", seed)
    before = {name: source.pick(name, METALS) for name in names}
    after = {name: Seed("bank", "t", seed).pick(name, METALS) for name in [added, *reversed(names)]}

    assert {name: after[name] for name in names} == before


@settings(deadline=None)
@given(seed=TEXTS, count=st.integers(0, 7))
def test_a_sample_has_no_repeats_and_begins_with_the_pick(seed, count):
    source = Seed("bank", "t", seed)
    sample = source.sample("x", METALS, count)

    assert len({*sample}) == len(sample) == count
    assert sample == source.shuffle("x", METALS)[:count]
    assert sorted(source.shuffle("x", METALS)) == sorted(METALS)
    assert source.shuffle("x", METALS)[0] == source.pick("x", METALS)


@settings(deadline=None)
@given(seed=TEXTS, low=st.integers(-50, 50), steps=st.integers(0, 200), step=st.sampled_from(["0.01", "0.05", "0.5", "2", "25"]))
def test_a_decimal_lies_on_its_grid(seed, low, steps, step):
    """The value is exact, within its bounds and printed with the decimals of the step."""
    first, by = Decimal(low).scaleb(-1), Decimal(step)
    last = first + steps * by
    value = Seed("bank", "t", seed).decimal("I", first, last, by)

    assert first <= value <= last
    assert (value - first) % by == 0
    assert value.as_tuple().exponent == min(first.as_tuple().exponent, by.as_tuple().exponent)


def test_every_option_and_grid_point_comes_up_about_as_often():
    """Over 7 000 seeds each of seven options is drawn 1 000 times within five standard deviations (about 146)."""
    seeds = [Seed("bank", "t", str(each)) for each in range(7000)]
    picks = Counter(seed.pick("metal", METALS) for seed in seeds)
    values = Counter(seed.decimal("I", Decimal(1), Decimal(7), Decimal(1)) for seed in seeds)

    assert len(picks) == len(values) == 7
    assert all(abs(count - 1000) < 146 for count in [*picks.values(), *values.values()])


def test_redraws_differ_and_no_redraw_is_the_same():
    seed = Seed("bank", "t", "1")

    assert seed.redraw(0) == seed
    assert len({seed.redraw(times).number("x") for times in range(50)}) == 50


@pytest.mark.parametrize(("low", "high", "step"), [("1", "0", "1"), ("0", "1", "0"), ("0", "1", "0.3"), ("0", "1", "-1")])
def test_a_grid_that_does_not_meet_its_end_is_refused(low, high, step):
    with pytest.raises(ValueError, match=re.escape(f"{low} to {high} by {step}")):
        Seed("bank", "t", "1").decimal("x", Decimal(low), Decimal(high), Decimal(step))


def test_too_few_options_are_refused():
    with pytest.raises(ValueError, match="8 of 7 options"):
        Seed("bank", "t", "1").sample("x", METALS, 8)
