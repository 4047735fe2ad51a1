"""What the tool itself could not do with a template, told as a fault of the template, so that the others are worked on."""

from __future__ import annotations

import traceback
from pathlib import Path

from saltbridge.bank.template import Template
from saltbridge.faults import Fault


def failed(template: Template, found: str, error: Exception) -> Fault:
    """The fault at the template's scenario, with the place in the tool's own files for those who mend it."""
    frame = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{Path(frame.filename).name}, line {frame.lineno}"
    hint = f"This is an error of saltbridge: report it with this template. It happened in {where}."
    return template.fault("scenario", "tool-failed", expected="a question that can be set and checked", found=found, hint=hint)
