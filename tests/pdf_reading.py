"""Reads what a tagged PDF says about itself, for tests."""

from __future__ import annotations

import io
import subprocess
from dataclasses import dataclass

import pikepdf


@dataclass(frozen=True)
class Tag:
    """One element of the tag tree."""

    kind: str
    alt: str
    scope: str


def opened(pdf: bytes) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(pdf))


def tags(pdf: bytes) -> list[Tag]:
    """All elements of the tag tree in reading order."""
    found: list[Tag] = []
    with opened(pdf) as file:
        _walk(file.Root.StructTreeRoot.K, found)
    return found


def _walk(node, found: list[Tag]) -> None:
    if isinstance(node, pikepdf.Array):
        for child in node:
            _walk(child, found)
    elif isinstance(node, pikepdf.Dictionary):
        if "/S" in node:
            found.append(Tag(str(node.S), str(node.get("/Alt", "")), _scope(node.get("/A"))))
        if "/K" in node:
            _walk(node.K, found)


def _scope(attributes) -> str:
    entries = attributes if isinstance(attributes, pikepdf.Array) else [attributes] if attributes is not None else []
    return next((str(entry.Scope) for entry in entries if isinstance(entry, pikepdf.Dictionary) and "/Scope" in entry), "")


def fonts(pdf: bytes) -> dict[str, bool]:
    """Font name → whether its program and its way back to Unicode are in the file."""
    found: dict[str, bool] = {}
    with opened(pdf) as file:
        for item in file.objects:
            if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/Font" and "/DescendantFonts" in item:
                descriptor = item.DescendantFonts[0].FontDescriptor
                program = any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
                found[str(item.BaseFont)] = program and "/ToUnicode" in item
    return found


def text(pdf: bytes, page: int = 0) -> str:
    """The text as pdftotext reads it, of one page or of all (0)."""
    pages = ["-f", str(page), "-l", str(page)] if page else []
    done = subprocess.run(["pdftotext", "-layout", *pages, "-", "-"], input=pdf, capture_output=True, check=True)
    return done.stdout.decode()
