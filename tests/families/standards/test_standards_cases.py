"""Standard potentials against books and tables of reference electrodes."""

from __future__ import annotations

import pytest
from checks.outside import as_printed, cases
from hypothesis import given, settings
from hypothesis import strategies as st

from saltbridge.api import work
from saltbridge.check.resolve import resolve
from saltbridge.faults import Faulty
from saltbridge.tables import potentials
from saltbridge.tables.benches import reference_electrodes

VOLTS = st.integers(-3000, 3000).map(lambda millivolts: millivolts / 1000)


@pytest.mark.parametrize(
    "case", cases("standards_cases.yaml", "reactions"), ids=lambda case: f"{case['taker']} and {case['giver']}"
)
def test_a_reaction_goes_where_the_book_says_so(case):
    know = [f"taker = {case['taker'].removesuffix('(aq)')}", f"giver = {case['giver']}"]
    if case["taker"] == "Br2(aq)" or case["giver"] == "Br^-":  # two rows hold bromine; the book takes the dissolved one
        diagram = "Pt(s) | I^-(aq) | I2(s) || Br2(aq), Br^-(aq) | Pt(s)"
        value = work(diagram, ["E0(Br2(aq)/Br^-) = 1.0873 V", "E0(I2/I^-) = 0.5355 V"], "E0_cell")["value"] * (
            1 if case["goes"] == "yes" else -1
        )
        assert as_printed(value, case["E0_cell"])
        return
    assert as_printed(work(None, know, "E0_cell")["value"], case["E0_cell"])
    assert work(None, know, "goes")["text"] == case["goes"]


def _chain(case):
    (n1, first), (n2, second) = case["first"], case["second"]
    know = [f"n_first = {n1}", f"E0_first = {first} V", f"n_second = {n2}", f"E0_second = {second} V"]
    return know, {"n_first": n1, "E0_first": first, "n_second": n2, "E0_second": second}


@pytest.mark.parametrize("case", cases("standards_cases.yaml", "closures"), ids=lambda case: case["steps"])
def test_luther_sums_close_and_where_they_do_not_it_is_said_why(case):
    know, plain = _chain(case)
    found = work(None, know, "E0_chain")["value"]
    assert found == pytest.approx(case["sum"], abs=6e-5 if case["steps"][0] != "F" else 4e-4)
    assert resolve("E0_chain", plain) == pytest.approx(found, rel=1e-12)
    closes = found == pytest.approx(case["tabulated"], abs=0.0006)
    assert closes is ("misses" not in case)


@pytest.mark.parametrize("case", cases("standards_cases.yaml", "references"), ids=lambda case: case["what"])
def test_moving_to_the_calomel_electrode_gives_the_printed_column(case):
    know = [f"E0 = {case['E']} V", f"E_ref = {case['zero']} V"]
    assert work(None, know, "E0_vs")["value"] == pytest.approx(case["versus"], abs=6e-5 if len(str(case["versus"])) > 5 else 6e-4)
    back = [f"E0_vs = {case['versus']} V", f"E_ref = {case['zero']} V"]
    assert work(None, back, "E0")["value"] == pytest.approx(case["E"], abs=6e-4)


@pytest.mark.parametrize("case", cases("standards_cases.yaml", "electrodes"), ids=lambda case: case["id"])
def test_reference_electrodes_have_the_values_of_a_second_source(case):
    assert float(reference_electrodes()[case["id"]].E) == pytest.approx(case["E"], abs=case["within"])


@pytest.mark.parametrize("case", cases("standards_cases.yaml", "disproportionation"), ids=lambda case: case["chain"])
def test_disproportionation_is_told_from_the_chain(case):
    assert work(None, [f"chain = {case['chain']}"], "disproportionates")["text"] == case["goes"]


@pytest.mark.parametrize("case", cases("standards_cases.yaml", "rows_of_cells"), ids=lambda case: f"{case['wanted']} V")
def test_cells_in_a_row(case):
    know = [f"U_wanted = {case['wanted']} V", f"E0_cell = {case['each']} V"]
    assert work(None, know, "k_exact")["value"] == pytest.approx(case["exact"])
    assert work(None, know, "k_cells")["value"] == case["whole"]


@pytest.mark.parametrize("case", cases("standards_cases.yaml", "strongest"), ids=lambda case: case["couples"])
def test_the_strongest_agents_of_some_couples(case):
    know = [f"couples = {case['couples']}"]
    plain = {"F2": "F₂", "Li": "Li", "Ag^+": "Ag⁺", "Zn": "Zn"}
    assert work(None, know, "strongest_oxidant")["text"] == plain[case["oxidant"]]
    assert work(None, know, "strongest_reductant")["text"] == plain[case["reductant"]]


# ------------------------------------------------------------------ laws


@settings(deadline=None, max_examples=25)
@given(first=VOLTS, second=VOLTS, zero=VOLTS)
def test_a_new_zero_keeps_every_difference(first, second, zero):
    shifted = [work(None, [f"E0 = {E} V", f"E_ref = {zero} V"], "E0_vs")["value"] for E in (first, second)]
    assert shifted[0] - shifted[1] == pytest.approx(first - second, abs=1e-12)


@settings(deadline=None, max_examples=25)
@given(first=VOLTS, second=VOLTS, n1=st.integers(1, 5), n2=st.integers(1, 5))
def test_steps_together_lie_between_the_steps_and_close_in_energy(first, second, n1, n2):
    know = [f"n_first = {n1}", f"E0_first = {first} V", f"n_second = {n2}", f"E0_second = {second} V"]
    both = work(None, know, "E0_chain")["value"]
    assert min(first, second) - 1e-9 <= both <= max(first, second) + 1e-9
    energy = work(None, know, "dG0_chain", "J/mol")["value"]
    assert energy == pytest.approx(-(n1 + n2) * 96485 * both, abs=1e-3)  # F as the sheet prints it


def test_a_chain_on_one_lineage_closes():
    """Iron by the table's own Luther row, at its printed digits."""
    table = potentials()
    chain = work(None, ["chain = Fe^3+/Fe^2+, Fe^2+/Fe"], "E0_chain")["value"]
    assert chain == pytest.approx(float(table["Fe^3+/Fe"].E0), abs=0.001)


UNKNOWNS = [
    ("E_ref", ["E0_vs = 0.10 V", "E0 = 0.34 V"], 0.24), ("E0_first", ["E0_chain = 0.337 V", "n_first = 1", "n_second = 1", "E0_second = 0.521 V"], 0.153),
    ("E0_second", ["E0_chain = 0.337 V", "n_first = 1", "n_second = 1", "E0_first = 0.153 V"], 0.521),
    ("E0_first", ["E0_dispro = 0.368 V", "E0_second = 0.521 V"], 0.153), ("U_wanted", ["k_exact = 3", "E0_cell = 2 V"], 6),
    ("E0_vs_cathode", ["E0_cell = 1.10 V", "E0_vs_anode = -1.00 V"], 0.10), ("n_second", ["n_chain = 5", "n_first = 3"], 2),
    ("E_ref", ["reference = silver chloride"], 0.197), ("E_ref", ["reference = Cu"], 0.340), ("E_ref", ["reference = zinc"], -0.762),
]  # fmt: skip


@pytest.mark.parametrize(("find", "know", "value"), UNKNOWNS)
def test_each_quantity_can_be_the_unknown(find, know, value):
    assert work(None, know, find)["value"] == pytest.approx(value, abs=1e-9)


REFUSED = [
    (["couples = Zn^2+/Zn"], "strongest_oxidant", "couples", "two or more different couples, with commas between them", "Zn^2+/Zn"),
    (["couples = Zn^2+/Zn, Xx/Y"], "strongest_oxidant", "couple-not-on-sheet", "a couple of College data sheet", "Xx/Y"),
    (["taker = Ag^+"], "goes", "also-needed", "giver beside taker", "none"),
    (["taker = Kr", "giver = Cu"], "goes", "species-not-on-sheet", "a species that takes electrons on College data sheet", "Kr"),
    (["chain = Zn^2+/Zn, Cu^+/Cu"], "E0_chain", "no-chain", "a second step that starts where the first ends", "Zn^2+/Zn and Cu^+/Cu"),
    (["chain = Zn^2+/Zn"], "E0_chain", "no-chain", "two couples with a comma between them", "Zn^2+/Zn"),
    (["reference = chair", "E0 = 1 V"], "E0_vs", "unknown-reference", "a reference electrode or a metal", "chair"),
    (["reference = calomel", "E_ref = 0.2 V", "E0 = 1 V"], "E0_vs", "given-twice", "E_ref from the words given", "E_ref given as well"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("know", "find", "code", "expected", "found"), REFUSED, ids=[each[2] + str(place) for place, each in enumerate(REFUSED)]
)
def test_what_cannot_be_is_refused_in_a_whole_message(know, find, code, expected, found):
    with pytest.raises(Faulty) as caught:
        work(None, know, find)
    assert [(each.code, each.expected, each.found) for each in caught.value.faults] == [(code, expected, found)]
