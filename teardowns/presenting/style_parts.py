"""Awkward contents of parts about people and versions, for the style guide."""
from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from django.utils.safestring import mark_safe

from teardowns.figures.marks import review_mark, verdict_chip
from teardowns.writing import render

from .difference_sheet import DifferentList, DifferentRow, Reviewed
from .difference_words import Line
from .discussion_thread import REMOVED, WAITS, ShownComment
from .evidence_tables import Cell
from .review_items import NOTHING_SHOWS, Item, Shown
from .search_also import Also
from .sister_boards import Lent, Named, Origin, SisterBoards
from .style_samples import LONG
from .verdict_difference import WasNow

HERE = "#search"
SAID = f"The slot is *not* so: {LONG}\n\n> 5.2 mm\n\n- `QX5500`\n- <b>no markup</b>"


def search() -> dict[str, Any]:
    """What stands in place of rows, and beside them."""
    return {"near": [("maker", "Orbanel & Söhne", HERE), ("model", LONG, HERE),
                     ("marking", "<QX5500>", HERE)],
            "also": [Also("part", "QX5500EUSWB", "flyback controller", HERE),
                     Also("board family", LONG, "", HERE)]}


def printout_steps() -> list[tuple[str, bool, bool]]:
    """What was done, is being done and waits."""
    return [("The record is read", True, False), ("The pages are set", False, True),
            ("The file is checked", False, False)]


def sisters() -> dict[str, Any]:
    """Sister boards that lend, contradict and leave a question open."""
    origin = Origin("#sisters", "unit 1234567, version 12")
    chips = [mark_safe(verdict_chip(word)) for word in ("no evidence", "doubtful")]
    return {"alike": [SimpleNamespace(address="#sisters", name="unit 12", score="0.83",
                                      words="primary controller, core and primary turns")],
            "sisters": SisterBoards(
                ["#sisters"], [f"With what sister boards showed, this claim would be doubtful, not "
                               f"“no evidence”: “{LONG}”."],
                [WasNow(f"“{LONG}”", *chips, ("", "plausibility 0.31"))],
                [Lent("Primary turns", "117 ± 13", origin, "not looked at here")],
                [Named("bulk capacitor 15 µF there, 4.7 µF here", origin)],
                ["Units 8 and 9 differ in their core."],
                [Named("the creepage falls short", origin)])}


def review_item() -> Item:
    """A row that somebody else disputed, with words that are too long."""
    return Item(
        anchor="row-sample", ref="component/sample", version=1, name=LONG,
        cells=[Cell("Value", mark_safe("222 1KV Y1 &lt;JN&gt;")),
               Cell("How obtained", mark_safe("read off"))],
        printed="OUTPUT: 5V⎓2A <b>", shown=Shown(NOTHING_SHOWS),
        rests=["the verdict on “5V⎓2A”"], state=mark_safe(review_mark("disputed", "disputed")),
        entered="alma, 2026-02-28 23:59 UTC", is_asked=True, is_own=False, decision="", reason="",
        mine="", others=["Another reviewer disputed it: “The second letter is a B.”"],
        own_reading="", measure="")


def comments() -> list[ShownComment]:
    """One with all that a comment can have, one that waits, and the place where one stood."""
    return [_comment(1, LONG, html=mark_safe(render(SAID)), edited="2026-03-01 00:01 UTC",
                     about="Marking", about_href="#discussion"),
            _comment(2, "bo", html=mark_safe(render("Why?")), remarks=(WAITS,), is_held=True),
            _comment(3, "", role="", tombstone=REMOVED.format("personal data"))]


def _comment(key, author, *, role="contributor of this record", **said):
    usual = {"edited": "", "html": mark_safe(""), "tombstone": "", "remarks": (), "about": "",
             "about_href": "", "is_own": False, "may_change": False, "may_retract": False,
             "may_moderate": False, "is_held": False}
    return ShownComment(pk=key, anchor=f"comment-{key}", author=author, role=role,
                        at="2026-02-28T23:59:00Z", when="2026-02-28 23:59 UTC", **usual | said)


def difference() -> dict[str, Any]:
    """Rows that came, went and changed, and a verdict that moved with them."""
    rows = [DifferentRow("Gap, core to pin", "changed", [Line("value", "2.2 mm", "5.2 mm"),
                                                        Line("note", "not stated", LONG)]),
            DifferentRow("Y capacitor", "added", [Line("marking", "", "222 1KV Y1")]),
            DifferentRow("Fuse", "removed", [Line("marking", "T1A <250 V>", "")])]
    lists = [DifferentList("difference-parts", "Parts", "1 added, 1 removed, 1 changed", rows,
                           [Reviewed("open", "confirmed", ["Bulk capacitor", LONG])])]
    chips = [mark_safe(verdict_chip(word)) for word in ("possible", "implausible")]
    verdicts = {"rulebooks": "", "nothing": "", "unseen": "",
                "tables": [("Claims", [WasNow(f"“{LONG}”", *chips)])]}
    return {"summary": "Differences in parts.", "lists": lists, "verdicts": verdicts}
