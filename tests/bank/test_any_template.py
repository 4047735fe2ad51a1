"""Whatever stands at a key, a template is read or refused with faults: nothing else comes out."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from bank_samples import GALVANIC, template_of
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.bank.template import TemplateKeys
from saltbridge.faults import Faulty

EXAMPLES = Path(__file__).parent / "examples"
WORDS = st.sampled_from(
    ["", "Zn", "standard", "0.50 A", "25 °C", "core", "{{ x }}", "E0_cell >= 0.20 V", "steps", "true", "3", "-1", "a b", "|"]
)
SHAPES = st.recursive(
    WORDS,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["from", "between", "step", "metals", "find", "ask", "bench", "x"]), inner, max_size=3)
    ),
    max_leaves=6,
)


def faults_of(text):
    """The faults of a template, none where it is right."""
    try:
        template_of(text)
    except Faulty as trouble:
        return trouble.faults
    return ()


@settings(deadline=None, max_examples=30)
@given(key=st.sampled_from([each.alias or name for name, each in TemplateKeys.model_fields.items()]), value=SHAPES)
def test_any_shape_at_any_key_is_read_or_refused(key, value):
    """A list, keys or a text where another kind belongs never breaks the loader; each fault names a line of the file."""
    text = yaml.safe_dump({**yaml.safe_load(GALVANIC), key: value}, allow_unicode=True, sort_keys=False)
    faults = faults_of(text)

    assert all(0 < fault.line <= text.count("\n") and fault.expected and fault.found for fault in faults)
    assert faults or template_of(text).id == "t"


@settings(deadline=None, max_examples=30)
@given(
    body=st.dictionaries(
        st.sampled_from(["metals", "couples", "current", "time", "mass", "concentrations", "reference", "scatter"]),
        SHAPES,
        max_size=5,
    )
)
def test_any_scenario_is_read_or_refused(body):
    """The same inside every kind of scenario."""
    for kind in ("galvanic cell", "electrolysis", "bench"):
        text = yaml.safe_dump({**yaml.safe_load(GALVANIC), "scenario": {kind: body}}, allow_unicode=True, sort_keys=False)
        faults = faults_of(text)
        assert all(fault.key.startswith("scenario") for fault in faults)
        assert faults or template_of(text).scenario.kind == kind


def test_a_template_can_not_be_changed():
    template = template_of(GALVANIC)

    with pytest.raises(Exception, match="frozen"):
        template.title = "other"
    with pytest.raises(Exception, match="frozen"):
        template.scenario.body.metals = ()
