"""Which species a part asks for, and the choice of the graph that decides it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from saltbridge.bank.typed_parts import SpeciesPart
from saltbridge.catalogue.catalogue import Fact
from saltbridge.chemistry.cells import usual_phase
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.draw.drawn import Drawn
from saltbridge.faults import Faulty, fault
from saltbridge.graph.laws import Rule


class Decided(NamedTuple):
    """The node that decides which species is asked for ("" where nothing does), and the name that prints it for each of its outcomes."""

    node: str
    names: Mapping[str, str]


def deciders(part: SpeciesPart) -> Iterator[str]:
    """The nodes that may decide a name such as ``anode.ion`` or ``cathode.product``: the anode, the product at the cathode."""
    owner, _, what = part.species.rpartition(".")
    if owner:
        yield owner
        yield f"{what}_{owner}"


def decided(part: SpeciesPart, drawn: Drawn) -> Decided:
    """What decides the species of a drawn variant. Raises ``Faulty`` (``unknown-name``, ``no-species``) for a name that prints none."""
    asked_for(part.species, drawn)
    what = part.species.rpartition(".")[2]
    for node in deciders(part):
        if node in drawn.graph.index:
            law = drawn.graph.step(node).law
            keys = law.keys if isinstance(law, Rule | Fact) else ()
            names = {key: f"{key}.{what}" for key in keys if f"{key}.{what}" in drawn.situation.labels}
            if len(names) > 1:
                return Decided(node, names)
    return Decided("", {})


def asked_for(name: str, drawn: Drawn) -> Species:
    """The species that a name prints, with its state where one is known. Raises ``Faulty`` (``unknown-name``, ``no-species``)."""
    if name not in drawn.situation.labels:
        if not drawn.has(name):
            raise drawn.unknown(name)
        raise _no_species(name, str(drawn.lookup(name)))
    label = drawn.situation.labels[name]
    if label.role != "species":
        raise _no_species(name, label.plain)
    pieces = [("^" if kind == "sup" else "") + text for kind, text in label.pieces]
    species = parse_species("".join(pieces).replace("\N{MINUS SIGN}", "-"))
    return species if species.phase else _in_state(species, drawn)


def _in_state(species: Species, drawn: Drawn) -> Species:
    known = drawn.situation.states.get(species.bare, "")
    if known:
        return parse_species(f"{species.bare}({known})")
    try:
        return species.in_phase(usual_phase(species))
    except Faulty:
        return species


def _no_species(name: str, found: str) -> Faulty:
    hint = "As `species: cathode.product` or `species: anode.ion`."
    return fault("no-species", expected=f"a name that prints one species for `species: {name}`", found=f"`{found}`", hint=hint)
