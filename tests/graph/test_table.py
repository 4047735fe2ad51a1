"""The documentation's table of relations."""

from __future__ import annotations

from saltbridge.catalogue.catalogue import catalogue
from saltbridge.catalogue.relations_page import FILE, table
from saltbridge.home import shipped


def test_the_shipped_table_is_in_step_with_the_catalogue():
    """Run ``python -m saltbridge.catalogue.relations_page`` after a change of the catalogue."""
    assert (shipped("data") / FILE).read_text(encoding="utf-8") == table(catalogue())


def test_every_relation_has_a_row_with_its_slips():
    text = table(catalogue())
    rows = [line for line in text.splitlines() if line.startswith("| `")]
    assert len(rows) == len(catalogue().relations)
    for slip in catalogue().slips.values():
        assert not slip.relations or slip.id in text
