"""The inventory of cryptography: what the code uses is in it, and what is in it is used."""
import ast
import csv
import re
from pathlib import Path

ROOT = Path(__file__).parent.parent
# A digest alone (hashlib) is no secret and needs no line of its own.
MORE = {"hmac", "secrets", "ssl", "cryptography", "django.core.signing", "django.utils.crypto",
        "django_q.signing", "django_q.core_signing", "argon2", "fido2", "jwt", "nacl", "OpenSSL"}
NAMES = {"sha256": "SHA-256", "sha512": "SHA-512", "blake2b": "BLAKE2b"}
NO_ALGORITHM = {"file_digest", "new"}


def rows():
    lines = (ROOT / "fixtures" / "cryptography.csv").read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def sources():
    for room in ("core", "teardowns"):
        for path in sorted((ROOT / room).rglob("*.py")):
            yield path.relative_to(ROOT).as_posix(), ast.parse(path.read_text("utf-8"))


def imported(tree):
    """Dotted names of modules, and of what is taken out of them."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield node.module
            yield from (f"{node.module}.{name.name}" for name in node.names)


def is_below(name, modules):
    return any(name == module or name.startswith(f"{module}.") for module in modules)


def test_every_file_that_does_more_than_digest_is_named():
    named = {path for row in rows() for path in row["where"].split()}
    using = {path for path, tree in sources()
             if any(is_below(name, MORE) for name in imported(tree))}
    assert using - named == set()
    assert {path for path in named if not (ROOT / path).exists()} == set()


def test_every_digest_that_the_code_takes_is_in_it_and_none_is_a_weak_one():
    used = set()
    for _, tree in sources():
        used |= {name.removeprefix("hashlib.") for name in imported(tree)
                 if name.startswith("hashlib.")}
        used |= {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)
                 and isinstance(node.value, ast.Name) and node.value.id == "hashlib"}
    assert used - NO_ALGORITHM <= NAMES.keys()
    told = " ".join(row["algorithm"] for row in rows())
    assert [name for name in NAMES.values() if not re.search(rf"\b{name}\b", told)] == []


def test_every_line_says_what_for_by_what_and_how_it_is_exchanged():
    for row in rows():
        assert all(row.values()) and None not in row, row
