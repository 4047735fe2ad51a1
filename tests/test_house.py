"""The rules of the house, read from the files themselves: who may import whom, sizes, docstrings, forbidden calls."""

from __future__ import annotations

import ast
import importlib
import re
import subprocess
import sys
from fnmatch import fnmatch
from pathlib import Path

import pytest
from click.testing import CliRunner

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "generator" / "saltbridge"

# Highest first: a room imports from its own row's right-hand neighbours and from lower rows.
TABLE = (
    ("cli",),
    ("preview",),
    ("api",),
    ("build",),
    ("deliver",),
    ("compose",),
    ("check",),
    ("draw",),
    ("bank",),
    ("scenarios",),
    ("forms",),
    ("answers",),
    ("policy",),
    ("graph",),
    ("catalogue",),
    ("algebra",),
    ("render",),
    ("chemistry",),
    ("units",),
    ("tables",),
    ("sigfigs", "words"),
    ("document", "records"),
    ("faults", "home", "renamed"),
)
RANK = {room: (row, place) for row, rooms in enumerate(TABLE) for place, room in enumerate(rooms)}

# Rooms that see less than the rows below them.
ONLY = {
    "check": {"faults", "tables"},
    "render": {"document", "words", "records", "faults", "home", "sigfigs"},
}

# Libraries that stay in one room.
KEEPERS = {
    "pint": {"units"},
    "typst": {"render"},
    "waitress": {"preview"},
    "watchfiles": {"preview"},
    "babel": {"words"},
    "openpyxl": {"deliver"},
    "pydantic": {"bank", "forms", "scenarios"},
    "click": {"cli"},
    "rich": {"cli"},
    "sympy": {"chemistry", "algebra"},
    "jinja2": {"forms", "render"},
    "markdown": {"forms", "render"},
}
HEAVY = (
    "pydantic",
    "rich",
    "pint",
    "sympy",
    "typst",
    "babel",
    "jinja2",
    "markdown",
    "numpy",
    "openpyxl",
    "waitress",
    "watchfiles",
)

RUNS_TEXT = {"eval", "exec", "compile", "__import__"}
READS_TEXT_AS_CODE = {"sympify", "parse_expr", "lambdify", "S", "parse_latex", "system", "popen"}

TOP_LEVEL = {"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml"}
TOP_LEVEL |= {"generator", "question_templates", "site", "tests", "data"}

# Put together from halves so that this file does not hold them.
UNFINISHED = ("TO" + "DO", "FIX" + "ME", "XX" + "X", "NotImplemented" + "Error")
OUTSIDE = ("/wo" + "rk/", "/op" + "t/sb", "/tm" + "p/", ".." + "/shared", "trans" + "cript", "seed " + "document")
DODGES = re.compile(r"pytest\.(?:ski" + r"p|xfai" + r"l|importorski" + r"p)\b|mark\.(?:ski" + r"p|skipi" + r"f|xfai" + r"l)\b")
SILENCED = re.compile(r"#\s*(?:noq" + r"a|type:\s*ignor" + r"e)(.*)")
WITH_REASON = re.compile(r"(?::\s*[A-Z]+\d+(?:,\s*[A-Z]+\d+)*|\[[\w\-, ]+\]).*?\w+ \w+")


def _files(*suffixes: str, under: tuple[str, ...] = ("generator", "site", "tests", "data", "question_templates")) -> list[Path]:
    found = [p for folder in under for p in sorted((ROOT / folder).rglob("*")) if p.is_file() and p.suffix in suffixes]
    return [p for p in found if "__pycache__" not in p.parts]


def _parse(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def _name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def _room(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def _imported(path: Path) -> list[tuple[int, str]]:
    """Every module a file imports, with its line, relative names made absolute."""
    module = ("saltbridge", *path.relative_to(PACKAGE).with_suffix("").parts)
    found: list[tuple[int, str]] = []
    for node in ast.walk(_parse(path)):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = module[: len(module) - node.level] if node.level else ()
            origin = ".".join((*base, *filter(None, [node.module])))
            found += [(node.lineno, f"{origin}.{alias.name}") for alias in node.names]
    return found


def _edges() -> list[tuple[str, int, str, str]]:
    """(file, line, room, imported room) for each import between rooms."""
    found = []
    for path in _files(".py", under=("generator/saltbridge",)):
        room = _room(path)
        for line, module in _imported(path):
            parts = module.split(".")
            if parts[0] == "saltbridge" and len(parts) > 1 and parts[1] in RANK and parts[1] != room:
                found.append((_name(path), line, room, parts[1]))
    return found


def test_every_room_stands_in_the_table():
    rooms = {_room(path) for path in _files(".py", under=("generator/saltbridge",))}
    assert rooms - {"__init__", "__main__"} <= set(RANK)


def test_no_two_files_have_one_name():
    names = [path.name for path in _files(".py", under=("generator/saltbridge",)) if path.name != "__init__.py"]
    assert sorted({name for name in names if names.count(name) > 1}) == []


def test_imports_go_down_the_table_only():
    wrong = [
        f"{file}:{line}: {room} imports {other}"
        for file, line, room, other in _edges()
        if room in RANK and not RANK[room] < RANK[other]
    ]
    assert not wrong, "\n".join(wrong)


def _modules() -> dict[str, set[str]]:
    """The modules that each module imports, also those for types only, by dotted name."""
    names = {".".join(("saltbridge", *path.relative_to(PACKAGE).with_suffix("").parts)).removesuffix(".__init__"): path
             for path in _files(".py", under=("generator/saltbridge",))}  # fmt: skip
    found: dict[str, set[str]] = {}
    for name, path in names.items():
        heads = [imported.split(".") for _, imported in _imported(path)]
        prefixes = [[".".join(head[:length]) for length in range(len(head), 1, -1)] for head in heads]
        found[name] = {next((each for each in ways if each in names), "") for ways in prefixes} - {name, ""}
    return found


def _circles(imports: dict[str, set[str]]) -> list[str]:
    """The modules in a circle or above one: whatever imports nothing that is left is taken away until nothing changes."""
    left = dict(imports)
    while free := [name for name in left if not left[name] & set(left)]:
        for name in free:
            del left[name]
    return sorted(left)


def test_no_module_imports_itself_by_way_of_others():
    modules = _modules()
    assert len(modules) > 100
    assert any("saltbridge.chemistry.realism_facts" in found for found in modules.values())  # imported for its type only
    assert _circles(modules) == []
    assert _circles({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": set()}) == ["a", "b", "c"]


def test_check_and_render_see_only_their_own_few_rooms():
    wrong = [
        f"{file}:{line}: {room} imports {other}"
        for file, line, room, other in _edges()
        if room in ONLY and other not in ONLY[room]
    ]
    assert not wrong, "\n".join(wrong)


def test_a_library_with_a_keeper_stays_in_its_room():
    wrong = [
        f"{_name(path)}:{line}: {module}"
        for path in _files(".py", under=("generator/saltbridge",))
        for line, module in _imported(path)
        if _room(path) not in KEEPERS.get(module.split(".")[0], {_room(path)})
    ]
    assert not wrong, "\n".join(wrong)


def test_starting_the_command_line_loads_no_heavy_library():
    script = f"import sys, saltbridge.cli; print([m for m in {HEAVY!r} if m in sys.modules])"
    result = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert result.stdout.strip() == "[]"


def test_nothing_in_the_generator_runs_text_as_code():
    wrong = []
    for path in _files(".py", under=("generator",)):
        for node in ast.walk(_parse(path)):
            if isinstance(node, ast.Call):
                called = node.func
                plain = called.id if isinstance(called, ast.Name) else ""
                last = called.attr if isinstance(called, ast.Attribute) else plain
                shell = any(keyword.arg == "shell" for keyword in node.keywords)
                if plain in RUNS_TEXT or last in READS_TEXT_AS_CODE or shell:
                    wrong.append(f"{_name(path)}:{node.lineno}: {plain or last}")
    assert not wrong, "\n".join(wrong)


def test_scripts_of_the_page_run_no_text_as_code():
    pattern = re.compile(r"\beval\s*\(|new\s+Function\b|\bFunction\s*\(|\.innerHTML\s*=|document\.write\b")
    wrong = [_name(path) for path in _files(".js", under=("site",)) if pattern.search(path.read_text(encoding="utf-8"))]
    assert not wrong, "\n".join(wrong)


def _undocumented(path: Path) -> list[str]:
    tree = _parse(path)
    missing = [] if ast.get_docstring(tree) else [f"{_name(path)}: the module"]
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)
    waiting: list[ast.AST] = [tree]
    while waiting:
        for node in ast.iter_child_nodes(waiting.pop()):
            if not isinstance(node, kinds) or node.name.startswith("_"):
                continue
            if not ast.get_docstring(node):
                missing.append(f"{_name(path)}:{node.lineno}: {node.name}")
            if isinstance(node, ast.ClassDef):
                waiting.append(node)
    return missing


def test_every_module_and_every_public_name_has_a_docstring():
    wrong = [line for path in _files(".py", under=("generator",)) for line in _undocumented(path)]
    assert not wrong, "\n".join(wrong)


def test_no_file_is_longer_than_400_lines():
    lengths = {
        _name(path): len(path.read_text(encoding="utf-8").splitlines())
        for path in _files(".py", ".js", ".typ", ".css", under=("generator", "site", "tests"))
    }
    assert {name: length for name, length in lengths.items() if length > 400} == {}


# Scripts and paper layouts are laid out with one indent a level, so a named function ends at the first closing bracket that
# stands no deeper than its first line. The wrapper around a whole script has no name and is not counted.
OPENS = {
    ".js": re.compile(
        r"^(\s*)(?:(?:async\s+)?function\s+\w+|(?:const|let)\s+\w+\s*=\s*(?:async\s*)?(?:\([^)]*\)|\w+)\s*=>\s*\{|\w+\([^)]*\)\s*\{$)"
    ),
    ".typ": re.compile(r"^(\s*)#?let\s+[\w-]+\(.*[{\[(]\s*$"),
}


def _text_functions(path: Path) -> list[tuple[int, int]]:
    """(first line, length) of each named function of a script or layout."""
    lines = path.read_text(encoding="utf-8").splitlines()
    found = []
    for number, line in enumerate(lines):
        opened = OPENS[path.suffix].match(line)
        if opened:
            indent = len(opened[1])
            closing = re.compile(rf"^\s{{0,{indent}}}[}}\])]")
            last = next((n for n in range(number + 1, len(lines)) if closing.match(lines[n])), number)
            found.append((number + 1, last - number + 1))
    return found


def _functions(path: Path) -> list[tuple[int, int]]:
    if path.suffix != ".py":
        return _text_functions(path)
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef)
    return [
        (node.lineno, (node.end_lineno or node.lineno) - node.lineno + 1)
        for node in ast.walk(_parse(path))
        if isinstance(node, kinds)
    ]


def test_no_function_is_longer_than_60_lines():
    wrong = [
        f"{_name(path)}:{line}: {length} lines"
        for path in _files(".py", ".js", ".typ", under=("generator", "site", "tests"))
        for line, length in _functions(path)
        if length > 60
    ]
    assert not wrong, "\n".join(wrong)


def test_long_functions_are_seen_in_scripts_and_layouts(tmp_path):
    body = "  x\n" * 70
    (tmp_path / "a.js").write_text(
        "(() => {\nfunction long(a) {\n" + body + "}\nconst short = (a) => {\n  b\n}\n})()\n", encoding="utf-8"
    )
    (tmp_path / "a.typ").write_text("#let long(a) = {\n" + body + "}\n", encoding="utf-8")
    assert _text_functions(tmp_path / "a.js") == [(2, 72), (74, 3)]
    assert _text_functions(tmp_path / "a.typ") == [(1, 72)]


def _lines_of_text() -> list[tuple[str, str]]:
    kinds = (".py", ".js", ".typ", ".css", ".html", ".svg", ".md", ".yaml", ".csv", ".json", ".po", ".toml")
    paths = [*_files(*kinds), *(ROOT / name for name in sorted(TOP_LEVEL) if (ROOT / name).is_file()), ROOT / ".ci" / "run"]
    return [
        (f"{_name(path)}:{number}", line)
        for path in paths
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
    ]


def test_nothing_is_marked_unfinished():
    wrong = [where for where, line in _lines_of_text() if any(re.search(rf"\b{word}\b", line) for word in UNFINISHED)]
    assert not wrong, "\n".join(wrong)


def test_nothing_points_outside_the_project():
    wrong = [where for where, line in _lines_of_text() if any(word in line for word in OUTSIDE)]
    assert not wrong, "\n".join(wrong)


def test_no_test_is_left_out_or_expected_to_fail():
    wrong = [where for where, line in _lines_of_text() if DODGES.search(line)]
    assert not wrong, "\n".join(wrong)


def test_no_folder_of_tests_is_passed_over(pytestconfig):
    """pytest leaves out folders of some names, such as build, unless its settings say otherwise."""
    folders = {folder.name for file in (ROOT / "tests").rglob("test_*.py") for folder in file.relative_to(ROOT).parents}
    assert not [(name, pattern) for name in folders for pattern in pytestconfig.getini("norecursedirs") if fnmatch(name, pattern)]


def test_a_silenced_check_gives_its_reason():
    wrong = [
        where
        for where, line in _lines_of_text()
        for silenced in [SILENCED.search(line)]
        if silenced and not WITH_REASON.match(silenced[1])
    ]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize(
    ("tail", "accepted"),
    [(": T201 — a person reads it", True), (": T201", False), ("", False), ("[arg-type]  # the stub is wrong", True)],
)
def test_a_reason_is_told_from_a_bare_code(tail, accepted):
    assert bool(WITH_REASON.match(tail)) is accepted


def test_the_top_level_is_fixed():
    ignored = [line.strip("/") for line in (ROOT / ".gitignore").read_text(encoding="utf-8").splitlines() if line]
    names = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    names = {name for name in names if not any(fnmatch(name, pattern) for pattern in ignored)}
    assert names == TOP_LEVEL


def test_the_ci_runs_the_second_command_of_the_readme():
    commands = re.findall(r"^    (python3 .*)$", (ROOT / "README.md").read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert commands == ["python3 generator/demo.py", "python3 tests/run.py"]
    steps = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    assert steps.count(commands[1]) == 1
    after = "\n".join(steps[steps.index(commands[1]) + 1 :])
    assert "judge_pdfs.py" in after  # the outside judges come last: papers, then pages
    assert after.index("judge_pdfs.py") < after.index("nu ")


def test_help_of_every_command_shows_an_example():
    main = importlib.import_module("saltbridge.cli").main
    commands = sorted(main.list_commands(main.make_context("saltbridge", [], resilient_parsing=True)))
    assert {"publish", "work"} <= set(commands)
    for command in commands:
        shown = CliRunner().invoke(main, [command, "--help"])
        assert shown.exit_code == 0
        assert re.search(rf"saltbridge {command}\b(?! \[OPTIONS\])", shown.output), f"{command} --help shows no example"
