"""Setting many papers takes no more memory than setting some."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
SCRIPT = """
import sys
sys.path[:0] = sys.argv[1:]
from pathlib import Path

from paper_specimen import specimen_paper
from saltbridge.records import Settings
from saltbridge.render.typst import PaperWriter
from saltbridge.words import catalogue

writer = PaperWriter(Settings(), catalogue())
for file in range(8):
    writer.papers([specimen_paper(title=f"Paper {file} {at}", footer=f"{file} {at}", times=2) for at in range(25)], stapled=True)
    print(int(Path("/proc/self/statm").read_text().split()[1]))
"""


def test_a_long_file_is_let_go_of_before_the_next():
    """Pages in use after each of eight files of 25 papers: kept, each file would add as much as the first."""
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(TESTS), str(TESTS.parent / "generator")], capture_output=True, text=True, check=True
    )
    used = [int(line) for line in done.stdout.split()]
    assert len(used) == 8
    assert max(used) < 1.3 * used[1]
