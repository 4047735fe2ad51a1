"""Hostile folders: paths out of the bank, links, pipes, devices, names; a bank's own sheet and catalogue."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

from hostile_cases import Case, settings, template
from hostile_samples import BANK

from saltbridge.home import shipped

_PATHS = {
    "a sheet above the bank": ("data sheet: ../secret.yaml\n", "path-outside"),
    "a sheet above the bank by a detour": ("data sheet: sheets/../../secret.yaml\n", "path-outside"),
    "a sheet by its full path": ("data sheet: /etc/passwd.yaml\n", "path-outside"),
    "a sheet with backslashes": ("data sheet: '..\\secret.yaml'\n", "path-outside"),
    "a sheet on a drive": ("data sheet: 'C:/secret.yaml'\n", "path-outside"),
    "a sheet of the network": ("data sheet: //evil.example/secret.yaml\n", "path-outside"),
    "a sheet by its address": ("data sheet: https://evil.example/s.yaml\n", "path-outside"),
    "a sheet of the shipped ones by a path": ("data sheet: ../../data/sheets/school\n", "unknown-sheet"),
    "a sheet with NUL in its name": ('data sheet: "s\\0.yaml"\n', "yaml-character"),
    "a sheet of a thousand letters": ("data sheet: " + "a/" * 90 + "s.yaml\n", "no-file"),
    "a sheet of a name too long for any disk": ("data sheet: " + "a" * 199 + ".yaml\n", "too-long"),
    "a sheet that is not there": ("data sheet: sheets/none.yaml\n", "no-file"),
    "a sheet that is a folder": ("data sheet: sheets.yaml\n", "no-file"),
}


def _link(name: str, to: str = "../secret.yaml") -> Callable[[Path], None]:
    def arrange(folder: Path) -> None:
        place = folder / name
        place.parent.mkdir(exist_ok=True)
        place.unlink(missing_ok=True)
        place.symlink_to(to)

    return arrange


def _pipe(name: str) -> Callable[[Path], None]:
    def arrange(folder: Path) -> None:
        (folder / name).parent.mkdir(exist_ok=True)
        os.mkfifo(folder / name)

    return arrange


def _odd_bytes(folder: Path) -> None:
    Path(os.fsdecode(os.fsencode(folder) + b"/\xff\xfe.yaml")).write_text("title: x\n", encoding="utf-8")


def _folder_for_settings(folder: Path) -> None:
    (folder / "bank.yaml").unlink()
    (folder / "bank.yaml").mkdir()


def _folder(name: str) -> Callable[[Path], None]:
    return lambda folder: (folder / name).mkdir(parents=True)


def _deep(folder: Path) -> None:
    path = folder
    for _ in range(60):
        path /= "d"
    path.mkdir(parents=True)
    (path / "x.yaml").write_text("title: x\n", encoding="utf-8")


_ARRANGED = {
    "a template that is a link out": (_link("lamp.yaml"), "link"),
    "a template that is a link to a device": (_link("lamp.yaml", "/dev/zero"), "link"),
    "a template that is a link to nothing": (_link("lamp.yaml", "nowhere"), "link"),
    "a template that is a link to itself": (_link("lamp.yaml", "lamp.yaml"), "link"),
    "a topic folder that is a link out": (_link("cells", ".."), "link"),
    "bank.yaml that is a link out": (_link("bank.yaml"), "link"),
    "relations.yaml that is a link out": (_link("relations.yaml"), "link"),
    "slips.yaml that is a link out": (_link("slips.yaml"), "link"),
    "a folder of relations that is a link out": (_link("relations", ".."), "link"),
    "quantities.yaml that is a link to a device": (_link("quantities.yaml", "/dev/zero"), "link"),
    "a template that is a pipe": (_pipe("pipe.yaml"), "not-a-file"),
    "a template that is a pipe in a topic folder": (_pipe("cells/pipe.yaml"), "not-a-file"),
    "a folder named as a template": (_folder("cell.yaml"), "not-a-file"),
    "a folder where couples should be": (_folder("couples.csv"), "not-a-file"),
    "a pipe where couples should be": (_pipe("couples.csv"), "not-a-file"),
    "a name in odd bytes": (_odd_bytes, "file-name"),
    "folders without end": (_deep, "folder-too-deep"),
}
_NAMES = {
    "a template that takes over the front page": "index.yaml",
    "a template that takes over the sheet": "sheet.yaml",
    "a template that takes over the guide": "guide.yaml",
    "a template named as a device": "con.yaml",
    "a template with spaces": "a b.yaml",
    "a template with markup": "<img src=x onerror=alert(1)>.yaml",
    "a template with a line end": "a\nb.yaml",
    "a template that turns the writing": "a\u202eb.yaml",
    "a template of the other ending": "lamp.yml",
    "a template in capitals": "LAMP.yaml",
    "a template of an ending in capitals": "lamp.YAML",
    "couples of an ending in capitals": "couples.CSV",
}


def _sheet(change: Callable[[str], str | bytes]) -> dict[str, str | bytes]:
    text = (shipped("data") / "sheets" / "school.yaml").read_text(encoding="utf-8")
    return {"bank.yaml": BANK + "data sheet: sheets/ours.yaml\n", "sheets/ours.yaml": change(text), "lamp.yaml": template()}


def _zinc(value: str) -> Callable[[str], str]:
    return lambda text: text.replace("Zn^2+/Zn: -0.76", f"Zn^2+/Zn: {value}")


_SHEETS: dict[str, tuple[Callable[[str], str | bytes], str]] = {
    "a sheet with an anchor": (_zinc("&a -0.76"), "bad-yaml"),
    "a sheet with a tag": (_zinc("!!python/name:os.system"), "bad-yaml"),
    "a sheet of brackets": (lambda _: "a: " + "[" * 490_000, "bad-shape"),
    "a sheet of braces": (lambda _: "a: " + "{a: " * 100_000, "bad-shape"),
    "a sheet of a hundred thousand keys": (lambda _: "".join(f"k{n}: v\n" for n in range(90_000)), "too-big"),
    "a sheet of two megabytes": (lambda text: text + "#" * 2_000_000, "too-big"),
    "a sheet in UTF-16": (lambda text: text.encode("utf-16"), "unreadable"),
    "a sheet with an escape beyond all characters": (
        lambda text: text.replace("title:", 'title: "\\UFFFFFFFF" #', 1),
        "bad-yaml",
    ),
    "a sheet with half a surrogate pair": (lambda text: text.replace("title:", 'title: "\\ud800" #', 1), "bad-character"),
    "a sheet with a version of five thousand digits": (lambda text: "%YAML " + "1" * 5000 + ".1\n---\n" + text, "bad-yaml"),
    "a sheet that turns the writing": (lambda text: text.replace("title:", "title: \u202e", 1), "bad-character"),
    "a potential of a hundred thousand digits": (_zinc("-0." + "7" * 100_000), "bad-number"),
    "a potential beyond binary numbers": (_zinc("9" * 400), "bad-number"),
    "a potential with an exponent": (_zinc("1e999"), "bad-number"),
    "a potential of a million million volts": (_zinc("-1000000000000.00"), "bad-number"),
    "a potential that is no number": (_zinc("NaN"), "bad-number"),
    "a potential in figures of another script": (_zinc("-٠.٧٦"), "bad-number"),
    "a potential that is a formula": (_zinc("'=1+1'"), "bad-number"),
    "a couple that is code": (lambda text: text.replace("Zn^2+/Zn:", "__import__('os'):"), "unknown-couple"),
    "a couple twice": (_zinc("-0.76\n  Zn^2+/Zn: -0.77"), "repeated"),
    "a constant far off": (lambda text: text.replace('"96500"', '"1"').replace("96500", "1"), "implausible"),
}


_HEADING = "id,half_reaction,n,E0/V,citation\n"
_CITATIONS = {"control characters": "a\x1b[2Jb", "a heap of accents": "e" + "\u0301" * 40, "a turn of the writing": "a\u202eb"}


def cases() -> Iterator[Case]:
    """All cases of this file."""
    yield from settings(_PATHS)
    for name, (arrange, code) in _ARRANGED.items():
        yield Case(name, {"lamp.yaml": template()}, code, arrange)
    for name, file in _NAMES.items():
        yield Case(name, {file: template()}, "file-name")
    for name, (change, code) in _SHEETS.items():
        yield Case(name, _sheet(change), code)
    for name, citation in _CITATIONS.items():
        rows = f"{_HEADING}V^3+/V^2+,V^3+ + e^- <=> V^2+,1,-0.26,{citation}\n"
        yield Case(f"couples with {name} in a citation", {"couples.csv": rows, "lamp.yaml": template()}, "bad-character")
    yield Case("the same question in two folders", {"lamp.yaml": template(), "cells/lamp.yaml": template()}, "template-twice")
    yield Case("more templates than a bank has", {f"t{n}.yaml": "" for n in range(2001)}, "too-many-templates")
    yield Case("more bytes than a bank has", {f"t{n}.yaml": b"#" * 1_000_000 for n in range(11)}, "bank-too-big")
    yield Case("no bank at all", {}, "no-bank", lambda folder: (folder / "bank.yaml").unlink())
    yield Case("a folder where bank.yaml should be", {}, "no-bank", _folder_for_settings)
