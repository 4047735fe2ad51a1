"""A save is seen: its template is made anew and no other, faults stand on the page and go, and the last good page stays."""

from __future__ import annotations

import re
import shutil

import pytest

from saltbridge.deliver.author_guide import worked_files
from saltbridge.home import shipped
from saltbridge.preview.watched_bank import WatchedBank

FILE = "cells/anode-of-two.yaml"
WORKED = shipped("data") / "worked"
OTHERS = ("cell-potential", "linked-coating")


def _plain(page):
    """The page's text without its style, script and marks."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", re.sub(r"<(style|script)>.*?</\1>", "", page, flags=re.DOTALL)))


def _source(written, file=FILE):
    return (written.folder / file).read_text(encoding="utf-8")


def test_a_template_is_shown_as_page_paper_and_memorandum(written):
    shell = written.text("/anode-of-two?version=2")
    assert "Version 2 of 30" in _plain(shell)
    assert 'src="/site/anode-of-two.html?version=2"' in shell
    assert "A lamp on the pier" in written.text("/site/anode-of-two.html?version=2")
    for kind in ("paper", "memorandum"):
        assert written.text(f"/{kind}/anode-of-two/2-1.svg").startswith("<svg")
        status, head, body = written.asked(f"/{kind}/anode-of-two/2.pdf")
        assert (status, head["Content-Type"], body[:5]) == (200, "application/pdf", "%PDF-")


def test_versions_differ_and_lead_to_one_another(written):
    pages = {written.text(f"/site/anode-of-two.html?version={number}") for number in (1, 2, 3)}
    assert len(pages) == 3
    assert re.findall(r'rel="(prev|next)" href="([^"]+)"', written.text("/anode-of-two?version=2")) == [
        ("prev", "/anode-of-two?version=1"),
        ("next", "/anode-of-two?version=3"),
    ]
    assert 'rel="next"' not in written.text("/anode-of-two?version=30")
    assert "Version 30 of 30" in _plain(written.text("/anode-of-two?version=9999"))


def test_a_saved_template_is_made_anew_and_the_others_are_left(written):
    before = {name: written.stamp(name) for name in ("anode-of-two", *OTHERS)}
    written.saved(FILE, _source(written).replace("A lamp on the pier", "A lamp on the quay"))
    assert "A lamp on the quay" in written.text("/site/anode-of-two.html")
    assert written.stamp("anode-of-two") != before["anode-of-two"]
    assert {name: written.stamp(name) for name in OTHERS} == {name: before[name] for name in OTHERS}


def test_what_was_made_of_the_others_is_kept(folder):
    bank = WatchedBank(folder)
    made = {name: bank.shown(name).made for name in ("anode-of-two", *OTHERS)}
    bank.saved([folder.resolve() / FILE])
    assert bank.shown("anode-of-two").made is not made["anode-of-two"]
    assert [bank.shown(name).made is made[name] for name in OTHERS] == [True, True]


@pytest.mark.parametrize("file", ["bank.yaml", "relations.yaml", "rows/readings.csv"])
def test_settings_and_data_touch_every_template(folder, file):
    bank = WatchedBank(folder)
    before = [bank.stamp(name) for name in bank.ids()]
    bank.saved([folder.resolve() / file])
    assert all(bank.stamp(name) != stamp for name, stamp in zip(bank.ids(), before, strict=True))


def test_new_settings_are_seen_on_every_page(written):
    assert "mol/dm" in written.text("/site/cell-potential.html")
    written.saved("bank.yaml", _source(written, "bank.yaml").replace("mol/dm3", "mol/L", 1))
    assert "mol/L" in written.text("/site/cell-potential.html")


def test_a_fault_is_shown_with_file_line_and_cure_and_goes_when_it_is_mended(written):
    good, page = _source(written), written.text("/site/anode-of-two.html")
    written.saved(FILE, good.replace("keep only if: E0_cell", "keep only if: E0_cel"))
    line = next(number for number, text in enumerate(good.splitlines(), 1) if text.startswith("keep only if"))
    shown = _plain(written.text("/anode-of-two"))
    assert f"{FILE}:{line} keep only if" in shown
    assert "Did you mean E0_cell?" in shown
    assert "the last version without a fault" in shown
    assert written.text("/site/anode-of-two.html") == page
    assert "To mend" not in written.text("/cell-potential")
    written.saved(FILE, good)
    assert "To mend" not in written.text("/anode-of-two")


def test_faults_of_all_files_stand_in_the_list(written):
    written.saved(FILE, _source(written).replace("outcome: T3.4", "outcome: T99"))
    shown = _plain(written.text("/"))
    assert f"{FILE}:4 outcome" in shown
    assert "1 to mend" in shown


@pytest.mark.parametrize("end", range(0, 700, 70))
def test_a_template_that_is_half_saved_never_ends_it(folder, end):
    bank = WatchedBank(folder)
    good = (folder / FILE).read_text(encoding="utf-8")
    made = bank.shown("anode-of-two").made
    (folder / FILE).write_text(good[:end], encoding="utf-8")
    bank.saved([folder.resolve() / FILE])
    shown = bank.shown("anode-of-two")
    assert shown.faults
    assert shown.made is made
    (folder / FILE).write_text(good, encoding="utf-8")
    bank.saved([folder.resolve() / FILE])
    assert bank.shown("anode-of-two").faults == ()


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"", b"{{", b"a: *b", b"\x00" * 40, b"- 1\n" * 9])
def test_nor_does_a_file_of_nonsense(folder, content):
    bank = WatchedBank(folder)
    (folder / FILE).write_bytes(content)
    bank.saved([folder.resolve() / FILE])
    assert bank.shown("anode-of-two").faults


def test_a_template_can_be_added_and_taken_away(written):
    written.saved("cells/one-more.yaml", _source(written).replace("A lamp on the pier", "One more"))
    assert "One more" in written.text("/")
    assert "One more" in written.text("/site/one-more.html")
    before = written.stamp()
    (written.folder / "cells" / "one-more.yaml").unlink()
    written.waits(lambda: written.stamp() != before)
    assert "One more" not in written.text("/")
    assert "found none any more" in _plain(written.text("/one-more"))


def test_it_outlives_the_bank_itself(folder):
    bank = WatchedBank(folder)
    bank.shown("anode-of-two")
    shutil.rmtree(folder)
    bank.saved([folder.resolve() / FILE])
    assert [each.code for each in bank.faults] == ["no-bank"]
    assert bank.shown("anode-of-two").made is not None


@pytest.mark.parametrize("name", [path.stem for path in worked_files()])
def test_every_kind_of_question_is_shown(name):
    """Page, paper and memorandum of each worked template, those without a scenario too."""
    shown = WatchedBank(WORKED).shown(name)
    assert shown.faults == ()
    assert shown.made.template.title in shown.made.page(1)
    assert all(shown.made.pictures(kind, 1)[0].startswith(b"<svg") for kind in ("paper", "memorandum"))
