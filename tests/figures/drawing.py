"""Read a drawing back: parse the markup and look marks up by class."""
from xml.etree import ElementTree


def parsed(markup):
    """The markup as a tree; it must be well-formed, or the test that calls this fails."""
    return ElementTree.fromstring(f"<root>{markup}</root>")


def of_class(tree, cls):
    return [node for node in tree.iter() if cls in node.get("class", "").split()]


def share(node, attribute="x1"):
    """A position in percent as a number."""
    return float(node.get(attribute).removesuffix("%"))


def words(tree):
    return " ".join("".join(tree.itertext()).split())
