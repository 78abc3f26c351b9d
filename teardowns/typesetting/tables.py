"""A table of a page → rows of cells; around a graphic each drawing gets the size of its cell."""
from __future__ import annotations

from math import ceil
from typing import Any
from xml.etree.ElementTree import Element

from .drawings import Ink, standalone
from .html_tree import classes
from .runs import PX, Style, runs_of, spoken

Cell = dict[str, Any]
SCALE = (30, 48, 22)             # % of the width: name, scale, numbers
WIDTH = 481.0                    # pt, of a column of text: A4 less two margins of 20 mm
ROW, HEAD, FOOT, LINE = 30.0, 40.0, 56.0, 10.4        # pt, least heights; of a line of text
CHARACTER, SMALLER = 4.1, 0.88   # pt, a little more than the average; of a remark's letters
LANE = 20.0                      # pt, of a unit's lane in a row that several share
BESIDE = 10.0                    # px on either side of a scale
WIDEST, LEAST = 46, 5            # characters, of what weighs in the width of a column


def table_of(node: Element, ink: Ink, inside) -> dict[str, Any]:
    """inside : makes blocks of a cell that holds more than words"""
    names = classes(node)
    scale = "scale" in names
    parts = {"head": [], "body": [], "foot": []}
    for part, row in _rows(node):
        plain = scale and part != "head" and "group" not in classes(row)
        cells = [_cell(cell, ink, inside, scale, plain)
                 for cell in row if cell.tag in ("td", "th")]
        parts[part].append({"cells": cells, "height": _height(part, row, cells) if scale else 0,
                            "group": "group" in classes(row)})
    if scale:
        _draw(node, parts, ink)
    caption = next((child for child in node if child.tag == "caption"), None)
    shown = caption is not None and "off" not in classes(caption)
    return {"b": "table", "kind": "scale" if scale else "matrix" if "matrix" in names else "plain",
            "caption": runs_of(caption, ink) if shown else [], **parts,
            "columns": list(SCALE) if scale else _widths(parts)}


def _rows(node):
    for child in node:
        if child.tag == "tr":
            yield "body", child
        elif child.tag in ("thead", "tbody", "tfoot"):
            yield from ((_part(child), row) for row in child if row.tag == "tr")


def _part(node):
    return {"thead": "head", "tbody": "body", "tfoot": "foot"}[node.tag]


def _cell(node, ink, inside, scale, plain):
    names = classes(node)
    made: Cell = {"span": int(node.get("colspan") or 1)}
    if "r" in names or (scale and "val" in names):
        made["right"] = True
    if node.tag == "th":
        made["th"] = True
    if "differs" in names:
        made["differs"] = True
    marks = [name for name in ("S", "H", "M", "L", "here", "band") if name in names]
    if marks:
        made["marks"] = marks
    lanes = [child for child in node if "lane-values" in classes(child)]
    if scale and "plot" in names:
        made["runs"] = []
    elif lanes:
        made["lanes"] = [_in_one_line(item, ink) for item in lanes[0]]
        made["lane"] = LANE
    elif any(child.tag in ("ul", "ol", "table", "div") for child in node):
        made["inside"] = inside(node)
    else:
        made["runs"] = runs_of(_as_cell(node) if plain else node, ink, Style())
    return made


def _in_one_line(item, ink):
    runs = runs_of(item, ink)
    return [{"t": "  "} if "br" in run else run for run in runs]


def _as_cell(node):
    """A name beside a drawing is no heading to look at."""
    copy = Element("td", node.attrib)
    copy.text = node.text
    copy.extend(list(node))
    return copy


def _height(part, row, cells):
    """Of a row around a drawing: enough for the words beside it. [pt]"""
    least = {"head": HEAD, "foot": FOOT}.get(part, ROW)
    if part == "foot" and "low" in classes(row):
        least = ROW
    widths = [share / 100 * WIDTH - 8 for share in SCALE]
    needed = max((_lines(cell, width) for cell, width in zip(cells, widths, strict=False)),
                 default=1)
    lanes = max((len(cell.get("lanes", ())) for cell in cells), default=0)
    return max(least, needed * LINE + 7, lanes * LANE)


def _lines(cell, width):
    """How many lines its words take, counted line by line."""
    lines, characters = 0, 0.0
    for run in [*cell.get("runs", ()), {"br": True}]:
        if "br" in run:
            lines += max(1, ceil(characters * CHARACTER / width)) if characters else 0
            characters = 0
        else:
            characters += len(run.get("t", "mmmmm")) * (SMALLER if run.get("s") else 1.0)
    return lines


def _draw(node, parts, ink):
    """Each drawing as wide as the column of the scale and as high as its row."""
    flat = {"head": iter(parts["head"]), "body": iter(parts["body"]), "foot": iter(parts["foot"])}
    width = SCALE[1] / 100 * WIDTH / PX - 18
    for part, row in _rows(node):
        made = next(flat[part])
        for cell, drawn in zip([c for c in row if c.tag in ("td", "th")], made["cells"],
                               strict=True):
            svg = next((child for child in cell if child.tag == "svg"), None)
            if "plot" in classes(cell) and svg is not None:
                drawn |= {"pic": standalone(svg, width, made["height"] / PX, ink,
                                            beside=BESIDE),
                          "w": round(width * PX, 2), "h": made["height"], "alt": spoken(svg)}


def _widths(parts):
    """Shares by how much stands in each column, no column narrower than its longest word."""
    weights: list[float] = []
    for row in [row for rows in (parts["head"], parts["body"], parts["foot"]) for row in rows]:
        place = 0
        for cell in row["cells"]:
            if cell["span"] == 1:
                weights += [0.0] * (place + 1 - len(weights))
                weights[place] = max(weights[place], _weight(cell))
            place += cell["span"]
        weights += [0.0] * (place - len(weights))
    return [round(max(weight, LEAST), 1) for weight in weights]


def _weight(cell):
    words = "".join(map(_letters, cell.get("runs", ())))
    if "inside" in cell:
        return float(WIDEST)
    longest = max(map(len, words.split(" ")), default=0) * 1.35
    return max(longest, min(len(words), WIDEST))


def _letters(run):
    """What it takes, told in letters."""
    if "br" in run:
        return " "
    return "mmmm" if "pic" in run else run.get("t") or run["alt"].replace(" ", "")
