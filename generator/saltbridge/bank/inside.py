"""Paths of a bank: every file that it names lies in it, as an ordinary file, and is reached without links."""

from __future__ import annotations

from pathlib import Path, PurePosixPath

from saltbridge.faults import FaultList, fault

LONGEST_PATH = 200  # characters


def stays(path: Path, folder: Path, faults: FaultList) -> bool:
    """Whether a path is no link; one that is is noted as a fault."""
    if path.is_symlink():
        hint = "Put the file itself there."
        faults.add(
            "link",
            expected="files and folders of the bank",
            found="a link to another place",
            hint=hint,
            file=file_of(path, folder),
        )
        return False
    return True


def file_of(path: Path, folder: Path) -> str:
    """A path as faults name it: from the bank's folder, with slashes."""
    return path.relative_to(folder).as_posix()


def inside(folder: Path, name: str, example: str) -> Path:
    """The path of a file that lies in the bank, as ``example`` does, reached without links. Raises ``Faulty``."""
    relative = PurePosixPath(name)
    if relative.is_absolute() or ".." in relative.parts or "\\" in name or ":" in name:
        hint = f"As `{example}`."
        raise fault("path-outside", expected="a path inside the bank", found=f"`{name}`", hint=hint)
    if len(name) > LONGEST_PATH:
        raise fault("path-too-long", expected=f"at most {LONGEST_PATH} characters", found=f"{len(name)}")
    path = folder
    links = FaultList()
    for part in relative.parts:
        path /= part
        stays(path, folder, links)
    links.stop_if_any()
    if path.exists() and not path.is_file():
        hint = "Put the file itself there."
        raise fault("not-a-file", expected=f"an ordinary file `{name}`", found="a folder, a pipe or a device", hint=hint)
    if not path.is_file():
        raise fault("no-file", expected="a file of the bank", found=f"no `{name}`")
    return path
