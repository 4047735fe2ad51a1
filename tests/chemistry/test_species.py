"""Species: what is read, what is refused and how it is told."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saltbridge import tables
from saltbridge.chemistry.inscriptions import WORDS, inscribe_species, spoken_formula
from saltbridge.chemistry.species import ELECTRON, Species, molar_mass, parse_species
from saltbridge.faults import Faulty

SYMBOLS = sorted(tables.elements())


def told(text: str) -> str:
    with pytest.raises(Faulty) as caught:
        parse_species(text)
    return str(caught.value)


# ------------------------------------------------------------------ reading


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("Zn^2+", "Zn^2+"),
        ("Ag+", "Ag^+"),
        ("Ag^1+", "Ag^+"),
        ("MnO4-", "MnO4^-"),
        ("NH4+(aq)", "NH4^+(aq)"),
        ("Cu²⁺", "Cu^2+"),
        ("SO₄²⁻(aq)", "SO4^2-(aq)"),
        ("Cl⁻", "Cl^-"),
        ("OH−", "OH^-"),
        ("e-", "e-"),
        ("e^-", "e-"),
        ("e⁻", "e-"),
        ("CuSO4.5H2O", "CuSO4·5H2O"),
        ("CuSO4*5H2O (s)", "CuSO4·5H2O(s)"),
        ("[Fe(CN)6]^3-", "[Fe(CN)6]^3-"),
        ("Hg2^2+", "Hg2^2+"),
        ("Fe1O1", "FeO"),
        ("B10H14", "B10H14"),
    ],
)
def test_every_usual_way_of_writing_is_read(written, read):
    assert parse_species(written).text == read


def test_atoms_are_counted_through_brackets_and_hydrates():
    assert dict(parse_species("K4[Fe(CN)6]·3H2O").atoms) == {"K": 4, "Fe": 1, "C": 6, "N": 6, "H": 6, "O": 3}


def test_two_ways_to_bracket_a_complex_have_the_same_contents():
    assert parse_species("[Ag(NH3)2]^+").contents == parse_species("Ag(NH3)2^+").contents
    assert parse_species("[Ag(NH3)2]^+") != parse_species("Ag(NH3)2^+")


def test_capital_letters_tell_cobalt_from_carbon_monoxide():
    assert dict(parse_species("Co").atoms) == {"Co": 1}
    assert dict(parse_species("CO").atoms) == {"C": 1, "O": 1}


def test_the_electron_has_a_charge_and_no_atoms():
    assert ELECTRON.is_electron
    assert (ELECTRON.charge, ELECTRON.atoms) == (-1, ())


units = st.builds(lambda symbol, count: symbol + (str(count) if count > 1 else ""), st.sampled_from(SYMBOLS), st.integers(1, 999))
plain_parts = st.lists(units, min_size=1, max_size=4).map("".join)
brackets = st.builds(
    lambda kind, inside, count: f"{kind[0]}{inside}{kind[1]}{count}",
    st.sampled_from(["()", "[]"]),
    plain_parts,
    st.integers(2, 99),
)
formulas = st.builds(lambda head, tail: head + tail, plain_parts, st.just("") | brackets)
species_texts = st.builds(
    lambda formula, charge, phase: formula + charge + phase,
    formulas,
    st.just("") | st.builds(lambda size, sign: f"^{size if size > 1 else ''}{sign}", st.integers(1, 8), st.sampled_from("+-")),
    st.sampled_from(["", "(s)", "(l)", "(g)", "(aq)"]),
)


@given(species_texts)
def test_what_is_printed_is_read_back(text):
    species = parse_species(text)
    assert species.text == text
    assert parse_species(species.text) == species


@given(species_texts)
def test_the_pieces_hold_the_formula_with_its_charge_above(text):
    species = parse_species(text)
    pieces = inscribe_species(species, phase=True).pieces
    raised = "".join(piece.text for piece in pieces if piece.kind == "sup")
    rest = "".join(piece.text for piece in pieces if piece.kind != "sup")
    assert rest == species.formula + (f"({species.phase})" if species.phase else "")
    assert bool(raised) == bool(species.charge)


# ------------------------------------------------------------------ refusing


@pytest.mark.parametrize(
    ("written", "message"),
    [
        (
            "Zn2+",
            (
                "expected a charge that can be read in one way only; found 'Zn2+'. "
                "Write Zn^2+ for a charge of 2, or Zn2^+ for 2 of them. [charge-unclear]"
            ),
        ),
        ("SO42-", "expected a charge that can be read in one way only; found 'SO42-'. Write SO4^2-. [charge-unclear]"),
        ("Fe+3", "expected a charge written with ^; found '+3' in 'Fe+3'. Write Fe^3+. [species-unread]"),
        ("Cu++", "expected one sign; found '++' in 'Cu++'. Write Cu^2+. [species-unread]"),
        (
            "Fe^+3",
            "expected a charge at the end, the figure before the sign; found '^+3' in 'Fe^+3'. Write Fe^3+. [species-unread]",
        ),
        ("ZnX", "expected an element symbol; found 'X' at character 3 of 'ZnX' [species-unread]"),
        (
            "zn",
            "expected an element symbol; found 'z' at character 1 of 'zn'. Element symbols begin with a capital letter. [species-unread]",
        ),
        ("Fe(OH", "expected a closing ')'; found the end at character 6 of 'Fe(OH' [species-unread]"),
    ],
)
def test_a_fault_names_the_place_and_what_to_write(written, message):
    assert told(written) == message


@pytest.mark.parametrize("written", ["[Fe(CN)6]3-", "O2-", "I3-", "Cr2O72-", "Hg22+", "CO32-"])
def test_a_figure_before_a_bare_sign_is_refused_where_it_could_be_the_charge(written):
    assert "[charge-unclear]" in told(written)


@pytest.mark.parametrize(
    "written",
    [
        "",
        " ",
        "^2+",
        "()",
        "Zn()",
        "H0",
        "H1000",
        "Zn^0+",
        "Zn^02+",
        "2H2O",
        "Zn)",
        "(Zn]",
        "·5H2O",
        "CuSO4·",
        "Zn^2",
        "Zn^",
        "Zn(aq)(s)",
        "Zn\x00",
        "(" * 40 + "H" + ")" * 39,
        "H" * 81,
        "(((((H)))))",
        "Zn^99999999999+",
        "Na\nCl",
        "٣H",
        "<b>",
        "{{ 7*7 }}",
        "__import__",
    ],
)
def test_hostile_and_broken_formulas_end_in_a_fault(written):
    assert told(written)


@given(st.text(max_size=120))
def test_any_text_is_a_species_or_a_fault(text):
    try:
        species = parse_species(text)
    except Faulty:
        return
    assert parse_species(species.text) == species


# ------------------------------------------------------------------ setting and weighing


def test_spoken_forms_name_charge_and_phase():
    assert spoken_formula(parse_species("Zn^2+(aq)"), phase=True) == "Zn 2 plus aqueous"
    assert spoken_formula(parse_species("SO4^2-")) == "S O 4, 2 minus"
    assert spoken_formula(parse_species("[Ag(NH3)2]^+")) == "bracket Ag bracket N H 3 close bracket 2 close bracket, plus"


def test_spoken_words_can_be_put_into_another_language():
    german = {"plus": "plus", "aqueous": "wässrig"}
    assert spoken_formula(parse_species("Ag^+(aq)"), phase=True, say=german.__getitem__) == "Ag plus wässrig"
    assert set(german) <= set(WORDS)


def test_a_hydrate_keeps_its_figure_on_the_line():
    pieces = [(piece.kind, piece.text) for piece in inscribe_species(parse_species("CuSO4·5H2O")).pieces]
    assert pieces == [("base", "CuSO"), ("sub", "4"), ("base", "·5H"), ("sub", "2"), ("base", "O")]


def test_the_minus_of_a_charge_is_the_true_minus_sign():
    assert inscribe_species(parse_species("SO4^2-")).plain == "SO42\u2212"


def test_a_molar_mass_is_the_sum_of_its_atoms():
    """249.68 g/mol for CuSO4·5H2O: the sum of 63.546, 32.06, 9 × 15.999 and 10 × 1.008, added by hand."""
    masses = {"Cu": "63.546", "S": "32.06", "O": "15.999", "H": "1.008"}
    assert molar_mass(parse_species("CuSO4·5H2O"), masses) == pytest.approx(249.677, abs=1e-9)


def test_a_missing_atomic_mass_is_named():
    with pytest.raises(Faulty, match="none for Zn"):
        molar_mass(parse_species("ZnO"), {"O": 16.0})


def test_species_are_equal_by_value_and_can_key_a_table():
    assert {parse_species("Zn^2+(aq)"): 1}[Species("Zn", 2, (("Zn", 1),), "aq")] == 1
