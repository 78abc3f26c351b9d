"""What a unit is compared by: read from its public document, confirmed rows only.

A feature belongs to a slot ("marking/primary_controller", "size/primary_turns"). Two units are
compared slot by slot, and only where something was recorded in both: what nobody looked at speaks
neither for nor against. The case, the plate and what a test showed are left out: they are not the
board.
"""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.document import counts
from teardowns.exchange.observations import observations
from teardowns.exchange.observing.observation import is_recorded, refs_of
from teardowns.reading.markings_alike import alike
from teardowns.reading.printing import print_quantity
from teardowns.searching.folding import folded

MARKING, VALUE, SIGN, SIZE = "marking", "value", "sign", "size"
ORDER, PORTS, PHOTO = "winding_order", "ports", "photo"
# Types of which the marking says what it is; of the others (a capacitor's "10 µF 400 V") the value.
NAMED = ("primary_controller", "primary_switch", "protocol_controller", "optocoupler",
         "output_rectifier", "port_converter", "pass_switch", "transformer", "core", "other")
VALUED = ("bulk_capacitor", "x_capacitor", "barrier_capacitor", "output_capacitor",
          "discharge_resistor", "sense_resistor", "fusible_resistor", "fuse", "varistor")
BOARD_SIZES = ("primary_turns", "secondary_turns", "auxiliary_turns", "primary_inductance",
               "core_width", "core_height", "core_depth", "centre_leg_width",
               "primary_wire_diameter", "secondary_wire_diameter",
               "output_capacitor_diameter", "output_capacitor_length")
UNREAD = "?"
BOARD_STAGES = ("component_side", "solder_side")


@dataclass(frozen=True, slots=True)
class Feature:
    """One thing that another board can have as well."""

    slot: str
    shown: str                          # as recorded, for a sentence
    text: str = ""                      # folded; "" for a number or a picture
    value: float | None = None          # SI
    u: float = 0.0                      # standard uncertainty, same unit
    picture: int | None = None          # signed 64 bit difference hash
    refs: tuple[str, ...] = ()          # rows of the document, or "photo/…"


def features(document: Mapping[str, Any],
             pictures: Iterable[tuple[str, str, int]] = ()) -> tuple[Feature, ...]:
    """All features of a full document, in an order that depends on nothing but it.

    pictures : key, stage and hash of each public photograph; drawings show no board
    """
    components = [row for row in document["components"]
                  if is_recorded(row) and counts(row, confirmed_only=True)]
    found = [*_of_components(components), *_sizes(document), *_winding_order(document),
             *_ports(document), *_pictures(pictures)]
    return tuple(sorted(set(found), key=lambda one: (one.slot, one.text, one.shown, one.refs)))


def plain(found: Iterable[Feature]) -> list[list[Any]]:
    """As JSON."""
    return [[one.slot, one.shown, one.text, one.value, one.u, one.picture, list(one.refs)]
            for one in found]


def from_plain(rows: Iterable[list[Any]]) -> tuple[Feature, ...]:
    return tuple(Feature(slot, shown, text, value, u, picture, tuple(refs))
                 for slot, shown, text, value, u, picture, refs in rows)


def _of_components(rows) -> Iterator[Feature]:
    for row in rows:
        role, refs = row["role"], refs_of("component", [row])
        # As on a worn body: O and 0, I and 1 and the like are one letter.
        marking, sign = folded(alike(row["marking"])), alike(row["designator"])
        if role in NAMED and marking:
            yield Feature(f"{MARKING}/{role}", row["marking"], marking, refs=refs)
        if role in VALUED and (said := _rating(row)):
            yield Feature(f"{VALUE}/{role}", row["marking"] or said, said, refs=refs)
        if sign:
            yield Feature(f"{SIGN}/{role}", row["designator"], sign, refs=refs)


def _rating(row):
    """`0.0001 400 ? 2`: value, voltage, current, pieces; "" where none is known."""
    known = [row.get(name) for name in ("nominal", "rated_voltage", "rated_current")]
    if all(value is None for value in known):
        return ""
    return " ".join([UNREAD if value is None else f"{value:.3g}" for value in known]
                    + [str(row["count"])])


def _sizes(document) -> Iterator[Feature]:
    """Each size of the board and its transformer; of several readings the surest."""
    by_code: dict[str, list[Any]] = {}
    for seen in observations(document, confirmed_only=True):
        if seen.code in BOARD_SIZES and not seen.port and seen.value > 0:
            by_code.setdefault(seen.code, []).append(seen)
    for code, readings in sorted(by_code.items()):
        surest = min(readings, key=lambda seen: (seen.u, seen.value))
        shown = print_quantity(surest.value, QUANTITIES[code].unit,
                               uncertainty=2 * surest.u)
        yield Feature(f"{SIZE}/{code}", shown, value=surest.value, u=surest.u, refs=surest.refs)


def _winding_order(document) -> Iterator[Feature]:
    """From the core outward; only of a stack whose every winding was seen and confirmed."""
    rows = [row for row in document["stack"] if row["kind"] == "winding"
            and row["state"] != "not_found"]
    if len(rows) > 1 and all(is_recorded(row) and counts(row, True) for row in rows):
        order = [row["winding"] for row in sorted(rows, key=lambda row: row["position"])]
        yield Feature(ORDER, ", ".join(order), "-".join(order), refs=refs_of("stacklayer", rows))


def _ports(document) -> Iterator[Feature]:
    rows = [row for row in document["ports"] if is_recorded(row) and counts(row, True)]
    names = sorted(row["connector"] for row in rows)
    if names and len(rows) == len([row for row in document["ports"]
                                   if row["state"] != "not_found"]):
        yield Feature(PORTS, ", ".join(map(_connector, names)), "+".join(names),
                      refs=refs_of("port", rows))


def _connector(name):
    """`USB-C`, `barrel`."""
    return name.upper().replace("_", "-") if name.startswith("usb") else name.replace("_", " ")


def _pictures(pictures) -> Iterator[Feature]:
    for key, stage, picture in pictures:
        if stage in BOARD_STAGES and picture:          # 0: a plain field has nothing to compare
            yield Feature(f"{PHOTO}/{stage}", f"photo {key}", picture=picture,
                          refs=(f"photo/{key}",))
