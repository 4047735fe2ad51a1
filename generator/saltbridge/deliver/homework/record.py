"""The record of a set: one file from which every paper and memorandum is printed again, and the set goes on.

A zip of JSON files. It holds the secret, the questions with their seeds, the documents as they were composed, the data sheet and
the settings. It holds no name: a student is a fingerprint made with the secret, a list number and a code. No moment is in it, so
that the same set has the same bytes.
"""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field, fields, replace
from pathlib import Path
from typing import Any

from saltbridge import __version__
from saltbridge.deliver.papers import reads_as_code
from saltbridge.document import Paper, Question, SheetPage, Variant
from saltbridge.document.packed import packed, unpacked
from saltbridge.draw.allocation import Form, Match
from saltbridge.faults import Faulty, fault, nearest
from saltbridge.records import Settings

FORMAT = 1
MOST_BYTES = 200_000_000
MOST_FILES = 20_000
MOST_UNPACKED = 40_000_000  # bytes of one file in it
_HEAD, _SHAPES, _PAPERS = "record.json", "questions.json", "papers/"
_MOMENT = (1980, 1, 1, 0, 0, 0)
Pairs = tuple[tuple[Question, Variant], ...]


@dataclass(frozen=True, slots=True)
class Draw:
    """What a student was given of one question: the seed that draws it again, its key and its situation."""

    question: str
    template: str
    seed: str
    key: str
    situation: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One paper: ``who`` is a fingerprint, ``number`` what stands on key and grid; ``current`` is no while a later attempt is."""

    code: str
    who: str
    number: str
    class_name: str
    attempt: int
    draws: tuple[Draw, ...]
    current: bool = True


@dataclass(frozen=True, slots=True)
class Asked:
    """A question of the set: its id (template and how often it stood before), its templates, and the match that its versions keep."""

    id: str
    templates: tuple[str, ...]
    match: Match


@dataclass(frozen=True)
class Record:
    """A record as read or to be written; ``head`` is a paper without questions, ``papers`` are by code."""

    secret: str
    head: Paper
    settings: Settings
    sheet: SheetPage
    asked: tuple[Asked, ...]
    entries: tuple[Entry, ...]
    papers: Mapping[str, Pairs]
    version: int = 1
    changes: tuple[tuple[int, tuple[str, ...]], ...] = ()
    sources: Mapping[str, str] = field(default_factory=dict)
    tool: str = __version__

    def entry(self, code: str) -> Entry:
        """The entry of a code however it is typed. Raises ``Faulty`` (``paper-code``, ``no-such-paper``)."""
        wanted = _plain(code)
        found = next((each for each in self.entries if _plain(each.code) == wanted), None)
        if found is not None:
            return found
        if not reads_as_code(code):
            hint = nearest(code.upper(), [each.code for each in self.entries]) or "Look at it again: one character is wrong."
            raise fault("paper-code", expected="a code as it stands at the foot of a paper", found=repr(code), hint=hint)
        raise fault("no-such-paper", expected="a code of this record", found=repr(code), hint="It is one of another set.")

    def paper(self, code: str, *, memorandum: bool) -> Paper:
        """The paper or memorandum of a code, without a name."""
        entry = self.entry(code)
        filled = replace(self.head, code=entry.code, list_number=entry.number, class_name=entry.class_name)
        return replace(filled, questions=self.papers[entry.code], memorandum=memorandum, version=self.version)


def _plain(code: str) -> str:
    return "".join(mark for mark in code.upper() if mark.isascii() and mark.isalnum())


# ------------------------------------------------------------------ writing


def written(record: Record) -> bytes:
    """The record's bytes. Raises ``Faulty`` (``record-too-big``)."""
    shapes: dict[int, int] = {}
    questions: list[Question] = []
    for pairs in record.papers.values():
        for question, _ in pairs:
            if id(question) not in shapes:
                known = next((at for at, each in enumerate(questions) if each == question), None)
                shapes[id(question)] = len(questions) if known is None else known
                questions += [question] if known is None else []
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as file:
        _put(file, _HEAD, _head(record))
        _put(file, _SHAPES, [packed(each) for each in questions])
        for code in sorted(record.papers):
            _put(file, f"{_PAPERS}{code}.json", [[shapes[id(one)], packed(other)] for one, other in record.papers[code]])
        for name, text in sorted(record.sources.items()):
            _put(file, f"bank/{name}", text)
    if made.tell() > MOST_BYTES:
        hint = "Make the class list two lists."
        raise fault("record-too-big", expected=f"a record of at most {MOST_BYTES} bytes", found=f"{made.tell()}", hint=hint)
    return made.getvalue()


def _put(file: zipfile.ZipFile, name: str, told: Any) -> None:
    text = told if isinstance(told, str) else json.dumps(told, ensure_ascii=False, separators=(",", ":"))
    info = zipfile.ZipInfo(name, _MOMENT)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.create_system = 3  # one value on every system
    info.external_attr = 0o600 << 16
    file.writestr(info, text.encode())


def _head(record: Record) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "tool": record.tool,
        "secret": record.secret,
        "version": record.version,
        "changes": [[version, list(codes)] for version, codes in record.changes],
        "head": packed(record.head),
        "settings": asdict(record.settings),
        "sheet": packed(record.sheet),
        "asked": [_asked(each) for each in record.asked],
        "entries": [asdict(each) for each in record.entries],
    }


def _asked(each: Asked) -> dict[str, Any]:
    match = each.match
    return {
        "id": each.id, "templates": list(each.templates), "layout": match.layout, "steps": match.form.steps,
        "signs": match.form.signs, "charges": match.form.charges, "middle": match.middle, "half": match.half,
    }  # fmt: skip


# ------------------------------------------------------------------ reading


def read_record(path: Path) -> Record:
    """Read a record. Raises ``Faulty`` (``record``, ``record-format``, ``record-too-big``)."""
    if not path.is_file():
        raise fault(
            "record", expected="the file `record.zip` of a set", found=f"no such file: {path}", hint="Name it after --record."
        )
    if path.stat().st_size > MOST_BYTES:
        raise fault("record-too-big", expected=f"a record of at most {MOST_BYTES} bytes", found=f"{path.stat().st_size}")
    try:
        with zipfile.ZipFile(path) as file:
            return _read(file)
    except Faulty:
        raise
    except Exception as error:  # noqa: BLE001 - a broken file may be broken in any way
        hint = "Take the file from your copy of the set."
        found = f"{path.name}, which can't be read ({type(error).__name__}: {error})"
        raise fault("record", expected="a record that a set wrote", found=found, hint=hint) from None


def _read(file: zipfile.ZipFile) -> Record:
    names = [each.filename for each in file.infolist()]
    if len(names) > MOST_FILES:
        raise fault("record-too-big", expected=f"at most {MOST_FILES} files in it", found=f"{len(names)}")
    told = _json(file, _HEAD)
    if told["format"] != FORMAT:
        hint = "Use the version of saltbridge that it names."
        found = f"format {told['format']!r}, of saltbridge {told.get('tool', '?')}"
        raise fault("record-format", expected=f"a record of format {FORMAT}", found=found, hint=hint)
    shapes = [unpacked(each) for each in _json(file, _SHAPES)]
    papers = {
        name.removeprefix(_PAPERS).removesuffix(".json"): tuple(
            (shapes[at], unpacked(filled)) for at, filled in _json(file, name)
        )
        for name in names
        if name.startswith(_PAPERS)
    }
    known = {each.name for each in fields(Settings)}
    return Record(
        secret=str(told["secret"]), head=unpacked(told["head"]),
        settings=Settings(**{key: value for key, value in told["settings"].items() if key in known}),
        sheet=unpacked(told["sheet"]), asked=tuple(_asked_of(each) for each in told["asked"]),
        entries=tuple(_entry(each) for each in told["entries"]), papers=papers, version=int(told["version"]),
        changes=tuple((int(version), tuple(codes)) for version, codes in told["changes"]),
        sources=dict(_sources(file, names)), tool=str(told["tool"]),
    )  # fmt: skip


def _json(file: zipfile.ZipFile, name: str) -> Any:
    return json.loads(_text(file, name))


def _text(file: zipfile.ZipFile, name: str) -> str:
    """The text of one file in it, read no further than the bound whatever it says of its size."""
    with file.open(name) as stream:
        raw = stream.read(MOST_UNPACKED + 1)
    if len(raw) > MOST_UNPACKED:
        raise fault("record-too-big", expected=f"at most {MOST_UNPACKED} bytes in `{name}`", found="more")
    return raw.decode()


def _sources(file: zipfile.ZipFile, names: Sequence[str]) -> Iterator[tuple[str, str]]:
    for name in names:
        if name.startswith("bank/"):
            yield name.removeprefix("bank/"), _text(file, name)


def _asked_of(told: Mapping[str, Any]) -> Asked:
    layout = tuple((str(label), int(marks), str(kind)) for label, marks, kind in told["layout"])
    charges = tuple((str(name), int(value)) for name, value in told["charges"])
    form = Form(tuple(told["steps"]), tuple(told["signs"]), charges)
    return Asked(str(told["id"]), tuple(told["templates"]), Match(layout, form, tuple(told["middle"]), float(told["half"])))


def _entry(told: Mapping[str, Any]) -> Entry:
    draws = tuple(Draw(**each) for each in told["draws"])
    return Entry(**{**told, "draws": draws})
