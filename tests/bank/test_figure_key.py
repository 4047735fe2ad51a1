"""The key ``figure`` of a template: what may stand there, and the whole message for what may not."""

from __future__ import annotations

import jsonschema
import pytest
from bank_samples import GALVANIC, changed, messages, template_of

from saltbridge.bank.figure_key import FigureUse
from saltbridge.bank.schema import template_schema
from saltbridge.bank.template import TemplateKeys
from saltbridge.scenarios.figures.figure_entries import figures

LINE = "keep only if: E0_cell >= 0.20 V"
PLACES = "Places: `wire`, `left`, `right`, `left solution`, `right solution`, `salt bridge`."
KEYS = "Keys: `instrument`, `bridge`, `letters`, `arrows`."
KNOWN = "Known: " + ", ".join(f"`{name}`" for name in (*figures(), "none")) + "."


def figure(text: str) -> FigureUse:
    return template_of(changed(LINE, f"figure: {text}")).figure


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("none", FigureUse()),
        ("galvanic cell", FigureUse("galvanic cell")),
        (
            "{galvanic cell: {instrument: lamp, bridge: named}}",
            FigureUse("galvanic cell", {"instrument": "lamp", "bridge": "named"}),
        ),
        ("{galvanic cell: {letters: [wire, salt bridge]}}", FigureUse("galvanic cell", {}, ("wire", "salt bridge"))),
        ("{galvanic cell: {letters: wire, arrows: wire}}", FigureUse("galvanic cell", {}, ("wire",), ("wire",))),
        ("{galvanic cell: {arrows: all}}", FigureUse("galvanic cell", {}, (), ("wire", "salt bridge"))),
        ("{galvanic cell: {}}", FigureUse("galvanic cell")),
    ],
)
def test_what_may_stand_there(text, expected):
    assert figure(text) == expected


def test_without_the_key_nothing_is_drawn():
    assert template_of(GALVANIC).figure == FigureUse()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("galvanic sell", "the name of a figure; found `galvanic sell`. Did you mean `galvanic cell`?"),
        ("sketch", f"the name of a figure; found `sketch`. {KNOWN}"),
        ("", f"the name of a figure; found nothing. {KNOWN}"),
        ("7", f"the name of a figure; found `7`. {KNOWN}"),
        ("[galvanic cell, number line]", "the name of one figure; found a list. As `figure: galvanic cell`, or `figure: {galvanic cell: {instrument: lamp}}`."),
        ("{galvanic cell: {}, number line: {}}", "the name of one figure; found keys with values. As `figure: galvanic cell`, or `figure: {galvanic cell: {instrument: lamp}}`."),
        ("{galvanic cell: lamp}", f"keys of the figure `galvanic cell` with values; found `lamp`. {KEYS}"),
        ("{galvanic cell: {instrment: lamp}}", "a key of the figure `galvanic cell`; found `instrment`. Did you mean `instrument`?"),
        ("{galvanic cell: {colour: red}}", f"a key of the figure `galvanic cell`; found `colour`. {KEYS}"),
        ("{galvanic cell: {instrument: lmp}}", "`instrument` as `meter` or `lamp` or `motor`; found `lmp`. Did you mean `lamp`?"),
        ("{galvanic cell: {instrument: [lamp]}}", "`instrument` as `meter` or `lamp` or `motor`; found a list"),
        ("{galvanic cell: {letters: [top]}}", f"a place of the figure for letters; found `top`. {PLACES}"),
        ("{galvanic cell: {letters: [[wire]]}}", f"a place of the figure for letters; found a list. {PLACES}"),
        ("{galvanic cell: {letters: [wire, wire]}}", f"`letters` with a list of places, each once; found a list. {PLACES}"),
        ("{galvanic cell: {letters: []}}", f"`letters` with a list of places, each once; found a list. {PLACES}"),
        ("{galvanic cell: {letters: {wire: A}}}", f"`letters` with a list of places, each once; found keys with values. {PLACES}"),
        ("{number line: {letters: all}}", "a key of the figure `number line`; found `letters`. It has no keys: write its name alone."),
        ("scratched coating", "a figure for this scenario: `galvanic cell`, `number line`, `none`; found `scratched coating`. It fits `scratched coating`."),
    ],
)  # fmt: skip
def test_what_may_not_is_told_in_one_message(text, expected):
    assert messages(lambda: figure(text)) == [f"t.yaml:7: figure: expected {expected} [figure]"]


@pytest.mark.parametrize("name", figures())
def test_an_editor_offers_each_figure_with_its_keys(name, tmp_path):
    entry = figures()[name]
    schema = template_schema()["properties"]["figure"]
    jsonschema.validate(name, schema)
    if entry.keys:
        jsonschema.validate({name: {key: next(iter(each.words)) for key, each in entry.keys.items()}}, schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({name: {"colour": "red"}}, schema)
    assert TemplateKeys.model_fields["figure"].description
