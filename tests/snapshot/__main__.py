"""Writes the golden files again, or with a folder every variant in full."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parent.parent)]

from snapshot.taking import GOLDEN, golden, places, shots  # noqa: E402 - run as a folder, it finds its neighbours here


def main(arguments):
    """Write to the golden folder, or in full to the folder named."""
    for name, template in places():
        to = Path(arguments[0]) if arguments else GOLDEN
        file = to / name / f"{template}.txt"
        file.parent.mkdir(parents=True, exist_ok=True)
        text = "\n\n".join(each.whole() for each in shots(name, template)) if arguments else golden(name, template)
        file.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
