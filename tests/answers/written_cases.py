"""Cases of written answers that a student has marked: the ticked points are added up, nothing that was written is judged."""

from __future__ import annotations

KEYS: dict[str, dict[str, object]] = {
    "three points": {"kind": "written", "points": [1, 2, 1], "any": 0, "most": 4},
    "any two of four": {"kind": "written", "points": [2, 2, 2, 2], "any": 2, "most": 4},
}

# key, text and ticks, marks (None: nothing to tell)
_MARKED = [
    ("three points", [0], 1),
    ("three points", [1], 2),
    ("three points", [2, 1], 3),
    ("three points", [0, 1, 2], 4),
    ("three points", [2, 0, 1], 4),
    ("any two of four", [3], 2),
    ("any two of four", [0, 3], 4),
    ("any two of four", [0, 1, 2, 3], 4),
    ("three points", [], None),
    ("three points", [3], None),
    ("three points", [-1], None),
    ("three points", [0, 0], None),
    ("three points", [0, 1, 2, 0], None),
    ("three points", [0.5], None),
    ("three points", ["0"], None),
    ("three points", [True], None),
    ("three points", [None], None),
    ("three points", "01", None),
    ("three points", None, None),
    ("three points", {"0": 1}, None),
]
TEXTS = ["", "The ions would take electrons directly.", "<script>alert(1)</script>", "2" * 4000]
CASES = [
    (key, {"text": TEXTS[at % len(TEXTS)], "ticked": ticked}, {}, "unread" if marks is None else "self-marked", [], None, marks)
    for at, (key, ticked, marks) in enumerate(_MARKED)
] + [
    ("three points", odd, {}, "unread", [], None, None)
    for odd in (None, "text", [], [0], {}, {"text": "alone"}, 7)
]  # fmt: skip
