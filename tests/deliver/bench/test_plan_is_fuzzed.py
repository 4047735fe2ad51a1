"""A practical with anything in it is read or refused in words."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.bank.practical import PracticalKeys, read_practical
from saltbridge.faults import Faulty

TEXT = (Path(__file__).parent / "metals.yaml").read_text(encoding="utf-8")
KEYS = [each.alias or name for name, each in PracticalKeys.model_fields.items()]
pieces = st.one_of(
    st.text(max_size=12),
    st.sampled_from([*KEYS, "Zn", "Pb", "-0.7 V", "{", "[", "]]", ": ", "\n  - ", "\x00", "&a", "*a", "!!python/x"]),
)


def told(folder, text):
    """The faults of a practical of this text, none where it is read."""
    file = folder / "metals.yaml"
    file.write_text(text, encoding="utf-8", errors="surrogateescape")
    try:
        read_practical(file)
    except Faulty as trouble:
        return trouble.faults
    return ()


@settings(max_examples=150, deadline=None)
@given(place=st.integers(0, len(TEXT)), length=st.integers(0, 30), piece=pieces)
def test_a_plan_with_something_in_it_is_read_or_refused(tmp_path_factory, place, length, piece):
    text = TEXT[:place] + piece.encode("utf-8", "replace").decode() + TEXT[place + length :]
    for fault in told(tmp_path_factory.getbasetemp(), text):
        assert fault.expected
        assert fault.found
        assert fault.file == "metals.yaml"
