"""Learning outcomes: the shipped list is whole, and a slip in it is told."""

from __future__ import annotations

from bank_samples import messages

from saltbridge.forms import registries as known
from saltbridge.forms.strict_yaml import parse_yaml


def test_outcomes_have_ids_sentences_and_levels():
    """Seventy outcomes in ten topics; each says in one sentence what a student can do."""
    outcomes = known.outcomes()

    assert len(outcomes) == 70
    assert next(iter(outcomes)) == "T1.1"
    assert {each.id.partition(".")[0] for each in outcomes.values()} == {f"T{number}" for number in range(1, 11)}
    assert all(each.can.endswith(".") and each.can[0].isupper() and each.level in known.LEVELS for each in outcomes.values())


def test_a_sentence_cut_at_its_comma_is_refused():
    """Unquoted, the rest of the sentence would become a key of its own."""
    table = parse_yaml(b"T1.1: {level: core, can: Do this, and that.}\nT1.2: {level: cor, can: Do it.}\n", "o.yaml")

    said = (
        "expected `level` (one of introductory, core, advanced, first-year), `can` (a sentence) and nothing else; "
        "found others. A sentence with a comma needs quotes here. [outcome]"
    )
    assert messages(lambda: known.outcomes_in(table, "o.yaml")) == [f"o.yaml:1: T1.1: {said}", f"o.yaml:2: T1.2: {said}"]
