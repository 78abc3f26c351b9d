"""Set a formula for a page: one line for each of its equations."""
from xml.etree import ElementTree

from django.utils.safestring import SafeString, mark_safe

NO_BREAK = "\u00a0"
CONTINUED = ("=", "≤", "≥", "<", ">")      # a piece without one belongs to the piece before it


def formula_lines(formula: str) -> list[SafeString]:
    """MathML elements, cut where the whole formula has a comma between two equations."""
    row = ElementTree.fromstring(formula).find("mrow")
    pieces: list[list[ElementTree.Element]] = [[]]
    for node in row:
        if node.tag == "mo" and node.text == ",":
            pieces.append([])
        else:
            pieces[-1].append(node)
    return [_line(nodes) for nodes in _whole_equations(pieces)]


def _whole_equations(pieces):
    """Join what a comma inside an equation has cut: `π for a bridge, 2π for half wave`."""
    found = []
    for nodes in pieces:
        if found and not any(n.tag == "mo" and n.text in CONTINUED for n in nodes):
            comma = ElementTree.Element("mo")
            comma.text = ","
            found[-1] += [comma, *nodes]
        else:
            found.append(list(nodes))
    return found


def _line(nodes) -> SafeString:
    math = ElementTree.Element("math", displaystyle="true")
    row = ElementTree.SubElement(math, "mrow")
    row.extend(nodes)
    for text in math.iter("mtext"):      # a space at either end would be dropped
        text.text = (text.text or "").replace(" ", NO_BREAK)
    return mark_safe(ElementTree.tostring(math, encoding="unicode"))
