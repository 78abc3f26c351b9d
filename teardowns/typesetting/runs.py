"""Words in a line: pieces of text with how they are set, small drawings and formulas between."""
from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Any
from xml.etree.ElementTree import Element

from .drawings import Ink, standalone
from .formulas import formula_of, in_words
from .html_tree import classes, text_of

PX = 0.72                        # pt, that a pixel of a drawing is on paper
SKIPPED = frozenset({"off", "noprint", "toc"})
BOLD = frozenset({"b", "strong", "th"})
LINES = frozenset({"small", "br", "p", "li", "div", "dd"})      # begin a line of their own
LANGUAGE = re.compile("[a-z]{2,3}")
_SPACE = re.compile(r"[ \t\r\n\f]+")                  # not the spaces that hold together

Run = dict[str, Any]


@dataclass(frozen=True)
class Style:
    bold: bool = False
    small: bool = False
    quiet: bool = False
    mono: bool = False
    marked: bool = False
    link: str = ""
    language: str = ""

    def said(self) -> Run:
        names = {"bold": "b", "small": "s", "quiet": "q", "mono": "m", "marked": "u",
                 "link": "l", "language": "lang"}
        return {short: getattr(self, name) for name, short in names.items()
                if getattr(self, name)}


def skipped(node: Element) -> bool:
    return (bool(SKIPPED & set(classes(node))) or node.tag in ("script", "style", "nav", "form")
            or _only_leads_on(node))


def _only_leads_on(node):
    """“Show the working of …” leads nowhere on paper; what it is of is said to listeners alone."""
    return node.tag == "a" and bool(node.text) and any("off" in classes(child) for child in node)


def runs_of(node: Element, ink: Ink, style: Style = Style()) -> list[Run]:  # noqa: B008
    """All that stands in an element, its own text first; ends are trimmed."""
    return _trimmed(_inside(node, ink, style, ""))


def _inside(node, ink, style, colour):
    style, colour = _styled(node, style), _colour(node, ink, colour)
    found, before = _text(node.text, style), None
    for child in node:
        made = _one(child, ink, style, colour)
        if made and before is not None and "br" not in made[0]:
            found.append({"t": " · " if child.tag == before == "span" else " ", **style.said()})
        found += made + _text(child.tail, style)
        before = None if child.tail or child.tag == "svg" or not made else child.tag
    return found


def _one(node, ink, style, colour):
    if skipped(node):
        return []
    if node.tag == "svg":
        return [_drawn(node, ink, colour)]
    if node.tag == "math":
        tree = formula_of(node)
        return [{"math": tree, "alt": in_words(tree, ink.say)}]
    inside = _inside(node, ink, style, colour)
    return [{"br": True}, *inside] if node.tag in LINES else inside


def _styled(node, style):
    names = classes(node)
    href = node.get("href", "") if node.tag == "a" else ""
    return replace(
        style, bold=node.tag != "small" and (style.bold or node.tag in BOLD),
        small=style.small or node.tag == "small",
        quiet=style.quiet or "quiet" in names or node.tag == "small",
        mono=style.mono or node.tag == "code" or "code" in names,
        marked=style.marked or node.tag == "mark",
        link=href if href.startswith("http") else style.link,
        language=_language(node) or style.language)


def _language(node):
    """The language of a BCP 47 tag, without script and region; "" where it is none."""
    first = node.get("lang", "").lower().partition("-")[0]
    return first if LANGUAGE.fullmatch(first) else ""


def _colour(node, ink, colour):
    return next((ink.styles[name]["color"] for name in classes(node)
                 if "color" in ink.styles.get(name, {})), colour)


def _drawn(node, ink, colour):
    box = (node.get("viewBox") or "0 0 24 12").split()
    width, height = float(box[2]), float(box[3])
    given = Element("svg", {**node.attrib, "stroke": "currentColor", "fill": "none",
                            "stroke-width": "1.4"})
    given.extend(list(node))
    return {"pic": standalone(given, width, height, ink, colour), "w": round(width * PX * .8, 2),
            "h": round(height * PX * .8, 2)}


def _text(text, style):
    plain = _SPACE.sub(" ", text or "")
    return [{"t": plain, **style.said()}] if plain else []


def _trimmed(runs):
    """No line begins or ends with a space, none is empty, and words are joined."""
    found: list[Run] = []
    for run in runs:
        if "br" in run:
            if not found or "br" in found[-1]:
                continue
            _end_line(found)
        elif "t" in run and (not found or "br" in found[-1]):
            run = run | {"t": run["t"].lstrip(" ")}
            if not run["t"]:
                continue
        found.append(run)
    while found and ("br" in found[-1] or not found[-1].get("t", "x").strip(" ")):
        found.pop()
    _end_line(found)
    return found


def _end_line(found):
    while found and "t" in found[-1] and not found[-1]["t"].strip(" "):
        found.pop()
    if found and "t" in found[-1]:
        found[-1] = found[-1] | {"t": found[-1]["t"].rstrip(" ")}


def spoken(node: Element) -> str:
    """What a drawing says to who cannot see it: its title, and its description."""
    return " ".join(text_of(child) for child in node if child.tag in ("title", "desc"))
