"""What stands in blocks, as one text."""

SAID = frozenset({"t", "runs", "inside", "rows", "cells", "items", "head", "body", "foot", "blocks",
                  "caption", "left", "right", "text"})


def words(node):
    if isinstance(node, dict):
        inside = "".join(words(value) for key, value in node.items() if key in SAID)
        return inside + ("\n" if "b" in node else "")
    if isinstance(node, list):
        return "".join(map(words, node))
    return node if isinstance(node, str) else ""
