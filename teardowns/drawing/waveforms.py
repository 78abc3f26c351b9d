"""The bench's record: loads that were held or lost, and the traces whose numbers were written."""
from __future__ import annotations

from collections.abc import Callable
from math import ceil, exp, pi, sin

from teardowns.drawing.colours import ACCENT, EDGE, INK, INK_2, RULE, WASH
from teardowns.drawing.lettering import wrapped
from teardowns.drawing.picture import Mark, Picture
from teardowns.drawing.sheet import MARGIN, WIDTH, Box, Sheet
from teardowns.drawing.words import Document, Row, measured, name_of, recorded

BARS_LEFT, BARS_RIGHT, BARS_TOP, BARS_BOTTOM = 560.0, 1330.0, 190.0, 1010.0
SCREEN, TRACE = "#22303a", "#bfe3d6"
MOST = 14               # loads on one picture
_LOADS = {"sustained_power": "held", "failed_power": "lost regulation", "peak_power": "peak"}


def load_tests(document: Document) -> list[Picture]:
    """One picture, where loads were put on the outputs."""
    rows = [row for row in recorded(document["measurements"]) if row["quantity"] in _LOADS]
    return [_loads(document, rows[:MOST])] if rows else []


def _loads(document: Document, rows: list[Row]) -> Picture:
    sheet = Sheet("Load tests", name_of(document))
    most = max(row["value"] for row in rows)
    step = _step(most)
    top = step * ceil(most * 1.02 / step)
    pitch = min((BARS_BOTTOM - BARS_TOP) / len(rows), 150.0)
    _axis(sheet, top, step, BARS_TOP + pitch * len(rows) + 10)
    marks = [_bar(sheet, row, BARS_TOP + pitch * (index + .5), min(pitch * .36, 36.0), top)
             for index, row in enumerate(rows)]
    sheet.text((MARGIN, 1110), "Bars: output power. A cross: regulation was lost there.", 24, INK_2)
    words = "; ".join(f"{_LOADS[row['quantity']]} {row['value']:g} W" for row in rows)
    return Picture("load-tests", "waveforms", "Loads that the unit held, and at which it let go.",
                   f"Bars of output power: {words}."[:900], sheet.finished(), tuple(marks))


def _step(power: float) -> float:
    """A round step that divides an axis up to a power into five parts or a little more."""
    return next(step * 10.0 ** tens for tens in range(-2, 4) for step in (1, 2, 5)
                if step * 10.0 ** tens * 6 >= power)


def _axis(sheet: Sheet, top: float, step: float, bottom: float) -> None:
    for index in range(round(top / step) + 1):
        x = BARS_LEFT + index * step / top * (BARS_RIGHT - BARS_LEFT)
        sheet.line([(x, BARS_TOP - 20), (x, bottom)], RULE, 2)
        sheet.text((x, bottom + 26), f"{step * index:g} W", 22, INK_2, "m")


def _bar(sheet: Sheet, row: Row, y: float, half: float, top: float) -> Mark:
    x = BARS_LEFT + row["value"] / top * (BARS_RIGHT - BARS_LEFT)
    box = (BARS_LEFT, y - half, x, y + half)
    if row["quantity"] == "sustained_power":
        sheet.box(box, ACCENT)
    else:
        sheet.box(box, WASH, EDGE, 2)
        for side in (-1, 1):
            sheet.line([(x - 14, y - 14 * side), (x + 14, y + 14 * side)], INK, 4)
    sheet.text((BARS_LEFT - 24, y - 12), f"{_LOADS[row['quantity']]} {row['value']:g} W", 25, INK,
               "r", bold=True)
    sheet.text((BARS_LEFT - 24, y + 16), _conditions(row), 20, INK_2, "r")
    return Mark("box", (box[:2], box[2:]), f"{_LOADS[row['quantity']]} {row['value']:g} W",
                f"measurement/{row['key']}")


def _conditions(row: Row) -> str:
    """ "20 V, 30 min, mains 230 V" """
    volts, long, mains = (row.get(key) for key in ("output_voltage", "duration", "mains_voltage"))
    time = None if not long else f"{long / 60:g} min" if long >= 60 else f"{long:g} s"
    port = f"port {row['port']}" if row.get("port") else None
    return ", ".join(part for part in (
        port, f"at {volts:g} V" if volts else None, f"for {time}" if time else None,
        f"mains {mains:g} V" if mains else None) if part)


def traces(document: Document) -> list[Picture]:
    """One picture of what an oscilloscope gave, as far as numbers of it were written down."""
    rows = [row for code in ("switching_frequency", "ripple_voltage")
            if (row := measured(document, code))]
    return [_traces(document, rows)] if rows else []


def _traces(document: Document, rows: list[Row]) -> Picture:
    sheet = Sheet("Oscilloscope", name_of(document))
    tall = (1060 - 170) / len(rows)
    marks = []
    for index, row in enumerate(rows):
        screen = (MARGIN, 170 + index * tall, WIDTH - 460, 140 + (index + 1) * tall)
        draw = _switching if row["quantity"] == "switching_frequency" else _ripple
        marks.append(draw(sheet, row, screen))
    sheet.text((MARGIN, 1110), "Periods and heights are those that were written down; the shapes "
               "are the usual ones.", 24, INK_2)
    return Picture("traces", "waveforms", "Traces redrawn from the numbers that were written "
                   "down. Their shape is the usual one.", "Oscilloscope screens: "
                   + "; ".join(mark.label for mark in marks) + ".", sheet.finished(),
                   tuple(marks))


def _screen(sheet: Sheet, screen: Box) -> None:
    left, top, right, bottom = screen
    sheet.box(screen, SCREEN, INK, 3, 8)
    for index in range(1, 10):
        x = left + index / 10 * (right - left)
        sheet.line([(x, top + 3), (x, bottom - 3)], "#3a4a55", 1)
    for index in range(1, 8):
        y = top + index / 8 * (bottom - top)
        sheet.line([(left + 3, y), (right - 3, y)], "#3a4a55", 1)


def _trace(sheet: Sheet, screen: Box, height: Callable[[float], float]) -> None:
    """A line across the screen. height : of a time in screens → -1 to 1"""
    left, top, right, bottom = screen
    points = [(left + 4 + (right - left - 8) * i / 2000,
               (top + bottom) / 2 - height(i / 2000) * (bottom - top) * .42)
              for i in range(2001)]
    sheet.line(points, TRACE, 3)


def _switching(sheet: Sheet, row: Row, screen: Box) -> Mark:
    """What a pick-up loop sees: a ringing spike at each of the switch's two edges."""
    period = 1 / row["value"]
    per_division = _next_time(period / 3.5)
    across = 10 * per_division
    first = across * .12

    def height(share: float) -> float:
        since = (share * across - first) % period / period
        started = share * across >= first - period * .6
        return started * (.75 * _ring(since) - .4 * _ring((since - .38) % 1))

    _screen(sheet, screen)
    _trace(sheet, screen, height)
    x0 = screen[0] + first / across * (screen[2] - screen[0])
    x1 = x0 + period / across * (screen[2] - screen[0])
    y = screen[1] + 44
    sheet.line([(x0, y), (x1, y)], TRACE, 3)
    for x in (x0, x1):
        sheet.line([(x, y - 12), (x, y + 12)], TRACE, 3)
    sheet.text(((x0 + x1) / 2, y - 22), f"{period * 1e6:.1f} µs", 24, TRACE, "m")
    label = f"switching at {row['value'] / 1e3:.0f} kHz"
    _beside(sheet, screen, ("Switching", f"{row['value'] / 1e3:.0f} kHz",
                            f"{per_division * 1e6:g} µs a division", row["instrument"]))
    return Mark("line", ((x0, y), (x1, y)), label, f"measurement/{row['key']}")


def _ring(since: float) -> float:
    """A decaying ring after an edge; since : in periods"""
    return exp(-since * 14) * sin(2 * pi * since * 13 + .9)


def _next_time(least: float) -> float:
    return next(step * 10.0 ** tens for tens in range(-9, 0) for step in (1, 2, 5)
                if step * 10.0 ** tens >= least)


def _ripple(sheet: Sheet, row: Row, screen: Box) -> Mark:
    """Ripple of the output: its height from peak to peak is the recorded one."""
    millivolts = row["value"] * 1e3
    per_division = _next_time(row["value"] / 5) * 1e3
    reach = millivolts / per_division / 8 / 2 / .42

    def height(share: float) -> float:
        saw = 1 - 2 * (share * 6 % 1)
        return reach * saw

    _screen(sheet, screen)
    _trace(sheet, screen, height)
    middle, x = (screen[1] + screen[3]) / 2, screen[2] - 60
    half = millivolts / per_division / 8 * (screen[3] - screen[1]) / 2
    for y in (middle - half, middle + half):
        sheet.line([(x - 40, y), (x + 20, y)], TRACE, 2)
    sheet.text((x - 50, middle - half - 24), f"{millivolts:.0f} mV", 24, TRACE, "m")
    _beside(sheet, screen, ("Ripple of the output", f"{millivolts:.0f} mV peak to peak",
                            f"{per_division:g} mV a division", row["instrument"]))
    return Mark("line", ((x, middle - half), (x, middle + half)),
                f"ripple {millivolts:.0f} mV peak to peak", f"measurement/{row['key']}")


def _beside(sheet: Sheet, screen: Box, lines: tuple[str, ...]) -> None:
    y = screen[1] + 30
    for index, line in enumerate(lines):
        size = 28.0 if index == 0 else 23.0
        for piece in wrapped(line, size, WIDTH - MARGIN - screen[2] - 40):
            sheet.text((screen[2] + 40, y), piece, size, INK if index < 2 else INK_2,
                       bold=index == 0)
            y += size * 1.45
