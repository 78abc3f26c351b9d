"""Imports between rooms follow the arrows of DEVELOPERS.md."""
import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

# A room may import the rooms named here (and itself); all else below teardowns is refused.
MAY_IMPORT = {
    "engine": set(),
    "reading": set(),
    "imaging": set(),
    "logs": {"engine"},
    "drawing": {"engine", "exchange", "imaging", "logs", "reading"},
    "exchange": {"engine", "reading"},
    "figures": {"engine", "imaging", "logs", "reading"},
    "models": set(),
    "services": {"access", "drawing", "exchange", "engine", "imaging", "logs", "models", "reading"},
    "forms": {"services", "models", "engine", "imaging", "logs", "reading"},
    "presenting": {"figures", "imaging", "logs", "models", "engine", "reading", "exchange"},
    "views": {
        "access", "exchange", "figures", "filters", "forms", "models", "presenting", "services",
        "engine", "imaging", "logs", "reading",
    },
    "management": {"exchange", "engine", "models", "services", "reading"},
    "access": {"models"},
    "filters": {"models", "engine"},
    "jobs": {"services", "models"},
    "templatetags": {"reading", "figures"},
    "urls": {"views"},
    "apps": set(),
}
PURE = ("engine", "reading", "exchange", "figures", "imaging", "logs", "drawing")


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


def test_core_knows_the_domain_only_where_it_joins_them():
    joins = {"urls.py", "demo.py"}
    for path in sorted((ROOT / "core").rglob("*.py")):
        if path.name in joins or "migrations" in path.parts:
            continue
        assert not any(n.split(".")[0] == "teardowns" for n in imports_of(path)), path
