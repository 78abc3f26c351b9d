"""Where the parts lie: mains side left, output right, the barrier between them. Millimetres.

Nobody records positions, so they are made up: part after part in columns, in the order in which
the current meets them. What was measured across the barrier keeps its length.
"""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from teardowns.drawing.bodies import Body, bodies_of, pin_distance, rounded_up
from teardowns.drawing.words import Document, Row, recorded, value_of

EDGE, GAP = 1.2, 1.0
OPTO = 7.6              # mm between the pads of an optocoupler with wide leads, as usual
PINS = 4                # of a transformer, in the row of the mains side
LANE = 3.0              # along the barrier, for one recorded distance
DAUGHTER = 4.6          # beside the connectors, for what sits on the board at the port
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece and its centre, seen from the component side."""

    body: Body
    x: float
    y: float

    @property
    def box(self) -> Box:
        half, tall = self.body.across / 2, self.body.along / 2
        return self.x - half, self.y - tall, self.x + half, self.y + tall


@dataclass(frozen=True, slots=True)
class Lane:
    """A distance recorded across the barrier of the board, and where it is shown."""

    row: Row
    y: float

    @property
    def length(self) -> float:
        return self.row["value"] * 1e3


@dataclass(frozen=True, slots=True)
class Board:
    length: float           # from the mains end to the ports
    width: float
    barrier: float          # x of its middle
    parts: tuple[Placed, ...]
    lanes: tuple[Lane, ...]
    pins: float             # between both rows of the transformer's pads
    slot: Box | None
    daughter: Box | None    # a board of its own at the ports


def board_of(document: Document) -> Board | None:
    """None where nothing on a board was recorded."""
    if not any(row["state"] == "recorded" for row in document["components"]):
        return None
    bodies = bodies_of(document)
    above = [body for body in bodies if not body.solder_side]
    zones = {zone: [body for body in above if body.zone == zone]
             for zone in ("primary", "barrier", "secondary", "port")}
    daughter = [body for body in zones["secondary"] if body.kind == "chip"]
    zones["secondary"] = [body for body in zones["secondary"] if body.kind != "chip"]
    return _laid_out(document, zones, daughter, [body for body in bodies if body.solder_side])


def _laid_out(document, zones, daughter, below) -> Board:
    rows = lane_rows(document)
    interior = _interior(document)
    width = rounded_up(max(_barrier_height(zones["barrier"], rows), _stack(zones["port"]),
                           interior[1], 18.0, *(min(b.across, b.along) + 2 * EDGE
                                          for b in zones["primary"])))
    beside, rest = _beside_ports(zones["port"], zones["secondary"], width)
    columns = [_columns(zones["primary"], width), _columns(rest, width)]
    across = max([12.0, *(_span(body) for body in zones["barrier"]),
                  *(row["value"] * 1e3 + 2.4 for row in rows)])
    ports = max((body.across for body in zones["port"]), default=0.0)
    ports += DAUGHTER if daughter else 0.0
    extents = [sum(map(_column_width, column)) + GAP * len(column) for column in columns]
    if daughter:                # room below for the flat parts before the second board begins
        flat = max((body.across for body in below if body.zone == "secondary"), default=0.0)
        spread = _half_gap(pin_distance(document), [row["value"] * 1e3 for row in rows])
        extents[1] = max(extents[1], spread - across / 2 + flat + 2.0)
    length = rounded_up(max(2 * EDGE + sum(extents) + across + ports, interior[0], 24.0))
    slack = (length - 2 * EDGE - sum(extents) - across - ports) / (len(columns[0]) +
                                                                 len(columns[1]) + 2)
    left = EDGE + extents[0] + slack * (len(columns[0]) + 0.5)
    barrier = left + across / 2
    placed = [*_spread(columns[0], EDGE + slack / 2, slack, width),
              *_spread(columns[1], left + across + GAP + slack / 2, slack, width),
              *_at_ports([*zones["port"], *beside], length, width)]
    middle, lanes = _down_the_barrier(zones["barrier"], rows, barrier, width)
    strip = _daughter_box(zones["port"], daughter, length, width)
    placed += middle + _on_daughter(daughter, strip)
    board = Board(length, width, barrier, tuple(placed), tuple(lanes), pin_distance(document),
                  _slot(document, lanes, middle, barrier, width), strip)
    return _with_solder_side(board, below)


def _interior(document: Document) -> tuple[float, float]:
    """Room for a board inside the case, mm; nothing where it was not measured."""
    wall = (value_of(document, "case_wall_thickness") or 0.002) * 1e3
    sides = sorted(((value_of(document, f"case_{side}") or 0.0) * 1e3
                    for side in ("height", "width", "depth")), reverse=True)
    return max(sides[0] - 2 * wall - 2.0, 0.0), max(sides[1] - 2 * wall - 1.0, 0.0)


def lane_rows(document: Document) -> list[Row]:
    """Distances between both circuits along the board's surface or through the air above it."""
    return [row for row in recorded(document["insulation"])
            if row["barrier"] == "PRI_SEC" and row["path"] in ("clearance", "creepage")
            and row["site"] in ("", "board") and not row["place"].startswith("transformer")]


def _beside_ports(ports: Sequence[Body], bodies: Sequence[Body], width: float):
    """Those parts for which there is room beside the connectors, and the others."""
    beside: list[Body] = []
    for body in bodies:
        deep = max((port.across for port in ports), default=0.0)
        if _stack([*ports, *beside, body]) <= width and body.across <= deep:
            beside.append(body)
    return beside, [body for body in bodies if body not in beside]


def _span(body: Body) -> float:
    """Across the barrier, with the joints beside the body."""
    return body.across + (4.4 if body.kind == "disc" else 3.6 if body.kind == "opto" else 0.0)


def _barrier_height(bodies: Sequence[Body], rows: Sequence[Row]) -> float:
    alone = max(len(rows) - _lanes_under(bodies), 0)
    return 2 * EDGE + sum(body.along + GAP for body in bodies) + LANE * alone


def _lanes_under(bodies: Sequence[Body]) -> int:
    """Distances that are shown between the transformer's joints."""
    return PINS - 1 if any(body.kind == "transformer" for body in bodies) else 0


def _pin_step(transformer: Body) -> float:
    return (transformer.along - 3.0) / (PINS - 1)


def _stack(bodies: Sequence[Body]) -> float:
    return 2 * EDGE + sum(body.along + 2.0 for body in bodies)


def _column_width(column: Sequence[Body]) -> float:
    return max(body.across for body in column)


def _columns(bodies: Iterable[Body], width: float) -> list[list[Body]]:
    """First fit, in order; a part lies whichever way costs less length."""
    columns: list[list[Body]] = []
    for body in bodies:
        shapes = (body, body.quarter_turned())
        for column in columns:
            room = width - 2 * EDGE - sum(one.along + GAP for one in column)
            fits = [one for one in shapes if one.along <= room
                    and one.across <= _column_width(column) + 2.0]
            if fits:
                column.append(min(fits, key=lambda one: one.along))
                break
        else:
            fits = [one for one in shapes if one.along <= width - 2 * EDGE]
            columns.append([min(fits or shapes, key=lambda one: one.across)])
    return columns


def _spread(columns: list[list[Body]], left: float, slack: float, width: float):
    """Columns side by side, their parts spread over the width of the board."""
    for column in columns:
        wide = _column_width(column)
        gap = (width - 2 * EDGE - sum(body.along for body in column)) / len(column)
        y = EDGE + gap / 2
        for body in column:
            yield Placed(body, left + wide / 2, y + body.along / 2)
            y += body.along + gap
        left += wide + GAP + slack


def _at_ports(bodies: Sequence[Body], length: float, width: float):
    """Connectors side by side, flush with the far edge."""
    if not bodies:
        return
    gap = (width - sum(body.along for body in bodies)) / len(bodies)
    y = gap / 2
    for body in bodies:
        over = 0.8 if body.zone == "port" else -EDGE
        yield Placed(body, length + over - body.across / 2, y + body.along / 2)
        y += body.along + gap


def _daughter_box(ports, chips, length: float, width: float) -> Box | None:
    if not chips or not ports:
        return None
    deep = max(body.across for body in ports) + DAUGHTER
    return length - deep, 0.0, length, width


def _on_daughter(chips: Sequence[Body], strip: Box | None) -> list[Placed]:
    if strip is None:
        return []
    step = (strip[3] - strip[1]) / (len(chips) + 1)
    return [Placed(chip, strip[0] + DAUGHTER / 2, strip[1] + step * (index + 1))
            for index, chip in enumerate(chips)]


def _down_the_barrier(bodies, rows, barrier: float, width: float):
    """The transformer, the recorded distances, then what else crosses: from top to bottom."""
    order = sorted(bodies, key=lambda body: body.kind != "transformer")
    # A slot reaches on towards what else crosses, so its path lies last below the transformer.
    rows = sorted(rows, key=lambda row: row["shape"] == "slot")
    alone = max(len(rows) - _lanes_under(bodies), 0)
    under = rows[alone:] if _lanes_under(bodies) else []
    entries = [*order[:1], *rows[:len(rows) - len(under)], *order[1:]]
    tall = [entry.along if isinstance(entry, Body) else LANE for entry in entries]
    gap = (width - 2 * EDGE - sum(tall)) / max(len(tall), 1)
    y, placed, lanes = EDGE + gap / 2, [], []
    for entry, high in zip(entries, tall, strict=True):
        if isinstance(entry, Body):
            placed.append(Placed(entry, barrier, y + high / 2))
        else:
            lanes.append(Lane(entry, y + high / 2))
        y += high + gap
    if under:
        lowest = placed[0].y + _pin_step(order[0])
        lanes = [Lane(row, lowest - _pin_step(order[0]) * (len(under) - 1 - index))
                 for index, row in enumerate(under)] + lanes
    return placed, lanes


def _slot(document, lanes: Sequence[Lane], middle: Sequence[Placed], barrier: float,
          width: float) -> Box | None:
    """The slot that a recorded path goes round; else a short one where the notes name one."""
    for lane in lanes:
        sizes = lane.row["slot"]
        if lane.row["shape"] == "slot" and {"start", "end", "width", "from_y"} <= set(sizes):
            before = (sizes["from_y"] - sizes["start"]) * 1e3
            after = (sizes["end"] - sizes["from_y"]) * 1e3
            if lane.y + after > width - 0.8:        # measured from the slot's other end
                before, after = after, before
            half = sizes["width"] * 1e3 / 2
            return barrier - half, lane.y - before, barrier + half, lane.y + after
    for placed in middle:
        if placed.body.kind == "opto" and "slot" in placed.body.row["place"]:
            return barrier - 0.5, placed.y - 2.9, barrier + 0.5, placed.y + 2.9
    return None


def pads_of(placed: Placed, pins: float = 6.0) -> list[tuple[float, float, float]]:
    """Solder joints of a piece with wire leads: x, y, radius. pins : of the transformer"""
    body, x, y = placed.body, placed.x, placed.y
    if body.solder_side or body.kind == "chip":
        return []
    if body.kind == "transformer":
        half, step = pins / 2 + 0.85, _pin_step(body)
        return [(x + side * half, y - body.along / 2 + 1.5 + step * index, 0.85)
                for side in (-1, 1) for index in range(PINS if side < 0 else PINS - 1)]
    if body.kind == "opto":
        half = OPTO / 2 + 0.7
        return [(x + side * half, y + up * 1.27, 0.7) for side in (-1, 1) for up in (-1, 1)]
    if body.kind == "disc" and body.zone == "barrier":
        return [(x + side * (body.across / 2 + 1.2), y, 0.9) for side in (-1, 1)]
    if body.kind in ("bridge", "ring"):
        return [(x + i * (body.across / 2 - 1.2), y + j * (body.along / 2 - 1.4), 0.9)
                for i in (-1, 1) for j in (-1, 1)]
    if body.kind.startswith("usb"):
        return [(x - body.across / 2 + 1.0, y + (i - 1.5) * body.along / 5, 0.5)
                for i in range(4)]
    if body.kind.startswith("lying"):
        pin = body.across > body.along
        return [(x - pin * (body.across / 2 - 0.9) + (not pin) * side * 2.4,
                 y - (not pin) * (body.along / 2 - 0.9) + pin * side * 2.4, 0.9)
                for side in (-1, 1)]
    reach = max(body.across, body.along) / 2 - 1.1
    if body.kind.startswith("can"):
        reach = body.across * 0.22
    flat = body.across >= body.along
    return [(x + side * reach * flat, y + side * reach * (not flat), 0.8) for side in (-1, 1)]


def _with_solder_side(board: Board, below: Sequence[Body]) -> Board:
    """Chips find the free place nearest to where they belong."""
    taken = [(x - r, y - r, x + r, y + r) for placed in board.parts
             for x, y, r in pads_of(placed, board.pins)]
    gap = half_gap(board) + 0.5
    edge = board.daughter[0] if board.daughter else board.length
    zones = {"primary": (EDGE, EDGE, board.barrier - gap, board.width - EDGE),
             "secondary": (board.barrier + gap, EDGE, edge - 0.5, board.width - EDGE)}
    placed = list(board.parts)
    for body in sorted(below, key=lambda one: -one.across * one.along):
        spot = _free(zones[body.zone], taken, body, board.barrier, board.width / 2)
        placed.append(spot)
        left, top, right, bottom = spot.box
        taken.append((left, top, right, bottom))
    return Board(board.length, board.width, board.barrier, tuple(placed), board.lanes, board.pins,
                 board.slot, board.daughter)


def half_gap(board: Board) -> float:
    """From the barrier to where the copper of either circuit begins to spread."""
    return _half_gap(board.pins, [lane.length for lane in board.lanes])


def _half_gap(pins: float, lengths: Sequence[float]) -> float:
    return max([pins + 3.8, *(length + 1.6 for length in lengths)]) / 2


def _free(zone: Box, taken: Sequence[Box], body: Body, x0: float, y0: float) -> Placed:
    """The nearest place to a point that touches nothing; the zone's middle when all is full."""
    left, top = zone[0] + body.across / 2, zone[1] + body.along / 2
    right, bottom = zone[2] - body.across / 2, zone[3] - body.along / 2
    columns, rows = (max(int((b - a) * 2) + 1, 0) for a, b in ((left, right), (top, bottom)))
    spots = sorted(((left + i / 2, top + j / 2) for i in range(columns) for j in range(rows)),
                   key=lambda at: (at[0] - x0) ** 2 + (at[1] - y0) ** 2)
    for x, y in spots:
        spot = Placed(body, x, y)
        if not any(boxes_meet(spot.box, other) for other in taken):
            return spot
    return Placed(body, (zone[0] + zone[2]) / 2, (zone[1] + zone[3]) / 2)


def boxes_meet(one: Box, other: Box, gap: float = 0.5) -> bool:
    """Whether two boxes overlap, or lie nearer than a gap."""
    return (one[0] < other[2] + gap and other[0] < one[2] + gap
            and one[1] < other[3] + gap and other[1] < one[3] + gap)


def fits_the_case(document: Document, board: Board) -> bool:
    """Whether the board, laid out flat, is no longer than the case; True where nobody measured."""
    room = _interior(document)[0]
    return room == 0.0 or board.length <= room + 0.5
