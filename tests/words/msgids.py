"""Every sentence that the program may look up in its catalogue, read from the code, the layouts and the data."""

from __future__ import annotations

import ast
import csv
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from saltbridge.answers.sentences import VERDICTS, WHY
from saltbridge.chemistry.inscriptions import WORDS as CHEMISTRY_WORDS
from saltbridge.home import shipped
from saltbridge.sigfigs import ENGLISH
from saltbridge.words import CONTEXT

CODE = Path(__file__).resolve().parents[2] / "generator" / "saltbridge"
ENGLISH_ONLY = {
    "cli",
    "check",
    "bank",
    "faults.py",
    "forms",
    "listing.py",
    "name_advice.py",
    "keyword_scenarios.py",
    "assignments.py",
}  # what a teacher reads at the terminal
TABLES = {
    "DEMANDS",
    "LEVELS",
    "WAYS",
    "ACTIONS",
    "SAID",
    "WEIGHTS",
    "STATES",
    "USES",
    "CAUSES",
    "BENCH",
}  # module-level mappings of codes to sentences
CALLED = {"words", "_words", "say", "spans", "count"}
PRODUCTS = {"H", "O", "F", "Cl", "Br", "I"}
"""Elements besides metals that an electrolysis can make."""
CHOSEN = ("lowest", "highest", "EMF", "graphite", "{title}, step by step", "{title}, in one go")
"""Said by a name that the code picks or a bank's settings hold, which no scan of literals sees; the last test finds such."""
_LAYOUT = re.compile(r"""words\(\s*(?:"((?:[^"\\]|\\.)*)"|'((?:[^'\\]|\\.)*)')""")

_MEANT = re.compile(r"""words\.meant\("([^"]+)", "([^"]+)"\)""")


def code_files() -> list[Path]:
    """The files whose sentences reach a page, a paper or a working."""
    found = [path for path in sorted(CODE.rglob("*.py")) if not path.name.endswith("_models.py")]
    return [path for path in found if not ENGLISH_ONLY.intersection(path.relative_to(CODE).parts)]


def literals(path: Path) -> Iterator[str]:
    """Literal sentences handed to the catalogue in a file, and its module-level sentences and tables of sentences."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    constants = dict(_constants(tree))
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and node.args and _name(node.func) in CALLED:
            for each in node.args:
                yield from _texts(each, constants)
    for name, value in constants.items():
        if (
            name.isupper()
            and isinstance(value, ast.Constant)
            and isinstance(value.value, str)
            and value.value[-1:] in {".", ":", "?"}
        ):
            yield value.value
        if name.strip("_") in TABLES and isinstance(value, ast.Dict):
            for each in value.values:
                yield from _texts(each, constants)


def _constants(tree: ast.Module) -> Iterator[tuple[str, ast.expr]]:
    for node in tree.body:
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            yield node.targets[0].id, node.value
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.value is not None:
            yield node.target.id, node.value


def _name(function: ast.expr) -> str:
    return function.id if isinstance(function, ast.Name) else function.attr if isinstance(function, ast.Attribute) else ""


def _texts(node: ast.expr, constants: dict[str, ast.expr]) -> Iterator[str]:
    match node:
        case ast.Constant(value=str() as text):
            yield text
        case ast.IfExp(body=one, orelse=other):
            yield from _texts(one, constants)
            yield from _texts(other, constants)
        case ast.Name(id=name) if name in constants and name.isupper():
            yield from _texts(constants[name], constants)


def layout_sentences() -> Iterator[str]:
    """Sentences of the page layouts."""
    for path in sorted((shipped("site") / "layouts").glob("*.html")):
        if path.name in ENGLISH_ONLY:
            continue
        for double, single in _LAYOUT.findall(path.read_text(encoding="utf-8")):
            yield double or single
        for context, word in _MEANT.findall(path.read_text(encoding="utf-8")):
            yield f"{context}{CONTEXT}{word}"


def data_sentences() -> Iterator[str]:
    """Names and sentences of the data files that are said to a student."""
    data = shipped("data")
    for relation in _entries("relations"):
        yield from (relation[key] for key in ("say", "say here", "hint") if key in relation)
    yield from (slip["hint"] for slip in _entries("slips"))
    yield from _sentences_with_errors()
    for kind in _yaml(data / "balances.yaml").values():
        yield from (kind[key] for key in ("say", "say first", "say second", "say both", "hint") if key in kind)
    for quantity in _entries("quantities"):
        yield quantity["name"]
        if re.fullmatch("[a-z]{3,}", str(quantity.get("sub", ""))):
            yield f"subscript{CONTEXT}{quantity['sub']}"
    yield from (policy["say"] for policy in _yaml(data / "policies.yaml").values())
    yield from (said for rule in _yaml(data / "policy_rules.yaml").values() for said in rule.values())
    yield from (outcome["can"] for outcome in _yaml(data / "outcomes.yaml").values())
    for sheet in sorted((data / "sheets").glob("*.yaml")):
        read = _yaml(sheet)
        yield from (read["title"], read["citation"])
        yield from (constant["name"] for constant in read["constants"].values())
    yield from (row["name"] for row in _rows(data / "electrolytes.csv"))
    yield from (row["name"] for row in _rows(data / "reactions.csv"))
    yield from (row["name"] for row in _rows(data / "elements.csv") if row["symbol"] in PRODUCTS)
    for row in _rows(data / "metals.csv"):
        yield from (row["name"], row["salt"])
    yield from (row["line"] for name in ("safety_bench", "cautions") for row in _rows(data / f"{name}.csv"))
    yield from (row["said"] for row in _rows(data / "bench_causes.csv"))
    for idea in _yaml(data / "ideas.yaml").values():
        yield from (idea[key] for key in ("statement", "counterpart", "hint", "holds when") if key in idea)
    yield from _figures(data / "figures.yaml")
    for row in _rows(data / "batteries.csv"):
        yield from (row["name"], row["note"])
    for row in _rows(data / "fuels.csv"):
        yield row["product"]
    yield from (row["name"] for row in _rows(data / "seawater_series.csv"))
    yield from (row["set_up"] for row in _rows(data / "rust_tubes.csv"))
    yield from (row["name"] for row in _rows(data / "bridge_salts.csv"))
    yield from (row["acid"] for row in _rows(data / "formal_potentials.csv"))
    for row in _rows(data / "reference_electrodes.csv"):
        yield from (row["name"], row["filling"])
    for row in _rows(data / "units.csv"):
        yield from (row["one"], row["many"])


def _sentences_with_errors() -> Iterator[str]:
    """Sentences, hints and common errors of rules and facts."""
    for each in (*_entries("rules"), *_entries("facts")):
        yield from (each[key] for key in ("say", "hint") if key in each)
        yield from (wrong["hint"] for wrong in each.get("wrong", ()) if "hint" in wrong)
    for fact in _entries("facts"):
        yield f"{fact['statement']} {fact.get('why', '')}".strip()


def _figures(path: Path) -> Iterator[str]:
    """What figures say, and the words of their labels; a label of names alone needs no translation."""
    for figure in _yaml(path).values():
        texts = [
            *_candidates(figure["says"]),
            *(each for label in figure.get("labels", {}).values() for each in _candidates(label)),
        ]
        texts += [sentence for key in figure.get("keys", {}).values() for sentence in key["words"].values()]
        texts += [place["says"] for key in ("letters", "arrows") for place in figure.get(key, {}).values()]
        yield from (text for text in texts if re.search("[A-Za-z]{2}", re.sub(r"\{[^{}]*\}|`[^`]*`", "", text)))


def _candidates(texts: Any) -> Iterator[str]:
    """A text, one with the draws it stands in, or several of either."""
    for each in texts if isinstance(texts, list) else [texts]:
        yield each["text"] if isinstance(each, dict) else each


def _entries(name: str) -> Iterator[dict[str, Any]]:
    """The entries of a data file, or of the files of a folder of its name."""
    for path in (shipped("data") / f"{name}.yaml", *sorted((shipped("data") / name).glob("*.yaml"))):
        if path.is_file():
            yield from _yaml(path).values()


def _yaml(path: Path) -> dict[str, dict[str, Any]]:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def all_sentences() -> dict[str, str]:
    """Every sentence, with the place where it was found first."""
    found: dict[str, str] = {}
    for path in code_files():
        for text in literals(path):
            found.setdefault(text, path.relative_to(CODE).as_posix())
    for place, texts in (
        ("site/layouts", layout_sentences()), ("data", data_sentences()), ("answers", [*VERDICTS.values(), *WHY.values()]),
        ("spoken", [*CHEMISTRY_WORDS, *ENGLISH, *CHOSEN]),
    ):  # fmt: skip
        for text in texts:
            found.setdefault(text, place)
    return {text: place for text, place in found.items() if re.search("[A-Za-z]{2}", text)}
