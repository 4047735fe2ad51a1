"""A question template: the keys a teacher writes, in frozen models.

Scenario kinds and kinds of parts are told apart by the key that is present. Key names have spaces where attributes have
underscores (``swap sides`` is ``swap_sides``). Names to find are checked here for their writing only; whether they can
be derived is the derivation's to say.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, BeforeValidator, Discriminator, Field, Tag, ValidationInfo, WithJsonSchema, model_validator

from saltbridge import units
from saltbridge.bank import known
from saltbridge.bank.conditions import NAME, Condition, parse_condition
from saltbridge.bank.fields import (
    AtLeastTwo,
    Drawn,
    Identifier,
    Keys,
    Measures,
    Name,
    OneOrSeveral,
    QuantityText,
    Several,
    Text,
    Title,
    Whole,
    YesNo,
)
from saltbridge.bank.prose import Prose, read_prose
from saltbridge.bank.told import Reading, carried, shown, wrong
from saltbridge.faults import Fault, Faulty

Level = Literal["introductory", "core", "advanced", "first-year"]
Use = Literal["practice", "homework", "exam"]


# ------------------------------------------------------------------ values read further


def _prose(value: object, info: ValidationInfo) -> Prose:
    if not isinstance(value, str) or not value.strip():
        raise wrong("wrong-type", "a text", shown(value))
    try:
        reading = info.context if isinstance(info.context, Reading) else Reading()
        return read_prose(value, reading.rows, reading.say)
    except Faulty as trouble:
        raise carried(trouble) from None


def _condition(value: object) -> Condition:
    if not isinstance(value, str):
        raise wrong("wrong-type", "a condition, as `E0_cell >= 0.20 V`", shown(value))
    try:
        return parse_condition(value)
    except Faulty as trouble:
        raise carried(trouble) from None


def _unit(value: object) -> str:
    try:
        return units.unit_text(str(value))
    except Faulty as trouble:
        raise carried(trouble) from None


@dataclass(frozen=True, slots=True)
class Option:
    """What can be chosen: a name of the scenario where ``text`` is one (``left.metal``), else words for the student."""

    text: str
    prose: Prose

    @property
    def may_be_name(self) -> bool:
        """Whether the text is written like a name; the derivation knows whether it is one."""
        return NAME.fullmatch(self.text) is not None


def _option(value: object, info: ValidationInfo) -> Option:
    return Option(str(value).strip(), _prose(value, info))


_TEXT = {"type": "string"}
Markdown = Annotated[Prose, BeforeValidator(_prose), WithJsonSchema(_TEXT)]
ConditionText = Annotated[Condition, BeforeValidator(_condition), WithJsonSchema(_TEXT)]
UnitText = Annotated[str, BeforeValidator(_unit), WithJsonSchema(_TEXT)]
OptionText = Annotated[Option, BeforeValidator(_option), WithJsonSchema(_TEXT)]
Metal = Annotated[Text, AfterValidator(known.metal)]
Couple = Annotated[Text, AfterValidator(known.couple)]
Outcome = Annotated[Text, AfterValidator(known.outcome), WithJsonSchema({"type": "string", "pattern": r"^T[0-9]+\.[0-9]+$"})]
RuleCode = Annotated[Text, AfterValidator(known.rule)]

# ------------------------------------------------------------------ scenarios


class GalvanicScenario(Keys):
    """Two half-cells joined to a galvanic cell."""

    metals: Several[Metal] | None = Field(None, description="Metals to draw from, each in a solution of its own ions.")
    couples: Several[Couple] | None = Field(None, description="Couples to draw from, by their id in the table of potentials.")
    half_cells: Literal["different", "same"] = Field(
        "different", description="`same` makes a concentration cell: one metal or couple on both sides."
    )
    concentrations: Annotated[Drawn | None, Measures("mol/L", bare="mol/L", standard=True)] = Field(
        None,
        description="`standard`, or the concentrations to draw from, in mol/L where no unit stands; each dissolved species draws its own.",
    )
    pressures: Annotated[Drawn | None, Measures("bar", standard=True)] = Field(
        None, description="`standard`, or the pressures of gases to draw from, as `from: [0.50 bar, 2.0 bar]`."
    )
    temperature: Annotated[Drawn | None, Measures("°C", positive=False)] = Field(
        None, description="The temperature, as `25 °C`, or several to draw from. Without it: the data sheet's, 25 °C."
    )
    swap_sides: Literal["sometimes", "never", "always"] = Field(
        "sometimes",
        description="Whether the couple with the higher potential also stands on the left: `never`, `always` or `sometimes`.",
    )
    written: Literal["as drawn", "anode left"] = Field(
        "as drawn", description="How the cell diagram is written: as the cell is drawn, or with the anode on the left."
    )

    @model_validator(mode="after")
    def _two_half_cells(self) -> Self:
        chosen = self.metals if self.metals is not None else self.couples
        if chosen is None or (self.metals is not None and self.couples is not None):
            found = "neither" if chosen is None else "both"
            raise wrong("half-cells", "either `metals` or `couples`", found, "As `metals: [Zn, Cu, Ag]`.")
        if self.half_cells == "different" and len(chosen) < 2:
            hint = "For a concentration cell write `half cells: same`."
            raise wrong("half-cells", "two or more to draw from", f"only `{chosen[0]}`", hint)
        if self.half_cells == "same" and (self.concentrations is None or len(self.concentrations.values) < 2):
            hint = "As `concentrations: {from: [0.010, 0.10, 1.0]}`."
            raise wrong("half-cells", "two or more concentrations for a concentration cell", "fewer", hint)
        return self


class ElectrolysisScenario(Keys):
    """A metal is deposited by a steady current. Two of current, time and mass are given; the third is left to find."""

    metals: Several[Metal] = Field(description="Metals to draw from; the bath holds ions of the one drawn.")
    current: Annotated[Drawn | None, Measures("A")] = Field(
        None,
        description="The current, as `0.50 A`, `from: [0.50 A, 1.00 A]`, or `between: [0.20 A, 1.00 A]` with `step: 0.05 A`.",
    )
    time: Annotated[Drawn | None, Measures("s")] = Field(None, description="The time, as `30 min`, or several to draw from.")
    mass: Annotated[Drawn | None, Measures("g")] = Field(
        None, description="The mass deposited, as `1.20 g`, or several to draw from."
    )
    efficiency: Annotated[Drawn | None, Measures("%")] = Field(
        None,
        description="The current efficiency, as `95 %`, or several to draw from. Without it: all the current deposits metal.",
    )

    @model_validator(mode="after")
    def _two_given(self) -> Self:
        given = [name for name in ("current", "time", "mass") if getattr(self, name) is not None]
        if len(given) != 2:
            found = "all three" if given[2:] else f"only `{given[0]}`" if given else "none"
            raise wrong("electrolysis-given", "two of `current`, `time` and `mass`", found, "The third is what is left to find.")
        return self


class BenchScenario(Keys):
    """Readings of several metals against one reference metal, as on salt-moistened paper."""

    reference: Metal = Field(description="The metal on the black lead of the meter.")
    metals: Several[Metal] = Field(description="The metals tested against it.")
    scatter: QuantityText = Field("0.02 V", description="How far readings may stray from the model, either way, as `0.02 V`.")
    model: Literal["own ions", "salt only"] = Field(
        "own ions", description="Each metal in a solution of its own ions, or all on paper with one salt."
    )

    @model_validator(mode="after")
    def _sensible(self) -> Self:
        if self.reference in self.metals:
            raise wrong(
                "bench-reference", "test metals other than the reference", f"`{self.reference}` in `metals`", "Take it out."
            )
        _, unit = units.parse_quantity(self.scatter)
        if not unit or not units.same_dimension(unit, "V"):
            raise wrong("quantity-kind", "`scatter` in V or mV", f"`{self.scatter}`", "As `scatter: 0.02 V`.")
        return self


class Scenario(Keys):
    """What the question is about: exactly one kind."""

    galvanic_cell: GalvanicScenario | None = Field(None, description="Two half-cells joined to a cell that gives a current.")
    electrolysis: ElectrolysisScenario | None = Field(None, description="A metal deposited by a current.")
    bench: BenchScenario | None = Field(None, description="Readings of metals against a reference metal on the bench.")

    @model_validator(mode="after")
    def _one_kind(self) -> Self:
        present = [each for each in (self.galvanic_cell, self.electrolysis, self.bench) if each is not None]
        if len(present) != 1:
            expected = "exactly one of `galvanic cell`, `electrolysis` and `bench`"
            raise wrong("scenario-kind", expected, f"{len(present)} of them" if present else "none of them")
        return self

    @property
    def kind(self) -> Literal["galvanic cell", "electrolysis", "bench"]:
        """The key that is present."""
        return "galvanic cell" if self.galvanic_cell else "electrolysis" if self.electrolysis else "bench"

    @property
    def body(self) -> GalvanicScenario | ElectrolysisScenario | BenchScenario:
        """What stands under that key."""
        body = self.galvanic_cell or self.electrolysis or self.bench
        if body is None:  # pragma: no cover - refused when read
            raise ValueError(self.kind)
        return body


# ------------------------------------------------------------------ parts


class _AnyPart(Keys):
    ask: Markdown = Field(description="The question, in Markdown with holes.")
    marks: Whole | None = Field(None, description="Marks; without it, the marking policy counts the steps.")
    hint: Markdown | None = Field(None, description="A first hint in your own words; further hints come from the working.")


class FindPart(_AnyPart):
    """A number to calculate."""

    find: Name = Field(description="The quantity to find, such as `E0_cell`.")
    unit: UnitText | None = Field(None, alias="in", description="The unit the answer is wanted in, such as `kJ/mol`.")
    figures: Whole | None = Field(None, description="Significant figures of the answer.")
    decimals: Whole | None = Field(None, description="Decimals of the answer, instead of figures.")

    @model_validator(mode="after")
    def _one_rounding(self) -> Self:
        if self.figures is not None and self.decimals is not None:
            raise wrong("rounding", "either `figures` or `decimals`", "both", "Keep one.")
        if self.figures == 0 or (self.figures or 0) > 10 or (self.decimals or 0) > 10:
            raise wrong("rounding", "1 to 10 figures, or 0 to 10 decimals", f"{self.figures or self.decimals or 0}")
        return self


class ChoosePart(_AnyPart):
    """One of several things to choose."""

    choose: Name = Field(description="The name whose value is right, such as `anode`.")
    options: AtLeastTwo[OptionText] = Field(alias="from", description="What to choose from: names of the scenario, or words.")


class OrderPart(_AnyPart):
    """Things to put in order."""

    order: OneOrSeveral[Name] = Field(
        description="The things: a list of names, or one name that stands for a list, such as `metals`."
    )
    by: Name = Field(description="The quantity that decides.")
    direction: Literal["ascending", "descending"] = Field("ascending", description="Lowest first (`ascending`) or highest first.")


class BalancePart(_AnyPart):
    """A balanced equation to write."""

    balance: Literal["cell equation", "cathode half", "anode half"] = Field(description="Which equation is to be written.")


PART_KINDS = ("find", "choose", "order", "balance")


def _kinds(value: object) -> list[str]:
    if isinstance(value, _AnyPart):
        return [kind for kind in PART_KINDS if hasattr(value, kind)]
    return [kind for kind in PART_KINDS if isinstance(value, dict) and kind in value]


def _one_kind(value: object) -> object:
    if not isinstance(value, dict | _AnyPart):
        raise wrong("wrong-type", "keys with values", shown(value))
    kinds = _kinds(value)
    if len(kinds) != 1:
        found = " and ".join(f"`{kind}`" for kind in kinds) if kinds else "none of them"
        hint = "Make it two parts." if kinds else "As `find: E0_cell`."
        raise wrong("part-kind", "exactly one of `find`, `choose`, `order` and `balance`", found, hint)
    return value


def _tag(value: object) -> str:
    return f"<{_kinds(value)[0]}>"


Part = Annotated[
    Annotated[FindPart, Tag("<find>")]
    | Annotated[ChoosePart, Tag("<choose>")]
    | Annotated[OrderPart, Tag("<order>")]
    | Annotated[BalancePart, Tag("<balance>")],
    Discriminator(_tag),
    BeforeValidator(_one_kind),
]
AnyPart = FindPart | ChoosePart | OrderPart | BalancePart

# ------------------------------------------------------------------ template


class TemplateKeys(Keys):
    """A question, written once; every student gets their own numbers."""

    title: Title = Field(description="A short title, as the student sees it.")
    outcome: Outcome = Field(description="The learning outcome it belongs to, such as T3.4.")
    level: Level = Field(description="How far along the students are.")
    use: OneOrSeveral[Use] = Field(
        ("practice",), description="What it may be used for. An exam question never reaches a public site."
    )
    minutes: Whole | None = Field(None, description="Minutes a student needs; without it, one a mark.")
    context: Several[Identifier] = Field(
        (), description='Words to draw one from; the text tells them apart by `{% if context == "harbour" %}`.'
    )
    scenario: Scenario = Field(description="What is drawn: exactly one kind of scenario.")
    keep_only_if: OneOrSeveral[ConditionText] = Field((), description="Conditions a draw must meet, as `E0_cell >= 0.20 V`.")
    rules: Several[RuleCode] = Field((), description="Codes of realism rules that a draw must keep, such as R-EMF.")
    must_catch: Several[Identifier] = Field(
        (), description="Slips that every draw must tell from the right answer; others are dropped where they coincide."
    )
    method: Literal["steps", "formula"] | None = Field(
        None, description="Worked in steps or by one formula; without it, as the bank says."
    )
    figure: Literal["galvanic cell", "number line", "none"] = Field("none", description="The drawing beside the text.")
    hide_row: YesNo = Field(False, description="Hide the row of the data sheet that prints what is asked for.")
    given: Several[Name] = Field(
        (), description="Quantities worked out by the tool and told to the student as data, which turns a question round."
    )
    text: Markdown = Field(description="The situation, in Markdown with holes.")
    parts: Several[Part] = Field(description="The parts (a), (b)… in order.")

    @model_validator(mode="after")
    def _fits(self) -> Self:
        if self.figure == "galvanic cell" and self.scenario.galvanic_cell is None:
            hint = "Only a galvanic cell can be drawn as one."
            raise wrong("figure", "`figure: none` or `number line` for this scenario", "`galvanic cell`", hint)
        return self


class Template(TemplateKeys):
    """A template of a bank: its keys, with where it was read. ``id`` is the file's name without its ending."""

    id: str
    file: str
    lines: Mapping[str, int]

    def fault(self, key: str, code: str, *, expected: str, found: str, hint: str = "") -> Fault:
        """A fault of this template at a key path such as ``parts[2].find``."""
        line = 0
        path = key
        while path and path not in self.lines:
            path = path.rpartition(".")[0] if "." in path else path.partition("[")[0] if "[" in path else ""
        line = self.lines.get(path, 0)
        return Fault(code, expected, found, hint, self.file, line, key)


def as_template(keys: TemplateKeys, *, template_id: str, file: str, lines: Mapping[str, int]) -> Template:
    """The template of checked keys."""
    values: dict[str, Any] = {name: getattr(keys, name) for name in TemplateKeys.model_fields}
    return Template.model_construct(**values, id=template_id, file=file, lines=lines)
