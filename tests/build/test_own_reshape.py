"""A wrong way to write an equation added without Python: by a bank's own slips, and in a data folder of its own."""

from __future__ import annotations

import json
import re
import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from saltbridge.answers import judge, merge
from saltbridge.bank.bank import load_bank
from saltbridge.build import publish
from saltbridge.catalogue.catalogue import catalogue, read_catalogue
from saltbridge.compose.question import Composer
from saltbridge.deliver.proof.proof_run import prove
from saltbridge.draw.seeds import practice_seed
from saltbridge.faults import Faulty
from saltbridge.home import shipped

REDOX = Path(__file__).parents[1] / "families" / "redox" / "bank"
HINT = "Hold the two sides against each other. Did an electron slip across?"
SLIP = f"""
electrons-across-the-arrow:
  at: "balance: atoms"
  reshape: reversed
  hint: {HINT}
  source: teacher's experience
"""


@pytest.fixture
def bank(tmp_path):
    """A bank of one template, a half-equation of a metal, with a slip of its own."""
    folder = tmp_path / "bank"
    folder.mkdir()
    for name in ("bank.yaml", "metal-half.yaml"):
        shutil.copy(REDOX / name, folder)
    (folder / "slips.yaml").write_text(SLIP, "utf-8")
    return folder


def key_of(folder, known):
    """The key of the half-equation in the first variant."""
    read = load_bank(folder)
    made = Composer(read.templates[0], read, known)
    variant = made.variant(1, practice_seed(1))
    question = made.question(variant)
    place = next(at for at, part in enumerate(question.parts) if part.judge["kind"] == "equation")
    return merge(question.parts[place].judge, variant.judge[place], question.graph, variant.given)


def test_the_answer_is_recognised_with_the_banks_hint(bank):
    key = key_of(bank, catalogue(bank))
    (wrong,) = (text for text, ids in key["slips"].items() if "electrons-across-the-arrow" in ids)
    assert judge(key, wrong).slips[-1] == "electrons-across-the-arrow"


def test_page_and_proof_see_it(bank, tmp_path):
    with ThreadPoolExecutor(2) as threads:
        done = publish(bank, tmp_path / "out", executor=threads, variants=3)
        proof = prove(bank, 20, executor=threads)
    page = (done.site / "metal-half.html").read_text("utf-8")
    assert HINT in json.dumps(page, ensure_ascii=False)
    assert re.search("electrons-across-the-arrow", page)
    (template,) = proof.templates
    assert template.tally.caught["electrons-across-the-arrow"] == template.tally.draws == 20


def test_a_data_folder_of_its_own_has_it_too(bank, tmp_path, monkeypatch):
    """What a bank can add the shipped data can: the entry is the same."""
    (bank / "slips.yaml").unlink()
    data = tmp_path / "data"
    shutil.copytree(shipped("data"), data)
    file = data / "slips" / "equations.yaml"
    file.write_text(file.read_text("utf-8") + SLIP, "utf-8")
    monkeypatch.setattr("saltbridge.catalogue.catalogue.shipped", lambda _: data)
    key = key_of(bank, read_catalogue.__wrapped__(()))
    assert any("electrons-across-the-arrow" in ids for ids in key["slips"].values())


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("reversed", "reverse", "slips.yaml:4: electrons-across-the-arrow.reshape: expected a way to write an equation wrong; found reverse. Did you mean reversed? [unknown-reshape]"),
        ("balance: atoms", "balance: atom", "slips.yaml:3: electrons-across-the-arrow.at: expected a kind of step of balances.yaml; found atom. Did you mean atoms? [unknown-balance]"),
        ("  reshape: reversed\n", "", "slips.yaml:3: electrons-across-the-arrow.at: expected balance: KIND and reshape together; found no reshape [bad-shape]"),
    ],
)  # fmt: skip
def test_a_mistake_in_it_is_told_whole(bank, old, new, message):
    (bank / "slips.yaml").write_text(SLIP.replace(old, new), "utf-8")
    with pytest.raises(Faulty) as caught:
        catalogue(bank)
    assert [str(each) for each in caught.value.faults] == [message]
