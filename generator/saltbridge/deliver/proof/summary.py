"""A proof for the terminal: one line a finding, one line a template, one line in all."""

from __future__ import annotations

from collections.abc import Iterator

from saltbridge.deliver.proof.distinct import Distinct
from saltbridge.deliver.proof.findings import Finding
from saltbridge.deliver.proof.proof_run import Proof, TemplateProof, marks_of

_STANDINGS = {"draft": "draft", "signed": "signed", "changed": "changed since signed", "withdrawn": "withdrawn"}


def summary(proof: Proof, *, notes: bool = False) -> str:
    """Findings worst first, then the templates, then the verdict. Notes stand in the report; here only with ``notes``."""
    weights = ("fault", "warning", "note") if notes else ("fault", "warning")
    told = [_line(each) for each in proof.findings if each.weight in weights]
    return "\n".join([*told, *([""] if told else []), *_table(proof), "", verdict(proof)])


def _line(each: Finding) -> str:
    head = {"fault": "Fault", "warning": "Warning", "note": "Note"}[each.weight]
    share = f" ({each.times} of {each.draws} draws, as in {each.seed})" if each.times and each.seed else ""
    return f"{head}: {each.fault}{share}"


def _table(proof: Proof) -> Iterator[str]:
    rows = [_row(each) for each in sorted(proof.templates, key=lambda one: one.template.id)]
    heads = ("template", "outcome", "level", "marks", "kept", "variants", "keys", "found", "sign-off")
    if not rows:
        return
    widths = [max(len(row[at]) for row in (heads, *rows)) for at in range(len(heads))]
    for row in (heads, *rows):
        yield "  ".join(
            cell.rjust(wide) if at in {3, 4, 5, 6} else cell.ljust(wide)
            for at, (cell, wide) in enumerate(zip(row, widths, strict=True))
        ).rstrip()


def _row(proved: TemplateProof) -> tuple[str, ...]:
    template, log, known = proved.template, proved.tally.log, proved.distinct
    kept = f"{round(100 * log.kept / log.draws)} %" if log.draws else "-"
    variants, keys = _estimate(known), _estimate(proved.keys)
    counts = {weight: sum(each.weight == weight for each in proved.findings) for weight in ("fault", "warning", "note")}
    found = ", ".join(_count(number, weight) for weight, number in counts.items() if number) or "nothing"
    return (
        template.id, template.outcome, template.level, str(marks_of(proved)), kept, variants, keys, found, _STANDINGS[proved.standing.state],
    )  # fmt: skip


def _estimate(known: Distinct) -> str:
    return f"{'over ' if known.open_ended else 'about '}{known.estimate}" if known.draws else "-"


def verdict(proof: Proof) -> str:
    """The one line that matters."""
    counts = [(len(proof.weighing(weight)), weight) for weight in ("fault", "warning", "note")]
    drawn = f"{_count(len(proof.templates), 'template')}, {_count(proof.variants, 'variant')} drawn and checked"
    return f"{drawn}: " + ", ".join(_count(number, weight) for number, weight in counts) + "."


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number or 'no'} {noun}s"
