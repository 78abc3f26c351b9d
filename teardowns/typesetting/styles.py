"""The site's own style sheets, read for drawings on paper: class → SVG presentation attributes.

So a colour is stated once, in `tokens.css`, and a drawing looks on paper as it does on the page.
Only what drawings need is read: rules for classes, outside of any @-rule.
"""
from __future__ import annotations

import re
from collections.abc import Iterable

DRAWN = frozenset({
    "fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap",
    "stroke-linejoin", "stroke-opacity", "font-weight", "color", "paint-order"})
_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_AT_RULE = re.compile(r"@[^{};]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}")
_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
_CLASS = re.compile(r"\.([A-Za-z][\w-]*)$")
_VARIABLE = re.compile(r"(--[\w-]+)\s*:\s*([^;]+);")
_LIGHT_DARK = re.compile(r"light-dark\(\s*([^,()]+)\s*,[^()]*\)")
_USE = re.compile(r"var\((--[\w-]+)\)")

Styles = dict[str, dict[str, str]]          # class → attribute → value


def colours(tokens: str) -> dict[str, str]:
    """Custom properties of the style sheet of tokens; of two colours the one on light paper."""
    whole = _COMMENT.sub("", tokens).partition("@supports")[0]
    found = {name: _LIGHT_DARK.sub(r"\1", value).strip()
             for name, value in _VARIABLE.findall(whole)}
    return found | {"--paper": "#ffffff", "--sheet": "#ffffff"}


def styles(sheets: Iterable[str], variables: dict[str, str]) -> Styles:
    """What each class says of a drawing; a later rule adds to an earlier one."""
    found: Styles = {}
    for sheet in sheets:
        plain = _AT_RULE.sub("", _COMMENT.sub("", sheet))
        for selectors, body in _RULE.findall(plain):
            said = _declared(body, variables)
            for name in _classes(selectors) if said else ():
                found.setdefault(name, {}).update(said)
    return found


def _classes(selectors):
    """The class that ends each selector; of one with a state or an element's part, none."""
    return [match[1] for each in selectors.split(",") if (match := _CLASS.search(each.strip()))
            and ":" not in each and "[" not in each]


def _declared(body, variables):
    pairs = (each.partition(":") for each in body.split(";") if ":" in each)
    return {name.strip(): _USE.sub(lambda m: variables.get(m[1], "none"), value.strip())
            for name, _, value in pairs if name.strip() in DRAWN}
