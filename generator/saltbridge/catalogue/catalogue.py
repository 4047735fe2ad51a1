"""Quantities, relations and slips: the data of the derivation, read and checked once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache, partial
from pathlib import Path
from typing import Any

from saltbridge.algebra.expression import Ref, Tree, names, substitute
from saltbridge.algebra.rearrange import solve
from saltbridge.catalogue import catalogue_reader as reading
from saltbridge.catalogue.balance_entries import BalanceEntry, balance_entry
from saltbridge.catalogue.catalogue_records import Case, Catalogue, Fact, Form, Quantity, Relation, Slip
from saltbridge.catalogue.dimensions import unlike_sides
from saltbridge.catalogue.entries import Entry, EntryError, entries
from saltbridge.catalogue.facts import fact, one_place
from saltbridge.catalogue.ideas import Idea, idea, unlike
from saltbridge.catalogue.naming import part_of_names
from saltbridge.catalogue.own_entries import OwnEntries
from saltbridge.catalogue.rule_places import place_errors, place_names
from saltbridge.catalogue.rules import RuleEntry, rule, with_added
from saltbridge.catalogue.scenario_entries import Known, scenario
from saltbridge.catalogue.scenario_records import ScenarioEntry
from saltbridge.faults import FaultList, Faulty
from saltbridge.home import shipped

MOST_FILES = 100  # of one kind in a bank
KINDS = ("quantities", "relations", "slips", "rules", "facts", "scenarios", "ideas")
"""The files of a catalogue, without `.yaml`; all but the last may be a folder of files too."""


def catalogue(*folders: Path) -> Catalogue:
    """The shipped catalogue, with a bank's own files of the same names from ``folders`` laid over it.

    Each of ``relations.yaml``, ``slips.yaml``, ``rules.yaml``, ``facts.yaml``, ``scenarios.yaml`` and ``quantities.yaml`` may also be a folder of files, one a family; ``ideas.yaml`` is one file.

    A bank's files are read again where they have changed. Raises ``Faulty`` with every fault of every file.
    """
    return read_catalogue(folders, tuple(_stamp(folder) for folder in folders))


def _stamp(folder: Path) -> tuple[tuple[str, int, int], ...]:
    """What tells a bank's files from those they were: path, time in ns and bytes of each."""
    paths = [path for kind in KINDS for path in (folder / f"{kind}.yaml", folder / kind, *_inner(folder / kind))]
    states = [(str(path), path.lstat()) for path in paths if path.is_symlink() or path.exists()]
    return tuple((path, state.st_mtime_ns, state.st_size) for path, state in states)


@lru_cache(maxsize=8)
def read_catalogue(folders: tuple[Path, ...], _stamps: tuple[tuple[tuple[str, int, int], ...], ...] = ()) -> Catalogue:
    """``catalogue``, kept for each state of the files."""
    if not folders:
        return _laid_over(Catalogue({}, {}, {}), (shipped("data"),))
    return _laid_over(catalogue(), folders)  # the shipped files are read once, however many banks come


def _laid_over(base: Catalogue, folders: tuple[Path, ...]) -> Catalogue:
    faults = FaultList()
    quantities, relations, slips = dict(base.quantities), dict(base.relations), dict(base.slips)
    ideas: dict[str, Idea] = dict(base.ideas)
    facts: dict[str, Fact] = dict(base.facts)
    balances: dict[str, BalanceEntry] = dict(base.balances)
    parts: dict[str, str] = dict(base.parts_of_names)
    rules: dict[str, RuleEntry] = dict(base.rules)
    scenarios: dict[str, ScenarioEntry] = dict(base.scenarios)
    if not base.relations:  # how equations are balanced is the tool's own; a bank adds wrong ways to write them
        _read(shipped("data") / "balances.yaml", balances, balance_entry, faults)
        _read(shipped("data") / "names.yaml", parts, part_of_names, faults)
    own_entries = OwnEntries(bank=bool(base.relations))
    strictly = own_entries.strictly
    for folder in folders:
        _read_all(folder, "quantities", quantities, strictly(reading.quantity, base.quantities), faults)
        read = strictly(lambda entry: reading.relation(entry, quantities), base.relations)
        for entry in _read_all(folder, "relations", relations, read, faults):
            if base.relations:  # ours are held against it in the tests, which saves loading the units library at each start
                unlike_sides(entry, relations[entry.path], quantities)
        read_slip = strictly(lambda entry: reading.slip(entry, relations, quantities, balances), base.slips)
        for entry in _read_all(folder, "slips", slips, read_slip, faults):
            reading.twins(entry, slips)
        read_rules = _read_all(folder, "rules", rules, strictly(lambda entry: rule(entry, rules), base.rules), faults)
        with_added(rules)
        place_errors(read_rules, rules, slips)
        place_names(read_rules, rules, quantities)
        for entry in _read_all(folder, "facts", facts, strictly(lambda entry: fact(entry, balances), base.facts), faults):
            one_place(entry, facts, quantities, slips)
        read_kind = partial(scenario, known=Known(quantities, relations, facts, rules, scenarios), bank=own_entries.bank)
        _read_all(folder, "scenarios", scenarios, strictly(read_kind, base.scenarios), faults)
        for path in _files(folder, "ideas", faults)[:1]:
            for entry in _read(path, ideas, strictly(idea, base.ideas), faults):
                unlike(ideas, entry)
    faults.stop_if_any()
    own = tuple(name for name in relations if base.relations and relations[name] is not base.relations.get(name))
    own_facts = tuple(name for name, each in facts.items() if base.facts and each is not base.facts.get(name))
    own_rules = tuple(name for name in rules if base.rules and name not in base.rules)
    return Catalogue(quantities, relations, slips, ideas, facts, scenarios, own, own_facts, balances, rules, own_rules, parts)


def _files(folder: Path, name: str, faults: FaultList) -> list[Path]:
    """``relations.yaml`` and then the files of ``relations/``, one a family, in the order of their names; a bank's links are faults."""
    inner = folder / name
    if folder == shipped("data"):
        return [folder / f"{name}.yaml", *_inner(inner)]
    paths = [folder / f"{name}.yaml", *_inner(inner)]
    links = [path for path in (inner, *paths) if path.is_symlink()]
    for path in links:
        place, hint = path.relative_to(folder).as_posix(), "Put the file itself there."
        faults.add("link", expected="files and folders of the bank", found="a link to another place", hint=hint, file=place)
    if len(paths) > MOST_FILES:
        hint = "Put several families into one file."
        faults.add(
            "too-many-files", expected=f"at most {MOST_FILES} files of {name}", found=f"{len(paths)}", hint=hint, file=name
        )
        return []
    return [path for path in paths if path not in links]


def _inner(folder: Path) -> list[Path]:
    """The files of a folder of one kind in the order of their names; none behind a link."""
    return [] if folder.is_symlink() else sorted(folder.glob("*.yaml"))


def _read_all(folder: Path, name: str, into: dict[str, Any], read: Callable[[Entry], Any], faults: FaultList) -> list[Entry]:
    """Read the files of one kind in a folder; a name in two of them is a fault, as only one would count."""
    places: dict[str, str] = {}
    found = []
    for path in _files(folder, name, faults):
        place = path.relative_to(folder).as_posix()
        for entry in _read(path, into, read, faults):
            first = places.setdefault(entry.path, place)
            if first != place:
                hint = "Take one out, or give it another name."
                entry.blame("repeated", "", expected="a name used in one file", found=f"it in {first} and {place}", hint=hint)
            found.append(entry)
    return found


def _read(path: Path, into: dict[str, Any], read: Callable[[Entry], Any], faults: FaultList) -> list[Entry]:
    """Read a file's entries into a table and give those that could be read."""
    found = []
    for entry in entries(path, faults):
        try:
            into[entry.path] = read(entry)
        except EntryError:
            continue
        found.append(entry)
    return found


# ------------------------------------------------------------------ slips as equations


def _renamed(tree: Tree, names: Mapping[str, str]) -> Tree:
    return substitute(tree, {name: Ref(to) for name, to in names.items()})


def slip_tree(slip: Slip, relation: Relation, unknown: str, first: Relation | None = None) -> Tree | None:
    """What ``unknown`` becomes when ``slip`` is made in ``relation``; ``None`` where the slip does not touch this unknown.

    A wrong equation is turned round for the unknown as the right one is; a wrong reading is put into the right equation.
    ``first`` is the relation for which the slip is stated, where it may happen in several of the same form.
    """
    here = dict(zip(first.symbols, relation.symbols, strict=True)) if first is not None and first is not relation else {}
    if slip.when and here.get(slip.when, slip.when) != unknown:
        return None
    if slip.instead is None:
        read = {here.get(name, name): _renamed(tree, here) for name, tree in slip.read.items()}
        return None if unknown in read else solve(relation.subject, substitute(relation.tree, read), unknown)
    subject, tree = here.get(slip.instead[0], slip.instead[0]), _renamed(slip.instead[1], here)
    if slip.when:
        return tree
    if unknown != subject and unknown not in names(tree):
        return None
    try:
        return solve(subject, tree, unknown)
    except Faulty:
        return None


__all__ = ["Case", "Catalogue", "Fact", "Form", "Quantity", "Relation", "Slip", "catalogue", "slip_tree"]
