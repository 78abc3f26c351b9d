"""The unit from outside, with the sizes that were taken: from the side, and its mains end."""
from __future__ import annotations

from teardowns.drawing.colours import (
    EDGE,
    INK,
    INK_2,
    METAL,
    PLASTIC,
    PLASTIC_LIGHT,
    SHEET,
    STEEL,
)
from teardowns.drawing.picture import Mark, Picture, Scale
from teardowns.drawing.sheet import Box, Sheet
from teardowns.drawing.words import CONNECTORS, Document, in_mm, measured, name_of, value_of
from teardowns.reading.plug import plug_kind

TOP, BOTTOM = 190.0, 930.0
CENTRES = 480.0, 1180.0         # of both views
ROOM = 540.0                    # px, width of each view
PIN_LENGTH, PIN_SPACING, PIN_DIAMETER = 0.019, 0.019, 0.004     # EN 50075, Europlug (from memory)
BLADE_LENGTH, BLADE_SPACING, BLADE_WIDTH, BLADE_THICK = 0.017, 0.0127, 0.0064, 0.0015  # NEMA 1-15
Sizes = tuple[float, float, float]      # along the mains pins, across the side view, the third


def outsides(document: Document) -> list[Picture]:
    """One picture, where the three sizes of the case were taken."""
    rows = [measured(document, f"case_{side}") for side in ("height", "width", "depth")]
    if any(row is None for row in rows):
        return []
    return [_outside(document, [row["value"] for row in rows if row])]


def _outside(document: Document, sizes: list[float]) -> Picture:
    sheet = Sheet("As received", f"{name_of(document)}: {document['unit']['title']}")
    height, width, depth = (size * 1e3 for size in sizes)
    plug = plug_kind(document["unit"]["plug"])
    pins = _pin_length(document, plug) * 1e3
    if plug == "inlet":         # a desktop unit lies down: its mains inlet at the left end
        height, width, depth = width, depth, height
        names = ("width", "depth", "height")
    else:
        names = ("height", "width", "depth")
    per_mm = min(ROOM / width, (BOTTOM - TOP - 60) / (height + pins), ROOM / depth, 14.0)
    y = (TOP + BOTTOM + pins * per_mm) / 2
    side = _centred(CENTRES[0], y, width * per_mm, height * per_mm)
    face = _centred(CENTRES[1], (TOP + BOTTOM) / 2, width * per_mm, depth * per_mm)
    _side_view(sheet, document, side, pins, per_mm, plug)
    _mains_face(sheet, document, face, per_mm, plug)
    marks = [*_sizes(sheet, side, face, names, (height, width, depth), document)]
    ends = sheet.ruler((CENTRES[0] - 20 * per_mm, 985), per_mm, 40)
    _facts(sheet, document)
    alt = (f"{document['unit']['title']}, drawn from the side and from its mains end: "
           f"{height:.1f} by {width:.1f} by {depth:.1f} mm.")
    return Picture("outside", "as_received", "From outside, with the sizes that were taken. "
                   "The shape of the case is simplified.", alt, sheet.finished(), tuple(marks),
                   Scale(ends, (0.04,), 5e-5, "the side facing the viewer"))


def _centred(x: float, y: float, wide: float, high: float) -> Box:
    return x - wide / 2, y - high / 2, x + wide / 2, y + high / 2


def _pin_length(document: Document, plug: str) -> float:
    if plug == "inlet" or not plug:
        return 0.0
    usual = BLADE_LENGTH if plug.startswith("nema") else PIN_LENGTH
    return value_of(document, "pin_length") or usual


def _spacing(document: Document, plug: str) -> float:
    usual = BLADE_SPACING if plug.startswith("nema") else PIN_SPACING
    return (value_of(document, "pin_spacing") or usual) * 1e3


def _side_view(sheet: Sheet, document: Document, case: Box, pins: float, per_mm: float,
               plug: str) -> None:
    left, top, right, bottom = case
    middle = (left + right) / 2
    if pins:
        half = _spacing(document, plug) / 2 * per_mm
        thick = (BLADE_THICK if plug.startswith("nema")
                 else value_of(document, "pin_diameter") or PIN_DIAMETER) * 1e3 * per_mm
        for x in (middle - half, middle + half):
            _pin(sheet, document, x, top, pins * per_mm, thick, plug)
    sheet.box(case, PLASTIC_LIGHT, INK, 3, 22)
    split = top + (bottom - top) * .22
    sheet.line([(left + 2, split), (right - 2, split)], EDGE, 2)
    sheet.box((left + 30, split + 40, right - 30, bottom - 50), PLASTIC, EDGE, 2, 8)
    sheet.text((middle, (split + bottom) / 2 - 6), name_of(document)[:22], 22, SHEET, "m")
    if plug == "inlet":
        sheet.box((middle - 40, top - 10, middle + 40, top + 6), PLASTIC, INK, 2, 4)
    _openings(sheet, document, case, per_mm)


def _pin(sheet: Sheet, document: Document, x: float, top: float, length: float, thick: float,
         plug: str) -> None:
    """A pin; half of it sleeved, as Europlugs are, unless no sleeve was found."""
    sheet.box((x - thick / 2, top - length, x + thick / 2, top + 6), METAL, INK, 2,
              0 if plug.startswith("nema") else thick / 2)
    sleeve = next((row for row in document["measurements"]
                   if row["quantity"] == "pins_sleeved"), None)
    bare = plug != "europlug" or (sleeve is not None and sleeve["state"] != "recorded")
    if not bare:
        sheet.box((x - thick / 2, top - length * .53, x + thick / 2, top + 6), PLASTIC, INK, 2)


def _openings(sheet: Sheet, document: Document, case: Box, per_mm: float) -> None:
    """Where the connectors open in the far end."""
    left, _, right, bottom = case
    ports = document["ports"]
    for index, port in enumerate(ports):
        x = left + (right - left) * (index + 1) / (len(ports) + 1)
        if port["connector"] in ("barrel", "captive"):
            sheet.line([(x, bottom - 2), (x, bottom + 40), (x + 60, bottom + 52)], PLASTIC, 12)
            continue
        half = (4.5 if port["connector"] == "usb_c" else 6.6) * per_mm
        half = min(half, (right - left) / (len(ports) + 1) / 2 - 4)
        sheet.box((x - half, bottom - 8, x + half, bottom + 4), METAL, INK, 2, 3)


def _mains_face(sheet: Sheet, document: Document, face: Box, per_mm: float, plug: str) -> None:
    sheet.box(face, PLASTIC_LIGHT, INK, 3, 26)
    x, y = (face[0] + face[2]) / 2, (face[1] + face[3]) / 2
    sheet.box((face[0] + 12, face[1] + 12, face[2] - 12, face[3] - 12), None, EDGE, 2, 18)
    if plug == "inlet":
        wide, high = 9 * per_mm, 5 * per_mm
        sheet.box((x - wide, y - high, x + wide, y + high), PLASTIC, INK, 3, high)
        for dx in (-4.3 * per_mm, 4.3 * per_mm):        # IEC 60320 C8: pins 8.6 mm apart
            sheet.disc((x + dx, y), 1.2 * per_mm, METAL, INK, 2)
    elif plug.startswith("nema"):
        _blades(sheet, document, (x, y), per_mm)
    elif plug:
        radius = (value_of(document, "pin_diameter") or PIN_DIAMETER) * 500 * per_mm
        half = _spacing(document, plug) / 2 * per_mm
        for dx in (-half, half):
            sheet.disc((x + dx, y), radius, METAL, INK, 2)
    sheet.text((x, face[3] + 66), "mains end", 22, INK_2, "m")


def _blades(sheet: Sheet, document: Document, centre: tuple[float, float], per_mm: float) -> None:
    half = _spacing(document, "nema1") / 2 * per_mm
    thick = (value_of(document, "pin_thickness") or BLADE_THICK) * 500 * per_mm
    usual = value_of(document, "pin_width") or BLADE_WIDTH
    widths = (value_of(document, "neutral_pin_width") or usual, usual)
    for dx, wide in zip((-half, half), widths, strict=True):
        tall = wide * 500 * per_mm
        sheet.box((centre[0] + dx - thick, centre[1] - tall, centre[0] + dx + thick,
                   centre[1] + tall), STEEL, INK, 2)


def _sizes(sheet: Sheet, side: Box, face: Box, names, sizes, document: Document):
    """Three dimension lines, each a mark of its measurement."""
    along = ((side[0] - 40, side[1]), (side[0] - 40, side[3]))
    across = ((face[0], face[1] - 40), (face[2], face[1] - 40))
    deep = ((face[0] - 40, face[1]), (face[0] - 40, face[3]))
    for name, size, ends in zip(names, sizes, (along, across, deep), strict=True):
        sheet.dimension(*ends, in_mm(size / 1e3))
        row = measured(document, f"case_{name}")
        if row:
            yield Mark("line", ends, f"case {name} {in_mm(size / 1e3)}",
                       f"measurement/{row['key']}")


def _facts(sheet: Sheet, document: Document) -> None:
    mass, plug = value_of(document, "mass_total"), document["unit"]["plug"]
    connectors = [CONNECTORS[port["connector"]] for port in document["ports"]]
    facts = [*([f"mass {mass * 1e3:.1f} g"] if mass else []),
             *([f"mains side: {plug}"] if plug else []),
             *(f"{connectors.count(c)} × {c}" for c in dict.fromkeys(connectors))]
    for index, fact in enumerate(facts):
        sheet.text((980, 985 + 34 * index), fact, 24, INK)
