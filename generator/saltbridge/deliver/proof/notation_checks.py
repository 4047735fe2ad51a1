"""What is asked to be written down, held against the half-equations and the equation by readers of its own."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.check.chemistry import count
from saltbridge.check.notation import bare, fault_of_half, halves_of, powers_by, powers_of
from saltbridge.deliver.proof.counted_anew import ascii_formula
from saltbridge.deliver.proof.findings import Hit
from saltbridge.deliver.proof.independent import SIDES, anode_side
from saltbridge.deliver.proof.variant_under_test import Seen
from saltbridge.scenarios.equation_laws import EQUATION


def written_again(seen: Seen) -> Iterator[Hit]:
    """Each species, diagram and expression that is asked for, by a second way."""
    for at, part in enumerate(seen.template.parts):
        key = f"parts[{at + 1}]"
        right = str(seen.variant.judge[at].get("right"))
        match part:
            case SpeciesPart():
                yield from _species(seen, part, right, f"{key}.species")
            case DiagramPart():
                yield from _diagram(seen, right, f"{key}.diagram")
            case ExpressionPart():
                yield from _expression(seen, right, f"{key}.expression")
            case _:
                pass


def _species(seen: Seen, part: SpeciesPart, right: str, key: str) -> Iterator[Hit]:
    """The same atoms and charge as the species printed; of an electrode, that of its side by the potentials alone."""
    hint = "The reading of the scenario is wrong."
    owner, _, what = part.species.rpartition(".")
    side = anode_side(seen.drawn) if owner in {"anode", "cathode"} else None
    if side and owner == "cathode":
        side = next(each for each in SIDES if each != side)
    labels = seen.drawn.situation.labels
    label = labels.get(f"{side}.{what}", labels[part.species])
    if count(bare(right)) != count(ascii_formula(label)):
        yield Hit("species-differs", key, f"{ascii_formula(label)} by the potentials", right, hint)


def _diagram(seen: Seen, right: str, key: str) -> Iterator[Hit]:
    """The half-cell of the anode on the left, that of the cathode on the right, each with all of its half-equation."""
    hint = "The reading of the scenario or the writing of the diagram is wrong."
    anode = anode_side(seen.drawn)
    if anode is None:
        yield Hit(
            "not-checked", key, "a second route to the anode", "none", "Write one diagram by hand before you sign.", "warning"
        )
        return
    cathode = next(side for side in SIDES if side != anode)
    left, other = halves_of(right)
    for name, phases, side in (("left", left, anode), ("right", other[::-1], cathode)):
        wrong = fault_of_half(phases, seen.drawn.situation.words[f"{side}.reduction text"])
        if wrong:
            expected = f"the half-cell of {ascii_formula(seen.drawn.situation.labels[f'{side}.couple'])} on the {name}"
            yield Hit("diagram-differs", key, expected, f"one {wrong}: {right}", hint)


def _expression(seen: Seen, right: str, key: str) -> Iterator[Hit]:
    """Products over reactants of the equation, each to its coefficient."""
    hint = "The equation, the states of its species or the writing of the expression is wrong."
    equation = str(seen.drawn.graph.value(seen.drawn.cells, EQUATION))
    expected = powers_by(equation, seen.drawn.situation.states)
    if powers_of(right) != expected:
        told = ", ".join(f"{species} to the power {power}" for species, power in expected.items())
        yield Hit("expression-differs", key, told, right, hint)
