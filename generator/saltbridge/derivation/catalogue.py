"""Quantities, relations and slips: the data of the derivation, read and checked once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

import yaml

from saltbridge.derivation.expression import Ref, Tree, as_text, names, parse, parse_equation, substitute
from saltbridge.derivation.rearrange import solve
from saltbridge.faults import FaultList, Faulty
from saltbridge.home import shipped


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity's name, printed symbol and coherent ``unit``; ``show`` is the unit a result is given in."""

    symbol: str
    name: str
    base: str
    unit: str
    show: str
    sub: str = ""
    standard: bool = False
    of: str = ""
    signed: bool = False
    whole: bool = False
    constant: bool = False
    upright: bool = False
    least: str = "any"


@dataclass(frozen=True, slots=True)
class Form:
    """The same relation under a condition: ``at`` pins a quantity (K for T) within ``within``; ``constant`` says what a new constant is."""

    id: str
    subject: str
    tree: Tree
    at: Mapping[str, float]
    within: Mapping[str, float]
    constant: Mapping[str, Tree]


@dataclass(frozen=True, slots=True)
class Relation:
    """One relation: ``subject = tree``; sentences for the working; validity, source and outside cases."""

    id: str
    subject: str
    tree: Tree
    family: str
    say: str
    say_here: str
    valid: str
    source: str
    forms: tuple[Form, ...]
    cases: tuple[Mapping[str, Any], ...]

    @property
    def symbols(self) -> tuple[str, ...]:
        """All names of the relation, subject first."""
        return tuple(dict.fromkeys((self.subject, *names(self.tree))))


@dataclass(frozen=True, slots=True)
class Slip:
    """A usual wrong way and its place: ``relations``, or a ``rule``, or a ``conversion`` (from, to), or the quotient."""

    id: str
    hint: str
    source: str
    twins: tuple[str, ...]
    relations: tuple[str, ...] = ()
    rule: str = ""
    conversion: tuple[str, str] | None = None
    quotient: str = ""
    instead: tuple[str, Tree] | None = None
    read: Mapping[str, Tree] = field(default_factory=dict)
    when: str = ""
    takes: str = ""


@dataclass(frozen=True, slots=True)
class Catalogue:
    """All quantities, relations and slips, in file order (the planner's ties go by it)."""

    quantities: Mapping[str, Quantity]
    relations: Mapping[str, Relation]
    slips: Mapping[str, Slip]


@lru_cache(maxsize=8)
def catalogue(*folders: Path) -> Catalogue:
    """The shipped catalogue, with a bank's own ``relations.yaml``, ``slips.yaml``, ``quantities.yaml`` from ``folders`` laid over it.

    Raises ``Faulty`` with every fault of every file.
    """
    faults = FaultList()
    quantities: dict[str, Quantity] = {}
    relations: dict[str, Relation] = {}
    slips: dict[str, Slip] = {}
    for folder in (shipped("data"), *folders):
        for entry, body in _entries(folder / "quantities.yaml", faults):
            quantities[entry] = _quantity(entry, body)
        for entry, body in _entries(folder / "relations.yaml", faults):
            _guard(faults, folder / "relations.yaml", entry, lambda e=entry, b=body: relations.__setitem__(e, _relation(e, b)))
        for entry, body in _entries(folder / "slips.yaml", faults):
            _guard(faults, folder / "slips.yaml", entry, lambda e=entry, b=body: slips.__setitem__(e, _slip(e, b, relations)))
    _check(quantities, relations, slips, faults)
    faults.stop_if_any()
    return Catalogue(quantities, relations, slips)


def _entries(path: Path, faults: FaultList) -> list[tuple[str, dict[str, Any]]]:
    if not path.is_file():
        return []
    try:
        data = yaml.safe_load(path.read_text(encoding="utf-8")) or {}
    except yaml.YAMLError as error:
        faults.add("yaml", expected="YAML", found=str(error).splitlines()[0], file=path.name)
        return []
    return [(str(entry), dict(body)) for entry, body in data.items()]


def _guard(faults: FaultList, path: Path, entry: str, read: Any) -> None:
    try:
        read()
    except Faulty as error:
        faults.extend(each.at(file=path.name, key=entry) for each in error.faults)
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        faults.add(
            "catalogue",
            expected="the keys described at the top of the file",
            found=f"{type(error).__name__}: {error}",
            file=path.name,
            key=entry,
        )


def _quantity(symbol: str, body: Mapping[str, Any]) -> Quantity:
    unit = str(body["unit"])
    return Quantity(
        symbol, body["name"], str(body["base"]), unit, str(body.get("print", unit)), body.get("sub", ""), body.get("mark") == "standard",
        body.get("of", ""), bool(body.get("signed")), bool(body.get("whole")), bool(body.get("constant")), bool(body.get("upright")),
        body.get("range", "any"),
    )  # fmt: skip


_RELATION_KEYS = {"family", "equation", "forms", "say", "say here", "valid", "source", "cases"}


def _heading(text: object) -> str:
    """A family's name; raises ``ValueError`` for anything but a short text."""
    if not isinstance(text, str) or not 0 < len(text.strip()) <= 40:
        raise ValueError("family: a heading of at most 40 characters")
    return text.strip()


def _relation(entry: str, body: Mapping[str, Any]) -> Relation:
    if unknown := sorted(set(body) - _RELATION_KEYS):
        raise KeyError(", ".join(unknown))
    subject, tree = parse_equation(body["equation"])
    forms = tuple(_form(form_id, form) for form_id, form in body.get("forms", {}).items())
    return Relation(
        entry,
        subject,
        tree,
        _heading(body["family"]),
        body["say"],
        body.get("say here", ""),
        body["valid"],
        body["source"],
        forms,
        tuple(body.get("cases", ())),
    )


def _form(form_id: str, body: Mapping[str, Any]) -> Form:
    subject, tree = parse_equation(body["equation"])
    constant = {name: parse(text) for name, text in body.get("constant", {}).items()}
    at = {name: float(value) for name, value in body.get("at", {}).items()}
    return Form(form_id, subject, tree, at, {name: float(value) for name, value in body.get("within", {}).items()}, constant)


def _slip(entry: str, body: Mapping[str, Any], relations: Mapping[str, Relation]) -> Slip:
    places = body["at"] if isinstance(body["at"], list) else [body["at"]]
    common = {
        "id": entry,
        "hint": body["hint"],
        "source": body["source"],
        "twins": tuple(body.get("twins", ())),
        "when": body.get("when", ""),
    }
    first = str(places[0])
    if first.startswith("rule:"):
        return Slip(**common, rule=first.removeprefix("rule:").strip(), takes=body["takes"])
    if first.startswith("convert:"):
        before, _, after = first.removeprefix("convert:").partition("->")
        return Slip(**common, conversion=(before.strip(), after.strip()))
    if first == "quotient":
        return Slip(**common, quotient=body["instead"])
    instead = parse_equation(body["instead"]) if "instead" in body else None
    read = {name: parse(str(text)) for name, text in body.get("read", {}).items()}
    unknown = [place for place in places if place not in relations]
    if unknown or not (instead or read):
        raise KeyError(f"at: {', '.join(unknown) or 'needs instead or read'}")
    return Slip(**common, relations=tuple(places), instead=instead, read=read)


def _check(
    quantities: Mapping[str, Quantity], relations: Mapping[str, Relation], slips: Mapping[str, Slip], faults: FaultList
) -> None:
    for relation in relations.values():
        for symbol in relation.symbols:
            if symbol not in quantities:
                faults.add(
                    "unknown-quantity", expected="a name of quantities.yaml", found=symbol, file="relations.yaml", key=relation.id
                )
    for slip in slips.values():
        for twin in slip.twins:
            if twin not in slips:
                faults.add("unknown-slip", expected="the id of a slip", found=twin, file="slips.yaml", key=slip.id)


# ------------------------------------------------------------------ slips as equations


def slip_tree(slip: Slip, relation: Relation, unknown: str) -> Tree | None:
    """What ``unknown`` becomes when ``slip`` is made in ``relation``; ``None`` where the slip does not touch this unknown.

    A wrong equation is turned round for the unknown as the right one is; a wrong reading is put into the right equation.
    """
    if slip.when and slip.when != unknown:
        return None
    if slip.instead is None:
        if unknown in slip.read:
            return None
        return solve(relation.subject, substitute(relation.tree, slip.read), unknown)
    subject, tree = slip.instead
    home = relation if len(slip.relations) == 1 else None
    if home is None:
        subject, tree = _carried(slip, relation)
    if slip.when:
        return tree
    if unknown != subject and unknown not in names(tree):
        return None
    try:
        return solve(subject, tree, unknown)
    except Faulty:
        return None


def _carried(slip: Slip, relation: Relation) -> tuple[str, Tree]:
    """A slip stated for the first of several like relations, with the names of this one put in."""
    assert slip.instead is not None  # noqa: S101 - the caller has looked
    subject, tree = slip.instead
    first = catalogue().relations[slip.relations[0]]
    put = dict(zip(first.symbols, relation.symbols, strict=True))
    return put.get(subject, subject), substitute(tree, {name: Ref(to) for name, to in put.items()})


def describe(relation: Relation) -> str:
    """The relation on one line, for lists and documentation."""
    return f"{relation.subject} = {as_text(relation.tree)}"
