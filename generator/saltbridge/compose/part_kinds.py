"""Which file composes which kind of part."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from saltbridge.bank.cases_part import CasesPart
from saltbridge.bank.estimate_part import EstimatePart
from saltbridge.bank.parts import AnyPart, BalancePart, ChoosePart, FindPart, OrderPart, WhichPart
from saltbridge.bank.sequence_part import SequencePart
from saltbridge.bank.several_part import SeveralPart
from saltbridge.bank.spare_part import SparePart
from saltbridge.bank.table_part import TablePart
from saltbridge.bank.typed_parts import DiagramPart, ExpressionPart, SpeciesPart
from saltbridge.bank.word_part import WordPart
from saltbridge.bank.written_part import WrittenPart
from saltbridge.bank.wrong_step_part import CorrectPart, WrongStepPart
from saltbridge.compose.case_parts import cases_part
from saltbridge.compose.desk import Desk
from saltbridge.compose.equation_parts import balance_part
from saltbridge.compose.estimate_parts import estimate_part
from saltbridge.compose.idea_parts import which_part
from saltbridge.compose.notation_parts import diagram_part, expression_part, species_part
from saltbridge.compose.number_parts import number_part
from saltbridge.compose.order_parts import order_part
from saltbridge.compose.reasoned_parts import choice_part
from saltbridge.compose.sequence_parts import sequence_part
from saltbridge.compose.several_parts import several_part
from saltbridge.compose.spare_parts import spare_part
from saltbridge.compose.table_parts import table_part
from saltbridge.compose.word_parts import word_part
from saltbridge.compose.written_parts import written_part
from saltbridge.compose.wrong_step_parts import correct_part, wrong_step_part
from saltbridge.document import Part

_COMPOSERS: Mapping[type[AnyPart], Callable[[str, Any, Desk], Part]] = {
    FindPart: number_part,
    ChoosePart: choice_part,
    OrderPart: order_part,
    BalancePart: balance_part,
    WhichPart: which_part,
    WrittenPart: written_part,
    CasesPart: cases_part,
    SpeciesPart: species_part,
    DiagramPart: diagram_part,
    ExpressionPart: expression_part,
    SequencePart: sequence_part,
    SeveralPart: several_part,
    WordPart: word_part,
    TablePart: table_part,
    WrongStepPart: wrong_step_part,
    CorrectPart: correct_part,
    EstimatePart: estimate_part,
    SparePart: spare_part,
}
"""A part's label, the part as it is written, and the desk, to the part composed."""


def composed(label: str, part: AnyPart, desk: Desk) -> Part:
    """A part of any kind, composed by the file of its kind. Raises ``Faulty`` as that does."""
    return _COMPOSERS[type(part)](label, part, desk)
