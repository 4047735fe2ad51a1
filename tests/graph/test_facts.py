"""Facts as data: what each says, where it is joined, and what is told of a bad one."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from saltbridge.api import work
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.cli.work import command
from saltbridge.faults import Faulty

FACTS = catalogue().facts
GOOD = """
lamp_glows:
  name: why a lamp glows
  statement: A current heats its wire.
  right: the current
  wrong:
    - {says: the electrons in it, shows: lamp-holds-electrons, hint: "Where do they go?", source: made up}
  hint: What passes through the wire?
  source: made up
"""


def _said(tmp_path, text):
    (tmp_path / "facts.yaml").write_text(text.lstrip("\n"), encoding="utf-8")
    with pytest.raises(Faulty) as raised:
        catalogue(tmp_path)
    return str(raised.value).splitlines()


@pytest.mark.parametrize("fact", FACTS.values(), ids=lambda fact: fact.id)
def test_a_hint_neither_repeats_the_sentence_nor_says_the_answer(fact):
    hint = fact.hint.lower()
    assert hint not in {fact.statement.lower(), fact.say.lower()}
    answer = fact.right.lower()
    others = [each.says.lower() for each in fact.wrong]
    assert answer not in hint or all(each in hint for each in others), f"{answer!r} stands in the hint"


def test_every_fact_of_a_family_is_joined_by_a_scenario():
    joined = {family for kind in catalogue().scenarios.values() for family in kind.families}
    assert {fact.family for fact in FACTS.values() if fact.family} <= joined


@pytest.mark.parametrize("fact", [each for each in FACTS.values() if each.family], ids=lambda fact: fact.id)
def test_a_fact_is_found_though_nothing_is_given(fact):
    """Its sentence is the working; what hangs on a number says instead what to give."""
    shown = CliRunner().invoke(command, ["--find", fact.node, "--json"])
    assert shown.exit_code == 0, shown.exception
    found = json.loads(shown.output)
    assert (found["text"], [each["say"] for each in found["steps"]]) == (fact.right, [fact.say])
    with pytest.raises(Faulty, match="Also give I, t and metal"):
        work(None, [], "m")


def test_only_one_fact_that_is_true_everywhere_gives_a_name():
    names = [fact.node for fact in FACTS.values() if fact.family]
    assert len(names) == len(set(names))


BAD = [
    (("  hint: What passes through the wire?\n", ""), ["facts.yaml:2: lamp_glows: expected the key hint; found none [missing-key]"]),
    (("What passes through the wire?", "The current passes."),
     ["facts.yaml:7: lamp_glows.hint: expected a question; found 'The current passes.' [sentence]"]),
    (("What passes through the wire?", "A current heats its wire."),
     ["facts.yaml:7: lamp_glows.hint: expected a question; found 'rent heats its wire.' [sentence]",
      "facts.yaml:7: lamp_glows.hint: expected another sentence than the statement; found the same [same-text]"]),
    (("{says: the electrons in it", "{says: the current"), ["facts.yaml:6: lamp_glows.wrong: expected answers that differ; found 'the current' twice [same-text]"]),
    (("shows: lamp-holds-electrons", "shows: anode-always-plus"),
     ["facts.yaml:6: lamp_glows.wrong: expected a belief told in one place; found anode-always-plus twice [repeated]"]),
    (("shows: lamp-holds-electrons, ", ""),
     ["facts.yaml:6: lamp_glows.wrong[1].hint: expected `shows` beside it, the belief that it is about; found no belief [bad-shape]",
      "facts.yaml:6: lamp_glows.wrong[1].source: expected `shows` beside it, the belief that it is about; found no belief [bad-shape]"]),
    (("heats its wire.", "heats {wire}."),
     ["facts.yaml:3: lamp_glows.statement: expected plain words, without holes; found a curly bracket [sentence]"]),
    (("name: why a lamp glows", "family: Lamps"),
     ["facts.yaml:2: lamp_glows: expected the key name; found none. Say in a few words what is asked, such as `what carries the charge in the wire`. [missing-key]"]),
    (("name: why a lamp glows", "nmae: why a lamp glows"),
     ["facts.yaml:2: lamp_glows.nmae: expected a key of this kind of entry; found nmae. Did you mean name? [unknown-key]"]),
    (("lamp_glows:", "lamp-glows:"),
     ["facts.yaml:2: lamp-glows.gives: expected a name of letters, digits and _; found lamp-glows. Add the key gives. [name]"]),
]  # fmt: skip


@pytest.mark.parametrize(("change", "said"), BAD, ids=[each[1][0].split("[")[-1][:-1] for each in BAD])
def test_a_bad_fact_is_told_at_its_line(tmp_path, change, said):
    old, new = change
    assert old in GOOD
    assert _said(tmp_path, GOOD.replace(old, new)) == said
