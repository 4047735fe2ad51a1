"""The data block of a question page, safe inside a script element, and the page's content security policy.

Layout, schema 2::

    {"schema": 2, "bank": id, "question": id,
     "shapes":   [{"chunks": [text | index of a variant's text, ...], "keys": [a part's share of its answer key, ...],
                   "graph": [the steps that parts with earlier answers run on, ...]}],
     "variants": [{"number": 1, "shape": 0, "texts": [html, ...], "keys": [the variant's share, ...], "given": {node: value}}],
     "hints": {common error: what to look at}, "units": the answers room's table of units,
     "sentences": {"verdict": {code: text}, "why": {code: text}, "actions": {code: text}}}

A part's answer key is its shape's share merged with the variant's, with graph and given (``merge`` of the answers script).
"""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from saltbridge.document import Question, Variant
from saltbridge.render.part_markup import variant_texts
from saltbridge.render.skeleton import Skeleton

SCHEMA = 2

_ENDS = re.compile(r"<(?=!--|/?script)", re.IGNORECASE)


def question_data(
    questions: Sequence[Question],
    skeletons: Sequence[Skeleton],
    variants: Sequence[Variant],
    sentences: Mapping[str, Any],
    bank: str,
    units: Mapping[str, Any],
) -> dict[str, Any]:
    """The data of a page whose questions are the shapes of one template."""
    hints: dict[str, str] = {}
    shapes = [
        {
            "chunks": list(skeleton.chunks),
            "keys": [_without_hints(part.judge, hints) for part in question.parts],
            "graph": list(question.graph),
        }
        for question, skeleton in zip(questions, skeletons, strict=True)
    ]
    filled = [
        {
            "number": variant.number,
            "shape": variant.shape,
            "texts": variant_texts(skeletons[variant.shape], variant),
            "keys": [dict(share) for share in variant.judge],
            "given": dict(variant.given),
        }
        for variant in variants
    ]
    return {
        "schema": SCHEMA,
        "bank": bank,
        "question": questions[0].id,
        "shapes": shapes,
        "variants": filled,
        "hints": hints,
        "units": units,
        "sentences": sentences,
    }


def _without_hints(key: Mapping[str, Any], hints: dict[str, str]) -> dict[str, Any]:
    """A part's share without its hints, which go to those of the page: each is said once, however many parts can meet it."""
    if "cells" in key:
        return {**key, "cells": [_without_hints(cell, hints) for cell in key["cells"]]}
    hints.update(key.get("hints", {}))
    kept = {name: value for name, value in key.items() if name != "hints"}
    if key["kind"] == "number":
        hints.update({slip["id"]: slip["hint"] for slip in key.get("slips", ()) if slip.get("hint")})
        kept["slips"] = [{name: value for name, value in slip.items() if name != "hint"} for slip in key.get("slips", ())]
    return kept


def data_block(data: Mapping[str, Any]) -> str:
    """JSON that can't end its script element: only the openings that HTML looks for there are written as escapes."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), default=_plain, allow_nan=False)
    return _ENDS.sub(r"\\u003c", text)


def _plain(value: object) -> Any:
    """Mappings and tuples of the records as JSON knows them."""
    if isinstance(value, Mapping):
        return dict(value)
    if isinstance(value, frozenset | set):
        return sorted(value)
    raise TypeError(f"an answer key holds {type(value).__name__}, which JSON does not know")


def policy(script: str, style: str) -> str:
    """The content security policy: nothing may be loaded, and only this very script and style, by their digests, may run."""
    return (
        f"default-src 'none'; script-src '{digest(script)}'; style-src '{digest(style)}'; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )


def digest(text: str) -> str:
    """The source expression that allows one inline element: its SHA-256 over the exact bytes between the tags."""
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
