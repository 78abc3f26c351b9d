"""Imports between rooms follow the arrows of DEVELOPERS.md."""
import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

# A room may import the rooms named here (and itself); all else below teardowns is refused.
MAY_IMPORT = {
    "bulk": {"engine", "exchange", "licence"},
    "engine": set(),
    "reading": set(),
    "imaging": set(),
    "licence": set(),
    "browsing": set(),
    "populations": {"engine"},
    "searching": set(),
    "search_engines": {"searching"},
    "likeness": {"engine", "exchange", "reading", "searching"},
    "logs": {"engine"},
    "printouts": {"engine", "exchange", "figures", "licence", "models", "presenting", "services",
                  "typesetting", "writing"},
    "reasons": set(),
    "reviewing": set(),
    "doctor": {"models", "search_engines", "services", "typesetting"},
    "drawing": {"engine", "exchange", "imaging", "logs", "reading"},
    "exchange": {"engine", "reading"},
    "writing": set(),
    "figures": {"engine", "imaging", "logs", "reading"},
    "models": set(),
    "services": {"access", "browsing", "bulk", "drawing", "exchange", "engine", "imaging",
                 "licence", "likeness", "logs", "models", "populations", "reading", "reasons",
                 "reviewing", "search_engines", "searching", "workflow", "writing"},
    "forms": {"licence", "reasons", "services", "models", "engine", "imaging", "logs", "reading"},
    "presenting": {"browsing", "figures", "imaging", "licence", "likeness", "logs", "models",
                   "engine", "reading", "exchange", "populations", "reasons", "reviewing",
                   "searching", "workflow", "writing"},
    "views": {
        "access", "browsing", "exchange", "figures", "filters", "forms", "models", "presenting",
        "services", "bulk",
        "engine", "imaging", "licence", "logs", "printouts", "reading", "reasons", "reviewing",
        "searching", "workflow", "writing",
    },
    "api": {
        "access", "engine", "exchange", "forms", "imaging", "licence", "logs", "models",
        "presenting", "services", "views", "workflow",
    },
    "management": {"bulk", "exchange", "engine", "models", "services", "reading", "search_engines"},
    "access": {"models", "workflow"},
    "filters": {"browsing", "models", "services"},
    "jobs": {"printouts", "services", "models"},
    "typesetting": set(),
    "templatetags": {"reading", "figures", "presenting"},
    "urls": {"views"},
    "apps": {"schedules", "search_engines", "services"},
    "schedules": set(),
    "workflow": set(),
}
PURE = ("browsing", "bulk", "engine", "reading", "exchange", "figures", "imaging", "likeness",
        "logs", "drawing", "populations", "reasons", "reviewing", "searching", "typesetting",
        "workflow", "writing")


def room_of(path):
    return path.relative_to(ROOT / "teardowns").parts[0].removesuffix(".py")


def imports_of(path):
    """The dotted names that a file imports, relative ones made absolute."""
    package = list(path.relative_to(ROOT).with_suffix("").parts[:-1])
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*base, *([node.module] if node.module else [])])
            yield module
            yield from (f"{module}.{alias.name}" for alias in node.names)


def files(room=""):
    place = ROOT / "teardowns" / room
    return [p for p in sorted(place.rglob("*.py")) if "migrations" not in p.parts]


def test_every_room_has_its_arrows_stated():
    rooms = {room_of(path) for path in files() if path.name != "__init__.py"}
    assert rooms <= set(MAY_IMPORT)


@pytest.mark.parametrize("room", sorted(MAY_IMPORT))
def test_a_room_imports_only_what_lies_below_it(room):
    allowed = MAY_IMPORT[room] | {room}
    for path in files():
        if room_of(path) != room or path == ROOT / "teardowns/__init__.py":
            continue
        for name in imports_of(path):
            parts = name.split(".")
            if parts[0] == "teardowns" and len(parts) > 1:
                assert parts[1] in allowed, f"{path.relative_to(ROOT)} imports {name}"


@pytest.mark.parametrize("room", PURE)
def test_a_pure_room_knows_nothing_of_django(room):
    for path in files(room):
        for name in imports_of(path):
            assert name.split(".")[0] not in {"django", "core"}, f"{path} imports {name}"


def test_the_engine_imports_numpy_and_the_special_functions_only():
    for path in files("engine"):
        for name in imports_of(path):
            if name.split(".")[0] == "scipy":
                assert name.startswith("scipy.special"), f"{path} imports {name}"


def test_tests_that_run_on_one_database_alone_ask_none():
    """Which rooms the second run leaves out stands in .ci/run; pytest-django blocks the rest."""
    left_out = re.search(r"no_database=\(([a-z_\s]+)\)", (ROOT / ".ci/run").read_text())[1].split()
    asking = re.compile(r"\b(django_db\w*|transactional_db|live_server|TestCase)\b")
    for room in left_out:
        for path in sorted((ROOT / "tests" / room).rglob("*.py")):
            assert not asking.search(path.read_text()), path


def test_core_knows_the_domain_only_where_it_joins_them():
    joins = {"urls.py", "demo.py"}
    for path in sorted((ROOT / "core").rglob("*.py")):
        if path.name in joins or "migrations" in path.parts:
            continue
        assert not any(n.split(".")[0] == "teardowns" for n in imports_of(path)), path
