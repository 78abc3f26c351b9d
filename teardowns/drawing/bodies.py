"""How large each recorded part is drawn, and on which side of the board.

Sizes that were recorded are kept. The others are the usual ones of such parts (common practice, no
source): the pictures show what a part is and roughly how much room it takes, they measure nothing.
"""
from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from teardowns.drawing.words import Document, Row, designators, recorded, value_of
from teardowns.engine.physics.cores import find_core

# Usual cans of aluminium capacitors: to how many µF, then diameter and length, mm.
_CANS_400V = ((5, 8, 12), (7, 8, 15), (10, 10, 16), (15, 10, 20), (22, 12.5, 20), (33, 16, 20),
              (47, 16, 25), (56, 16, 30), (82, 18, 31), (120, 18, 40), (1e9, 22, 45))
_CANS_LOW = ((250, 6.3, 9), (680, 8, 12), (1200, 10, 13), (1e9, 12.5, 20))
_PRIMARY = ("fuse", "fusible_resistor", "varistor", "x_capacitor", "filter_choke", "rectifier",
            "discharge_resistor", "bulk_capacitor", "primary_switch", "primary_controller",
            "sense_resistor")
_BARRIER = ("core", "transformer", "optocoupler", "barrier_capacitor")
USB_A_DEEP, USB_A_WIDE, USB_A_EDGE = 14.0, 13.2, 6.0
USB_C_DEEP, USB_C_WIDE = 7.4, 9.0


@dataclass(frozen=True, slots=True)
class Body:
    """One piece; mm."""

    row: Row
    name: str               # designator of this piece, or ""
    kind: str               # how it is drawn
    across: float           # from the mains end towards the ports
    along: float            # parallel to the barrier
    zone: str               # primary, barrier, secondary or port
    solder_side: bool = False

    def quarter_turned(self) -> Body:
        return Body(self.row, self.name, self.kind, self.along, self.across, self.zone,
                    self.solder_side)


def bodies_of(document: Document) -> list[Body]:
    """Every piece that the document records on the board; ballast lies elsewhere."""
    found = [body for row in document["components"] if row["role"] != "ballast"
             if row["state"] in ("recorded", "not_readable") for body in _pieces(document, row)]
    return found + [_connector(document, row) for row in document["ports"]]


def _pieces(document: Document, row: Row) -> list[Body]:
    role = row["role"]
    zone = ("primary" if role in _PRIMARY else "barrier" if role in _BARRIER else "secondary")
    kind, across, along, below = _shape(document, row)
    names = designators(row)
    bodies = [Body(row, name, kind, across, along, zone, below) for name in names]
    if role == "port_converter":            # each has a chip and an inductor: "U4, L2 and U5, L3"
        chips = [name for name in designators({**row, "count": 2 * row["count"]}) if name]
        bodies = [Body(row, name, *(("coil", 7.0, 7.0, zone) if name.startswith("L")
                                    else ("chip", 4.0, 4.0, zone, True)))
                  for name in chips or names]
    return bodies


def _shape(document: Document, row: Row) -> tuple[str, float, float, bool]:
    """Kind, across, along, and whether it sits on the solder side."""
    role, note = row["role"], row["note"].lower() + " " + row["marking"].lower()
    if role in ("bulk_capacitor", "output_capacitor"):
        return _can(document, row)
    if role in ("core", "transformer"):
        return _transformer(document, row)
    if role == "rectifier":
        return ("bridge", 5.0, 7.5, False) if "bridge" in note else ("diode", 4.6, 2.8, False)
    if role == "x_capacitor":
        size = row.get("nominal") or 0.0
        return ("film", *((7.0, 13.0) if size < 2e-7 else (8.5, 15.0)), False)
    if role == "fusible_resistor":
        return "resistor", 6.5, 3.6, False
    if role == "output_rectifier":
        return ("chip", 6.0, 5.0, True) if "eight-pin" in note else ("diode_chip", 5.4, 3.6, True)
    if role in ("primary_switch", "primary_controller"):
        return _by_package(document, row)
    return {
        "fuse": ("fuse", 8.4, 4.2, False), "varistor": ("disc", 4.5, 9.0, False),
        "filter_choke": ("ring", 8.0, 13.0, False), "optocoupler": ("opto", 6.5, 4.6, False),
        "barrier_capacitor": ("disc", 8.0, 4.2, False),
        "sense_resistor": ("chip_resistor", 3.2, 1.6, True),
        "discharge_resistor": ("chip_resistor", 3.2, 1.6, True),
        "protocol_controller": ("chip", 3.4, 3.4, "daughter" not in row["place"]),
        "pass_switch": ("chip", 3.2, 3.2, True),
    }.get(role, ("block", 6.0, 4.0, False))


def _by_package(document: Document, row: Row) -> tuple[str, float, float, bool]:
    part = next((part for part in document["parts"] if part["marking"] == row.get("part")), None)
    package = part["package"] if part else ""
    if package.startswith("TO-220"):
        return "tab", 4.8, 10.2, False
    if package.startswith("DFN"):
        return "chip", 8.0, 8.0, True
    if package.startswith("SOT-23"):
        return "chip", 2.9, 2.8, True
    if package == "SO-16":
        return "chip", 6.0, 9.9, True
    if row["role"] == "primary_switch" and not package:
        return "tab", 3.8, 4.8, False
    return "chip", 6.0, 5.0, True


def _can(document: Document, row: Row) -> tuple[str, float, float, bool]:
    """A can stands if the case is deep enough for it, else it lies."""
    size = (row.get("nominal") or 0.0) * 1e6
    table = _CANS_400V if row["role"] == "bulk_capacitor" else _CANS_LOW
    _, usual_wide, usual_tall = next(entry for entry in table if size <= entry[0])
    wide = row["diameter"] * 1e3 if row.get("diameter") else float(usual_wide)
    tall = row["length"] * 1e3 if row.get("length") else float(usual_tall)
    polymer = "_polymer" if "polymer" in row["note"] else ""
    if tall <= _headroom(document):
        return f"can{polymer}", wide, wide, False
    return f"lying_can{polymer}", tall, wide, False


def _headroom(document: Document) -> float:
    """Room above the board, mm: the least of the case's sides without walls, board and joints."""
    sides = [value_of(document, f"case_{side}") for side in ("height", "width", "depth")]
    known = [side for side in sides if side is not None]
    return min(known) * 1e3 - 6.5 if len(known) == 3 else 22.0


def _transformer(document: Document, row: Row) -> tuple[str, float, float, bool]:
    """Seen from above: core across the board by its depth, along the barrier by its width."""
    core = find_core(row["marking"])
    width, depth = (core.width * 1e3, core.depth * 1e3) if core else (16.0, 8.0)
    pins = pin_distance(document) + 2 * PIN + 1.4
    return "transformer", max(pins, depth + 5.0), width, False


PIN = 1.7               # mm, of a transformer's pad


def pin_distance(document: Document) -> float:
    """Between the pads of both rows of the transformer, mm: recorded, or as on the board."""
    for wanted in ("transformer pins", ""):
        for row in recorded(document["insulation"]):
            if (row["barrier"] == "PRI_SEC" and row["path"] == "clearance"
                    and row["place"].startswith(wanted) and row["site"] in ("", "transformer")):
                # Pads that nobody measured lie no nearer than what was measured on the board.
                return row["value"] * 1e3 + (0.0 if wanted else 1.0)
    return 6.0


def _connector(document: Document, row: Row) -> Body:
    label, kind = row["label"], row["connector"]
    if kind == "usb_a":
        edge = sum(port["connector"] == "usb_a" for port in document["ports"]) > 1
        return Body(row, label, kind, USB_A_DEEP, USB_A_EDGE if edge else USB_A_WIDE, "port")
    if kind in ("usb_c", "micro_b"):
        return Body(row, label, kind, USB_C_DEEP, USB_C_WIDE, "port")
    return Body(row, label, "cord", 5.0, 6.0, "port")


def rounded_up(length: float) -> float:
    """To half a millimetre."""
    return ceil(2 * length - 1e-9) / 2
