"""The parts on the board: what their markings, ratings and library entries say of the unit.

A sum needs all its parts: one that is disputed, unread, told by the seller alone or without its
number leaves it unknown, for a sum with a part missing would be too small and accuse the unit of
what nobody saw. A rating that the row leaves blank is looked up in the library entry that it cites.
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from teardowns.engine.evidence import assumed_uncertainty
from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.requirements.mains_parts import LOWEST_BULK
from teardowns.exchange.document import witnesses
from teardowns.exchange.observing.limits import (
    integrated_switch,
    library,
    limits_by_marking,
    published,
)
from teardowns.exchange.observing.observation import (
    DIVISOR,
    Observation,
    Row,
    is_recorded,
    may_be_there,
    refs_of,
)
from teardowns.exchange.observing.recipes import BRIDGE, RECIPES, Piece

PRESENCE = {                # role of a component → the flag that it raises
    "optocoupler": "isolated_feedback", "protocol_controller": "protocol_controller",
    "port_converter": "port_converter", "pass_switch": "bus_switch",
}
RATED_VOLTAGE = {"bulk_capacitor": "bulk_capacitor_rating",
                 "output_capacitor": "output_capacitor_rating"}
DRY = ("polymer", "solid", "ceramic", "mlcc", "tantalum")    # words beside a part that is not wet


def of_components(components: Sequence[Row], parts: Sequence[Row],
                  confirmed_only: bool) -> Iterator[Observation]:
    limits = limits_by_marking(parts)
    speaking = [row for row in components if witnesses(row, confirmed_only)]
    for row in speaking:
        yield from _presence(row)
    for row in _without_small_ones(speaking, limits):
        yield from _rated_voltage(row, limits)
    yield from published(speaking, limits)
    yield from integrated_switch(components, speaking, limits)
    yield from _full_wave(speaking)
    for recipe in RECIPES:
        for rows in _by_port(components, recipe.role, confirmed_only):
            yield from _combined(recipe, rows, limits, confirmed_only)
    for rows in _by_port(components, "output_capacitor", confirmed_only):
        yield from _number_of_cans(rows, confirmed_only)


def _presence(row):
    if row["role"] in PRESENCE and row["state"] in ("recorded", "not_found"):
        yield Observation(PRESENCE[row["role"]], float(is_recorded(row)), 0.0,
                          refs_of("component", [row]), port=row.get("port", ""))


def _without_small_ones(rows, limits):
    """Without a capacitor that lies across no mains, where another one called bulk may do so.

    The lowest rating counts, so that it would hide what the other one is rated for.
    """
    code = RATED_VOLTAGE["bulk_capacitor"]

    def volts(row):
        is_bulk = row["role"] == "bulk_capacitor" and is_recorded(row)
        return _value(row, "rated_voltage", code, limits) if is_bulk else None

    if not any((volts(row) or 0) >= LOWEST_BULK for row in rows):
        return rows
    return [row for row in rows if (volts(row) or LOWEST_BULK) >= LOWEST_BULK]


def _rated_voltage(row, limits):
    """Of each capacitor by itself: the lowest of them counts."""
    code = RATED_VOLTAGE.get(row["role"])
    if code and is_recorded(row) and (value := _value(row, "rated_voltage", code, limits)):
        u = assumed_uncertainty(code, _how(row, "rated_voltage"), value)
        yield Observation(code, value, u, refs_of("component", [row]), port=row.get("port", ""))


def _value(row, field, code, limits):
    return row.get(field) or library(row, limits).get(code)


def _how(row, field):
    return row["how"] if row.get(field) else "data_sheet"


def _full_wave(rows):
    """Four mains diodes are a bridge; fewer parts may be one too, in one body: no word on that."""
    diodes = [row for row in rows if row["role"] == "rectifier" and is_recorded(row)]
    if sum(row["count"] for row in diodes) >= BRIDGE:
        yield Observation("rectifier_full_wave", 1.0, 0.0, refs_of("component", diodes))


def _speaks(row, confirmed_only):
    return is_recorded(row) and witnesses(row, confirmed_only)


def _by_port(components, role, confirmed_only):
    """The rows of a role, apart by the port that they serve alone.

    A part that nobody could read may belong to any of them, unless its port is stated.
    """
    rows = may_be_there(row for row in components if row["role"] == role)
    loose = [row for row in rows if not row.get("port") and not _speaks(row, confirmed_only)]
    for port in sorted({row.get("port", "") for row in rows}):
        own = [row for row in rows if row.get("port", "") == port]
        yield own + (loose if port else [])


def _combined(recipe, rows, limits, confirmed_only):
    if not all(_speaks(row, confirmed_only) for row in rows):
        return
    values = [_value(row, recipe.field, recipe.code, limits) for row in rows]
    if not all(values) or recipe.of_wet_parts and any(map(_is_dry, rows)):
        return
    pieces = [Piece(row["count"], value, _spread(recipe, row))
              for row, value in zip(rows, values, strict=True)]
    value = recipe.combine(pieces)
    if value is not None:
        yield Observation(recipe.code, value, value * _joint_spread(pieces),
                          refs_of("component", rows), port=rows[0].get("port", ""),
                          photo=_photo(recipe, rows[0]))


def _is_dry(row):
    said = f"{row['marking']} {row['note']}".casefold()
    return any(word in said for word in DRY)


def _photo(recipe, row):
    is_length = QUANTITIES[recipe.code].unit == "m"
    return row.get("photo", "") if is_length and row.get(recipe.field) else ""


def _spread(recipe, row):
    """Relative, k = 1: of a nominal value its tolerance, of a rating what the rulebook assumes."""
    how = _how(row, recipe.field)
    is_marked = recipe.tolerance and row.get(recipe.field) and how != "measured"
    if is_marked or (recipe.tolerance and "tolerance" in row):
        return row.get("tolerance", recipe.tolerance) / DIVISOR["tolerance"]
    return assumed_uncertainty(recipe.code, how, 1.0)


def _joint_spread(pieces):
    """Parts of one batch err alike, so that their shares add up."""
    whole = sum(piece.count * piece.value for piece in pieces)
    return sum(piece.count * piece.value * piece.spread for piece in pieces) / whole


def _number_of_cans(rows, confirmed_only):
    if all(_speaks(row, confirmed_only) for row in rows):
        yield Observation("output_capacitor_count", float(sum(row["count"] for row in rows)), 0.0,
                          refs_of("component", rows), port=rows[0].get("port", ""))
