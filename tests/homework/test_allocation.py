"""Who gets which variant: fair while keys last, told where they do not."""

from __future__ import annotations

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from saltbridge.draw.allocation import MOST_SHARING, Candidate, Form, Pool, allocated, best_match, likeness

LAYOUT = (("a", 1, "number"),)


def one(key, size=0.0, *, sign=1, situation="s", layout=LAYOUT):
    return Candidate("t", f"seed {key}", str(key), situation, layout, Form((1,), (sign,), ()), (size,))


POOLS = st.lists(
    st.builds(
        one, st.integers(0, 40), st.sampled_from([0.0, 0.3, 0.6, 1.0, 2.0]), sign=st.sampled_from([1, -1]),
        situation=st.sampled_from("pqr"), layout=st.sampled_from([LAYOUT, (("a", 2, "number"),)]),
    ),
    min_size=1, max_size=60,
)  # fmt: skip


@given(POOLS, st.integers(1, 40), st.sets(st.integers(0, 40).map(str)), st.sets(st.integers(0, 40).map(str)))
def test_no_key_is_shared_or_known_while_there_are_others(candidates, needed, known, taken):
    pool = Pool(dict.fromkeys(known, "site"))
    pool.add(candidates)
    match = best_match(tuple((pool.fresh or pool.known).values()), needed)
    given_out = allocated(pool, match, needed, taken)
    assert len(given_out) == needed
    assert {each.layout for each in given_out} == {match.layout}
    alike = {each.key for each in pool.fresh.values() if each.layout == match.layout}
    free = alike - taken
    counts = Counter(each.key for each in given_out)
    if len(free) >= needed:
        assert max(counts.values()) == 1
        assert not counts.keys() & (taken | known)
    else:
        assert free <= counts.keys()
        barred = {each.key for each in pool.known.values() if each.layout == match.layout}
        if len(free) + (MOST_SHARING - 1) * len(alike) >= needed:
            assert counts.keys() <= alike
            assert max(counts.values()) <= MOST_SHARING
        elif barred:
            there = len(alike | barred)
            assert counts.keys() >= barred - taken or len(counts) == needed
            assert max(counts.values()) <= 2 + needed // there


@given(POOLS, st.integers(1, 20))
def test_matched_versions_are_given_first_and_lie_within_the_factor(candidates, needed):
    pool = Pool()
    pool.add(candidates)
    match = best_match(tuple(pool.fresh.values()), needed)
    held = [each for each in pool.fresh.values() if match.holds(each)]
    assert held
    chosen = allocated(pool, match, min(needed, len(held)))
    assert all(match.holds(each) for each in chosen)
    found = likeness(chosen)
    assert found.steps
    assert found.signs
    assert found.charges
    assert found.factor <= 5.0001


def test_the_match_is_the_one_that_most_keep():
    many = (
        [one(at, 0.0) for at in range(10)] + [one(50 + at, 3.0) for at in range(4)] + [one(90 + at, sign=-1) for at in range(8)]
    )
    match = best_match(many, 20)
    assert sum(match.holds(each) for each in many) == 10
    assert likeness(many).factor > 900
    assert not likeness(many).signs
