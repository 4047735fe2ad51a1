"""Rewrites the old names of keys, quantities and options in the templates of a bank to those they have now.

``python -m saltbridge.deliver.rewrite_names BANK`` shows each line that it would change, with ``--write`` it changes the files.
Prose stays as it is: a name counts as a key, in a hole, in a condition, behind the keys that hold names, and as a whole option.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

from saltbridge.deliver.ordinary_files import ordinary, replace_file
from saltbridge.faults import Faulty
from saltbridge.renamed import KEYS, NAMES, OF_KINDS


def _any_of(names: Iterable[str]) -> str:
    return "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))


_KEY = re.compile(rf"(^\s*(?:- )?|[{{,]\s*)({_any_of(KEYS)})(?=\s*:)")
_NAME = re.compile(rf"(?<![\w.])({_any_of(NAMES)})(?!\w)")
_HOLE = re.compile(r"\{\{.*?\}\}|\{%.*?%\}")
_OPTION = re.compile(rf"(^\s*- |[\[{{,]\s*|^\s+)({_any_of(NAMES)})(?=(?:\.\w+)*\s*(?:[\],:]|$))")
_STARTS = re.compile(r"^(\s*(?:- )?)([a-zA-Z][\w ]*):(.*)$")
HOLDING = {"find", "choose", "order", "by", "given", "keep only if", "further quantities"}
"""Keys behind which all words are names or conditions."""
OPTIONS = "from"


def rewritten(text: str) -> str:
    """The text of a template with the names of now."""
    return "".join(_lines(text))


def _lines(text: str) -> Iterator[str]:
    """Line by line; ``held`` is the key whose list or mapping goes on, and how far it is indented."""
    held, depth, above = "", -1, ""
    for line in text.splitlines(keepends=True):
        body = line.rstrip("\r\n")
        if held and not _goes_on(body, depth):
            held = ""
        body = body if held else _keys_of_now(body, above)
        above = body.strip() or above
        start = _STARTS.match(body)
        if start and not held and start[2] in {*HOLDING, OPTIONS}:
            held, depth = start[2], len(start[1].replace("- ", "  "))
            body = start[1] + start[2] + ":" + _behind(held, start[3])
        elif held:
            body = _behind(held, body)
        else:
            body = _HOLE.sub(lambda hole: _NAME.sub(_now, hole[0]), body)
        yield body + line[len(line.rstrip("\r\n")) :]


def _keys_of_now(body: str, above: str) -> str:
    """The line with the keys of now; an old name of a kind counts below ``scenario`` only, and is a quantity elsewhere."""

    def now(key: re.Match[str]) -> str:
        stays = key[2] in OF_KINDS and above not in ("", "scenario:")
        return key[1] + (key[2] if stays else KEYS[key[2]])

    return _KEY.sub(now, body)


def _goes_on(body: str, depth: int) -> bool:
    """Whether a line belongs to the key above that stands so deep: it is empty, further in, or an item of its list."""
    item = body.lstrip().startswith("-") and _STARTS.match(body) is None
    return not body.strip() or len(body) - len(body.lstrip()) > depth or item


def _behind(key: str, text: str) -> str:
    if key in HOLDING:
        return _NAME.sub(_now, text)
    return _OPTION.sub(lambda option: option[1] + NAMES[option[2]], _HOLE.sub(lambda hole: _NAME.sub(_now, hole[0]), text))


def _now(name: re.Match[str]) -> str:
    return NAMES[name[1]]


def rewrite(bank: Path, *, write: bool) -> Iterator[str]:
    """What changes, ``file:line: old -> new``; with ``write`` each file is replaced in one step. Raises ``Faulty``, ``OSError``."""
    for path in sorted(bank.rglob("*.yaml")):
        if not ordinary(path):
            continue
        with path.open(encoding="utf-8", newline="") as file:
            old = file.read()
        new = rewritten(old)
        for place, (before, after) in enumerate(zip(old.splitlines(), new.splitlines(), strict=True), 1):
            if before != after:
                yield f"{path.relative_to(bank).as_posix()}:{place}: {before.strip()} -> {after.strip()}"
        if write and new != old:
            replace_file(path, new)


def main(arguments: list[str]) -> int:
    """Exit code 0: done; 2: used in another way, or a file can't be read or written."""
    folders = [each for each in arguments if each != "--write"]
    if len(folders) != 1 or not Path(folders[0]).is_dir():
        sys.stderr.write("Give the folder of one bank: python -m saltbridge.deliver.rewrite_names BANK [--write]\n")
        return 2
    try:
        found = list(rewrite(Path(folders[0]), write="--write" in arguments))
    except (Faulty, OSError, UnicodeDecodeError) as error:
        sys.stderr.write(f"{error}\n")
        return 2
    done = f"{len(found)} lines {'changed' if '--write' in arguments else 'to change'}."
    sys.stdout.write("\n".join([*found, done, ""]))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
