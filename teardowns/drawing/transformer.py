"""The transformer taken apart: its layers laid below each other, from the core outward."""
from __future__ import annotations

from math import ceil

from teardowns.drawing.colours import (
    AUXILIARY,
    BOBBIN,
    BURNT,
    EDGE,
    ENAMEL,
    FERRITE,
    INK,
    INK_2,
    RULE,
    TAPE,
    TRIPLE,
    WASH,
    with_alpha,
)
from teardowns.drawing.lettering import fitting_size, wrapped
from teardowns.drawing.picture import Mark, Picture, Scale
from teardowns.drawing.sheet import MARGIN, WIDTH, Box, Sheet
from teardowns.drawing.words import Document, Row, in_mm, name_of
from teardowns.engine.physics.cores import Core, find_core

LEFT, RIGHT = 400.0, 980.0      # where the layers lie
TOP, BOTTOM = 168.0, 1010.0
WORDS = RIGHT + 40
LARGEST_PER_MM = 100.0
COILED = 14.0                   # px, how far a turn leans
_OVER = {"enamel": (1.12, 0.0), "triple": (1.0, 0.2e-3), "insulated": (1.0, 0.2e-3),
         "fully": (1.25, 0.0), "single": (1.0, 0.1e-3)}         # usual build of the insulation
_WIRES = {"enamel": "enamelled", "triple": "triple-insulated", "single": "single-insulated",
          "fully": "fully insulated", "insulated": "insulated", "bare": "bare",
          "": "of unknown insulation"}


def transformers(document: Document) -> list[Picture]:
    """One picture, where its layers were recorded."""
    layers = document["stack"]
    return [_transformer(document, layers)] if layers else []


def _transformer(document: Document, layers: list[Row]) -> Picture:
    row = next((one for one in document["components"] if one["role"] in ("core", "transformer")
                and one["marking"]), None)
    core = find_core(row["marking"]) if row else None
    sheet = Sheet("Transformer, layer by layer", name_of(document))
    breadth = _breadth(layers, core)
    per_mm = min((RIGHT - LEFT) / (breadth * 1e3), LARGEST_PER_MM)
    marks = [_core(sheet, core, row)] if row else []
    pitch = min((BOTTOM - TOP) / len(layers), 118.0)
    for index, layer in enumerate(layers):
        strip = (LEFT, TOP + index * pitch, LEFT + breadth * 1e3 * per_mm,
                 TOP + index * pitch + pitch * 0.68)
        _layer(sheet, layer, index, strip, per_mm)
        marks.append(Mark("box", (strip[:2], strip[2:]), _title(layer)[:80],
                          f"winding/{layer['key']}"))
    length = max(int(breadth * 1e3), 1)
    ends = sheet.ruler((LEFT, 1050), per_mm, length)
    sheet.text((MARGIN, 1058), "from the core outward", 20, INK_2)
    scale = Scale(ends, (length / 1e3,), 5e-5, "the layers")
    words = "; ".join(f"{i + 1} {_title(layer)}" for i, layer in enumerate(layers))
    return Picture("transformer", "transformer", _caption(row), f"Layers from the core outward: "
                   f"{words}."[:900], sheet.finished(), tuple(marks), scale)


def _caption(row: Row | None) -> str:
    core = f", core {row['marking']}" if row else ""
    return (f"The transformer taken apart{core}: its layers from the core outward. Wires are drawn "
            "to scale; the width of the bobbin is the usual one.")


def _breadth(layers: list[Row], core: Core | None) -> float:
    """Width of the bobbin, m: the usual one of the core, else that of the shortest winding."""
    if core:
        return 0.65 * core.height - 1.2e-3
    laid = [_wires(layer) * _outer(layer) for layer in layers if _wires(layer)]
    return min(max(min(laid, default=8e-3), 5e-3), 20e-3)


def _wires(layer: Row) -> int:
    """Side by side: turns times strands."""
    return round((layer.get("turns") or 0) * (layer.get("strands") or 1))


def _outer(layer: Row) -> float:
    """Over the insulation, m."""
    factor, plus = _OVER.get(layer["wire_insulation"], (1.0, 0.0))
    return (layer.get("bare_diameter") or 0.2e-3) * factor + plus


def _core(sheet: Sheet, core: Core | None, row: Row) -> Mark:
    """The core from the front, its two halves meeting in the middle."""
    width, height = (core.width, core.height) if core else (16e-3, 15e-3)
    per_m = min(230 / width, 260 / height)
    w, h = width * per_m, height * per_m
    left, top = 200 - w / 2, 250.0
    sheet.box((left, top, left + w, top + h), FERRITE, INK, 3, 4)
    leg, yoke = w * .26, h * .19
    for a, b in ((left + leg * .55, left + (w - leg) / 2), (left + (w + leg) / 2,
                                                          left + w - leg * .55)):
        sheet.box((a, top + yoke, b, top + h - yoke), WASH, INK, 2)
    sheet.line([(left, top + h / 2), (left + w, top + h / 2)], EDGE, 2)
    sheet.text((200, top - 34), row["designator"] or "core", 26, INK, "m", bold=True)
    sheet.text((200, top + h + 34), row["marking"], 26, INK, "m")
    if core:
        size = f"{core.width * 1e3:g} × {core.height * 1e3:g} × {core.depth * 1e3:g} mm"
        sheet.text((200, top + h + 68), size, 21, INK_2, "m")
    return Mark("box", ((left, top), (left + w, top + h)), f"core {row['marking']}",
                f"component/{row['key']}")


def _layer(sheet: Sheet, layer: Row, index: int, strip: Box, per_mm: float) -> None:
    middle = (strip[1] + strip[3]) / 2
    sheet.text((LEFT - 46, middle), str(index + 1), 26, INK, "r", bold=True)
    sheet.line([(LEFT - 36, middle), (LEFT - 20, middle)], RULE, 2)
    if layer["state"] != "recorded":
        sheet.box(strip, None, EDGE, 2)
        sheet.text(((strip[0] + strip[2]) / 2, middle), _STATES[layer["state"]], 22, INK_2, "m")
    elif layer["kind"] == "winding":
        _winding(sheet, layer, strip, per_mm)
    else:
        _insulation(sheet, layer, strip)
    _words(sheet, layer, strip, per_mm)


_STATES = {"not_looked": "not looked at", "not_found": "looked for, not found",
           "not_readable": "could not be told"}


def _winding(sheet: Sheet, layer: Row, strip: Box, per_mm: float) -> None:
    """The bobbin with the turns that face the viewer: one row, as many as fit."""
    left, top, right, bottom = strip
    sheet.box(strip, BOBBIN, EDGE, 2, 3)
    margins = [(layer.get(f"margin_{end}") or 0.0) * 1e3 * per_mm for end in ("left", "right")]
    for start, stop in ((left, left + margins[0]), (right - margins[1], right)):
        if stop - start > 1:
            sheet.box((start, top, stop, bottom), with_alpha(TAPE, .9), EDGE, 1)
    if layer["winding"] == "shield":
        sheet.box((left + 6, top + 6, right - 6, bottom - 6), AUXILIARY, INK, 2)
        return
    _turns(sheet, layer, (left + margins[0], top, right - margins[1], bottom), per_mm)


def _turns(sheet: Sheet, layer: Row, room: Box, per_mm: float) -> None:
    pitch = _outer(layer) * 1e3 * per_mm
    count = min(_wires(layer), int((room[2] - room[0] - COILED) / pitch + 1e-6))
    start = (room[0] + room[2] - COILED - count * pitch) / 2
    colour = {"primary": ENAMEL, "auxiliary": AUXILIARY}.get(layer["winding"], ENAMEL)
    insulated = layer["wire_insulation"] in ("triple", "insulated", "single")
    for index in range(count):
        x = start + (index + .5) * pitch
        half = pitch * .49
        sheet.polygon([(x - half, room[3] - 1), (x + half, room[3] - 1),
                       (x + COILED + half, room[1] + 1), (x + COILED - half, room[1] + 1)],
                      TRIPLE if insulated else colour, INK, 1.5)


def _insulation(sheet: Sheet, layer: Row, strip: Box) -> None:
    """Tape as sheets, each a little short of the one below, so that they can be counted."""
    left, top, right, bottom = strip
    count = layer.get("tape_layers")
    if count == 0:
        for y in (top, bottom):
            sheet.line([(left, y), (right, y)], EDGE, 2, (10, 10))
        sheet.text(((left + right) / 2, (top + bottom) / 2), "no layer", 22, INK_2, "m")
        return
    colour = BURNT if layer["damage"] == "melted" else TAPE
    if layer["material"] in ("bobbin", "sheet", "sleeve"):
        sheet.box(strip, BOBBIN, INK, 2)
        return
    for index in range(count or 1):
        inset = index * 26.0
        shape = _sheet_of_tape((left, top + index * 5, right - inset, bottom - index * 5),
                               bool(layer["condition"]) or layer["damage"] in ("damaged",
                                                                               "melted"))
        sheet.polygon(shape, with_alpha(colour, .78), INK_2, 2)


def _sheet_of_tape(box: Box, torn: bool) -> list[tuple[float, float]]:
    left, top, right, bottom = box
    if not torn:
        return [(left, top), (right, top), (right, bottom), (left, bottom)]
    teeth = 26
    step = (right - left) / teeth           # the edge that is folded, torn or burnt
    ragged = [(right - step * i, bottom - (9 + (i * 29 + 7) % 17 if i % 2 else 2))
              for i in range(teeth + 1)]
    return [(left, top), (right, top), *ragged]


def _title(layer: Row) -> str:
    if layer["kind"] == "insulation":
        return layer["material"] or "insulation"
    return f"{layer['winding'] or 'winding'} winding"


def _words(sheet: Sheet, layer: Row, strip: Box, per_mm: float) -> None:
    """A heading and one or two lines beside the layer."""
    room = WIDTH - MARGIN - WORDS
    y = strip[1] + 14
    sheet.text((WORDS, y), _title(layer).capitalize(), 25, INK, bold=True)
    lines = wrapped(", ".join(_facts(layer, strip, per_mm)), 21, room)[:2]
    for index, line in enumerate(lines):
        sheet.text((WORDS, y + 30 + 25 * index), line, fitting_size(line, room, 21, 13), INK_2)


def _facts(layer: Row, strip: Box, per_mm: float) -> list[str]:
    if layer["state"] != "recorded":
        return [_STATES[layer["state"]]]
    found = _winding_facts(layer, strip, per_mm) if layer["kind"] == "winding" else _tape(layer)
    return [*found, *([layer["condition"]] if layer["condition"] else []),
            *([layer["damage"]] if layer["damage"] in ("damaged", "melted") else [])]


def _winding_facts(layer: Row, strip: Box, per_mm: float) -> list[str]:
    found = []
    if layer.get("turns"):
        found.append(f"{layer['turns']:g} turns")
    if layer.get("bare_diameter"):
        many = f"{layer['strands']} × " if (layer.get("strands") or 1) > 1 else ""
        found.append(f"{many}{in_mm(layer['bare_diameter'], 2)} {_WIRES[layer['wire_insulation']]}")
    room = (strip[2] - strip[0] - COILED) / per_mm / 1e3
    rows = ceil(_wires(layer) * _outer(layer) / room) if _wires(layer) else 1
    if rows > 1:
        found.append(f"about {rows} rows deep")
    margins = [layer.get(f"margin_{end}") for end in ("left", "right")]
    if any(margins):
        found.append("margins " + " and ".join(in_mm(m) for m in margins if m))
    return found + (["in parallel with the layer before"] if layer["in_parallel"] else [])


def _tape(layer: Row) -> list[str]:
    count, thick = layer.get("tape_layers"), layer.get("thickness")
    found = [] if count is None else [f"{count} turn{'' if count == 1 else 's'} of tape"
                                      if count else "none found"]
    return found + ([f"{thick * 1e6:.0f} µm each"] if thick and count else [])
