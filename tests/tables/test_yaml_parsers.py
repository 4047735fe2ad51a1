"""The shipped data read by the quick parser and by the careful one."""

from __future__ import annotations

from pathlib import Path

import pytest

from saltbridge.faults import FaultList, Faulty
from saltbridge.home import shipped
from saltbridge.tables import yaml_text
from saltbridge.tables.yaml_text import read_mapping

FILES = sorted(shipped("data").rglob("*.yaml"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(shipped("data")).as_posix())
def test_both_parsers_read_the_same_texts_on_the_same_lines(path: Path, tmp_path: Path) -> None:
    copy = tmp_path / path.name  # out of our own folder, so read by the careful parser, tricks refused
    copy.write_bytes(path.read_bytes())
    faults = FaultList()
    assert yaml_text._is_own(path)
    assert not yaml_text._is_own(copy)
    assert read_mapping(path, faults, lists=True) == read_mapping(copy, faults, lists=True)
    assert not faults.faults


def test_a_path_that_leads_out_of_the_data_again_is_not_our_own(tmp_path: Path) -> None:
    path = shipped("data") / ".." / ".." / tmp_path.name / "relations.yaml"
    assert not yaml_text._is_own(path)


def test_a_file_of_ours_that_the_quick_parser_refuses_is_told_as_any_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    broken = tmp_path / "broken.yaml"
    broken.write_text('a: 1\nb: "open\n', encoding="utf-8")
    with pytest.raises(Faulty) as careful:
        read_mapping(broken, FaultList())
    monkeypatch.setattr(yaml_text, "_is_own", lambda _path: True)
    with pytest.raises(Faulty) as quick:
        read_mapping(broken, FaultList())
    assert quick.value.faults == careful.value.faults
