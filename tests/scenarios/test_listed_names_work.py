"""Whatever ``names`` lists of a kind can be written into a template of it as it is listed: found, chosen, ordered, balanced and written."""

from __future__ import annotations

import json

import pytest

from saltbridge.bank.doubtful import OF_NAMES
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.scenarios.kinds.example_scenes import examples_of, whole_scenes
from saltbridge.scenarios.kinds.kind_names import KindNames, names_of
from saltbridge.scenarios.kinds.names_text import flow
from saltbridge.scenarios.kinds.offered import Usual, kinds

MOST = 24  # parts of a template


def always(kind: str) -> KindNames:
    """The names of the plainest example, of which those are tried that every draw has."""
    written = examples_of(kind, catalogue(), Usual().sheet)[:1]
    return names_of(kind, list(whole_scenes(written, Usual(), catalogue())), catalogue())


def parts(names: KindNames):
    yield from (f"find: {each.name}" for each in names.found if each.always)
    for each in names.chosen:
        words = [word.word for word in each.words]
        if each.always and not each.open:
            things = (
                [f"{owner}.{each.parts[0]}" for owner in each.owners] if each.parts and set(words) == set(each.owners) else words
            )
            yield f"choose: {each.name}\n    from: {json.dumps(things, ensure_ascii=False)}"
    there = {each.name for each in (*names.printed, *names.found) if each.always}
    for each in names.ordered:
        for by in each.by:
            things = [thing for thing in each.things if f"{thing}.{by}" in there and f"{thing}.{each.show[0]}" in there]
            if each.list or len(things) > 1:
                yield f"order: {each.list or json.dumps(things)}\n    by: {by}\n    show: {each.show[0]}"
    yield from (f"balance: {each.name}" for each in names.balanced if each.always)
    yield from (f"species: {each.name}" for each in names.species if each.always)
    yield from (each for each in names.written if each.startswith("diagram"))


@pytest.mark.parametrize("kind", kinds(catalogue()))
def test_every_listed_name_works_in_a_template(kind, tmp_path):
    names, body = always(kind), flow(catalogue().scenarios[kind].examples[0])
    (tmp_path / "bank.yaml").write_text("format: 1\nid: names\ntitle: Names\ndata sheet: college\n", encoding="utf-8")
    asked = list(parts(names))
    holes = " ".join(f"{{{{ {each.name} }}}}" for each in names.printed if each.always)
    for place in range(0, len(asked), MOST):
        some = "".join(f"  - ask: Q{at}?\n    {part}\n" for at, part in enumerate(asked[place : place + MOST]))
        text = f"title: T{place}\noutcome: T3.4\nlevel: core\nscenario:\n  {kind}: {body}\ntext: '{holes}'\nparts:\n{some}"
        (tmp_path / f"t{place}.yaml").write_text(text, encoding="utf-8")
    wrong = [str(each.fault) for each in prove(tmp_path, 2).weighing("fault") if each.fault.code in OF_NAMES]
    assert asked
    assert wrong == []
