"""Writes the practice site: pages beside each other in one folder."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from saltbridge.deliver.ordinary_files import write_new


def site_into(staging: Path, pages: Mapping[str, str]) -> None:
    """Write the pages by file name into a folder that is being built."""
    for name, page in pages.items():
        write_new(staging / name, page.encode())
