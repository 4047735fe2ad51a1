"""What a working cell does to the masses of its metal electrodes: the same electrons leave one and reach the other."""

from __future__ import annotations

from typing import Literal

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.cells import SIDES, GalvanicCell
from saltbridge.faults import fault
from saltbridge.graph.laws import Given, Rule, Situation, instance
from saltbridge.scenarios.bath.electrolysis import add_molar_mass
from saltbridge.scenarios.cell.loop import has_own_metal
from saltbridge.tables import Sheet

LOST = "The mass lost is the amount dissolved times the molar mass."
GAINED = "The mass gained is the amount deposited times the molar mass."
LOST_ELECTRONS = "Each mole of the anode's metal loses z mol of electrons."
GAINED_ELECTRONS = "Each mole of the cathode's metal gains z mol of electrons."
Electrode = Literal["anode", "cathode"]
NAMES = frozenset({"m_lost", "n_lost", "m_gained", "n_gained"})


def add_masses(
    situation: Situation, cell: GalvanicCell, sheet: Sheet, catalogue: Catalogue, asked: Electrode = "cathode"
) -> None:
    """Amounts and masses at both electrodes by the same electrons; ``asked`` is the electrode worked out from the other.

    Raises ``Faulty`` (code ``no-metal``) where an electrode is not the metal of its couple.
    """
    for side in SIDES:
        half = cell.side(side)
        if not has_own_metal(half):
            hint = "An inert electrode keeps its mass."
            raise fault("no-metal", expected="two electrodes of metal", found=half.electrode.bare, hint=hint)
        count = next(term.coefficient for term in half.half.reduced if term.species.bare == half.electrode.bare)
        z = half.half.n // count
        situation.given[f"{side}.z"] = Given(float(z), "", str(z), "balance")
        add_molar_mass(situation, half.electrode, sheet, f"{side}.M")
        situation.about[f"{side}.M"] = f"{side}.electrode"
    for symbol in ("z", "M"):
        for name, role in ((f"{symbol}_lost", "anode"), (f"{symbol}_gained", "cathode")):
            situation.laws.append(Rule(name, "pick", (role, f"left.{symbol}", f"right.{symbol}"), keys=SIDES))
    for law in ("charge", "electron-amount"):
        situation.laws.append(instance(catalogue.relations[law], say=catalogue.relations[law].say))
    first, second = ("lost", "gained") if asked == "cathode" else ("gained", "lost")
    says = {"lost": (LOST_ELECTRONS, LOST), "gained": (GAINED_ELECTRONS, GAINED)}
    relations = catalogue.relations
    electrons, mass = says[first]
    situation.laws.append(instance(relations["product-amount"], {"n_B": f"n_{first}", "z": f"z_{first}"}, say=electrons))
    names = {"n_B": f"n_{first}", "M": f"M_{first}", "m": f"m_{first}"}
    situation.laws.append(instance(relations["mass"], names, say=mass))
    electrons, mass = says[second]
    situation.laws.append(instance(relations["second-amount"], {"n_2": f"n_{second}", "z_2": f"z_{second}"}, say=electrons))
    names = {"n_2": f"n_{second}", "M_2": f"M_{second}", "m_2": f"m_{second}", "m": f"m_{first}"}
    situation.laws.append(instance(relations["second-mass"], names, say=mass))
