"""Marks on a picture as W3C Web Annotations, and their points as people type them.

W3C Web Annotation Data Model, 2017: an SvgSelector holds one shape in the picture's pixels; a box
is a FragmentSelector (Media Fragments 1.0, 4.2.2), which knows whole pixels only.
"""
import math
import re
from dataclasses import dataclass
from xml.etree import ElementTree

from .points import SHAPES, Points, checked, parsed_points, printed_number, printed_points

CONTEXT = "http://www.w3.org/ns/anno.jsonld"
SVG = "http://www.w3.org/2000/svg"
FRAGMENTS = "http://www.w3.org/TR/media-frags/"
ELEMENTS = {"point": "circle", "line": "line", "path": "polyline", "polygon": "polygon"}
LONGEST_LABEL, LONGEST_NAME, LONGEST_SVG = 200, 80, 20_000
NAME = re.compile(r"[a-z_]+/[\w.:-]+")
BOX = re.compile(r"xywh=pixel:(\d{1,6}),(\d{1,6}),(\d{1,6}),(\d{1,6})", re.ASCII)


@dataclass(frozen=True)
class Mark:
    shape: str
    points: Points            # px, as shown
    label: str
    shows: str                # "component/bulk-1", or "" for nothing in particular


def written(shape: str, points: Points, label: str, shows: str, source: str) -> dict:
    """The annotation as JSON-LD. A box grows to whole pixels; other points keep one decimal.

    source : address of the picture; the annotation's own address is added where it has one
    """
    if shape != "box":
        points = tuple((round(x, 1), round(y, 1)) for x, y in points)
    checked(shape, points)
    _check_words(label, shows)
    selector = _box_selector(points) if shape == "box" else {
        "type": "SvgSelector", "value": _svg(shape, points)}
    bodies: list[dict] = []
    if label:
        bodies.append({"type": "TextualBody", "value": label, "purpose": "describing"})
    if shows:
        bodies.append({"type": "SpecificResource", "source": shows, "purpose": "identifying"})
    return {"@context": CONTEXT, "type": "Annotation", "body": bodies,
            "target": {"source": source, "selector": selector}}


def read(body: object) -> Mark:
    """The mark that an annotation holds; ValueError where it is none of ours."""
    annotation = _fields(body, "The annotation", required={"type", "body", "target"},
                         optional={"@context", "id", "motivation", "created", "modified",
                                   "creator"})
    if annotation["type"] != "Annotation":
        raise ValueError("The annotation's type must be “Annotation”.")
    target = _fields(annotation["target"], "The annotation's target",
                     required={"source", "selector"}, optional={"type"})
    shape, points = _selected(target["selector"])
    label, shows = _words(annotation["body"])
    return Mark(shape, checked(shape, points), label, shows)


def _svg(shape, points):
    attributes = _attributes(shape, points)
    printed = " ".join(f'{name}="{value}"' for name, value in attributes.items())
    return f'<svg xmlns="{SVG}"><{ELEMENTS[shape]} {printed}/></svg>'


def _attributes(shape, points):
    if shape == "point":
        (x, y), = points
        return {"cx": printed_number(x), "cy": printed_number(y), "r": "1"}
    if shape == "line":
        return dict(zip(("x1", "y1", "x2", "y2"),
                        (printed_number(v) for point in points for v in point), strict=True))
    return {"points": printed_points(points)}


def _box_selector(points):
    (left, right), (top, bottom) = (sorted(v) for v in zip(*points, strict=True))
    left, top, right, bottom = map(int, (math.floor(left), math.floor(top), math.ceil(right),
                                         math.ceil(bottom)))
    return {"type": "FragmentSelector", "conformsTo": FRAGMENTS,
            "value": f"xywh=pixel:{left},{top},{right - left},{bottom - top}"}


def _selected(selector):
    kind = selector.get("type") if isinstance(selector, dict) else None
    if kind == "FragmentSelector":
        fields = _fields(selector, "The selector", {"type", "value"}, {"conformsTo"})
        return "box", _box_points(fields["value"])
    if kind == "SvgSelector":
        return _svg_points(_fields(selector, "The selector", {"type", "value"}, set())["value"])
    raise ValueError("The annotation's selector must be an SvgSelector or a FragmentSelector.")


def _box_points(value):
    if not (isinstance(value, str) and (found := BOX.fullmatch(value))):
        raise ValueError("A box must be written as “xywh=pixel:x,y,width,height” in whole pixels.")
    x, y, width, height = (float(v) for v in found.groups())
    return (x, y), (x + width, y + height)


def _svg_points(value):
    element = _only_element(value)
    shapes = {f"{{{SVG}}}{name}": shape for shape, name in ELEMENTS.items()}
    if (shape := shapes.get(element.tag)) is None:
        raise ValueError("The SVG of an annotation must hold a circle, line, polyline or polygon.")
    given = dict(element.attrib)
    if shape == "point":
        points = _numbered(given, (("cx", "cy"),))
        if given.pop("r", None) != "1":
            raise ValueError("A point must be a circle with r=\"1\": no other circle is a mark.")
    elif shape == "line":
        points = _numbered(given, (("x1", "y1"), ("x2", "y2")))
    else:
        points = parsed_points(given.pop("points", ""))
    if given:
        raise ValueError(f"The SVG of an annotation carries what no mark has: {sorted(given)[0]}.")
    return shape, points


def _only_element(value):
    """The one shape in an SVG. Declarations are refused unread: they can grow without bound."""
    wrong = ValueError("The annotation's SVG cannot be read: it must be one svg element with one "
                       "shape in it.")
    if not isinstance(value, str) or len(value) > LONGEST_SVG or "<!" in value or "<?" in value:
        raise wrong
    try:
        root = ElementTree.fromstring(value)
    except (ElementTree.ParseError, UnicodeError):
        raise wrong from None
    if root.tag != f"{{{SVG}}}svg" or root.attrib or len(root) != 1 or len(root[0]):
        raise wrong
    return root[0]


def _numbered(given, names):
    return parsed_points(" ".join(f"{given.pop(x, '')},{given.pop(y, '')}" for x, y in names))


def _words(bodies):
    found = {"describing": "", "identifying": ""}
    keys = {"describing": ("TextualBody", "value"), "identifying": ("SpecificResource", "source")}
    for body in bodies if isinstance(bodies, list) else [bodies]:
        purpose = body.get("purpose") if isinstance(body, dict) else None
        if purpose not in found or found[purpose]:
            raise ValueError("An annotation has at most one body that describes it and one that "
                             "identifies what it shows.")
        kind, key = keys[purpose]
        fields = _fields(body, "The annotation's body", {"type", "purpose", key}, set())
        if fields["type"] != kind or not isinstance(fields[key], str) or not fields[key]:
            raise ValueError(f"A body that is {purpose} must be a {kind} with its {key} as text.")
        found[purpose] = fields[key]
    _check_words(found["describing"], found["identifying"])
    return found["describing"], found["identifying"]


def _check_words(label, shows):
    if len(label) > LONGEST_LABEL:
        raise ValueError(f"The label must not be longer than {LONGEST_LABEL} characters.")
    if shows and not (len(shows) <= LONGEST_NAME and NAME.fullmatch(shows)):
        raise ValueError("What a mark shows is named as “component/bulk-1”: what kind of thing it "
                         "is, and its key.")


def _fields(value, what, required, optional):
    if not isinstance(value, dict):
        raise ValueError(f"{what} must be an object.")
    if missing := required - set(value):
        raise ValueError(f"{what} lacks “{sorted(missing)[0]}”.")
    if unknown := set(value) - required - optional:
        raise ValueError(f"{what} carries something unknown: “{sorted(map(str, unknown))[0]}”.")
    return value


__all__ = ["SHAPES", "Mark", "checked", "parsed_points", "printed_points", "read", "written"]
