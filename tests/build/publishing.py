"""Publishing in a process of its own: what it wrote, byte for byte, and what is left where it was killed."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

HERE = Path(__file__).resolve().parent
GENERATOR = HERE.parents[1] / "generator"
SCRIPT = """
import sys
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from pathlib import Path

from saltbridge.build import publish
from saltbridge.faults import Faulty

EXECUTORS = {
    "one process": lambda: ProcessPoolExecutor(1), "two processes": lambda: ProcessPoolExecutor(2),
    "threads": lambda: ThreadPoolExecutor(2), "own": lambda: None,
}

if __name__ == "__main__":
    bank, to, workers, variants = sys.argv[1:]
    executor = EXECUTORS[workers]()
    try:
        publish(Path(bank), Path(to), executor=executor, variants=int(variants))
    except Faulty as error:
        sys.exit(str(error))
    finally:
        if executor is not None:
            executor.shutdown()
"""


def start(
    bank: Path | str, to: Path | str, *, workers: str = "own", variants: int = 3, room: Path | None = None,
    surroundings: Mapping[str, str] | None = None,
) -> subprocess.Popen[str]:  # fmt: skip
    """A publish that runs beside the test, in ``room`` and with other ``surroundings`` (environment variables)."""
    given = {"PYTHONPATH": str(GENERATOR), **(surroundings or {})}
    environment = {**os.environ, **given}
    command = [sys.executable, "-c", SCRIPT, str(bank), str(to), workers, str(variants)]
    return subprocess.Popen(
        command, cwd=room, env=environment, text=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True
    )


def publish_apart(bank: Path | str, to: Path | str, **how: object) -> str:
    """Publish to the end; the message where it failed, else nothing."""
    running = start(bank, to, **how)
    _, said = running.communicate(timeout=120)
    return said if running.returncode else ""


def contents(folder: Path) -> dict[str, bytes]:
    """Every file under a folder with its bytes."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
