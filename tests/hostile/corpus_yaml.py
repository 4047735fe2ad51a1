"""Hostile YAML and hostile bytes."""

from __future__ import annotations

from collections.abc import Iterator

from hostile_cases import Case, keyed, raw, settings, template

_BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{chr(98 + n)}: &{chr(98 + n)} [{', '.join(['*' + chr(97 + n)] * 9)}]\n" for n in range(9)
)
_RAW = {
    "nine levels of aliases that would grow to ten to the ninth": (_BOMB, "yaml-anchor"),
    "an alias inside its own anchor": ("a: &a {b: *a}\n", "yaml-anchor"),
    "an alias without an anchor": (template(title="*boss"), "yaml-alias"),
    "a tag that calls a function": (template(title="!!python/object/apply:os.system [touch pwned]"), "yaml-tag"),
    "a tag that makes an object": (template(title="!!python/object/new:subprocess.Popen [[id]]"), "yaml-tag"),
    "a tag of its own": (template(title="!include ../secret.yaml"), "yaml-tag"),
    "a harmless tag": (template(title="!!binary aGk="), "yaml-tag"),
    "a tag whose escapes are no UTF-8": (template(title="!%ff%fe x"), "yaml-syntax"),
    "a merge key": (template() + "<<: {title: other}\n", "unknown-key"),
    "a merge key of an alias": (template() + "<<: *base\n", "yaml-alias"),
    "a key twice": (template() + "title: Other\n", "duplicate-key"),
    "a key that is a list": (template() + "? [a, b]\n: c\n", "yaml-key"),
    "a key that is keys": (template() + "? {a: b}\n: c\n", "yaml-key"),
    "a key of a million characters": (template() + "a" * 900_000 + ": x\n", "yaml-syntax"),
    "a long key in the explicit form": (template() + "? " + "a" * 900 + "\n: x\n", "yaml-key"),
    "a second document": (template() + "---\ntitle: x\n", "yaml-documents"),
    "two hundred thousand documents": ("---\n" * 200_000, "yaml-documents"),
    "a directive": ("%YAML 1.1\n---\n" + template(), "yaml-directive"),
    "a version of five thousand digits": ("%YAML " + "1" * 5000 + ".1\n---\n" + template(), "yaml-syntax"),
    "ten thousand tag directives": ("%TAG !a! b\n" * 10_000 + "---\na: b\n", "yaml-syntax"),
    "half a million brackets": ("a: " + "[" * 490_000, "yaml-too-deep"),
    "half a million braces": ("a: " + "{" * 490_000, "yaml-too-deep"),
    "half a million question marks": ("? " * 490_000, "yaml-too-deep"),
    "half a million dashes": ("- " * 490_000, "yaml-too-deep"),
    "nine hundred indents": ("".join(" " * n + "a:\n" for n in range(900)), "yaml-too-deep"),
    "three hundred thousand empty lists": ("a: [" + "[]," * 300_000, "yaml-too-many"),
    "a hundred thousand keys": ("".join(f"k{n}: v\n" for n in range(90_000)), "yaml-too-many"),
    "a file of two megabytes": ("a: " + "x" * 2_000_000, "file-too-big"),
    "a scalar of a megabyte": (template() + "minutes: " + "7 " * 490_000 + "\n", "wrong-type"),
    "a million escapes": (template() + 'minutes: "' + "\\x41" * 240_000 + '"\n', "wrong-type"),
    "colons without end": (template() + "minutes: " + "a:" * 490_000 + "\n", "yaml-syntax"),
    "percent signs without end": ("%" * 990_000, "yaml-syntax"),
    "quotes that never close": (template() + 'minutes: "' + "x" * 900_000, "yaml-syntax"),
    "a NUL byte": (template().encode().replace(b"Lamp", b"La\0mp"), "yaml-character"),
    "a bell": (template().encode().replace(b"Lamp", b"La\x07mp"), "yaml-character"),
    "a byte-order mark inside": (template().replace("Lamp", "La\ufeffmp"), "yaml-character"),
    "UTF-16 with its mark": (template().encode("utf-16"), "not-utf-8"),
    "UTF-16 without its mark": (template().encode("utf-16-le"), "yaml-character"),
    "UTF-32": (template().encode("utf-32"), "not-utf-8"),
    "a lone continuation byte": (template().encode().replace(b"Lamp", b"La\x80mp"), "not-utf-8"),
    "an overlong slash": (template().encode().replace(b"Lamp", b"La\xc0\xafmp"), "not-utf-8"),
    "a surrogate in UTF-8": (template().encode().replace(b"Lamp", b"La\xed\xa0\x80mp"), "not-utf-8"),
    "a truncated character at the end": (template().encode() + b"\xe2\x82", "not-utf-8"),
    "a tab for an indent": (template().replace("title:", "\ttitle:"), "yaml-tab"),
    "nothing": (b"", "yaml-no-keys"),
    "only a remark": ("# hello\n", "yaml-no-keys"),
    "a list": ("- a\n", "yaml-no-keys"),
    "a text": ("import os; os.system('id')\n", "yaml-no-keys"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "not-utf-8"),
    "an archive": (b"PK\x03\x04\x14\0\0\0", "yaml-character"),
    "markup of another kind": ("<!DOCTYPE x [<!ENTITY a SYSTEM 'file:///etc/passwd'>]>\n<x>&a;</x>\n", "yaml-no-keys"),
    "only carriage returns, and a key twice": ((template() + "title: Other\n").replace("\n", "\r").encode(), "duplicate-key"),
    "a million empty lines, then a key twice": (template() + "\n" * 900_000 + "title: Other\n", "duplicate-key"),
}
_TITLES = {
    "an escape that is half a surrogate pair": ('"\\ud800"', "yaml-character"),
    "an escape beyond the last character": ('"\\U00110000"', "yaml-syntax"),
    "an escape beyond any integer": ('"\\UFFFFFFFF"', "yaml-syntax"),
    "an escaped NUL": ('"a\\0b"', "yaml-character"),
    "an escaped terminal sequence": ('"\\e[2J\\e]0;pwned\\a"', "yaml-character"),
    "an escaped carriage return": ('"good\\rbad"', "yaml-character"),
    "a mark that turns the writing": ('"\\u202egnp.exe"', "yaml-character"),
    "the same mark typed": ("a\u202eb", "yaml-character"),
    "an isolate that turns the writing": ("a\u2067b\u2069", "yaml-character"),
    "a space of no width": ("Zi\u200bnc", "yaml-character"),
    "letters of the tag block": ("hello\U000e0041\U000e0042", "yaml-character"),
    "a slot marker of the pages": ('"\\ue0000\\ue001"', "yaml-character"),
    "a slot marker typed": ("\ue0020\ue001", "yaml-character"),
    "a character of the last private plane": ("a\U0010fffdb", "yaml-character"),
    "a line separator": ('"a\\Lb"', "yaml-character"),
    "a heap of accents": ("e" + "\u0301" * 100, "yaml-character"),
    "a title of ten thousand letters": ("x" * 10_000, "too-long"),
    "a title of two lines": ('"a\\nb"', "too-long"),
    "a title of keys": ("{a: b}", "wrong-type"),
    "a title of a list": ("[<script>]", "wrong-type"),
}
_SETTINGS = {
    "an anchor in bank.yaml": ("licence: &a CC-BY-4.0\n", "yaml-anchor"),
    "a licence that costs a search by trial": ("licence: a" + "." * 60 + "!\n", "licence"),
    "a licence with script": ("licence: <script>alert(1)</script>\n", "licence"),
    "an author of a megabyte": ("authors: [" + "x" * 900_000 + "]\n", "too-long"),
    "an author turned round": ('authors: ["\\u202eeve"]\n', "yaml-character"),
    "a thousand authors": ("authors: [" + ", ".join(f"a{n}" for n in range(1000)) + "]\n", "list-length"),
    "an unknown key with a name of Python's": ("__class__: x\n", "unknown-key"),
    "a language that is a path": ("language: ../../secret\n", "language"),
    "a policy that is a path": ("marking policy: ../secret\n", "marking-policy"),
}
_IDS = {
    "a bank id with a path": ("../../x", "identifier"),
    "a bank id with markup": ("'\"><script>'", "identifier"),
    "a bank id of a thousand letters": ("x" * 1000, "too-long"),
}


def cases() -> Iterator[Case]:
    """All cases of this file."""
    yield from raw(_RAW)
    yield from keyed("title", _TITLES)
    yield from settings(_SETTINGS)
    for name, (identifier, code) in _IDS.items():
        yield Case(name, {"bank.yaml": f"format: 1\nid: {identifier}\ntitle: x\n", "lamp.yaml": template()}, code)
