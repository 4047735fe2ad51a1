"""The keys of a practical: which metals are read against which, on what paper, by whom. Read as strictly as a template."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from saltbridge.bank.settings import Language
from saltbridge.faults import Fault, Faulty
from saltbridge.forms.fields import AtLeastTwo, Counted, Keys, QuantityText, Several, Text, Title, known_word
from saltbridge.forms.strict_yaml import lines_of, read_yaml
from saltbridge.forms.validation_messages import Reading, checked, nearest, shown, wrong
from saltbridge.tables.benches import bands, bridge_salts
from saltbridge.tables.substances import metals
from saltbridge.units import convert

MOST_GROUPS = 40
LONGEST_BLOCK = 4_000  # characters of the school's own words on safety


def _metal(symbol: str) -> str:
    known = metals().get(symbol)
    if known and (known.water_reactive or (known.toxic and symbol not in bands())):
        raise wrong(
            "never-in-class", "a metal that a class may handle", shown(symbol), "Talk about it with the table of potentials."
        )
    return known_word(symbol, bands(), "unknown-metal", "the symbol of a metal that is read on paper")


def _unlike(pair: tuple[str, ...]) -> tuple[str, ...]:
    if len(pair) != 2:
        raise wrong("pair", "two metals, as `[Mg, Zn]`: the red lead first", ", ".join(pair))
    return pair


def _salt(name: str) -> str:
    return known_word(name, bridge_salts(), "paper-salt", "a salt for wetting the paper")


def _block(value: object) -> str:
    if not isinstance(value, str) or not value.strip():
        raise wrong("wrong-type", "a text", shown(value))
    if len(value) > LONGEST_BLOCK:
        raise wrong("too-long", f"at most {LONGEST_BLOCK} characters", f"{len(value)} characters")
    return value.strip()


Metal = Annotated[Text, AfterValidator(_metal)]
Pair = Annotated[AtLeastTwo[Metal], AfterValidator(_unlike)]


class WetKeys(Keys):
    """What wets the paper."""

    salt: Annotated[Text, AfterValidator(_salt)] = Field("NaCl", description="The salt of the solution: NaCl, KNO3 or Na2SO4.")
    concentration: QuantityText = Field("1.0 mol/L", description="Its concentration.")
    a_group: QuantityText = Field("10 mL", description="How much of it a group gets.")

    @model_validator(mode="after")
    def _sizes(self) -> Self:
        for key, text, unit, low, high in (
            ("concentration", self.concentration, "mol/L", 0.05, 2.0),
            ("a group", self.a_group, "mL", 1.0, 200.0),
        ):
            amount = _in(text, unit, key)
            if not low <= amount <= high:
                raise wrong("size", f"`{key}` from {low:g} to {high:g} {unit}", shown(text))
        return self


def _in(text: str, unit: str, key: str) -> float:
    value, _, own = text.partition(" ")
    try:
        return float(convert(value, own, unit))
    except Faulty:
        raise wrong("unit", f"`{key}` in {unit}, as `1 {unit}`", shown(text)) from None


class ClassKeys(Keys):
    """A class that does the practical."""

    name: Title = Field(description="The name of the class, as its readings give it.")
    groups: Counted = Field(description="How many groups read at the same time.")

    @model_validator(mode="after")
    def _not_too_many(self) -> Self:
        if self.groups > MOST_GROUPS:
            raise wrong("size", f"at most {MOST_GROUPS} groups", str(self.groups))
        return self


class PracticalKeys(Keys):
    """A lesson with metals on wet paper."""

    title: Title = Field(description="The title of the worksheet.")
    reference: Metal = Field("Cu", description="The metal of the black lead, against which all are read.")
    metals: AtLeastTwo[Metal] = Field(description="The metals that are read against it, such as `[Mg, Zn, Al, Fe, Ag]`.")
    allowed: Several[Literal["Pb", "Ni"]] = Field(
        (), description="Metals that this school allows in class by its own rules: lead, nickel."
    )
    paper: Literal["salt only", "own ions"] = Field(
        "salt only",
        description="`salt only`: one salt solution for all. `own ions`: each metal on a spot of a solution of its own ions.",
    )
    wet: WetKeys = Field(WetKeys(), description="The solution that wets the paper.")  # type: ignore[call-arg]  # all keys have defaults
    repeats: Counted = Field(3, description="How often each group reads each metal.")
    also: Several[Pair] = Field(
        (), description="Pairs that are also read against each other, as `[[Mg, Zn]]`: do differences add up?"
    )
    classes: Several[ClassKeys] = Field(description="The classes of the week.")
    spares: Counted = Field(2, description="Sets of strips more than there are groups at a time.")
    trial: dict[Metal, QuantityText] = Field(
        {},
        description="The technician's own readings on the school's meters, as `{Zn: -0.71 V}`; they replace the expected bands.",
    )
    safety: Annotated[str, BeforeValidator(_block)] | None = Field(
        None, description="The school's own words on safety, from its risk assessment. Without them no sheet is made."
    )
    contact: Title | None = Field(None, description="Whom to ask about safety in this school.")
    language: Language | None = Field(None, description="The language of the sheets, in place of the bank's.")

    @model_validator(mode="after")
    def _fits(self) -> Self:
        read = (self.reference, *self.metals)
        if self.reference in self.metals:
            raise wrong(
                "metals", f"metals beside the reference `{self.reference}`", f"`{self.reference}` among them", "Leave it out."
            )
        for symbol in read:
            if metals()[symbol].needs_enabling and symbol not in self.allowed:
                hint = f"Where your school's rules allow it, write `allowed: [{symbol}]`; else leave it out."
                raise wrong("not-allowed", "metals that every school may use", f"`{symbol}`", hint)
        if missing := next((symbol for pair in self.also for symbol in pair if symbol not in self.metals), None):
            raise wrong("also", "pairs of the metals read", f"`{missing}`", nearest(missing, self.metals))
        if self.safety is None:
            hint = "Write what your school's risk assessment says, as `safety: Goggles on. Mrs …`; this tool can't know it."
            raise wrong("no-safety", "`safety` with the school's own words", "none", hint)
        return self


@dataclass(frozen=True, slots=True)
class Practical:
    """A practical as read: its keys, and where each stands."""

    keys: PracticalKeys
    file: str
    lines: dict[str, int]

    def fault(self, key: str, code: str, *, expected: str, found: str, hint: str = "") -> Fault:
        """A fault at a key path such as ``trial.Zn``."""
        path = key
        while path and path not in self.lines:
            path = path.rpartition("[")[0] if path.endswith("]") else path.rpartition(".")[0]
        return Fault(code, expected, found, hint, self.file, self.lines.get(path, 0), key)


def read_practical(path: Path) -> Practical:
    """Read a practical. Raises ``Faulty`` with all its faults."""
    raw = read_yaml(path, path.name)
    return Practical(checked(PracticalKeys, raw, path.name, Reading()), path.name, dict(lines_of(raw)))
