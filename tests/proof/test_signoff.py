"""Signatures are bound to what a template's numbers follow from."""

from __future__ import annotations

from datetime import date

import pytest
from banks import change, lamp_bank, small_bank

from saltbridge.bank.bank import load_bank
from saltbridge.build import publish
from saltbridge.deliver.proof.bank_catalogue import catalogue_of
from saltbridge.deliver.proof.signoff import sign, signatures, standing, told, unsigned, withdraw
from saltbridge.faults import Faulty
from saltbridge.home import shipped

DAY = date(2026, 11, 25)


def _signed(folder):
    bank = load_bank(folder)
    for template in bank.templates:
        sign(bank, template, catalogue_of(folder), "A. Moderator", DAY)
    return folder


def _standing(folder, name="cell"):
    bank = load_bank(folder)
    template = bank.template(name)
    assert template is not None
    return standing(template, bank, catalogue_of(folder), signatures(bank))


def test_without_a_signature_a_template_is_a_draft(tmp_path):
    assert told(_standing(small_bank(tmp_path))) == "a draft that nobody has signed"


def test_a_signed_template_says_by_whom_and_when(tmp_path):
    folder = _signed(small_bank(tmp_path))
    assert told(_standing(folder)) == "signed by A. Moderator on 2026-11-25"


@pytest.mark.parametrize(
    ("file", "old", "new", "part"),
    [
        ("cell.yaml", "Which metal is the anode?", "Which of them is the anode?", "template"),
        ("cell.yaml", "decimals: 2", "decimals: 3", "template"),
        ("sheets/ours.yaml", "Zn^2+/Zn: -0.76", "Zn^2+/Zn: -0.77", "data sheet"),
        ("bank.yaml", "title: Pier Bank\n", "title: Pier Bank\nmarking policy: three-lines\n", "settings"),
        ("bank.yaml", "title: Pier Bank\n", "title: Pier Bank\nmethod: formula\n", "settings"),
    ],
)  # fmt: skip
def test_a_change_of_what_it_follows_from_ends_it(tmp_path, file, old, new, part):
    folder = _signed(small_bank(tmp_path, sheet=True))
    change(folder / file, old, new)
    assert told(_standing(folder)) == f"changed since A. Moderator signed on 2026-11-25: {part}"


def test_a_changed_relation_ends_it(tmp_path):
    folder = _signed(lamp_bank(tmp_path / "bank"))
    change(folder / "relations.yaml", "E0_cell - U_lamp", "-U_lamp + E0_cell")
    catalogue_of.cache_clear()  # a command reads the bank's own relations once; here they change under one process
    assert _standing(folder, "spare").changed == ("relations",)


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("cell.yaml", "level: core\n", "level:   core  # as before\n"),
        ("cell.yaml", "figure: galvanic cell\n", "\n\nfigure: 'galvanic cell'\n"),
        ("sheets/ours.yaml", "F2/F^-: 2.87", "F2/F^-: 2.88"),
        ("bank.yaml", "title: Pier Bank", "title: The Pier Bank"),
        ("bath.yaml", "in: g", "in: mg"),
    ],
)  # fmt: skip
def test_a_change_of_anything_else_does_not(tmp_path, file, old, new):
    """Comments, layout, rows that the template can't draw, and other templates."""
    folder = _signed(small_bank(tmp_path, sheet=True))
    change(folder / file, old, new)
    assert _standing(folder).state == "signed"


def test_a_row_that_other_draws_could_read_counts(tmp_path):
    """Whichever metals the first draws took, each metal of the scenario is bound."""
    folder = _signed(small_bank(tmp_path, sheet=True))
    for couple in ("Pb^2+/Pb: -0.13", "Ni^2+/Ni: -0.26", "Ag^+/Ag: 0.80"):
        change(folder / "sheets" / "ours.yaml", couple + " ", couple[:-1] + "9 " if couple[-1] != "9" else couple[:-1] + "8 ")
        assert _standing(folder).changed == ("data sheet",)
        _signed(folder)


def test_withdrawn_is_said_and_kept(tmp_path):
    folder = _signed(small_bank(tmp_path))
    bank = load_bank(folder)
    withdraw(bank, bank.templates[0], date(2026, 12, 1))
    assert told(_standing(folder, bank.templates[0].id)) == "the signature of A. Moderator was withdrawn on 2026-12-01"
    with pytest.raises(Faulty, match="not-signed"):
        withdraw(bank, bank.templates[0], date(2026, 12, 2))


def test_the_file_reads_back_what_was_written(tmp_path):
    folder = small_bank(tmp_path)
    bank = load_bank(folder)
    written = sign(bank, bank.templates[0], catalogue_of(folder), 'Ada "the Anode" Müller: #1', DAY)
    read = signatures(load_bank(folder))[bank.templates[0].id]
    assert (read.by, read.on, read.content) == (written.by, written.on, written.content)


@pytest.mark.parametrize("name", ["", "  ", "x" * 121, "two\nlines", "bell\a"])
def test_a_name_that_can_not_be_kept_is_refused(tmp_path, name):
    folder = small_bank(tmp_path)
    bank = load_bank(folder)
    with pytest.raises(Faulty, match="on one line"):
        sign(bank, bank.templates[0], catalogue_of(folder), name, DAY)
    assert not (folder / "signed.yaml").exists()


def test_a_template_that_can_not_be_drawn_any_more_is_not_what_was_signed(tmp_path):
    folder = _signed(small_bank(tmp_path))
    change(folder / "cell.yaml", "E0_cell >= 0.20 V", "E0_cell >= 20 V")
    assert _standing(folder).state == "changed"


def test_a_bank_may_refuse_to_publish_drafts(tmp_path):
    folder = small_bank(tmp_path / "bank", settings="publish unsigned: no\n")
    with pytest.raises(Faulty) as caught:
        publish(folder, tmp_path / "out", variants=2)
    assert [each.code for each in caught.value.faults] == ["unsigned"] * 3
    assert "Run `saltbridge sign bath`" in caught.value.faults[0].hint
    assert not (tmp_path / "out").exists()
    _signed(folder)
    assert unsigned(load_bank(folder), load_bank(folder).templates) == ()


def test_by_default_drafts_are_published(tmp_path):
    bank = load_bank(small_bank(tmp_path))
    assert bank.publish_unsigned
    assert unsigned(bank, bank.templates) == ()


def test_the_shipped_bank_has_no_names():
    assert not (shipped("question_templates") / "signed.yaml").exists()
