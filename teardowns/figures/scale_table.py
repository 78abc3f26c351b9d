"""The table around a graphic: name, scale, numbers.

On phones its rows become grids, which drops table semantics in some browsers; the explicit roles
keep them.
"""
from collections.abc import Iterable

from .markup import element, escape, picture


def scale_table(
    cls: str, caption: str, heads: tuple[str, str, str], scale: str,
    rows: Iterable[str], foot: Iterable[str] = (),
) -> str:
    """The whole table. `heads` are text (the middle one is for screen readers), the rest markup."""
    name, axis, numbers = (escape(head) for head in heads)
    head = element(
        "tr",
        _head(name),
        _head(element("span", axis, cls="off") + picture(scale), "plot"),
        _head(numbers, "val"),
        role="row",
    )
    return element(
        "table",
        element("caption", escape(caption)),
        element("thead", head, role="rowgroup"),
        element("tbody", *rows, role="rowgroup"),
        *(element("tfoot", row, role="rowgroup") for row in foot),
        cls=f"scale {cls}", role="table",
    )


def scale_row(name: str, drawing: str, numbers: str, cls: str | None = None) -> str:
    """One row; all three cells are markup."""
    return element(
        "tr",
        element("th", name, scope="row", role="rowheader"),
        element("td", drawing, cls="plot", role="cell"),
        element("td", numbers, cls="val num", role="cell"),
        cls=cls, role="row",
    )


def linked(text: str, href: str) -> str:
    """A number with the link to its working, or plain when there is none."""
    return element("a", escape(text), href=href) if href else escape(text)


def _head(contents: str, cls: str | None = None) -> str:
    return element("th", contents, scope="col", role="columnheader", cls=cls)
