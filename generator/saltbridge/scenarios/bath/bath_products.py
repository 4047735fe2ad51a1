"""What a bath gives at each electrode: candidates with their half-reactions, the rule that chooses, and what follows.

Candidates are owners: ``cation`` and ``hydrogen`` at the cathode, ``anion``, ``oxygen`` and ``electrode`` at the anode. The
rules of discharge that potentials do not tell are data (``discharge_rules.csv``).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry.equation_operations import neutralised
from saltbridge.chemistry.half_reactions import HalfReaction, combine, parse_half_reaction
from saltbridge.chemistry.inscriptions import inscribe_equation, inscribe_species
from saltbridge.chemistry.species import Species, parse_species
from saltbridge.faults import fault
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Given, Rule, Situation, Undefined, instance
from saltbridge.graph.node_names import Role
from saltbridge.graph.planner import plan, reachable
from saltbridge.scenarios.bath.electrolysis import name_element
from saltbridge.scenarios.equation_laws import add_half, add_sum, give_equation
from saltbridge.scenarios.half_names import couple_label
from saltbridge.scenarios.situations import metal_of, name_metal, read_potential
from saltbridge.tables import Sheet, metals, potentials
from saltbridge.tables.electrolytes import Electrolyte, discharge_rules

FROM_WATER = ("H2O/H2", "O2/H2O")  # at cathode and anode
MEDIUM = "basic"
ROLES: tuple[Role, Role] = ("cathode", "anode")
WATER_CATHODE, WATER_ANODE = FROM_WATER
ACID, BASE = "H^+/H2", "O2/OH^-"


Name = TypeVar("Name")


@dataclass(frozen=True, slots=True)
class Bath:
    """A salt that is electrolysed: molten or in water, and the metal of the anode ("" for inert electrodes)."""

    salt: Electrolyte
    molten: bool
    anode: str = ""


@dataclass(frozen=True, slots=True)
class Candidate:
    """Something that may react at an electrode; ``E0`` as the sheet prints it, "" in a melt."""

    key: str
    half: HalfReaction
    E0: str = ""


@dataclass(frozen=True, slots=True)
class Found:
    """The half-reactions that happen, and the key of each; ``decided``: whether what is told settles the anode too."""

    cathode: Candidate
    anode: Candidate
    decided: bool = True

    def matter(self, role: str) -> Species:
        """The substance whose mass changes at an electrode: the metal or gas, and for a dissolving anode its metal."""
        if role == "cathode":
            return self.cathode.half.principal[1]
        return self.anode.half.principal[1 if self.anode.key == "electrode" else 0]


def add_products(situation: Situation, bath: Bath, sheet: Sheet, catalogue: Catalogue) -> Found:
    """Both products, half-equations and the equation of a bath.

    Without ``c_salt`` a chloride in water leaves the anode undecided, and only what follows from the cathode can be found.
    Raises ``Faulty``: ``salt-state`` where a salt has no melt or solution, ``undecided`` where no rule tells the product,
    ``couple-not-on-sheet``.
    """
    _refuse_state(bath)
    cathode, anode = cathode_candidates(bath, sheet), anode_candidates(bath, sheet)
    for each, role in ((cathode, "cathode"), (anode, "anode")):
        for candidate in each:
            _name(situation, candidate, role, sheet)
    situation.laws.append(_cathode_rule(situation, bath, cathode))
    situation.laws += _anode_rules(situation, bath, anode, catalogue)
    decided = "product_anode" in reachable(situation)
    found = Found(
        _chosen(situation, "product_cathode", cathode),
        _chosen(situation, "product_anode", anode) if decided else anode[0],
        decided,
    )
    _name_roles(situation, found)
    if decided:
        _add_equation(situation, found)
    if not bath.molten and _both_from_water(found):
        _add_medium(situation, sheet)
    _add_consequences(situation, bath, found, catalogue)
    return found


def _chosen(situation: Situation, node: str, candidates: tuple[Candidate, ...]) -> Candidate:
    """The candidate that the rule at an electrode picks; raises ``Faulty`` (code ``undecided``) where it picks none."""
    graph = Graph(plan(situation, [node]))
    value = graph.value(graph.run(graph.start(situation.given)), node)
    if isinstance(value, Undefined):
        raise fault("undecided", expected="one product at each electrode", found=value.why, hint="See rule R-CL.")
    return next(each for each in candidates if each.key == value)


def _refuse_state(bath: Bath) -> None:
    salt = bath.salt
    if bath.molten and not salt.molten:
        hint = "It decomposes, or no one electrolyses it so. Take state = aqueous."
        raise fault("salt-state", expected="a salt that is electrolysed as a melt", found=salt.formula, hint=hint)
    if not bath.molten and not salt.aqueous:
        raise fault(
            "salt-state",
            expected="a salt that dissolves and lasts in water",
            found=salt.formula,
            hint="Take state = molten.",
        )
    if bath.molten and bath.anode:
        raise fault("electrodes", expected="inert electrodes in a melt", found=bath.anode, hint="Take electrodes = inert.")
    metal = metals().get(bath.anode)
    if metal is not None and metal.water_reactive:
        hint = "Take electrodes = inert, or copper, silver, nickel or zinc."
        raise fault("R-WATER", expected="an anode that lasts in water", found=f"{metal.name}: {metal.note}", hint=hint)


# ------------------------------------------------------------------ candidates


def cathode_candidates(bath: Bath, sheet: Sheet) -> tuple[Candidate, ...]:
    """What may take electrons."""
    if bath.molten:
        return (Candidate("cation", _row(sheet, bath.salt.cation_couple).half),)
    if bath.salt.cation_couple == ACID:
        row = _row(sheet, ACID)
        return (Candidate("hydrogen", row.half, row.E0),)
    cation, water = _row(sheet, bath.salt.cation_couple), _row(sheet, WATER_CATHODE)
    return (Candidate("cation", cation.half, cation.E0), Candidate("hydrogen", water.half, water.E0))


def anode_candidates(bath: Bath, sheet: Sheet) -> tuple[Candidate, ...]:
    """What may give electrons."""
    if bath.molten:
        return (Candidate("anion", parse_half_reaction(bath.salt.melt_half)),)
    found = []
    if bath.anode:
        metal = metals().get(bath.anode)
        if metal is None:
            raise fault("electrodes", expected="inert or a metal of the table", found=bath.anode, hint="As electrodes = Cu.")
        row = _row(sheet, metal.couple)
        found.append(Candidate("electrode", row.half, row.E0))
    couple = bath.salt.anion_couple
    if couple and couple != BASE:
        row = _row(sheet, couple)
        found.append(Candidate("anion", row.half, row.E0))
    water = _row(sheet, BASE if couple == BASE else WATER_ANODE)
    return (*found, Candidate("oxygen", water.half, water.E0))


@dataclass(frozen=True, slots=True)
class _Row:
    half: HalfReaction
    E0: str


def _row(sheet: Sheet, couple: str) -> _Row:
    row = sheet.required(couple)
    return _Row(parse_half_reaction(row.half_reaction), row.E0)


def _name(situation: Situation, each: Candidate, role: str, sheet: Sheet) -> None:
    oxidised, reduced = each.half.principal
    product = reduced if role == "cathode" else oxidised
    labels = {
        "couple": couple_label(oxidised, reduced, situation.say),
        "product": inscribe_species(product.in_phase(""), say=situation.say),
        "reduction": inscribe_equation(each.half.reduction, say=situation.say),
        "oxidation": inscribe_equation(each.half.oxidation, say=situation.say),
    }
    situation.labels |= {f"{each.key}.{name}": label for name, label in labels.items()}
    situation.labels[f"{each.key}.product_{role}"] = labels["product"]
    if not product.charge:
        name_element(situation, f"{each.key}.product", product)
    situation.words |= {
        f"{each.key}.reduction text": each.half.reduction.bare.text,
        f"{each.key}.oxidation text": each.half.oxidation.bare.text,
    }
    give_equation(situation, f"{each.key}.half", each.half.reduction)
    if each.E0:
        situation.given[f"{each.key}.E0"] = read_potential(each.E0, sheet)
        situation.about[f"{each.key}.E0"] = f"{each.key}.couple"
    metal = metal_of(reduced)
    if metal:
        name_metal(situation, each.key, metal)


# ------------------------------------------------------------------ rules


def _alone(situation: Situation, node: str, rule: str, key: str) -> Rule:
    """The rule where one thing alone can react at an electrode: it is there."""
    there = f"{key}.reacts"
    situation.given[there] = Given("yes", "", "yes")
    return Rule(node, rule, (there,), keys=(key,))


def _cathode_rule(situation: Situation, bath: Bath, candidates: tuple[Candidate, ...]) -> Rule:
    keys = tuple(each.key for each in candidates)
    if len(keys) == 1:
        only = "only-ions-at-the-cathode" if bath.molten else "only-hydrogen-at-the-cathode"
        return _alone(situation, "product_cathode", only, keys[0])
    metal = parse_species(bath.salt.cation).formula
    held_back = metal in discharge_rules()["hydrogen overpotential"].species
    inputs = tuple(f"{key}.E0" for key in keys)
    return Rule(
        "product_cathode", "metal-by-overpotential" if held_back else "higher-potential-at-the-cathode", inputs, keys=keys
    )


def _anode_rules(situation: Situation, bath: Bath, candidates: tuple[Candidate, ...], catalogue: Catalogue) -> list[Rule]:
    keys = tuple(each.key for each in candidates)
    inputs = tuple(f"{key}.E0" for key in keys)
    if len(keys) == 1:
        only = "only-ions-at-the-anode" if bath.molten else "only-oxygen-at-the-anode"
        return [_alone(situation, "product_anode", only, keys[0])]
    rules = discharge_rules()
    if bath.anode or bath.salt.anion not in rules["chlorine"].species:
        over = bath.salt.anion in rules["oxygen overpotential"].species
        usual = "oxygen-overpotential-at-the-anode" if over else "lower-potential-at-the-anode"
        return [Rule("product_anode", "anode-that-dissolves" if bath.anode else usual, inputs, keys=keys)]
    situation.given["nu_anion"] = Given(float(bath.salt.anions), "", str(bath.salt.anions), "balance")
    situation.laws.append(instance(catalogue.relations["anion-concentration"]))  # the anode is told before families join
    for name in ("chlorine", "oxygen"):
        rule = rules[name]
        situation.given[f"limit.{name}"] = Given(float(rule.value), rule.unit, rule.value, "rule", rule.source)
    return [
        Rule("product_anode", "chloride-by-limits", ("c_halide", "limit.chlorine", "limit.oxygen"), keys=("anion", "oxygen"),
        )
    ]  # fmt: skip


# ------------------------------------------------------------------ what follows


def _name_roles(situation: Situation, found: Found) -> None:
    """Names of what happens, by electrode: ``cathode.reduction``, ``anode.couple``."""
    decided = (("cathode", found.cathode), ("anode", found.anode)) if found.decided else (("cathode", found.cathode),)
    for role, each in decided:
        situation.labels.update(_renamed(situation.labels, each.key, role))
        situation.words.update(_renamed(situation.words, each.key, role))
        situation.about[f"E0_{role}"] = f"{role}.couple"
    situation.shape = (*situation.shape, f"cathode {found.cathode.key}", f"anode {found.anode.key}")


def _renamed(table: Mapping[str, Name], key: str, role: str) -> dict[str, Name]:
    return {f"{role}.{name.removeprefix(f'{key}.')}": value for name, value in table.items() if name.startswith(f"{key}.")}


def _add_medium(situation: Situation, sheet: Sheet) -> None:
    """The potential of oxygen in base, for where hydrogen comes from water too."""
    row = _row(sheet, BASE)
    situation.given[f"{MEDIUM}.E0"] = read_potential(row.E0, sheet)
    situation.labels[f"{MEDIUM}.couple"] = couple_label(*row.half.principal, situation.say)
    situation.about[f"{MEDIUM}.E0"] = f"{MEDIUM}.couple"


def _add_equation(situation: Situation, found: Found) -> None:
    """The overall equation, the electrons that pass for it, and how often each half-equation is taken."""
    combined = combine(found.cathode.half, found.anode.half)
    same = found.cathode.half == found.anode.half
    equation = combined.equation if same else neutralised(combined.equation)
    situation.labels["equation"] = inscribe_equation(equation, say=situation.say)
    situation.words["equation"] = equation.bare.text
    for name, count in (("nu_cathode", combined.cathode_times), ("nu_anode", combined.anode_times)):
        situation.given[name] = Given(float(count), "", str(count), "balance")


def _add_consequences(situation: Situation, bath: Bath, found: Found, catalogue: Catalogue) -> None:
    laws = situation.laws
    for role in ROLES:
        law = next(each for each in laws if isinstance(each, Rule) and each.node == f"product_{role}")
        add_half(situation, catalogue, role, _kind(role, found), (law.node, *(f"{key}.half" for key in law.keys)), law.keys)
        if role == "anode" and _both_from_water(found):
            laws.append(Rule("E0_anode", "one-medium", (f"{MEDIUM}.E0", law.node)))
        elif not bath.molten:
            laws.append(Rule(f"E0_{role}", "pick", (law.node, *(f"{key}.E0" for key in law.keys)), keys=law.keys))
    add_sum(situation, catalogue, "bath-equation")
    laws.append(Rule("bath_equation", "same", ("equation",)))
    laws.append(Rule("runs", "supply-that-drives", ("U_supply", "U_min"), keys=("yes", "no")))
    if bath.molten:
        return
    inputs = ("product_cathode", "product_anode")
    laws.append(Rule("pH_change", "pH-of-the-bath", inputs, keys=("rises", "falls", "stays")))
    renewed = found.anode.key == "electrode" and found.anode.half == cathode_metal(found)
    laws.append(Rule("bath_ions", "ions-of-the-bath", inputs, keys=("as many" if renewed else "fewer", "as many")))


def _kind(role: Role, found: Found) -> str:
    """Which kind of step the half-equation at an electrode is."""
    if role == "cathode":
        return "deposit" if cathode_metal(found) else "product-at-cathode"
    return "dissolving" if found.anode.key == "electrode" else "product-at-anode"


def _both_from_water(found: Found) -> bool:
    """Whether hydrogen and oxygen both come from water, so that the table's two potentials are for different pH."""
    return (found.cathode.half, found.anode.half) == tuple(
        parse_half_reaction(potentials()[each].half_reaction) for each in FROM_WATER
    )


def cathode_metal(found: Found) -> HalfReaction | None:
    """The half-reaction that deposits metal, where metal is deposited."""
    return found.cathode.half if found.cathode.key == "cation" else None
