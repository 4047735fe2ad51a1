"""Which metal a strip is follows from the potential that the student found for it."""

from __future__ import annotations

from shipped import BANK, samples

from saltbridge.answers import judge
from saltbridge.tables import metals

COUPLES = {metal.name: metal.couple for metal in metals().values()}


def test_the_metal_that_fits_the_own_potential_follows():
    seen = set()
    for sample in samples("unknown-strip"):
        number, metal = sample.key("a"), sample.key("b")
        assert judge(metal, metal["right"], {"a": number["value"]}).verdict == "right"
        names = metal["values"]
        assert metal["right"] == [names.index(sample.drawn.lookup("anode.metal"))]
        for place, name in enumerate(names):
            own = float(next(row.E0 for row in BANK.sheet.rows if row.couple == COUPLES[name]))
            verdict = judge(metal, [place], {"a": own})
            assert verdict.verdict == ("right" if [place] == metal["right"] else "follows"), name
            seen.add(verdict.verdict)
        other = next(place for place in range(len(names)) if [place] != metal["right"])
        assert judge(metal, [other], {"a": number["value"]}).verdict != "follows"
    assert seen == {"right", "follows"}
