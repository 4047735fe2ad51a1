"""Cell diagrams: read against a data sheet, printed, set and said."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge import tables
from saltbridge.chemistry.cells import Amount, GalvanicCell, half_cell, swap
from saltbridge.chemistry.diagrams import (
    diagram,
    half_diagram,
    inscribe_diagram,
    parse_amount,
    parse_diagram,
    parse_half_cell,
)
from saltbridge.chemistry.inscriptions import WORDS
from saltbridge.document import Piece
from saltbridge.faults import Faulty
from saltbridge.sigfigs import ENGLISH

ROWS = tables.sheet("college").rows
BY_COUPLE = {row.couple: row for row in ROWS}


def read(text: str) -> GalvanicCell:
    return parse_diagram(text, ROWS)


def told(text: str) -> str:
    with pytest.raises(Faulty) as caught:
        read(text)
    return str(caught.value)


# ------------------------------------------------------------------ reading


@pytest.mark.parametrize(
    ("written", "left", "right"),
    [
        ("Zn(s) | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu(s)", "Zn^2+/Zn", "Cu^2+/Cu"),
        ("Zn|Zn^2+¦¦Cu^2+|Cu", "Zn^2+/Zn", "Cu^2+/Cu"),
        ("Zn(s)¦Zn^2+(aq) ‖ Cu^2+(aq)¦Cu(s)", "Zn^2+/Zn", "Cu^2+/Cu"),
        ("Pt(s) | Fe^2+(aq, 0.25), Fe^3+(aq, 0.0020) || Ag^+(aq) | Ag(s)", "Fe^3+/Fe^2+", "Ag^+/Ag"),
        ("C(s) | Fe^3+, Fe^2+ || Cl^-(aq, 0.050) | AgCl(s) | Ag(s)", "Fe^3+/Fe^2+", "AgCl/Ag"),
        (
            "Pt(s) | H2(g, 0.50 bar) | H^+(aq, 0.010) || MnO4^-(aq, 0.010), Mn^2+(aq, 0.0010), H^+(aq, 0.0032) | Pt(s)",
            "H^+/H2",
            "MnO4^-/Mn^2+",
        ),
        ("Pt | H2 || MnO4^-, Mn^2+ | Pt", "H^+/H2", "MnO4^-/Mn^2+"),
        ("Pt | H2 | OH^- || OH^-(aq) | O2(g) | Pt(s)", "H2O/H2", "O2/OH^-"),
        ("Hg | Hg2Cl2 | Cl^- || Cu+ | Cu", "Hg2Cl2/Hg", "Cu^+/Cu"),
    ],
)
def test_the_couples_are_found_from_the_species_named(written, left, right):
    cell = read(written)
    assert (cell.left.couple, cell.right.couple) == (left, right)
    assert read(diagram(cell)) == cell


def test_amounts_keep_their_digits_and_their_value():
    cell = read("Pt(s) | H2(g, 50 kPa) | H^+(aq, 0.010 mol/dm3) || Ag^+(aq, ?) | Ag(s)")
    hydrogen, acid, silver = (amount for half in (cell.left, cell.right) for _, amount in half.amounts)
    assert (hydrogen.shown, hydrogen.value, hydrogen.unit) == ("50 kPa", 0.5, "bar")
    assert (acid.shown, acid.value, acid.unit) == ("0.010", 0.010, "mol/L")
    assert (silver.text, silver.value, silver.given) == ("?", None, False)
    assert diagram(cell) == "Pt(s) | H2(g, 50 kPa) | H^+(aq, 0.010) || Ag^+(aq, ?) | Ag(s)"


@pytest.mark.parametrize(
    ("written", "text", "value"),
    [
        ("0,10", "0.10", 0.1),
        (".5", "0.5", 0.5),
        ("1.0e-5", "1.0e-5", 1e-5),
        ("1.0×10^-5 mol/L", "1.0e-5", 1e-5),
        ("20 mmol/L", "20", 0.02),
        ("2 M", "2", 2),
    ],
)
def test_a_concentration_is_read_as_it_is_usually_written(written, text, value):
    amount = parse_amount(written, "mol/L")
    assert (amount.text, amount.value) == (text, pytest.approx(value))


def test_standard_atmospheres_become_bars():
    """1 atm is 101 325 Pa by definition."""
    assert parse_amount("1 atm", "bar").value == pytest.approx(1.01325, abs=1e-12)


def test_the_row_with_fewest_species_left_out_is_taken():
    assert read("Pt | H2 || Cu^2+ | Cu").left.couple == "H^+/H2"


def test_one_half_cell_can_be_read_alone():
    half = parse_half_cell("Cl^-(aq, 0.050) | AgCl(s) | Ag(s)", ROWS, "right")
    assert (half.couple, half.electrode.text, half_diagram(half, "left")) == (
        "AgCl/Ag",
        "Ag(s)",
        "Ag(s) | AgCl(s) | Cl^-(aq, 0.050)",
    )


@st.composite
def cells(draw) -> GalvanicCell:
    """Any two rows of the sheet with amounts for some species."""
    halves = []
    for _ in range(2):
        row = draw(st.sampled_from(ROWS))
        given_amounts = {}
        for species in half_cell(row).shown:
            if species.phase in {"g", "aq"} and draw(st.booleans()):
                gas = species.phase == "g"
                text = draw(st.sampled_from(["0.10", "1.0", "2", "1.0e-5", "?"]))
                given_amounts[species.bare] = parse_amount(
                    f"{text} bar" if gas and text != "?" else text, "bar" if gas else "mol/L"
                )
        halves.append(half_cell(row, given_amounts))
    return GalvanicCell(*halves)


@given(cells())
def test_what_is_printed_is_read_back(cell):
    assert read(diagram(cell)) == cell


@given(cells())
def test_a_swapped_cell_is_read_back_swapped(cell):
    assert read(diagram(swap(cell))) == swap(cell)


@given(st.text(max_size=80) | st.text(alphabet="ZnCu|2+^()aqs, 0.1?", max_size=60))
def test_any_text_is_a_cell_or_a_fault(text):
    try:
        cell = read(text)
    except Faulty:
        return
    assert read(diagram(cell)) == cell


# ------------------------------------------------------------------ refusing


@pytest.mark.parametrize(
    ("written", "message"),
    [
        (
            "Zn | Zn^2+ | Cu^2+ | Cu",
            (
                "expected two half-cells with one salt bridge || between them; found 0 bridges in 'Zn | Zn^2+ | Cu^2+ | Cu'. "
                "Write for example Zn(s) | Zn^2+(aq) || Cu^2+(aq) | Cu(s); what the bridge holds is left out. [diagram-unread]"
            ),
        ),
        (
            "Fe^2+, Fe^3+ || Cu^2+ | Cu",
            (
                "left half-cell: expected the electrode standing alone and first in the left half-cell; found Fe^2+, Fe^3+ in 'Fe^2+, Fe^3+'. "
                "A couple without a metal of its own needs an inert electrode. Add Pt(s) | in front. [electrode-missing]"
            ),
        ),
        (
            "Zn | Zn^2+ || Cu | Cu^2+(aq)",
            (
                "right half-cell: expected the electrode standing alone and last in the right half-cell; found Cu^2+(aq) in 'Cu | Cu^2+(aq)'. "
                "A couple without a metal of its own needs an inert electrode. Add | Pt(s) at the end. [electrode-missing]"
            ),
        ),
        (
            "Zn | Zn^2+(aq, 0 mol/L) || Cu^2+ | Cu",
            "left half-cell: expected an amount above 0 and up to 100 mol/L; found '0 mol/L' [amount-out-of-range]",
        ),
        (
            "Zn | Zn^2+(aq, 0.1 bar) || Cu^2+ | Cu",
            (
                "left half-cell: expected one of the units mol/L, mol/l, mol/dm3, mol/dm^3, mol/dm³, M, mmol/L, mmol/dm3, mmol/dm³, mM; "
                "found 'bar' [unit-unknown]"
            ),
        ),
        (
            "Ag | AgCl(s, 0.1) | Cl^- || Cu^2+ | Cu",
            "left half-cell: expected no amount for the pure AgCl(s); found '0.1'. Write AgCl(s). [amount-of-solid]",
        ),
        (
            "Zn | Zn^2+, Zn^2+ || Cu^2+ | Cu",
            "left half-cell: expected each species once in a half-cell; found Zn^2+ [species-twice]",
        ),
    ],
)
def test_a_fault_names_side_and_remedy(written, message):
    assert told(written) == message


def test_a_couple_that_is_not_there_names_the_nearest_rows():
    message = told("Zn | Cu^2+ || Cu^2+ | Cu")
    assert message.startswith(
        "left half-cell: expected the species of one half-reaction of the data sheet; found Zn(s), Cu^2+. Nearest: "
    )
    assert BY_COUPLE["Zn^2+/Zn"].half_reaction in message
    assert message.endswith("[couple-not-found]")


def test_a_species_in_another_phase_is_not_the_couple():
    assert "[couple-not-found]" in told("Pt | Fe^2+(aq), Fe^3+(s) || Cu^2+ | Cu")


def test_an_even_choice_of_rows_is_refused():
    acid, base = (
        tables.SheetRow("one", "ClO4^-(aq) + 2 H^+(aq) + 2 e- -> ClO3^-(aq) + H2O(l)", "+1.19", 2),
        tables.SheetRow("two", "ClO4^-(aq) + H2O(l) + 2 e- -> ClO3^-(aq) + 2 OH^-(aq)", "+0.36", 2),
    )
    with pytest.raises(Faulty, match=r"Name H\^\+ or OH\^- as well\. \[couple-unclear\]"):
        parse_half_cell("Pt | ClO4^-, ClO3^-", (acid, base))
    assert parse_half_cell("Pt | ClO4^-, ClO3^-, OH^-", (acid, base)).couple == "two"


def test_the_faults_of_both_sides_are_told_at_once():
    with pytest.raises(Faulty) as caught:
        read("Zn | Zn2+ || Cu2+ | Cu")
    assert [(each.key, each.code) for each in caught.value.faults] == [
        ("left half-cell", "charge-unclear"),
        ("right half-cell", "charge-unclear"),
    ]


@pytest.mark.parametrize(
    "written",
    [
        "",
        "||",
        "|" * 300,
        "Zn" * 300,
        "Zn | Zn^2+(aq, 1e99) || Cu^2+ | Cu",
        "Zn | Zn^2+(aq, -1) || Cu^2+ | Cu",
        "Zn || Cu",
        "Zn | || | Cu",
        "Zn | Zn^2+(aq, nan) || Cu^2+ | Cu",
        "Zn | Zn^2+(aq,, 1) || Cu^2+ | Cu",
        "Zn | Zn^2+ || KCl || Cu^2+ | Cu",
        "Br2 | Br^- || Cu^2+ | Cu",
    ],
)
def test_hostile_diagrams_end_in_a_fault(written):
    assert told(written)


# ------------------------------------------------------------------ comparing, setting, saying


def test_a_diagram_is_set_with_the_signs_of_the_bank():
    inscription = inscribe_diagram(read("Zn | Zn^2+(0.10) || Cu^2+(1.0e-5) | Cu"), "‖", ",", "mol/dm3")
    assert inscription.plain == "Zn(s) | Zn2+(aq, 0,10\u00a0mol/dm3) ‖ Cu2+(aq, 1,0\u202f×\u202f10\u22125\u00a0mol/dm3) | Cu(s)"
    assert Piece("sup", "3") in inscription.pieces


def test_the_units_of_a_diagram_are_set_in_the_style_of_the_bank():
    cell = read("Zn | Zn^2+(aq, 0.10) || Cu^2+(aq, 1.0) | Cu")
    inscription = inscribe_diagram(cell, concentration_unit="mol/L", unit_style="power")
    assert inscription.plain == "Zn(s) | Zn2+(aq, 0.10\u00a0mol\u202fL−1) ¦¦ Cu2+(aq, 1.0\u00a0mol\u202fL−1) | Cu(s)"


def test_a_diagram_is_said_phase_by_phase():
    said = inscribe_diagram(read("Pt | H2(g, 0.50 bar) | H^+(?) || Cu^2+(0.10) | Cu")).spoken
    assert said == (
        "Pt solid, phase boundary, H 2 gas 0.50 bars, phase boundary, H plus aqueous unknown, salt bridge, "
        "Cu 2 plus aqueous 0.10, phase boundary, Cu solid"
    )


def test_every_word_of_a_spoken_diagram_can_be_translated():
    said: list[str] = []

    def listen(word: str) -> str:
        said.append(word)
        return word

    inscribe_diagram(read("Pt | H2(g, 0.50 bar) | H^+(?) || Cl^-(0.10) | AgCl | Ag"), say=listen)
    assert set(said) <= {*WORDS, *ENGLISH, "bars"}


def test_an_amount_knows_its_own_writing():
    assert Amount("0.50", 0.5, "bar", printed_unit="bar").shown == "0.50 bar"


@pytest.mark.parametrize(
    ("couple", "left", "right"),
    [
        ("Sn^4+/Sn^2+", "Pt(s) | Sn^2+(aq), Sn^4+(aq)", "Sn^4+(aq), Sn^2+(aq) | Pt(s)"),
        ("MnO4^-/Mn^2+", "Pt(s) | Mn^2+(aq), MnO4^-(aq), H^+(aq)", "MnO4^-(aq), Mn^2+(aq), H^+(aq) | Pt(s)"),
        ("H^+/H2", "Pt(s) | H2(g) | H^+(aq)", "H^+(aq) | H2(g) | Pt(s)"),
    ],
)
def test_a_diagram_carries_every_species_and_the_one_that_reacts_stands_first(couple, left, right):
    """IUPAC Green Book, 3rd ed., section 2.13.1 (from memory): the cell is written as its reaction runs, left to right."""
    half = half_cell(BY_COUPLE[couple])

    assert (half_diagram(half, "left"), half_diagram(half, "right")) == (left, right)
