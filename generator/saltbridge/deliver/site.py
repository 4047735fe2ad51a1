"""Writes the practice site: pages beside each other in one folder, replaced as a whole."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from saltbridge.deliver.writing import replacing


def write_site(folder: Path, pages: Mapping[str, str]) -> None:
    """Write the pages by file name. Raises ``Faulty`` where the folder is not ours."""
    with replacing(folder) as staging:
        site_into(staging, pages)


def site_into(staging: Path, pages: Mapping[str, str]) -> None:
    """The same into a folder that is being built."""
    for name, page in pages.items():
        (staging / name).write_text(page, encoding="utf-8", newline="\n")
