"""The connectors from the front, to scale, and what the data lines lead to."""
from __future__ import annotations

from teardowns.drawing.colours import EDGE, INK, INK_2, METAL, METAL_DARK, PLASTIC, SHEET, TIN
from teardowns.drawing.lettering import fitting_size, wrapped
from teardowns.drawing.picture import Mark, Picture, Scale
from teardowns.drawing.sheet import MARGIN, WIDTH, Box, Sheet
from teardowns.drawing.words import CONNECTORS, Document, Row, name_of
from teardowns.engine.physics.power_objects import (
    Adjustable,
    Battery,
    Fixed,
    PowerObjectError,
    Programmable,
    Variable,
    decode,
    read_word,
)

PER_MM = 30.0
MIDDLE = 300.0          # y of the connectors
LINES = 560.0           # y where the words begin
# Openings, mm: USB 2.0 and USB Type-C specifications (from memory).
USB_A, USB_C, MICRO_B = (12.5, 5.12), (8.34, 2.56), (7.5, 2.5)
_WIRING = {"open": "D+ and D- lead nowhere", "shorted": "D+ and D- joined",
           "divider": "D+ and D- on dividers", "chip": "data lines lead to a chip",
           "": "data lines not looked at"}


def port_faces(document: Document) -> list[Picture]:
    """One picture of all the connectors that were looked at."""
    ports = document["ports"]
    if not any(port["state"] == "recorded" for port in ports):
        return []
    return [_faces(document, ports)]


def _faces(document: Document, ports: list[Row]) -> Picture:
    sheet = Sheet("Output connectors", name_of(document))
    pitch = (WIDTH - 2 * MARGIN) / len(ports)
    per_mm = min(PER_MM, (pitch - 60) / 16)
    marks = []
    for index, port in enumerate(ports):
        x = MARGIN + pitch * (index + .5)
        box = _connector(sheet, port, (x, MIDDLE), per_mm)
        marks.append(Mark("box", (box[:2], box[2:]),
                          f"{port['label']}, {CONNECTORS[port['connector']]}",
                          f"port/{port['key']}"))
        _words(sheet, port, x, pitch - 50)
    ends = sheet.ruler((WIDTH / 2 - 10 * per_mm, 1030), per_mm, 20)
    alt = "; ".join(f"{p['label']}: {CONNECTORS[p['connector']]}, {', '.join(_facts(p)[:1])}"
                    for p in ports)
    return Picture("ports", "ports", "Output connectors from the front, and what their data lines "
                   "lead to.", alt[:900], sheet.finished(), tuple(marks),
                   Scale(ends, (0.02,), 5e-5, "the front of the connectors"))


def _connector(sheet: Sheet, port: Row, at: tuple[float, float], per_mm: float) -> Box:
    draw = {"usb_a": _usb_a, "usb_c": _usb_c, "micro_b": _micro_b}.get(port["connector"], _plug)
    return draw(sheet, port, at, per_mm)


def _opening(at: tuple[float, float], size: tuple[float, float], per_mm: float,
             wall: float) -> Box:
    wide, high = (side * per_mm / 2 + wall for side in size)
    return at[0] - wide, at[1] - high, at[0] + wide, at[1] + high


def _usb_a(sheet: Sheet, port: Row, at: tuple[float, float], per_mm: float) -> Box:
    """The shell, its tongue and four contacts."""
    outer, inner = (_opening(at, USB_A, per_mm, wall) for wall in (10, 0))
    sheet.box(outer, METAL, INK, 3, 6)
    sheet.box(inner, "#2c3640", INK, 2)
    left, top, right, bottom = inner
    tongue = (left + .8 * per_mm, top + .5 * per_mm, right - .8 * per_mm, top + 2.3 * per_mm)
    sheet.box(tongue, SHEET, EDGE, 2)
    for offset in (-3.5, -1.0, 1.0, 3.5):       # USB 2.0, figure of the Standard-A receptacle
        sheet.box((at[0] + (offset - .5) * per_mm, tongue[3] - .5 * per_mm,
                   at[0] + (offset + .5) * per_mm, tongue[3]), "#c9a878", INK, 1)
    return outer


def _usb_c(sheet: Sheet, port: Row, at: tuple[float, float], per_mm: float) -> Box:
    outer, inner = (_opening(at, USB_C, per_mm, wall) for wall in (10, 0))
    sheet.box(outer, METAL, INK, 3, (outer[3] - outer[1]) / 2)
    sheet.box(inner, "#2c3640", INK, 2, (inner[3] - inner[1]) / 2)
    sheet.box((at[0] - 3.3 * per_mm, at[1] - .35 * per_mm, at[0] + 3.3 * per_mm,
               at[1] + .35 * per_mm), PLASTIC, EDGE, 2, 4)
    for index in range(12):                     # two rows of twelve contacts, 0.5 mm apart
        x = at[0] + (index - 5.5) * .5 * per_mm
        for up in (-.35, .2):
            sheet.box((x - .13 * per_mm, at[1] + up * per_mm, x + .13 * per_mm,
                       at[1] + (up + .15) * per_mm), "#c9a878")
    return outer


def _micro_b(sheet: Sheet, port: Row, at: tuple[float, float], per_mm: float) -> Box:
    outer = _opening(at, MICRO_B, per_mm, 8)
    sheet.box(outer, METAL, INK, 3, 16)
    sheet.box(_opening(at, MICRO_B, per_mm, 0), "#2c3640", INK, 2, 10)
    return outer


def _plug(sheet: Sheet, port: Row, at: tuple[float, float], per_mm: float) -> Box:
    """A coaxial plug from the front, or a plain block for other connectors."""
    radius = 2.75 * per_mm * 1.6
    if port["connector"] != "barrel":
        box = (at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius)
        sheet.box(box, TIN, INK, 3, 10)
        return box
    sheet.disc(at, 4.6 * per_mm, PLASTIC, INK, 3)
    sheet.disc(at, 2.75 * per_mm, METAL, INK, 3)
    sheet.disc(at, 1.9 * per_mm, PLASTIC, INK, 2)
    sheet.disc(at, 1.05 * per_mm, "#1c242b", METAL_DARK, 2)
    reach = 4.6 * per_mm
    return at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach


def _facts(port: Row) -> list[str]:
    if port["state"] != "recorded":
        return ["not looked at yet"]
    usb = port["connector"] in ("usb_a", "usb_c", "micro_b")
    facts = [_WIRING[port["wiring"]]] if usb else []
    contacts = port.get("high_current_contacts")
    if contacts is not None:
        facts.append("contacts for more than the standard current" if contacts
                     else "contacts for the standard current")
    if port.get("cc_current"):
        facts.append(f"CC pull-up advertises {port['cc_current']:g} A")
    return [*facts, *([port["note"].rstrip(".")] if port["note"] else []), *_offers(port)]


def _offers(port: Row) -> list[str]:
    words = port["advertised"]
    if not words:
        return []
    return ["offers: " + ", ".join(_offer(word, index == 0)
                                   for index, word in enumerate(words))]


def _offer(text: str, first: bool) -> str:
    """ "9 V 3 A", or the word itself where it names nothing known."""
    try:
        item = decode(read_word(text), first)
    except PowerObjectError:
        return text
    if isinstance(item, Fixed):
        return f"{item.voltage:g} V {item.current:g} A".replace(" ", "\u00a0")
    how_much = (f" {item.current:g} A" if isinstance(item, Variable | Programmable)
                else f" {item.power:g} W" if isinstance(item, Battery | Adjustable) else "")
    return f"{item.low:g} to {item.high:g} V{how_much}".replace(" ", "\u00a0")


def _words(sheet: Sheet, port: Row, x: float, room: float) -> None:
    """Name, kind, a small diagram of the data lines, and what was read."""
    name, kind = port["label"], CONNECTORS[port["connector"]]
    sheet.text((x, LINES - 60), name, fitting_size(name, room, 34, 18), INK, "m", bold=True)
    sheet.text((x, LINES - 18), kind, fitting_size(kind, room, 25, 15), INK_2, "m")
    y = LINES + 30
    if port["wiring"]:
        _data_lines(sheet, port["wiring"], x, y)
        y += 190
    size = 24.0 if room > 420 else 20.0
    for fact in _facts(port):
        for line in wrapped(fact, size, room):
            sheet.text((x, y), line, size, INK, "m")
            y += size * 1.35
        y += 6


def _data_lines(sheet: Sheet, wiring: str, x: float, y: float) -> None:
    """D+ and D- from the connector at the left to where they end."""
    left, right = x - 110, x + 110
    for up, name in ((30, "D+"), (100, "D-")):
        sheet.text((left - 12, y + up), name.replace("-", "−"), 22, INK, "r")
        sheet.disc((left, y + up), 6, METAL, INK, 2)
        stop = {"open": x - 20, "shorted": x + 40, "divider": x + 30, "chip": x + 20}[wiring]
        sheet.line([(left + 6, y + up), (stop, y + up)], INK, 3)
    if wiring == "open":
        for up in (30, 100):
            sheet.line([(x - 28, y + up - 8), (x - 12, y + up + 8)], INK, 3)
            sheet.line([(x - 28, y + up + 8), (x - 12, y + up - 8)], INK, 3)
    elif wiring == "shorted":
        sheet.line([(x + 40, y + 30), (x + 40, y + 100)], INK, 3)
    elif wiring == "chip":
        sheet.box((x + 20, y + 8, right, y + 122), PLASTIC, INK, 2, 4)
    else:
        for column, up in ((x + 30, 30), (x + 85, 100)):
            sheet.line([(x + 30, y + up), (column, y + up)], INK, 3)
            for top in (y + up - 34, y + up + 6):
                sheet.box((column - 7, top, column + 7, top + 28), SHEET, INK, 2)
