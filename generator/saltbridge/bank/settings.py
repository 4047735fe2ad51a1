"""The keys of ``bank.yaml``: how the whole bank prints and works."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, ValidationInfo, WithJsonSchema

from saltbridge import words
from saltbridge.forms import registries as known
from saltbridge.forms.fields import Identifier, Keys, Several, Text, Title, Whole, known_word
from saltbridge.forms.validation_messages import shown, wrong
from saltbridge.records import Settings

FORMAT = 1
LONGEST_LICENCE = 60  # characters


def _format(number: int) -> int:
    if number != FORMAT:
        raise wrong("format", f"`format: {FORMAT}`", f"`{number}`", "The bank was written for another version of saltbridge.")
    return number


def _language(tag: str) -> str:
    return known_word(tag, words.languages(), "language", "a language that the pages speak")


def _licence(name: str) -> str:
    if len(name) > LONGEST_LICENCE or not re.fullmatch(r"[A-Za-z0-9]+[.+-][A-Za-z0-9.+-]*[A-Za-z0-9+]", name):
        raise wrong("licence", "the SPDX name of a licence, such as `CC-BY-4.0`", shown(name))
    return name


Format = Annotated[Whole, AfterValidator(_format), WithJsonSchema({"const": FORMAT})]
Language = Annotated[Text, AfterValidator(_language), WithJsonSchema({"type": "string", "examples": ["en", "de"]})]
Licence = Annotated[Text, AfterValidator(_licence), WithJsonSchema({"type": "string", "examples": ["CC-BY-4.0", "CC-BY-SA-4.0"]})]


def _policy(name: str) -> str:
    return known_word(name, known.policies(), "marking-policy", "the name of a marking policy")


MarkingPolicy = Annotated[Text, AfterValidator(_policy), WithJsonSchema({"type": "string", "examples": ["steps", "three-lines"]})]


def _print_size(size: str, info: ValidationInfo) -> str:
    papers = {"24": ("a4", "a3"), "36": ("a3",)}.get(size, ())
    paper = info.data.get("paper")
    if papers and paper and paper not in papers:
        places = " or ".join(f"`paper: {each}`" for each in papers)
        raise wrong("print-size", places, f"`paper: {paper}`", f"Letters of {size} points need a larger sheet.")
    return size


PrintSize = Annotated[Literal["11", "18", "24", "36"], AfterValidator(_print_size)]


class BankKeys(Keys):
    """A bank of questions and how it prints."""

    format: Format = Field(description="The version of this file's layout: 1.")
    id: Identifier = Field(description="A short name that never changes; every student's numbers hang on it.")
    title: Title = Field(description="The bank's title, as students see it.")
    language: Language = Field("en", description="The language of the texts, such as `en` or `de`.")
    decimal_mark: Literal["point", "comma"] = Field(
        "point", description="The decimal mark in print. In these files numbers always have a point."
    )
    electrons: Literal["n", "z"] = Field("n", description="The symbol for the number of electrons of a reaction.")
    concentration_unit: Literal["mol/dm3", "mol/L"] = Field("mol/dm3", description="How the unit of concentration is printed.")
    standard_sign: Literal["°", "⦵"] = Field("°", description="The sign of the standard state.")
    bridge_sign: Literal["¦¦", "‖"] = Field("¦¦", description="The sign of the salt bridge in cell diagrams.")
    unit_style: Literal["slash", "power"] = Field("slash", description="kJ/mol (`slash`) or kJ mol⁻¹ (`power`).")
    potential_name: Literal["cell potential", "EMF"] = Field(
        "cell potential", description="What the potential of a whole cell is called."
    )
    data_sheet: Text = Field(
        "school", description="The data sheet: `school`, `college`, or a file of this bank such as `sheets/ours.yaml`."
    )
    marking_policy: MarkingPolicy = Field("steps", description="The name of the marking policy, such as `steps`.")
    method: Literal["steps", "formula"] = Field(
        "steps", description="Whether calculations are worked in steps or by one formula."
    )
    nernst_form: Literal["lg", "ln"] = Field("lg", description="The form of the Nernst equation at 25 °C.")
    units_in_lines: Literal["left out", "kept"] = Field(
        "left out", description="Whether numbers put into a formula keep their units; the result always has its unit."
    )
    paper: Literal["a4", "us-letter", "a3"] = Field("a4", description="The size of printed papers.")
    print_size: PrintSize = Field(
        "11",
        description="The size of print on papers and their data sheet, in points: `11`, or large print in bold letters without serifs: "
        "`18`, `24` (on a4 or a3), `36` (on a3).",
    )
    answers: Literal["lines", "short", "squares", "none"] = Field(
        "lines",
        description="The room for working on paper: `lines`, two a mark; `short`, one a mark; `squares`, squared paper; "
        "`none`, for exercise books.",
    )
    students: Literal["name", "number"] = Field(
        "name", description="What a paper asks for at its head: the student's `name`, or the candidate `number`."
    )
    school: Title | None = Field(None, description="The name of the school, printed at the head of papers.")
    publish_unsigned: Literal["yes", "no"] = Field(
        "yes", description="Whether templates that nobody has signed may be published: `no` refuses them."
    )
    licence: Licence = Field("CC-BY-4.0", description="The licence of the questions, by its SPDX name.")
    authors: Several[Text] = Field((), description="Who wrote the questions: persons or departments.")

    def settings(self) -> Settings:
        """The same as the record that the other stages read."""
        return Settings(
            title=self.title,
            language=self.language,
            decimal_mark="." if self.decimal_mark == "point" else ",",
            electrons=self.electrons,
            concentration_unit=self.concentration_unit,
            standard_sign=self.standard_sign,
            bridge_sign=self.bridge_sign,
            unit_style=self.unit_style,
            potential_name=self.potential_name,
            sheet=self.data_sheet,
            policy=self.marking_policy,
            method=self.method,
            nernst=self.nernst_form,
            units_in_lines=self.units_in_lines == "kept",
            paper=self.paper,
            answers=self.answers,
            print_size=int(self.print_size),
            students=self.students,
            school=self.school or "",
            licence=self.licence,
        )
