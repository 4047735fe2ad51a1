"""Makes the project's own environment in ``.venv`` with nothing but Python's standard library.

Used by the two commands of the README; not part of the installed package.
"""

from __future__ import annotations

import hashlib
import importlib.util
import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

ROOT = Path(__file__).resolve().parent.parent
LOWEST = (3, 11)


def say(text: str) -> None:
    """Print one line of progress at once, also into a pipe."""
    print(text, flush=True)  # noqa: T201 — this is what a person reads before anything is installed


def run(command: Sequence[str | Path]) -> int:
    """Run a command in the project folder, its output shown as it comes; gives its exit code."""
    return subprocess.run([str(part) for part in command], cwd=ROOT, check=False).returncode


def environment(extra: str = "") -> Path:
    """Give the ``bin`` folder of an environment that holds saltbridge and ``extra`` (``test`` or nothing).

    Installed once for each state of pyproject.toml. Raises ``SystemExit`` with one sentence where that can't be done.
    """
    if sys.version_info < LOWEST:
        raise SystemExit(f"saltbridge needs Python {LOWEST[0]}.{LOWEST[1]} or newer; this is {sys.version.split()[0]}.")
    home = ROOT / ".venv"
    programs = home / ("Scripts" if os.name == "nt" else "bin")
    stamp = home / f"saltbridge-{extra or 'plain'}"
    state = hashlib.sha256((ROOT / "pyproject.toml").read_bytes() + sys.version.encode()).hexdigest()
    if stamp.is_file() and stamp.read_text(encoding="ascii") == state and _imports(programs):
        say("Environment .venv is up to date.")
        return programs
    if not (programs / "python").exists() and not (programs / "python.exe").exists():
        _make(home)
    wanted = f"{ROOT}[{extra}]" if extra else str(ROOT)
    say(f"Installing saltbridge{f' with what its {extra}s need' if extra else ''} into .venv (from PyPI, a minute or so) …")
    pip: list[str | Path] = [
        programs / "python",
        "-m",
        "pip",
        "--disable-pip-version-check",
        "install",
        "--progress-bar",
        "off",
        "--quiet",
    ]
    if run([*pip, "--editable", wanted]):
        raise SystemExit("The installation failed; the lines above tell why. Mend it and run the same command again.")
    stamp.write_text(state, encoding="ascii")
    return programs


def _make(home: Path) -> None:
    if importlib.util.find_spec("ensurepip") is None:
        raise SystemExit("This Python can't make environments; on Debian, apt-get install python3-venv mends that.")
    say("Making the environment .venv …")
    if run([sys.executable, "-m", "venv", home]):
        raise SystemExit("The environment could not be made; the lines above tell why.")


def _imports(programs: Path) -> bool:
    """Whether the environment still answers: a moved or half-deleted one does not."""
    probe = [str(programs / "python"), "-c", "import saltbridge"]
    try:
        return subprocess.run(probe, cwd=ROOT, check=False, capture_output=True).returncode == 0
    except OSError:
        return False
