"""The shipped table of potentials: shape, content, and its agreement with itself."""

from __future__ import annotations

import pickle
import re
from collections import Counter
from decimal import ROUND_HALF_UP, Decimal

import pytest

from saltbridge.tables import potentials

CLASSICS = [
    "Li^+/Li",
    "K^+/K",
    "Ca^2+/Ca",
    "Na^+/Na",
    "Mg^2+/Mg",
    "Al^3+/Al",
    "Mn^2+/Mn",
    "Zn^2+/Zn",
    "Cr^3+/Cr",
    "Fe^2+/Fe",
    "Cd^2+/Cd",
    "Co^2+/Co",
    "Ni^2+/Ni",
    "Sn^2+/Sn",
    "Pb^2+/Pb",
    "H^+/H2",
    "Cu^2+/Cu",
    "Cu^+/Cu",
    "Cu^2+/Cu^+",
    "I2/I^-",
    "Fe^3+/Fe^2+",
    "Ag^+/Ag",
    "Hg2^2+/Hg",
    "Hg^2+/Hg",
    "Br2(l)/Br^-",
    "Br2(aq)/Br^-",
    "O2/H2O",
    "O2/OH^-",
    "Cl2/Cl^-",
    "MnO4^-/Mn^2+",
    "MnO4^-/MnO2",
    "Cr2O7^2-/Cr^3+",
    "H2O2/H2O",
    "O2/H2O2",
    "Au^3+/Au",
    "F2/F^-",
    "AgCl/Ag",
    "Hg2Cl2/Hg",
    "H2O/H2",
    "Sn^4+/Sn^2+",
    "NO3^-/NO",
    "S4O6^2-/S2O3^2-",
    "S2O8^2-/SO4^2-",
    "Ce^4+/Ce^3+",
    "PbSO4/Pb",
    "PbO2/PbSO4",
    "ClO^-/Cl^-",
    "VO2^+/VO^2+",
    "V^3+/V^2+",
    "AgBr/Ag",
    "AgI/Ag",
    "[Ag(NH3)2]^+/Ag",
    "[Fe(CN)6]^3-/[Fe(CN)6]^4-",
    "[Zn(OH)4]^2-/Zn",
    "[Cu(NH3)4]^2+/Cu",
    "MnO4^-/MnO2",
]

# which evidence column a citation speaks of; the shipped value must be that column's, rounded
COLUMN_OF = {
    "OpenStax Chemistry 2e, Appendix L": "openstax/V",
    "computed from OpenStax Chemistry 2e, Appendix G": "openstax_formation/V",
    "computed from the NBS tables": "nbs_formation/V",
    "computed from the CRC formation tables": "crc_formation/V",
    "computed from OBIGT/SUPCRT": "obigt/V",
    "computed from minteq.v4.dat": "minteq_v4/V",
    "computed from Thermoddem": "thermoddem/V",
}
OTHERWISE_CITED = {"Cu^2+/Cu", "Cr2O7^2-/Cr^3+", "Fe^3+/Fe", "H^+/H2"}


def rounded(text: str, like: str) -> Decimal:
    return Decimal(text).quantize(Decimal(like), ROUND_HALF_UP)


def test_at_least_ninety_couples_of_grades_a_to_c():
    assert len(potentials()) >= 90
    assert Counter(couple.grade for couple in potentials().values()).keys() == {"A", "B", "C"}


@pytest.mark.parametrize("name", CLASSICS)
def test_every_school_classic_is_in(name):
    assert name in potentials()


def test_couples_come_lowest_potential_first():
    values = [float(couple.E0) for couple in potentials().values()]
    assert values == sorted(values)


def test_an_id_names_both_forms_of_its_half_reaction():
    """Read without phases, so that ``Br2(l)/Br^-`` needs its phase only to differ from ``Br2(aq)/Br^-``."""
    for name, couple in potentials().items():
        left, right = (re.sub(r"\((s|l|g|aq)\)", "", side) for side in couple.half_reaction.split(" -> "))
        oxidised, reduced = re.sub(r"\((l|g|aq)\)", "", name.removesuffix(" in base")).split("/")
        assert oxidised in left.replace(" + ", " ").split(), name
        assert reduced in right.replace(" + ", " ").split(), name


def test_the_shipped_value_is_the_cited_source_rounded():
    for name, couple in potentials().items():
        columns = [column for start, column in COLUMN_OF.items() if couple.citation.startswith(start)]
        if name in OTHERWISE_CITED:
            assert not columns, name
            continue
        assert len(columns) == 1, name
        assert Decimal(couple.E0) == rounded(couple.sources[columns[0]], couple.E0), name


def test_the_value_cited_otherwise_follows_from_what_is_cited():
    table = potentials()
    luther = (2 * Decimal(table["Fe^2+/Fe"].E0) + Decimal(table["Fe^3+/Fe^2+"].E0)) / 3
    assert Decimal(table["Fe^3+/Fe"].E0) == rounded(str(luther), "0.001")
    assert Decimal(table["Cu^2+/Cu"].E0) == rounded(table["Cu^2+/Cu"].sources["obigt/V"], "0.001") == Decimal("0.340")
    assert "prints 0.34;" in table["Cu^2+/Cu"].citation
    assert float(table["H^+/H2"].E0) == 0.0
    assert "example in module m68842" in table["Cr2O7^2-/Cr^3+"].citation


def test_the_temperature_coefficient_is_the_cited_source():
    cited = Counter()
    for name, couple in potentials().items():
        if couple.dEdT is None or name == "H^+/H2":
            continue
        column = "dE0dT_nbs/(mV/K)" if "NBS" in couple.dEdT_citation else "dE0dT_obigt/(mV/K)"
        assert couple.dEdT == couple.sources[column], name
        cited[column] += 1
    assert cited["dE0dT_nbs/(mV/K)"] >= 80
    assert cited["dE0dT_obigt/(mV/K)"] >= 1


def test_spread_is_highest_less_lowest_source():
    for name, couple in potentials().items():
        values = [Decimal(text) for column, text in couple.sources.items() if column.endswith("/V")]
        assert Decimal(couple.spread) == rounded(str(max(values) - min(values)), "0.0001"), name


def test_what_is_from_memory_stands_apart():
    for couple in potentials().values():
        assert all("_from_memory" in column for column in couple.memory)
        assert not any("_from_memory" in column for column in couple.sources)
        assert "memory" not in couple.citation


# Luther sums on one lineage at full precision: n E° of the sum equals the sum of n E°.
LUTHER = [
    ("Fe^3+/Fe", ["Fe^3+/Fe^2+", "Fe^2+/Fe"]),
    ("Cu^2+/Cu", ["Cu^2+/Cu^+", "Cu^+/Cu"]),
    ("O2/H2O", ["O2/H2O2", "H2O2/H2O"]),
    ("O2/OH^-", ["O2/HO2^-", "HO2^-/OH^-"]),
    ("MnO4^-/Mn^2+", ["MnO4^-/MnO2", "MnO2/Mn^2+"]),
]


@pytest.mark.parametrize(("whole", "parts"), LUTHER)
def test_luther_sums_close_on_the_nbs_column(whole, parts):
    def work(name: str) -> float:
        return potentials()[name].n * float(potentials()[name].sources["nbs_formation/V"])

    assert work(whole) == pytest.approx(sum(work(part) for part in parts), abs=4e-4)


def test_silver_chloride_gives_its_solubility_product():
    """pKsp of AgCl is 9.75 at 25 °C (widely tabulated; from memory), from the two rows on the NBS column."""
    salt, metal = (float(potentials()[name].sources["nbs_formation/V"]) for name in ("AgCl/Ag", "Ag^+/Ag"))
    assert (metal - salt) / 0.05916 == pytest.approx(9.75, abs=0.02)


def test_a_couple_travels_between_processes():
    couple = potentials()["Zn^2+/Zn"]
    assert pickle.loads(pickle.dumps(couple)) == couple  # noqa: S301 - our own bytes
