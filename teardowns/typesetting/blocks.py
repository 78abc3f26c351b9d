"""A page's markup → blocks of plain data, one below the other, as the typesetter takes them."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any
from xml.etree.ElementTree import Element

from .drawings import Ink, standalone, symbols_in
from .html_tree import classes, text_of, tree_of
from .runs import PX, SKIPPED, Run, Style, runs_of, skipped, spoken
from .tables import WIDTH, table_of

Block = dict[str, Any]
HEADINGS = {"h1": 1, "h2": 2, "h3": 3, "h4": 4}
INLINE = frozenset({"a", "b", "strong", "em", "i", "span", "small", "code", "mark", "abbr", "sub",
                    "sup", "math", "br", "time"})
BY_TAG = frozenset({"p", "figcaption", "summary", "ul", "ol", "dl", "table", "blockquote", "aside",
                    "figure", "svg", "img", "div"})     # each has a method; the rest is looked into
ON_PAPER = 380.0                 # px, about as wide as a photo is set


def blocks(html: str, ink: Ink, pictures: Mapping[str, str] | None = None) -> list[Block]:
    """pictures : by the `src` of an <img>, the name of its file beside the typesetter's input"""
    root = tree_of(html)
    shared = replace(ink, symbols=ink.symbols | symbols_in(root))
    found = _Blocks(shared, pictures or {}).inside(root)
    _without_gaps(found, 0)
    return found


def _without_gaps(found: Any, last: int) -> int:
    """No heading lies more than one level below the heading before it (ISO 14289-1, 7.4.2)."""
    if isinstance(found, dict) and found.get("b") == "head":
        found["level"] = last = min(found["level"], last + 1)
    elif isinstance(found, list | dict):
        for child in found.values() if isinstance(found, dict) else found:
            if isinstance(child, list | dict):
                last = _without_gaps(child, last)
    return last


class _Blocks:
    def __init__(self, ink, pictures):
        self.ink, self.pictures = ink, pictures

    def inside(self, node: Element) -> list[Block]:
        """Of an element's children; words between them are a paragraph."""
        found: list[Block] = []
        line = Element("span")
        line.text = node.text
        for child in node:
            if child.tag in INLINE and not skipped(child):
                line.append(child)
                continue
            found += self._line(line, node)
            found += self.of(child)
            line = Element("span")
            line.text = child.tail
        return found + self._line(line, node)

    def _line(self, line, node):
        runs = runs_of(line, self.ink, Style(bold=node.tag in ("dt", "summary")))
        return [_paragraph(runs, classes(node))] if runs else []

    def of(self, node: Element) -> list[Block]:
        if skipped(node) or SKIPPED & set(classes(node)):
            return []
        if node.tag in HEADINGS:
            return [{"b": "head", "level": HEADINGS[node.tag], "runs": runs_of(node, self.ink),
                     "text": text_of(node)}]
        return getattr(self, f"_{node.tag}")(node) if node.tag in BY_TAG else self.inside(node)

    def _p(self, node):
        runs = runs_of(node, self.ink)
        return [_paragraph(runs, classes(node))] if runs else []

    def _figcaption(self, node):
        return [_paragraph(runs_of(node, self.ink), ["note"])]

    def _summary(self, node):
        return [{"b": "head", "level": 4, "runs": runs_of(node, self.ink), "text": text_of(node)}]

    def _ul(self, node):
        kind = "letter" if node.get("type") == "A" else "number" if node.tag == "ol" else "bullet"
        plain = {"points", "pairs", "gallery", "taken", "words"} & set(classes(node))
        items = [self.inside(child) for child in node if child.tag == "li"]
        return [{"b": "list", "kind": "plain" if plain else kind,
                 "items": [one for one in items if one]}]

    _ol = _ul

    def _dl(self, node):
        pairs = _pairs(node)
        if "facts" in classes(node):
            return [{"b": "facts", "cells": [[runs_of(dt, self.ink), runs_of(dd, self.ink)]
                                             for dt, dd in pairs]}]
        return [{"b": "terms", "rows": [[runs_of(dt, self.ink), self.inside(dd)]
                                        for dt, dd in pairs]}]

    def _table(self, node):
        return [table_of(node, self.ink, self.inside)]

    def _blockquote(self, node):
        return [{"b": "quote", "text": "".join(node.itertext()).strip()}]

    def _aside(self, node):
        return [{"b": "box", "heavy": "caution" in classes(node), "inside": self.inside(node)}]

    def _figure(self, node):
        return [{"b": "keep", "inside": self.inside(node)}] if _is_short(node) else (
            self.inside(node))

    def _svg(self, node):
        box = (node.get("viewBox") or f"0 0 {WIDTH / PX:.0f} {node.get('height') or 200}").split()
        width, height = float(box[2]), float(box[3])
        shown = min(WIDTH, width * PX)
        return [{"b": "picture", "svg": standalone(node, width, height, self.ink),
                 "w": round(shown, 1), "h": round(shown * height / width, 1),
                 "alt": spoken(node) or self.ink.say("Drawing")}]

    def _img(self, node):
        name = self.pictures.get(node.get("src", ""))
        if name is None:
            return []
        return [{"b": "photo", "file": name, "alt": node.get("alt") or self.ink.say("Photo"),
                 "width": float(node.get("width") or 1), "height": float(node.get("height") or 1)}]

    def _div(self, node):
        if "photo" in classes(node):
            return self._photo(node)
        if "pair" in classes(node):
            left, right = [self.inside(child) for child in node][:2]
            return [{"b": "pair", "left": left, "right": right}]
        if "formula" in classes(node):
            return [{"b": "formula", "lines": [run for p in node for run in runs_of(p, self.ink)
                                               if "math" in run]}]
        return self.inside(node)

    def _photo(self, node):
        """A picture and the marks that lie over it."""
        image = self.inside(node)
        over = next((child for child in node if child.tag == "svg"), None)
        found = [one for one in image if one["b"] == "photo"]
        if found and over is not None:
            one = found[0]
            one["marks"] = standalone(over, one["width"], one["height"],
                                      _thick(self.ink, one["width"] / ON_PAPER))
        return found


def _thick(ink, times):
    """The ink of marks over a photo, whose pixels are finer than those of a page."""
    marks = {name: ink.styles.get(name, {}) | {"fill": "none", "stroke": colour,
                                               "stroke-width": f"{width * times:.1f}"}
             for name, colour, width in (("line", ink.ink, 1.6), ("halo", "#ffffff", 4.0))}
    return Ink(ink.styles | marks, ink.symbols, ink.ink)


def _paragraph(runs: list[Run], names: list[str]) -> Block:
    known = ("lead", "note", "headline", "hazard-answer", "empty", "notice", "id", "result",
             "dispute", "level")
    return {"b": "p", "style": next((name for name in known if name in names), ""), "runs": runs}


def _pairs(node):
    """Term and description of a list of terms, whether or not a <div> groups them."""
    found, term = [], None
    for child in [each for outer in node for each in (outer if outer.tag == "div" else [outer])]:
        if child.tag == "dt":
            term = child
        elif child.tag == "dd" and term is not None:
            found.append((term, child))
    return found


def _is_short(node):
    return not any(child.tag == "table" for child in node)
