"""The wheel carries bank, site and data, and publishes the shipped bank from where it is installed, without the checkout."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
SHIPPED = ("data", "site", "question_templates")


def _run(command: list[str | Path], folder: Path, **environment: str) -> str:
    """Run a command away from the checkout; its output, or a failure that shows it."""
    told = {key: value for key, value in os.environ.items() if not key.startswith(("PYTHON", "COV_"))} | environment
    result = subprocess.run([str(part) for part in command], cwd=folder, env=told, capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stdout + result.stderr
    return result.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel, built by the named backend from a copy, so that the checkout stays clean; needs no network."""
    source = tmp_path_factory.mktemp("source")
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, source)
    for name in ("generator", *SHIPPED):
        shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    _run([sys.executable, "-m", "hatchling", "build", "--target", "wheel"], source)
    (built,) = (source / "dist").glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """A folder with nothing in it but the installed wheel; its dependencies are the environment's."""
    target = tmp_path_factory.mktemp("elsewhere") / "packages"
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-deps", "--no-index"]
    _run([*pip, "--target", target, wheel], target.parent)
    return target


def test_the_wheel_holds_each_shipped_file_unchanged(wheel):
    with zipfile.ZipFile(wheel) as archive:
        held = {name: archive.read(name) for name in archive.namelist()}
    for folder in SHIPPED:
        files = [path for path in (ROOT / folder).rglob("*") if path.is_file() and "__pycache__" not in path.parts]
        assert files, f"{folder} is empty"
        for path in files:
            assert held.get(f"saltbridge/shipped/{path.relative_to(ROOT).as_posix()}") == path.read_bytes(), path


def test_the_wheel_holds_the_whole_package_with_its_types_and_licence(wheel):
    with zipfile.ZipFile(wheel) as archive:
        held = set(archive.namelist())
    package = ROOT / "generator" / "saltbridge"
    wanted = {f"saltbridge/{path.relative_to(package).as_posix()}" for path in package.rglob("*.py")} | {"saltbridge/py.typed"}
    assert wanted <= held
    assert any(name.endswith("dist-info/licenses/LICENSE") for name in held)


def test_the_installed_package_finds_its_own_copy_of_what_is_shipped(installed):
    script = "import saltbridge.home as home; print(home.shipped('data')); print(home.__file__)"
    places = _run([sys.executable, "-c", script], installed.parent, PYTHONPATH=str(installed)).split()
    assert [Path(place).is_relative_to(installed) for place in places] == [True, True]


def test_the_installed_package_publishes_the_shipped_bank(installed):
    out = installed.parent / "out"
    script = "from saltbridge.cli import main; main()"
    _run([sys.executable, "-c", script, "publish", "--to", out], installed.parent, PYTHONPATH=str(installed))
    assert (out / "site" / "index.html").is_file()
    assert list((out / "teacher").rglob("*.pdf"))
