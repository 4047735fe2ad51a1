"""A proof as plain data, ``schema`` 1. ``data/proof.schema.json`` describes every key; keys are only ever added within a schema.

The same bank, draws and version give the same data, but for ``seconds``.
"""

from __future__ import annotations

import json
from typing import Any

from saltbridge import __version__
from saltbridge.deliver.proof.findings import WEIGHTS, Finding
from saltbridge.deliver.proof.proof_run import Proof, TemplateProof, coverage, demands, marks_of

SCHEMA = 1


def proof_json(proof: Proof) -> str:
    """The data as text."""
    return json.dumps(proof_data(proof), ensure_ascii=False, indent=1, allow_nan=False)


def proof_data(proof: Proof) -> dict[str, Any]:
    """The data."""
    bank = proof.bank
    return {
        "schema": SCHEMA,
        "saltbridge": __version__,
        "bank": {"id": bank.id, "title": bank.settings.title, "sheet": bank.sheet.title, "policy": bank.settings.policy},
        "draws": proof.draws,
        "variants": proof.variants,
        "seconds": round(proof.seconds, 3),
        "counts": {f"{weight}s": len(proof.weighing(weight)) for weight in WEIGHTS},
        "findings": [_finding(each) for each in proof.findings],
        "templates": [_template(each) for each in sorted(proof.templates, key=lambda one: one.template.id)],
        "coverage": [
            {"outcome": outcome, "level": level, "templates": count, "marks": marks}
            for (outcome, level), (count, marks) in coverage(proof.templates).items()
        ],
        "demands": [
            {"outcome": outcome, "demand": demand, "templates": count, "marks": marks}
            for (outcome, demand), (count, marks) in demands(proof.templates).items()
        ],
    }


def _finding(each: Finding) -> dict[str, Any]:
    fault = each.fault
    return {
        "weight": each.weight, "code": fault.code, "file": fault.file, "line": fault.line, "key": fault.key,
        "expected": fault.expected, "found": fault.found, "hint": fault.hint, "template": each.template, "times": each.times,
        "draws": each.draws, "seed": each.seed,
    }  # fmt: skip


def _template(proved: TemplateProof) -> dict[str, Any]:
    template, tally, known, keys = proved.template, proved.tally, proved.distinct, proved.keys
    signature = proved.standing.signature
    return {
        "id": template.id,
        "file": template.file,
        "title": template.title,
        "outcome": template.outcome,
        "level": template.level,
        "demand": template.demand or "",
        "use": list(template.use),
        "marks": marks_of(proved),
        "minutes": tally.minutes,
        "drawn": tally.log.draws,
        "kept": tally.log.kept,
        "rejected": [
            {"reason": reason.what, "key": reason.key, "line": reason.line, "draws": times} for reason, times in tally.log.lines()
        ],
        "variants": {"met": known.met, "estimate": known.estimate, "lower_bound": known.open_ended},
        "keys": {"met": keys.met, "estimate": keys.estimate, "lower_bound": keys.open_ended},
        "slips": {slip: round(tally.caught[slip] / tally.draws, 4) if tally.draws else 0 for slip in sorted(tally.possible)},
        "must_reveal": list(template.must_reveal),
        "reading": [{"words": each.words, "sentences": each.sentences, "lix": each.lix} for each in tally.readings],
        "samples": [each.seed for each in tally.samples],
        "sign_off": {
            "state": proved.standing.state,
            "by": signature.by if signature else "",
            "on": signature.on if signature else "",
            "changed": list(proved.standing.changed),
        },
    }
