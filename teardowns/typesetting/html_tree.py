"""HTML as our templates write it → a tree of elements."""
from __future__ import annotations

from html.parser import HTMLParser
from xml.etree.ElementTree import Element, SubElement

VOID = frozenset({"br", "hr", "img", "input", "link", "meta", "wbr", "source"})
# The parser writes all names small; SVG minds.
_WRITTEN = {name.lower(): name for name in (
    "viewBox", "preserveAspectRatio", "patternUnits", "patternTransform", "patternContentUnits",
    "textLength", "lengthAdjust")}


def tree_of(html: str) -> Element:
    """An element `body` around it all. What is not closed ends with what it stands in."""
    builder = _Builder()
    builder.feed(html)
    builder.close()
    return builder.root


def classes(node: Element) -> list[str]:
    return (node.get("class") or "").split()


def text_of(node: Element) -> str:
    return " ".join("".join(node.itertext()).split())


class _Builder(HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.root = Element("body")
        self._open = [self.root]

    def handle_starttag(self, tag, attrs):
        given = {_WRITTEN.get(name, name): value or "" for name, value in attrs}
        node = SubElement(self._open[-1], tag, given)
        if tag not in VOID:
            self._open.append(node)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._open.pop()

    def handle_endtag(self, tag):
        depth = next((i for i in range(len(self._open) - 1, 0, -1) if self._open[i].tag == tag), 0)
        if depth:
            del self._open[depth:]

    def handle_data(self, data):
        parent = self._open[-1]
        if len(parent):
            parent[-1].tail = (parent[-1].tail or "") + data
        else:
            parent.text = (parent.text or "") + data
