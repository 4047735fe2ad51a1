"""Hostile relations, slips and quantities of a bank's own."""

from __future__ import annotations

from collections.abc import Iterator

from hostile_cases import Case, quoted, template


def _relation(equation: str, cases: str = "[]") -> str:
    lines = {"family": "f", "equation": quoted(equation), "say": "s", "valid": "v", "source": "s", "cases": cases}
    return "mine:\n" + "".join(f"  {key}: {value}\n" for key, value in lines.items())


_EXPRESSIONS = {
    "an import": "q = __import__('os').system('touch pwned')",
    "a walk along attributes": "q = I.__class__.__mro__",
    "a call of eval": "q = eval(I)",
    "a call of open": "q = open(I)",
    "a call of print without arguments": "q = print()",
    "a lambda": "q = (lambda: I)()",
    "a list of a loop": "q = [I for I in t]",
    "a loop that never ends": "q = sum(x for x in iter(int, 1))",
    "an assignment inside": "q = (I := 3)",
    "a text with format": "q = '{0.__class__}'.format(I)",
    "a text of a great width": "q = '%99999999d' % I",
    "a text of quotes and holes": "q = f'{I}'",
    "an index": "q = I[0]",
    "starred terms": "q = ln(*I)",
    "a named term": "q = ln(x=I)",
    "a choice": "q = I if t else F",
    "a comparison": "q = I < t",
    "a truth": "q = True",
    "an imaginary number": "q = 1j*I",
    "a whole division": "q = I // t",
    "a remainder": "q = I % t",
    "a shift": "q = 1 << I",
    "an ellipsis": "q = ...",
    "an await": "q = await I",
    "a yield": "q = yield I",
    "a number of four hundred digits": "q = " + "1" * 390,
    "a number beyond binary": "q = 1e999*I",
    "brackets without end": "q = " + "(" * 190 + "I" + ")" * 100,
    "signs without end": "q = " + "-" * 300 + "I",
    "powers without end": "q = I" + "**I" * 100,
    "terms without end": "q = I" + "+I" * 180,
    "an expression of a megabyte": "q = I" + "+I" * 400_000,
    "a NUL": "q = I\0*t",
    "a name in look-alike letters": "q = Ι*t",
    "two equations": "q = I = t",
    "no equation": "q",
    "a subject that is code": "__import__('os') = I",
    "a remark": "q = I # *t",
    "two lines": "q = I\n*t",
}
_FILES: dict[str, tuple[str, str | bytes, str]] = {
    "powers that no machine can hold": ("relations.yaml", _relation("q = I**t**9", "[{q: 1, I: 1e300, t: 40, source: s}, {q: 1, I: -1, t: 0.5, source: s}]"), "case"),
    "a root of a negative number": ("relations.yaml", _relation("q = I**t", "[{q: 1, I: -1, t: 0.5, source: s}, {q: 1, I: -2, t: 0.5, source: s}]"), "case"),
    "exponentials of exponentials": ("relations.yaml", _relation("q = exp(exp(exp(I)))", "[{q: 1, I: 9, source: s}, {q: 1, I: 8, source: s}]"), "case"),
    "a logarithm of nothing": ("relations.yaml", _relation("q = ln(I)", "[{q: 1, I: 0, source: s}, {q: 1, I: 0, source: s}]"), "case"),
    "a case without end": ("relations.yaml", _relation("q = I*t", "[{q: 1e999, I: 1, t: 1, source: s}, {q: nan, I: 1, t: 1, source: s}]"), "number"),
    "names that nobody knows": ("relations.yaml", _relation("q = __builtins__*os"), "unknown-quantity"),
    "a relation of itself": ("relations.yaml", _relation("q = q*t"), "equation"),
    "relations by aliases": ("relations.yaml", "a: &a {b: *a}\n", "bad-yaml"),
    "relations by a tag": ("relations.yaml", "a: !!python/object/apply:os.system [id]\n", "bad-yaml"),
    "relations that are a list": ("relations.yaml", "- a\n", "bad-shape"),
    "relations that are texts": ("relations.yaml", "a: b\n", "bad-shape"),
    "relations of brackets": ("relations.yaml", "a: " + "[" * 400_000, "bad-shape"),
    "relations of two megabytes": ("relations.yaml", "#" * 2_000_000, "too-big"),
    "relations in odd bytes": ("relations.yaml", b"a: \xff\xfe\n", "unreadable"),
    "relations with an escape beyond all characters": ("relations.yaml", 'a: "\\UFFFFFFFF"\n', "bad-yaml"),
    "quantities that are numbers": ("quantities.yaml", "zz: 3\n", "bad-shape"),
    "a quantity named in code": ("quantities.yaml", "'__import__(1)': {name: x, base: x, unit: V}\n", "name"),
    "a quantity of lists": ("quantities.yaml", "zz: {name: [x], base: {a: b}, unit: V}\n", "bad-shape"),
    "a slip at a relation that is not there": ("slips.yaml", "x: {at: secret, hint: h, source: s, instead: q = I}\n", "unknown-relation"),
    "a slip that runs": ("slips.yaml", "x: {at: charge, hint: h, source: s, instead: \"q = eval('I')\"}\n", "expression"),
    "a slip of nothing": ("slips.yaml", "x: {}\n", "missing-key"),
}  # fmt: skip


def cases() -> Iterator[Case]:
    """All cases of this file."""
    for name, equation in _EXPRESSIONS.items():
        code = "bad-character" if "\0" in equation else "expression"
        yield Case(f"{name} in a relation", {"relations.yaml": _relation(equation), "lamp.yaml": template()}, code)
    for name, (file, content, code) in _FILES.items():
        yield Case(name, {file: content, "lamp.yaml": template()}, code)
