"""An old bank is brought to the names of now by one command; prose, comments and line ends stay as they are."""

from __future__ import annotations

import re

import pytest

from saltbridge.deliver.rewrite_names import main, rewritten
from saltbridge.home import shipped
from saltbridge.renamed import KEYS, NAMES

OLD = """\
# A coat and its plus: this comment stays.
title: The coat of a works
scenario:
  scratched coat: {base: Fe, coats: [Zn, Sn]}
further: {V_strong: 20 mL}
keep only if:
  - coat.E0 < 0 V and c_strong > c_weak
must catch: [any-error]
text: |
  A coat of {{ coat.metal }} gives a plus to the works. {% if minus == "x" %}minus{% endif %}
parts:
  - ask: "Which pole: plus or minus?"
    choose: object_pole
    from:
      plus: The plus pole, as the coat says.
      minus: The minus pole.
  - ask: And which is it?
    choose: charge_minus.half
    from: [charge_minus.half, charge_plus.half, plus, a plus sign]
  - ask: Find it for the helper.
    find: V_coat
    why: The helper has a coat.
"""
NEW = """\
# A coat and its plus: this comment stays.
title: The coat of a works
scenario:
  scratched coating: {base: Fe, coatings: [Zn, Sn]}
further quantities: {V_conc: 20 mL}
keep only if:
  - coating.E0 < 0 V and c_conc > c_dil
must reveal: [any-error]
text: |
  A coat of {{ coating.metal }} gives a plus to the works. {% if negative == "x" %}minus{% endif %}
parts:
  - ask: "Which pole: plus or minus?"
    choose: object_terminal
    from:
      positive: The plus pole, as the coat says.
      negative: The minus pole.
  - ask: And which is it?
    choose: charge_negative.half
    from: [charge_negative.half, charge_positive.half, positive, a plus sign]
  - ask: Find it for the helper.
    find: V_coating
    why: The helper has a coat.
"""


def test_names_are_rewritten_and_prose_is_not():
    assert rewritten(OLD) == NEW


def test_line_ends_stay():
    assert rewritten(OLD.replace("\n", "\r\n")) == NEW.replace("\n", "\r\n")


@pytest.mark.parametrize("old", [*KEYS, *NAMES])
def test_each_old_name_has_a_new_one_that_stays(old):
    line = f"find: {old}\n" if old in NAMES else f"{old}: 1\n"
    new = rewritten(line)
    assert new == line.replace(old, NAMES.get(old) or KEYS[old])
    assert rewritten(new) == new


def test_a_bank_of_now_stays_as_it_is():
    for path in sorted(shipped("question_templates").rglob("*.yaml")):
        text = path.read_text(encoding="utf-8")
        assert rewritten(text) == text, path.name


def test_the_command_shows_what_it_would_change_and_writes_only_when_told(tmp_path, capsys):
    file = tmp_path / "topic" / "old.yaml"
    file.parent.mkdir()
    file.write_text(OLD, encoding="utf-8")
    assert main([str(tmp_path)]) == 0
    told = capsys.readouterr().out
    assert "topic/old.yaml:8: must catch: [any-error] -> must reveal: [any-error]" in told
    assert re.search(r"^11 lines to change\.$", told, flags=re.MULTILINE)
    assert file.read_text(encoding="utf-8") == OLD
    assert main([str(tmp_path), "--write"]) == 0
    assert file.read_text(encoding="utf-8") == NEW
    assert capsys.readouterr().out.endswith("11 lines changed.\n")
    assert main([str(tmp_path)]) == 0
    assert capsys.readouterr().out == "0 lines to change.\n"


@pytest.mark.parametrize("arguments", [[], ["nowhere"], ["one", "two"]])
def test_another_use_is_told(arguments, capsys):
    assert main(arguments) == 2
    assert capsys.readouterr().err.startswith("Give the folder of one bank")
