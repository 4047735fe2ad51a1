"""The guide for authors as Markdown: chapters written by hand, worked templates as they stand, and every key, name, outcome and idea from its source.

``python -m saltbridge.deliver.author_guide`` writes ``data/GUIDE.md`` and ``data/NAMES.md``; a test holds them against their sources.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import escape
from pathlib import Path

from saltbridge.bank.schema import schema_of, template_schema
from saltbridge.bank.settings import BankKeys
from saltbridge.catalogue.catalogue import catalogue
from saltbridge.chemistry.realism import RULES
from saltbridge.deliver.new_bank import FIRST, WORKED
from saltbridge.deliver.tables_of_keys import settings_tables, template_tables
from saltbridge.forms.registries import outcomes
from saltbridge.home import shipped
from saltbridge.scenarios.kinds.names_text import names_text
from saltbridge.scenarios.kinds.offered import keys_of, kinds, offered

GUIDE, NAMES = "GUIDE.md", "NAMES.md"
CHAPTERS = "guide"


def guide() -> str:
    """The whole guide."""
    known = catalogue()
    pieces = [
        _chapter("begin"),
        "## Worked templates\n\nFrom the shortest to a linked set. Each stands in `data/worked` and is proved; copy one and change it.\n",
        *_worked(),
        "## The keys of a template\n",
        *template_tables(template_schema()),
        "## The settings of a bank: `bank.yaml`\n",
        *settings_tables(schema_of(BankKeys)),
        _chapter("chemistry"),
        "## Outcomes\n",
        _table(("outcome", "level", "a student can"), ((f"`{name}`", each.level, each.can) for name, each in outcomes().items())),
        "## Rules of realism, for `rules`\n",
        _table(("code", "what a draw keeps"), ((f"`{code}`", rule.sentence) for code, rule in RULES.items())),
        "## Ideas, for `which`\n",
        _table(
            ("id", "what students say", "what is true"),
            ((f"`{each.id}`", each.statement, each.counterpart) for each in known.ideas.values()),
        ),
        _chapter("finish"),
    ]
    return "\n".join(piece.rstrip("\n") + "\n" for piece in pieces)


def names() -> str:
    """What every kind of scenario prints, finds, chooses, orders and balances, folded by kind."""
    known = catalogue()
    head = (
        "# The names of each kind of scenario\n\n"
        "As `saltbridge names KIND` prints them. `saltbridge names KIND --bank my-bank` adds what a bank brings itself. "
        "[Back to the guide](GUIDE.md)\n"
    )
    return "\n".join([head, *(_kind(kind) for kind in kinds(known))])


def _kind(kind: str) -> str:
    known = catalogue()
    entry = known.scenarios[kind]
    text = names_text(offered(kind, known), keys_of(kind, known), list(entry.examples), known)
    body = text.partition("\n")[2].strip("\n")
    about = re.sub(r"`([^`]*)`", r"<code>\1</code>", escape(entry.about))
    return f"<details><summary><strong>{escape(kind)}</strong>: {about}</summary>\n<pre>{escape(body, quote=False)}</pre>\n</details>\n"


def _chapter(name: str) -> str:
    return (shipped("data") / CHAPTERS / f"{name}.md").read_text(encoding="utf-8")


def worked_files() -> list[Path]:
    """The worked templates, the shortest first and the linked set last."""
    home = shipped("data") / WORKED
    found = [path for path in home.rglob("*.yaml") if path.name != "bank.yaml"]
    return sorted(found, key=lambda path: (path.relative_to(home).as_posix() == FIRST[-1], len(_lines(path)), path.name))


def _lines(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").splitlines()


def _worked() -> Iterator[str]:
    for number, path in enumerate(worked_files(), 1):
        _modeline, about, *lines = _lines(path)
        place = path.relative_to(shipped("data") / WORKED).as_posix()
        title = lines[0].removeprefix("title: ")
        table = next((line.partition(": ")[2] for line in lines if line.startswith("rows: ")), "")
        beside = (
            f"\nThe table `{table}`:\n\n```\n{(shipped('data') / WORKED / table).read_text(encoding='utf-8').strip()}\n```\n"
            if table
            else ""
        )
        yield f"### {number}. {title}\n\n{about.removeprefix('# ')} (`{place}`)\n\n```yaml\n{chr(10).join(lines)}\n```\n{beside}"


def _table(head: tuple[str, ...], rows: Iterator[tuple[str, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *(tuple(cell.replace("|", "\\|") for cell in row) for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines) + "\n"


def write_guide(folder: Path) -> None:
    """Write both files into a folder."""
    (folder / GUIDE).write_text(guide(), encoding="utf-8")
    (folder / NAMES).write_text(names(), encoding="utf-8")


if __name__ == "__main__":
    write_guide(shipped("data"))
