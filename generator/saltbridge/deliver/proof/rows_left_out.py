"""Rows of a template's table that no draw keeps: a group's readings would be missing without a word."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.bank import Bank
from saltbridge.bank.template import FilledRow, Template
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.deliver.proof.findings import Finding
from saltbridge.draw.drawer import Drawer
from saltbridge.draw.seeds import Seed
from saltbridge.faults import Fault, Faulty

TRIES = 5  # a row fixes the values of its draws; what else is drawn may let one pass


def rows_left_out(template: Template, bank: Bank, catalogue: Catalogue) -> Iterator[Finding]:
    """A warning for each row that is turned down whatever else is drawn, with the reason."""
    for row in template.filled:
        why = _turned_down(row, template, bank, catalogue)
        if why:
            hint = "Change the row, or what turns it down."
            fault = Fault("row-left-out", "a row that gives a version", why, hint, template.rows or "", row.line)
            yield Finding("warning", fault, template.id)


def _turned_down(row: FilledRow, template: Template, bank: Bank, catalogue: Catalogue) -> str:
    """Why a row gives no version; nothing where it does, or where the template itself is at fault."""
    drawer = Drawer(template.model_copy(update={"filled": (row,)}), bank, catalogue)
    reasons: tuple[str, ...] = ()
    for attempt in range(1, TRIES + 1):
        try:
            _, against = drawer.attempt(Seed(bank.id, template.id, f"row {row.line} try {attempt}"))
        except Faulty:
            return ""
        if not against:
            return ""
        reasons = tuple(dict.fromkeys(each.what for each in against))
    return "; ".join(reasons)
