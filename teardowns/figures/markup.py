"""Build HTML and SVG elements; attribute values are escaped, contents must be markup already."""
from html import escape

__all__ = ["element", "escape", "percent", "picture", "pinned"]

# Without contents these are closed at once: a comparison of six has a thousand of them.
SHAPES = frozenset(("circle", "ellipse", "line", "path", "polygon", "polyline", "rect", "use"))


def element(name: str, *contents: str, **attributes: object) -> str:
    """One element. `cls` is the class; `_` in a name is `-`; None leaves an attribute out."""
    written = "".join(
        f' {_attribute_name(key)}="{escape(str(value))}"'
        for key, value in attributes.items()
        if value is not None
    )
    if not contents and name in SHAPES:
        return f"<{name}{written}/>"
    return f"<{name}{written}>{''.join(contents)}</{name}>"


def _attribute_name(key: str) -> str:
    return "class" if key == "cls" else key.replace("_", "-")


def percent(share: float) -> str:
    return f"{share:.2f}%"


def picture(contents: str, title: str = "", translate: str | None = None) -> str:
    """The drawing that fills one cell; without a title it is decoration to a screen reader.

    translate : "no" where the title is in the reader's language already
    """
    if not title:
        return element("svg", contents, aria_hidden="true")
    spoken = element("title", escape(title), translate=translate)
    return element("svg", spoken, contents, role="img")


def pinned(share: float, contents: str, y: str = "50%") -> str:
    """A glyph in pixels, its origin at a share of the width."""
    return element("svg", contents, x=percent(share), y=y, width="1", height="1")
