"""From text to plain data: what no document may contain, whatever its keys are called."""
from __future__ import annotations

import json
from collections import Counter, deque
from collections.abc import Iterator, Mapping
from math import isfinite
from typing import Any

from teardowns.exchange.problems import DocumentError, at, refuse_if_any

MOST_BYTES = 5_000_000
MOST_DEPTH = 12
MOST_VALUES = 200_000
MOST_KEYS = 2_000               # of one object: every one that no form knows costs an answer
LONGEST_KEY = 100


def parse(source: str | bytes | Mapping[str, Any]) -> Any:
    """The data of a JSON text, or a dict as it is, once it is known to be plain and bounded."""
    data = source if isinstance(source, Mapping) else _from_json(_as_text(source))
    refuse_if_any(_impurities(data))
    return data


def _as_text(source: str | bytes) -> str:
    if len(source) > MOST_BYTES:
        raise DocumentError([
            f"the file is larger than {MOST_BYTES // 1_000_000} MB; photos and logs travel beside "
            "it, named by their SHA-256"
        ])
    if isinstance(source, str):
        return source
    try:
        return source.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise DocumentError([
            f"byte {error.start} is not UTF-8; save the file as UTF-8"
        ]) from None


class _Repeated(dict):
    """An object of the text in which keys stand twice; the walk knows where it is."""

    def __init__(self, pairs):
        super().__init__(pairs)
        found = Counter(name for name, _ in pairs)
        self.names = sorted(name for name, count in found.items() if count > 1)


def _from_json(text: str) -> Any:
    try:
        # NaN and Infinity become floats, so that the walk can say where they stand.
        return json.loads(text, object_pairs_hook=_object, parse_int=_integer, parse_constant=float)
    except json.JSONDecodeError as error:
        raise DocumentError([
            f"line {error.lineno}, column {error.colno} is not JSON ({error.msg}); correct it there"
        ]) from None
    except RecursionError:
        raise DocumentError([_too_deep("the document")]) from None


def _object(pairs):
    found = dict(pairs)
    return found if len(found) == len(pairs) else _Repeated(pairs)


def _integer(text):
    return int(text) if len(text) < 20 else float(text)


def _too_deep(path):
    return f"{path}: nested deeper than {MOST_DEPTH} levels; no part of the form is"


def _impurities(data: Any) -> Iterator[str]:
    """What cannot be stored or compared, with its path; walks without recursion."""
    waiting = deque([("", data, 1)])
    count = 0
    while waiting:
        path, value, depth = waiting.popleft()
        count += 1
        if count > MOST_VALUES:
            yield f"the document holds more than {MOST_VALUES} values; split it"
            return
        if depth > MOST_DEPTH:
            yield _too_deep(path)
        elif isinstance(value, Mapping) and len(value) > MOST_KEYS:
            yield at(path, f"has more than {MOST_KEYS} keys; no part of the form has")
        elif isinstance(value, Mapping):
            for name in getattr(value, "names", ()):
                yield at(path, f'the key "{name}" stands twice; keep one of the two')
            for key, inner in value.items():
                if problem := _bad_key(key):
                    yield at(path, problem)
                else:
                    waiting.append((f"{path}.{key}" if path else key, inner, depth + 1))
        elif isinstance(value, list):
            waiting.extend((f"{path}[{i}]", inner, depth + 1) for i, inner in enumerate(value))
        elif problem := _bad_scalar(value):
            yield at(path, problem)


def _bad_key(key):
    if not isinstance(key, str):
        return f"the key {key!r} is not text; write it as text"
    if len(key) > LONGEST_KEY:
        return f'the key "{key[:20]}…" is {len(key)} characters long; no key of the form is'
    return _bad_scalar(key)


def _bad_scalar(value):
    if isinstance(value, str):
        if "\0" in value:
            return "contains the character NUL; remove it"
        if any("\ud800" <= char <= "\udfff" for char in value):
            return "contains half of a character (a lone surrogate); type that character again"
    elif isinstance(value, float):
        if not isfinite(value):
            return "is not a finite number; leave the key out when the value is not known"
    elif value is not None and not isinstance(value, bool | int):
        return f"is a {type(value).__name__}; only text, numbers, true, false, lists and objects"
    return None
