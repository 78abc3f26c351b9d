"""Texts of Python sources that a reader may come to see.

A text is a string with a word in it that is no code: an f-string is one with a place for each
value, `{name}`; one that chooses between two words is two texts. Docstrings, patterns, queries,
what programmers alone read (raised TypeErrors, logs, `help=` of commands) and `source=` are none.
"""
from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from itertools import product
from pathlib import Path

from .numbers import is_measure
from .patterns import PLACE

MOST_VARIANTS = 16
LITERAL = re.compile(r"[^\W\d_]{2,}")
FIELD = re.compile(r"\{(\w*)(?:![rsa])?(?::[^{}]*)?\}")
OLD_FIELD = re.compile(r"%\((\w+)\)s|%[sd]")
# One word, begun with a capital and no more, or several words with spaces between.
ONE_WORD = re.compile(r"[A-ZÄÖÜ][a-z]{2,}[.:…]?")
CODE = re.compile(r"\\|[<>]|[{}\[\]|^$]|(?<! )=|=(?! )|__|://|"
                  r"^\s*(?:SELECT|INSERT|UPDATE|DELETE|CREATE|DROP|ALTER|"
                  r"WITH|PRAGMA|VACUUM|ANALYZE|BEGIN|SET|LOCK|COPY)\b|\b\w{2,}_\w+\b|\.\w+\(")
UNSHOWN_CALLS = {"TypeError", "AssertionError", "RuntimeError", "NotImplementedError", "KeyError",
                 "getLogger", "warn", "debug", "info", "warning", "error", "exception", "compile",
                 "execute", "filter", "exclude", "annotate", "order_by", "values_list", "values",
                 "select_related", "prefetch_related", "strftime", "startswith", "endswith",
                 "removeprefix", "removesuffix", "encode", "getattr", "setattr", "hasattr"}
UNSHOWN_KEYWORDS = {"source", "formula", "help", "format", "name", "related_name", "db_column",
                    "sources", "author"}


def texts_of_source(path: Path) -> Iterator[tuple[str, int]]:
    """(text, line) of one module."""
    tree = ast.parse(path.read_text())
    yield from _walk(tree, _docstrings(tree))
    yield from _words_of_formulas(tree)


def strings_of_source(path: Path) -> Iterator[str]:
    """Every string constant, of code too: what may stand in the catalogue by hand."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def paragraphs_of_docstring(path: Path) -> Iterator[str]:
    for paragraph in (ast.get_docstring(ast.parse(path.read_text())) or "").split("\n\n"):
        if paragraph:
            yield " ".join(paragraph.split())


def _words_of_formulas(tree):
    """What `word("…")` sets between symbols: any word, also a single one."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "word":
            for text in _texts(_pieces(node.args[0]) or [[""]]):
                if LITERAL.search(PLACE.sub(" ", text)) and not is_measure(text):
                    yield text, node.lineno


def _docstrings(tree):
    return {id(node.body[0].value) for node in ast.walk(tree)
            if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef))
            and node.body and isinstance(node.body[0], ast.Expr)
            and isinstance(node.body[0].value, ast.Constant)}


def _walk(node, unshown):
    if id(node) in unshown:
        return
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return                                    # a string that documents a field
    if isinstance(node, (ast.JoinedStr, ast.Constant)) or _is_sum(node):
        pieces = _pieces(node)
        if pieces is not None:
            yield from ((text, node.lineno) for text in _texts(pieces) if is_shown(text))
        for inside in _values(node):
            yield from _walk(inside, unshown)
        return
    for child in _shown_children(node):
        yield from _walk(child, unshown)


def _shown_children(node):
    if isinstance(node, (ast.Import, ast.ImportFrom)):
        return ()
    if isinstance(node, ast.Call):
        called = getattr(node.func, "attr", getattr(node.func, "id", ""))
        if called in UNSHOWN_CALLS:
            return ()
        return [node.func, *node.args,
                *(one.value for one in node.keywords if one.arg not in UNSHOWN_KEYWORDS)]
    if isinstance(node, ast.Subscript):
        return [node.value]                       # a key is code
    if isinstance(node, ast.Compare):
        return ()                                 # and so is what is compared with
    if isinstance(node, ast.arg):
        return ()
    if isinstance(node, ast.AnnAssign):
        return [node.value] if node.value else ()
    return ast.iter_child_nodes(node)


def _is_sum(node):
    """A sum with a string in it: one text in several pieces."""
    return isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add) and (
        _is_text(node.left) or _is_text(node.right))


def _is_text(node):
    return (isinstance(node, ast.JoinedStr) or _is_sum(node)
            or isinstance(node, ast.Constant) and isinstance(node.value, str))


def _pieces(node):
    """Alternatives of each piece in turn; None for a constant that is no string."""
    if isinstance(node, ast.Constant):
        return [[_as_written(node.value)]] if isinstance(node.value, str) else None
    if isinstance(node, ast.JoinedStr):
        return [_alternatives(value.value if isinstance(value, ast.FormattedValue) else value)
                for value in node.values]
    return [piece for side in (node.left, node.right)
            for piece in (_pieces(side) if _is_text(side) else [_alternatives(side)])]


def _as_written(text):
    """Fields of a format string as places."""
    numbers = iter(range(1, 99))
    text = FIELD.sub(lambda field: "{" + (field[1] if field[1] and not field[1].isdigit()
                                          else f"p{next(numbers)}") + "}", text)
    return OLD_FIELD.sub(lambda field: "{" + (field[1] or f"p{next(numbers)}") + "}", text)


def _alternatives(node):
    if isinstance(node, ast.Constant):
        return [str(node.value)]
    if isinstance(node, ast.IfExp):
        return [text for side in (node.body, node.orelse) for text in _alternatives(side)]
    if isinstance(node, ast.JoinedStr):
        return _texts(_pieces(node))
    return ["{" + _name(node) + "}"]


def _name(node):
    while isinstance(node, (ast.Call, ast.Subscript)):
        node = node.func if isinstance(node, ast.Call) else node.value
    name = getattr(node, "attr", getattr(node, "id", "p"))
    return name.strip("_") or "p"


def _values(node):
    for child in ast.walk(node):
        if isinstance(child, ast.FormattedValue):
            yield from ast.iter_child_nodes(child.value) if isinstance(
                child.value, (ast.JoinedStr, ast.IfExp)) else [child.value]


def _texts(pieces):
    if _count(pieces) > MOST_VARIANTS:
        pieces = [piece if len(piece) == 1 else ["{p}"] for piece in pieces]
    return [_numbered("".join(chosen)) for chosen in product(*pieces)]


def _count(pieces):
    count = 1
    for piece in pieces:
        count *= len(piece)
    return count


def _numbered(text):
    """Each place its own name: {n} and {n_2}."""
    seen: dict[str, int] = {}

    def place(found):
        seen[found[1]] = seen.get(found[1], 0) + 1
        return found[0] if seen[found[1]] == 1 else f"{{{found[1]}_{seen[found[1]]}}}"

    return PLACE.sub(place, text).strip()


def is_shown(text: str) -> bool:
    literal = PLACE.sub(" ", text)
    if CODE.search(literal) or not LITERAL.search(literal):
        return False
    if PLACE.search(text):
        return sum(map(len, LITERAL.findall(literal))) >= 4
    return " " in text or ONE_WORD.fullmatch(text) is not None
