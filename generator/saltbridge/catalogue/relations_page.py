"""The table of all relations for the documentation: ``python -m saltbridge.catalogue.relations_page`` writes ``data/RELATIONS.md``."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path

from saltbridge.algebra.expression import as_text
from saltbridge.catalogue.catalogue import Catalogue, catalogue
from saltbridge.catalogue.catalogue_records import Relation
from saltbridge.home import shipped

FILE = "RELATIONS.md"
_HEAD = """# Relations

Written by `python -m saltbridge.catalogue.relations_page`; a test keeps it in step. Each relation is stated once and can be solved for any
of its unknowns. *Cases* counts the outside values that stand with the relation; more are in `tests/checks/`.
"""


def table(known: Catalogue) -> str:
    """The Markdown text: a table for each family, in the order of the catalogue."""
    relations = sorted(known.relations.values(), key=lambda relation: list(_families(known)).index(relation.family))
    parts = [_HEAD]
    for family, members in groupby(relations, key=lambda relation: relation.family):
        rows = "\n".join(_row(relation, known) for relation in members)
        parts.append(
            f"## {family}\n\n| relation | unknowns | source | cases | slips |\n| --- | --- | --- | --- | --- |\n{rows}\n"
        )
    return "\n".join(parts)


def _families(known: Catalogue) -> dict[str, None]:
    return dict.fromkeys(relation.family for relation in known.relations.values())


def _row(relation: Relation, known: Catalogue) -> str:
    unknowns = [symbol for symbol in relation.symbols if not known.quantities[symbol].constant]
    slips = [slip.id for slip in known.slips.values() if relation.id in slip.relations]
    equation = _cell(f"{relation.subject} = {as_text(relation.tree)}")
    cells = (f"`{equation}`", ", ".join(unknowns), _cell(relation.source), str(len(relation.cases)), ", ".join(slips) or "—")
    return f"| {' | '.join(cells)} |"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def write(folder: Path) -> Path:
    """Write the table into a folder and give its path."""
    path = folder / FILE
    path.write_text(table(catalogue()), encoding="utf-8")
    return path


if __name__ == "__main__":
    write(shipped("data"))
