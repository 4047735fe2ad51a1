"""Draws of a template: scene after scene until one keeps every condition; what was rejected is counted by its reason."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, partial

from saltbridge.bank.bank import Bank
from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.parts import AnyPart, BalancePart, FindPart
from saltbridge.bank.template import FilledRow, Template
from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.catalogue.catalogue import Catalogue
from saltbridge.chemistry import realism
from saltbridge.chemistry.realism_facts import Facts
from saltbridge.draw.alike import alike
from saltbridge.draw.as_asked import Scaffold
from saltbridge.draw.asked_names import asked_names
from saltbridge.draw.drawn import Drawn, Judged
from saltbridge.draw.drawn_cases import printed_values
from saltbridge.draw.drawn_estimates import add_estimates, on_an_edge
from saltbridge.draw.drawn_figures import add_figure, empty_figure, unclear_figure
from saltbridge.draw.drawn_notations import add_notations, noted_nodes
from saltbridge.draw.drawn_options import may_fall_out
from saltbridge.draw.drawn_orders import ordered_nodes
from saltbridge.draw.drawn_sets import set_nodes
from saltbridge.draw.drawn_tables import Lists, leaves
from saltbridge.draw.finds import Asking, Find, Finder
from saltbridge.draw.fitting_metals import add_rows, fitting_nodes
from saltbridge.draw.keep_only_if import KeepOnlyIf
from saltbridge.draw.log import Reason, RejectionLog
from saltbridge.draw.misfits import asking_nothing, impossible, mentions, misfits, unknown_names, with_unknown_names
from saltbridge.draw.missing_names import explained, strange_things
from saltbridge.draw.revealed import unrevealed
from saltbridge.draw.seeds import Seed
from saltbridge.draw.solved_scenes import SolvedScenes
from saltbridge.draw.spare_data import misplaced_spares
from saltbridge.draw.turned_round import forget
from saltbridge.draw.wrong_steps import WrongSteps
from saltbridge.faults import Fault, Faulty
from saltbridge.graph.graph import Graph
from saltbridge.graph.laws import Balance, Conversion, Instance, Law, Situation, quantity_of
from saltbridge.graph.planner import reachable
from saltbridge.graph.routes import WIDEST
from saltbridge.graph.slips import SlipPoint
from saltbridge.graph.solved import Outcome, graph_of, outcome, points_of
from saltbridge.graph.unwritten import unwritten
from saltbridge.graph.walk import picked_sides
from saltbridge.scenarios.drawing import draw_scene
from saltbridge.scenarios.equation_laws import EQUATIONS, FACTOR
from saltbridge.scenarios.joining import defer_to_rules, join
from saltbridge.scenarios.scene import Scene, pick_quantity
from saltbridge.scenarios.situations import add_given, add_print_unit

MOST_TRIES = 200
MOST_SHAPES = 256  # kept of one template
FAR_FROM_WHOLE = 0.2  # a measured whole number further off leaves it open which one is meant
ROUNDS_AWAY = "comes out otherwise from the lines as written"


_ACIDIFIED = re.compile(r"acidified|angesäuert", re.IGNORECASE)


@dataclass
class Drawer:
    """Draws variants of one template; ``log`` counts what was rejected and why; ``seldom_there`` are options that only some draws have."""

    template: Template
    bank: Bank
    catalogue: Catalogue
    log: RejectionLog = field(init=False)
    seldom_there: Mapping[str, tuple[str, ...]] = field(init=False)
    _misfits: tuple[Fault, ...] | None = None
    _compared: bool = False
    wrong_steps: WrongSteps = field(init=False)
    scaffold: Scaffold = field(init=False)
    _finder: Finder = field(init=False)
    _read: dict[tuple[object, ...], tuple[str, ...]] = field(default_factory=dict)
    _solved: SolvedScenes = field(init=False)
    _conditions: KeepOnlyIf = field(init=False)

    def __post_init__(self) -> None:
        kind = self.catalogue.scenarios.get(self.template.scenario.kind)
        self.seldom_there = may_fall_out(self.template, kind, self.catalogue) if kind else {}
        self.log = RejectionLog(self.template.file)
        self._conditions = KeepOnlyIf(self.template)
        self._finder = Finder(self.template, self.bank.sheet, self.catalogue)
        self.wrong_steps = WrongSteps(self.template, self._finder)
        self.scaffold = Scaffold(self.template, self.bank, self._finder)
        self._solved = SolvedScenes(self.catalogue, told=bool(self.template.given))

    def draw(self, seed: str) -> Drawn:
        """The first draw of a seed that keeps every condition.

        Raises ``Faulty``: ``rejects-almost-every-draw`` naming the condition, or what is wrong with the template.
        """
        if self._misfits is None:
            self._misfits = tuple(misfits(self.template, self.catalogue))
        first = Seed(self.bank.id, self.template.id, seed)
        if self._misfits:
            raise Faulty([*self._misfits, *self._also(first)])
        for attempt in range(MOST_TRIES):
            drawn, reasons = self._tried(first.redraw(attempt))
            if drawn is not None and not reasons:
                self.log.keep()
                return drawn
            self.log.reject(*reasons)
        found = self.log.fault(1.0)
        raise Faulty([found] if found else [])

    def _also(self, seed: Seed) -> list[Fault]:
        """What one draw shows beside the misfits, so that both are told in one run."""
        misfits_ = self._misfits or ()
        known = {each.code for each in misfits_}
        try:
            self.attempt(seed)
        except Faulty as error:
            others = [each for each in error.faults if each.code not in known]
            return [*others, *self._unknown_names(seed, (*misfits_, *others))]
        return []

    def _tried(self, seed: Seed) -> tuple[Drawn | None, tuple[Reason, ...]]:
        """As ``attempt``; where what is asked for can't be had, the names of the texts are looked at all the same."""
        try:
            return self.attempt(seed)
        except Faulty as error:
            raise Faulty([*error.faults, *self._unknown_names(seed, error.faults)]) from error

    def _unknown_names(self, seed: Seed, told: Sequence[Fault]) -> Iterator[Fault]:
        """Names in texts that one draw without questions does not have, but those told already."""
        bare = Drawer(asking_nothing(self.template), self.bank, self.catalogue)
        try:
            drawn = bare.solve(self._scene(seed), seed)
        except Faulty:
            return
        named = {each.found.strip("`") for each in told}
        in_texts = (each for each in unknown_names(self.template, drawn) if not each.key.startswith("keep only if"))
        yield from (each for each in in_texts if each.found.strip("`") not in named)

    def _row(self, seed: Seed) -> FilledRow | None:
        """The row of the template's table that a draw takes, where it has a table."""
        return seed.pick("row", self.template.filled) if self.template.filled else None

    def _scene(self, seed: Seed) -> Scene:
        """The scene drawn, with the values and words of its row. Raises ``Faulty`` where it can't be built."""
        row = self._row(seed)
        scene = draw_scene(row.scenario if row else self.template.scenario, seed, self.bank, self.catalogue)
        scene.situation.words.update(row.words if row else {})
        return scene

    def attempt(self, seed: Seed) -> tuple[Drawn | None, tuple[Reason, ...]]:
        """One draw and the reasons against it; ``None`` where it could not even be built.

        The first is worked out whatever its scene, so that what is wrong with the template shows.
        """
        try:
            scene = self._scene(seed)
        except Faulty as error:
            row = self._row(seed)
            where = f" (line {row.line} of {self.template.rows})" if row else ""
            line = self.template.lines.get("scenario", 0)
            return None, tuple(Reason(f"{each.code}{where}", "scenario", line) for each in error.faults)
        if self.log.draws and (reasons := self._conditions.unkept_at_once(scene)):
            return None, reasons
        drawn = self.solve(scene, seed)
        self._refuse_impossible(drawn)
        try:
            reasons = (*self._unreal(drawn, scene.facts), *self._conditions.unkept(drawn), *unclear_figure(self.template, drawn))
        except Faulty as error:
            raise with_unknown_names(self.template, error, drawn) from error
        if reasons:
            return drawn, reasons
        try:
            drawn.judged = drawn.once(lambda: self._judged(drawn), "judged")
        except Faulty as error:
            return drawn, tuple(Reason(each.found, "parts", self.template.lines.get("parts", 0)) for each in error.faults)
        return drawn, (
            *drawn.once(lambda: tuple(self._unjudgeable(drawn)), "unjudgeable"),
            *alike(self.template, drawn, self.seldom_there),
            *unrevealed(self.template, drawn, self.catalogue),
            *self.wrong_steps.missing(drawn),
        )

    def _refuse_impossible(self, drawn: Drawn) -> None:
        """Refuse words that a condition waits for in vain, any name where there is no scenario to have it, and an empty figure.

        All but the last are seen in the first draw.
        """
        waited: tuple[Fault, ...] = ()
        if not self._compared:
            self._compared = True
            if not drawn.kind and (nameless := unknown_names(self.template, drawn)):
                raise Faulty(nameless)
            waited = (*impossible(self.template, drawn), *misplaced_spares(self.template, drawn, self._finder))
        if found := (*waited, *empty_figure(self.template, drawn)):
            raise with_unknown_names(self.template, Faulty(found), drawn)

    # -------------------------------------------------------------- solving

    def solve(self, scene: Scene, seed: Seed) -> Drawn:
        """The scene with everything derived that the template names. Raises ``Faulty`` (``not-derivable``, ``unknown-name``)."""
        situation = scene.situation
        self._add_further(situation, seed)
        add_figure(self.template.figure, situation, seed)
        add_rows(self.template, situation, self.bank.sheet)
        add_notations(self.template, scene, self.catalogue)
        extra = {"context": seed.pick("context", self.template.context)} if self.template.context else {}
        extra |= {"form": self.template.form[0]} if "form" in self.template.lines else {}
        extra |= {"potential_name": self.bank.settings.potential_name, **printed_values(self.template.parts, seed.seed)}
        defer_to_rules(situation, self.template.scenario.kind)
        solved = self._solved.solved(scene, partial(self._solved_anew, frozenset(extra)))
        return Drawn(
            self.catalogue, situation, solved.graph, solved.start, solved.cells, extra, scene.lists, seed.seed,
            found=solved.found, kind=self.template.scenario.kind,
        )  # fmt: skip

    def _solved_anew(self, extra: frozenset[str], scene: Scene) -> Graph:
        """The graph of a scene; all laws that hold are added to its situation."""
        situation = scene.situation
        if strange := list(strange_things(self.template, situation, scene.lists, self.catalogue)):
            raise Faulty(strange)
        join(situation, self.catalogue, self.template.scenario.kind, self.bank.settings.nernst)
        if self.template.given:
            self._tell(situation, scene.lists)
        finds = [self.find(part) for part in self._asking(scene.lists)]
        nodes = [add_print_unit(situation, self.catalogue, each.name, each.unit) for each in finds]
        rules = situation.decided()
        also = [
            name
            for name in asked_names(self.template, scene.lists)
            if self.template.scenario.kind and name not in extra and self._is_node(situation, name, rules)
        ]
        also += [
            *self._balanced(situation),
            *add_estimates(self.template, situation, self.find),
            *noted_nodes(self.template, situation),
        ]
        also += set_nodes(self.template, situation, scene.lists, self.catalogue, also)
        also += ordered_nodes(self.template, situation, scene.lists, self.catalogue, also)
        also += fitting_nodes(self.template, situation, self.bank.sheet)
        try:
            return graph_of(situation, tuple(dict.fromkeys((*nodes, *also, *self._looked_at(situation)))), self.catalogue)
        except Faulty as error:
            raise explained(self.template, error, situation, scene.lists, self.catalogue) from error

    def _add_further(self, situation: Situation, seed: Seed) -> None:
        """What the template draws beside its scenario."""
        for name, values in self.template.further_quantities.items():
            quantity = pick_quantity(values, seed, name)
            add_given(situation, self.catalogue, name, quantity.printed, quantity.unit)

    def _looked_at(self, situation: Situation) -> tuple[str, ...]:
        """What the template's realism rules read, where it can be worked out."""
        wanted = dict.fromkeys(name for code in self.template.rules for name in realism.RULES[code].looks_at)
        if not wanted:
            return ()
        key = situation.key()
        read = self._read.get(key)
        if read is None:
            there = frozenset(reachable(situation))
            if len(self._read) >= MOST_SHAPES:
                self._read.clear()
            read = self._read[key] = tuple(name for name in wanted if name in there)
        return read

    def find(self, part: Asking) -> Find:
        """What a part asks for, with the usual unit and rounding where the template does not say."""
        return self._finder.find(part)

    def _balanced(self, situation: Situation) -> list[str]:
        """The nodes of the equations asked for, those that the scenario has; and the factor that what is counted from one follows."""
        asked = {EQUATIONS[part.balance] for part in self.template.parts if isinstance(part, BalancePart)}
        there = {law.node for law in situation.laws if isinstance(law, Balance)}
        asked |= {FACTOR} if "equation" in asked else set()
        return [node for node in (*dict.fromkeys(EQUATIONS.values()), FACTOR) if node in there & asked]

    def _asking(self, lists: Lists) -> list[Asking]:
        """The parts and cells that are about a number."""
        return [leaf.part for leaf in leaves(self.template, lists) if isinstance(leaf.part, Asking)]

    def _tell(self, situation: Situation, lists: Lists) -> None:
        """Work out what the template tells as data and forget what it asks for: the question turned round."""
        told = [text.partition(" in ") for text in self.template.given]
        nodes = [add_print_unit(situation, self.catalogue, name, unit) if unit else name for name, _, unit in told]
        graph = graph_of(situation, tuple(nodes), self.catalogue)
        cells = graph.run(graph.start(situation.given))
        situation.laws = [law for law in situation.laws if not (isinstance(law, Conversion) and law.node in nodes)]
        for (name, _, unit), node in zip(told, nodes, strict=True):
            value = graph.value(cells, node)
            quantity = quantity_of(name, self.catalogue.quantities)
            if isinstance(value, float) and quantity is not None:
                plain = FindPart.model_construct(find=name, figures=None, decimals=0 if unit == "mV" else None)
                asked = self._finder.asked(plain, quantity, unit or quantity.unit)
                add_given(situation, self.catalogue, name, str(asked.printed(value)), unit or quantity.unit)
        sought = dict.fromkeys(part.find for part in self._asking(lists))
        for name in sought:
            forget(situation, name)
        situation.laws = [self._unnamed(law, frozenset(sought)) for law in situation.laws]

    def _unnamed(self, law: Law, asked: frozenset[str]) -> Law:
        """The law of what is asked for with its general sentence: the one for here could name what is to be found."""
        if isinstance(law, Instance) and law.law in self.catalogue.relations and not asked.isdisjoint(law.symbols):
            return replace(law, say=self.catalogue.relations[law.law].say)
        return law

    def _is_node(self, situation: Situation, name: str, rules: frozenset[str]) -> bool:
        """Whether a name has to be derived or is a given of the graph, rather than a word or a value told in its own unit."""
        if name in situation.labels or name in situation.words or self._is_given(situation, name):
            return False
        if any(name in names for names in self.seldom_there.values()) and name not in reachable(situation):
            return False  # an option that this draw does not have
        return name in situation.given or quantity_of(name, self.catalogue.quantities) is not None or name in rules

    def _is_given(self, situation: Situation, name: str) -> bool:
        return name not in situation.given and any(node.startswith(f"{name}:") for node in situation.given)

    @cached_property
    def _told(self) -> frozenset[str]:
        """The names in every condition and text of the template."""
        return frozenset(name for _, names in mentions(self.template) for name in names)

    # -------------------------------------------------------------- conditions

    def _unreal(self, drawn: Drawn, facts: Facts) -> Iterator[Reason]:
        line = self.template.lines.get("rules", 0)
        for code, _ in realism.rejections(tuple(self.template.rules), self.facts_of(drawn, facts)):
            yield Reason(code, "rules", line)

    def facts_of(self, drawn: Drawn, facts: Facts) -> Facts:
        """What the realism rules look at: the facts of the scene, what the texts tell, and the numbers worked out."""
        number = partial(self._number, drawn)
        count = number("n")
        return replace(
            facts,
            told=self._told, acid_noted=bool(_ACIDIFIED.search(self.template.text.source)),
            E0=number("E0_cell"), E=number("E_cell"), current=number("I"), time=number("t"), mass=number("m"),
            n=None if count is None else int(count), values=_numbers(drawn),
        )  # fmt: skip

    def _number(self, drawn: Drawn, node: str) -> float | None:
        value = drawn.graph.value(drawn.cells, node) if node in drawn.graph.index else None
        return value if isinstance(value, float) else None

    def _judged(self, drawn: Drawn) -> Judged:
        """The numbers asked for, and all numbers as the working writes them. Raises ``Faulty`` as ``outcome`` does."""
        outcomes = self._outcomes(drawn)
        method, picked = self.scaffold.method, picked_sides(drawn.graph, drawn.cells)
        drawn.judge(outcomes, unwritten(drawn.graph, tuple(outcomes), method, picked))
        return drawn.judged

    def _outcomes(self, drawn: Drawn) -> dict[str, Outcome]:
        """The numbers asked for. Of two slips with one value that of the part itself is told, not that of an earlier part."""
        found: dict[str, Outcome] = {}
        for leaf in leaves(self.scaffold.as_asked(drawn).template, drawn.lists):
            for find in self._numbers(leaf.part, drawn, found):
                before = {node: each for node, each in found.items() if node != find.node}
                points = self._own_first(drawn, find.node, tuple(before))
                found[find.node] = outcome(drawn.graph, drawn.start, find.node, find.asked, points, drawn.cells, before)
        return found

    def _numbers(self, part: AnyPart, drawn: Drawn, before: Mapping[str, Outcome]) -> tuple[Find, ...]:
        """The numbers that a part asks for; of a step that is wrong each that can be, since the seed alone decides which one is."""
        match part:
            case FindPart() | WrongStepPart() | EstimatePart():
                return (self.find(part),)
            case CorrectPart():
                return self.wrong_steps.corrections(part, drawn, before)
            case _:
                return ()

    def _own_first(self, drawn: Drawn, node: str, before: tuple[str, ...]) -> tuple[SlipPoint, ...]:
        """The slips on the way to an answer, those at steps of the answers ``before`` it last; sorted once for each graph."""
        graph, key = drawn.graph, (f"slips after {' '.join(before)}", node)
        points: tuple[SlipPoint, ...] | None = graph.memo.get(key)
        if points is None:
            earlier = {step.node for each in before for step in graph.upstream(each)}
            found = points_of(graph, node, drawn.situation, self.catalogue)
            points = graph.memo[key] = tuple(sorted(found, key=lambda point: point.node in earlier))
        return points

    def _unjudgeable(self, drawn: Drawn) -> Iterator[Reason]:
        line = self.template.lines.get("parts", 0)
        for node, each in drawn.outcomes.items():
            if each.right.width > WIDEST:
                yield Reason(f"accepted range of {node} too wide", "parts", line)
            if each.asked.whole and abs(each.exact - float(each.right.printed)) > FAR_FROM_WHOLE:
                yield Reason(f"{node} not near a whole number", "parts", line)
            if each.on_edge:
                yield Reason(f"{node} on the edge of two roundings", "parts", line)
        for name in on_an_edge(self.template, self.find, drawn.outcomes):
            yield Reason(f"{name} too near a power of ten to be estimated", "parts", line)
        for node in drawn.unlike_written():
            yield Reason(f"{node} {ROUNDS_AWAY}", "parts", line)


def _numbers(drawn: Drawn) -> dict[str, float]:
    """Every number of a draw by name."""
    return {name: value for name, place in drawn.graph.index.items() if isinstance(value := drawn.cells[place], float)}
