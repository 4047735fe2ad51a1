"""Around the loop of a working cell: signs, ways of electrons and ions, carriers, what is used up, and which salt may fill the bridge.

All rules take the anode from what is known of the cell, so that a student's own anode moves them too.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from saltbridge.chemistry.cells import SIDES, GalvanicCell, HalfCell
from saltbridge.chemistry.half_reactions import is_metal
from saltbridge.chemistry.inscriptions import inscribe_species, merged
from saltbridge.chemistry.realism import solids_of
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.document import Inscription, Piece
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Rule, Situation
from saltbridge.tables.benches import BridgeSalt, bridge_salts

LOOP: tuple[Rule, ...] = (
    Rule("electrons_to", "electrons-in-the-wire", ("anode",), keys=SIDES),
    Rule("cations_to", "cations-of-the-bridge", ("anode",), keys=SIDES),
    Rule("anions_to", "anions-of-the-bridge", ("anode",), keys=SIDES),
)
GAINS_MASS = Rule("gains_mass", "electrode-that-gains-mass", ("anode",), keys=SIDES)


def has_own_metal(half: HalfCell) -> bool:
    """Whether the electrode is the metal of its couple, so that it gains or loses mass."""
    return is_metal(half.electrode) and any(each.bare == half.electrode.bare for each in half.half.species)


def add_loop(situation: Situation, *, metal_cathode: bool) -> None:
    """The rules of the loop; ``metal_cathode``: both electrodes are metals of their couples, so that one gains mass."""
    situation.laws += LOOP
    if metal_cathode:
        situation.laws.append(GAINS_MASS)


# ------------------------------------------------------------------ the salt of the bridge


def dissolved_ions(cell: GalvanicCell) -> tuple[Species, ...]:
    """The ions in both solutions, as the half-reactions name them."""
    found = [species for side in SIDES for species in cell.side(side).half.species if species.phase == "aq" and species.charge]
    return tuple(dict.fromkeys(found))


def clashes(salt: BridgeSalt, ions: Iterable[Species]) -> tuple[str, ...]:
    """The solids that the salt's anion makes with ions of the solutions."""
    solids = solids_of(salt.anion)
    return tuple(solids[species.bare] for species in ions if species.bare in solids)


def _name_solids(situation: Situation, solids: Iterable[str]) -> None:
    """``solids``: the formulas of what falls out, each once."""
    named = [inscribe_species(parse_species(formula), say=situation.say) for formula in dict.fromkeys(solids)]
    pieces = [piece for name in named for piece in (Piece("base", ", "), *name.pieces)]
    situation.labels["solids"] = Inscription("species", merged(pieces[1:]), ", ".join(name.spoken for name in named))


def bridge_salt(word: str) -> BridgeSalt:
    """The salt of a formula or name. Raises ``Faulty`` (code ``unknown-bridge-salt``) naming all that are known."""
    known = bridge_salts()
    found = known.get(word) or next((each for each in known.values() if each.name == word.lower()), None)
    if found is None:
        raise fault("unknown-bridge-salt", expected=f"a salt of bridge_salts.csv: {', '.join(known)}", found=word[:40])
    return found


def add_bridges(situation: Situation, cell: GalvanicCell, formulas: Sequence[str]) -> None:
    """Salts to choose from for the bridge, ``b1``, ``b2``…; raises ``Faulty`` (R-BRIDGE) where not exactly one fits."""
    ions = dissolved_ions(cell)
    found = [(salt, clashes(salt, ions)) for salt in map(bridge_salt, formulas)]
    fitting = [salt.formula for salt, solids in found if not solids]
    if len(fitting) != 1:
        raise fault("R-BRIDGE", expected="exactly one salt that fits this cell", found=", ".join(fitting) or "none")
    keys = tuple(f"b{place}" for place in range(1, len(found) + 1))
    for key, (salt, solids) in zip(keys, found, strict=True):
        situation.labels[f"{key}.formula"] = inscribe_species(parse_species(salt.formula), say=situation.say)
        situation.words[f"{key}.salt"] = salt.name
        situation.given[f"{key}.solids"] = Given(float(len(solids)), "", str(len(solids)), "balance")
    _name_solids(situation, (solid for _, solids in found for solid in solids))
    inputs = tuple(f"{key}.solids" for key in keys)
    situation.laws.append(Rule("bridge", "salt-of-the-bridge", inputs, keys=keys))


def add_told_bridge(situation: Situation, cell: GalvanicCell, word: str) -> None:
    """``bridge = KCl``: whether it fits this cell."""
    solids = clashes(bridge_salt(word), dissolved_ions(cell))
    situation.given["bridge.solids"] = Given(float(len(solids)), "", str(len(solids)), "balance")
    situation.given["bridge.limit"] = Given(0.5, "", "0.5", "balance")
    if solids:
        _name_solids(situation, solids)
    rule = "bridge-that-clouds" if solids else "bridge-that-stays-clear"
    situation.laws.append(Rule("bridge_fits", rule, ("bridge.solids", "bridge.limit"), keys=("no", "yes")))
