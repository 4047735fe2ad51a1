"""What is told of a solution or a meter, and counts or is refused: nothing that would change the answer is passed over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saltbridge import units
from saltbridge.chemistry.cells import SIDES, GalvanicCell
from saltbridge.faults import Fault, Faulty, fault
from saltbridge.scenarios.assignments import Told
from saltbridge.scenarios.situations import near_25

ION_OF = {"c_H": "H^+", "c_OH": "OH^-"}
"""The ion whose concentration a name tells."""
_OF_POTENTIALS, _TELLS_A_VOLTAGE = {"U_min", "runs", "E0_cell", "E0_anode", "E0_cathode"}, {"U_min", "E0_cell", "E0_anode"}
_OF_ONE_ELECTRODE = ("E_cathode", "E_anode")


def as_amounts(told: Sequence[Told], cell: GalvanicCell) -> list[Told]:
    """What is told, with ``c_H`` and ``c_OH`` as amounts of their ions. Raises ``Faulty`` where the cell holds no such ion."""
    there = {species.bare for side in SIDES for species in cell.side(side).half.species}
    found: list[Told] = []
    for each in told:
        ion = ION_OF.get(each.name, "")
        if ion and ion not in there:
            raise no_such_ion(each, "this cell")
        if each.name == "pOH":
            hint = 'Give the concentration, such as "c(OH^-) = 0.0010 mol/L", or the pH.'
            error = fault("not-counted", expected="what a cell diagram can hold", found="pOH", hint=hint)
            raise Faulty(one.at(key=each.source.strip()[:60]) for one in error.faults)
        found.append(replace(each, name="c", of=ion) if each.name in ION_OF else each)
    return found


def no_such_ion(told: Told, where: str) -> Faulty:
    """The fault for the acidity told of a cell or couple in which it does not count."""
    expected = f"what counts in {where}; its reaction holds no {ION_OF.get(told.name, 'OH^-')}"
    error = fault("not-counted", expected=expected, found=told.name, hint="Leave it out.")
    return Faulty(one.at(key=told.source.strip()[:60]) for one in error.faults)


def refuse_ignored(told: Sequence[Told], couple: str = "", *, cell: bool = False) -> None:
    """Raise ``Faulty`` for what is told beside something that already settles it otherwise."""
    faults: list[Fault] = []
    for each in told:
        key = each.source.strip()[:60]
        if each.name == "slope" and _is_warm(told):
            hint = "Leave it out; R, T and F are used."
            faults.append(
                Fault("not-counted", "RT ln 10/F of the temperature told", "a slope, which holds at 25 °C", hint, key=key)
            )
        if each.name == "p_gas" and couple:
            hint = 'Write the gas in brackets, such as "p(H2) = 50 kPa".'
            faults.append(Fault("not-counted", "a pressure by its gas", each.name, hint, key=key))
        if each.name in _OF_ONE_ELECTRODE and cell:
            hint = "Leave out the diagram and give E_cathode and E_anode, or tell the diagram's concentrations."
            expected = "potentials that follow from the diagram"
            faults.append(Fault("not-counted", expected, f"{each.name} told beside it", hint, key=key))
    if faults:
        raise Faulty(faults)


def refuse_melt(told: Sequence[Told], wanted: str) -> None:
    """Raise ``Faulty`` where the voltage of a melt is to follow from potentials of the table, which hold in water."""
    molten = any(each.name == "state" and each.word == "molten" for each in told)
    if molten and wanted in _OF_POTENTIALS and not any(each.name in _TELLS_A_VOLTAGE for each in told):
        hint = 'The potentials of the table hold in water, not in a melt. Give the cell potential of the melt, such as "E0_cell = -2.5 V".'
        raise fault("not-derivable", expected=f"enough to derive {wanted}", found="a melt", hint=hint)


def _is_warm(told: Sequence[Told]) -> bool:
    """Whether another temperature than 25 °C is told."""
    warm = next((each.quantity for each in told if each.name == "T"), None)
    return warm is not None and not near_25(float(units.convert(warm.printed, warm.unit, "K")))
