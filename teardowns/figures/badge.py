"""A verdict to embed elsewhere: a drawing of its own, without script, style sheet or font file."""
from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from .markup import element, escape

HEIGHT, PAD, MARK = 64, 10, 54           # px; MARK: the field of the site's sign
FIRST, NEXT = 19, 17                     # px, to the first base line and from one to the next
# px, of 12 px sans-serif in the widest face named below: a little more than the average
LETTER, BOLD = 6.5, 7.3
BOLD_LINE = 1
INK, QUIET, PAPER = "#17222d", "#4c5964", "#f6f7f4"


def badge(lines: Sequence[str], said: str) -> str:
    """Three lines beside the site's sign. said : the same for who cannot see it"""
    width = ceil(MARK + 2 * PAD + max(map(_wide, range(len(lines)), lines), default=0))
    frame = element("rect", x=".5", y=".5", width=width - 1, height=HEIGHT - 1, fill=PAPER,
                    stroke=INK, rx=2)
    words = "".join(
        element("text", escape(line), x=MARK + PAD, y=FIRST + place * NEXT,
                fill=INK if place == BOLD_LINE else QUIET,
                font_weight="700" if place == BOLD_LINE else None)
        for place, line in enumerate(lines))
    return element(
        "svg", element("title", escape(said)), frame, _sign(), words,
        xmlns="http://www.w3.org/2000/svg", width=width, height=HEIGHT,
        viewBox=f"0 0 {width} {HEIGHT}", role="img", font_size=12,
        font_family="system-ui, Segoe UI, Roboto, DejaVu Sans, sans-serif")


def _wide(place, line):
    return len(line) * (BOLD if place == BOLD_LINE else LETTER)


def _sign():
    """What lies under the plate: a plate, lifted on one side, over an open field."""
    field = element("rect", x=0, y=0, width=MARK, height=HEIGHT, fill=INK, rx=2)
    plate = element("path", d="M12 26l28-9v6l-28 9z", fill=PAPER)
    below = element("path", d="M12 44h30M12 38h18", stroke=PAPER, stroke_width=2.5, fill="none")
    return field + plate + below
