"""The permission lines of a module of `teardowns/access/`, and the module without each of them.

A line is an operand of a condition or of a query, a condition as a whole, or a lookup of a query.
"""
from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Callable, Iterator

# What is no number, or of which kind something is, is not a permission; that nobody is signed in
# only spares a query; and by a key a record is found, whosever it is.
NO_PERMISSION = ("is_authenticated", ".isascii()", ".isdigit()", "len(", "isinstance(", "kind ==")
FINDS = {"pk", "key", "slug"}
QUERIES = {"filter", "exclude", "Q"}
Cut = tuple[str, Callable[[], object]]            # what goes in words, and how


def without_each_line(source: str) -> Iterator[tuple[str, str, ast.Module]]:
    """(function, what is gone, the module without it)"""
    seen: Counter[tuple[str, str]] = Counter()
    for place in range(len(_all_cuts(ast.parse(source)))):
        tree = ast.parse(source)
        function, words, cut = _all_cuts(tree)[place]
        cut()
        seen[function, words] += 1
        again = f", place {n}" if (n := seen[function, words]) > 1 else ""
        yield function, words + again, ast.fix_missing_locations(tree)


def _all_cuts(tree) -> list[tuple[str, str, Callable[[], object]]]:
    return [(function.name, words, cut)
            for function in tree.body if isinstance(function, ast.FunctionDef)
            for node in ast.walk(function) for words, cut in _cuts(node)]


def _cuts(node) -> Iterator[Cut]:
    if isinstance(node, ast.BoolOp):
        yield from _operands(node)
    elif isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr | ast.BitAnd):
        yield _without(node.left), lambda: setattr(node, "left", node.right)
        yield _without(node.right), lambda: setattr(node, "right", node.left)
    elif isinstance(node, ast.If) and _permits(node.test):
        words = ast.unparse(node.test)
        yield f"never “{words}”", lambda: setattr(node, "test", ast.Constant(False))
        yield f"always “{words}”", lambda: setattr(node, "test", ast.Constant(True))
    elif isinstance(node, ast.Return) and isinstance(node.value, ast.Compare):
        yield _without(node.value), lambda: setattr(node, "value", ast.Constant(True))
    elif isinstance(node, ast.Call) and _name(node.func) in QUERIES:
        yield from _lookups(node)


def _operands(node) -> Iterator[Cut]:
    def drop(each):
        node.values.remove(each)
        if len(node.values) == 1:
            node.values.append(node.values[0])
    for each in node.values:
        if _permits(each):
            yield _without(each), lambda each=each: drop(each)


def _permits(node):
    """Whether it decides about a person; the operands of one are taken away one by one."""
    if isinstance(node, ast.BoolOp) or _asks_whether_found(node):
        return False
    words = ast.unparse(node)
    return not any(part in words for part in NO_PERMISSION)


def _asks_whether_found(node):
    return isinstance(node, ast.Compare) and isinstance(node.left, ast.Name) \
        and isinstance(node.ops[0], ast.Is | ast.IsNot)


def _lookups(call) -> Iterator[Cut]:
    for each in call.args:
        if not isinstance(each, ast.BinOp):
            yield _without(each), lambda each=each: call.args.remove(each)
    for each in call.keywords:
        if each.arg not in FINDS:
            words = f"without “{each.arg}={ast.unparse(each.value)}”"
            yield words, lambda each=each: call.keywords.remove(each)


def _without(node):
    return f"without “{ast.unparse(node)}”"


def _name(func):
    return func.attr if isinstance(func, ast.Attribute) else getattr(func, "id", "")
