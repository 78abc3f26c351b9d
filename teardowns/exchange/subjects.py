"""From documents to what rules about safety are asked of: paths, layers, parts and units."""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from teardowns.engine.requirements.safety_capacitors import classes_in
from teardowns.engine.subjects import Subjects, SubjectTable
from teardowns.exchange.document import counts, witnesses
from teardowns.exchange.observing.barrier import is_across, most_across
from teardowns.reading.plug import plug_kind

Document = Mapping[str, Any]
Row = Mapping[str, Any]
LENGTHS = ("width", "depth", "straight", "from_x", "from_y", "to_x", "to_y", "start", "end",
           "gap_1", "gap_2", "gap_3", "particle", "particle_loose")
# What a reading leaves open where nobody said: at least so much [m], or this share of it.
# Application assumption, not from a standard.
METHOD_U = {"caliper": (1e-4, 0.0), "photo_scale": (3e-4, 0.1), "photo_part": (5e-4, 0.2),
            "other": (5e-4, 0.2)}
ON_THE_PART = ("measured", "read_off")      # else no method was at work, whatever is ticked
STATED = {"standard": 2.0, "interval": 1.0, "tolerance": 1.0}     # to an expanded uncertainty
PRESENCE = ("fuse", "fusible_resistor", "x_capacitor", "barrier_capacitor", "discharge_resistor",
            "filter_choke")
LIMITED = ("lps", "class_2_supply")


def subject_tables(documents: Sequence[Document], refs: dict[str, int],
                   confirmed_only: bool = False) -> Subjects:
    """The tables of full documents; `refs` gains the names of the rows, as the evidence has them.

    Rows that were looked for and not found are subjects too: a part that is not there can be a
    finding. Disputed rows are not, nor is what only the seller says.
    """
    readers = {"path": ("insulation", "insulationobservation", _path),
               "layer": ("stack", "stacklayer", _layer),
               "part": ("components", "component", _part)}
    at_odds = [_at_odds(document["insulation"], confirmed_only) for document in documents]
    tables = {}
    for on, (name, noun, read) in readers.items():
        found = [(index, row) for index, document in enumerate(documents)
                 for row in document[name] if witnesses(row, confirmed_only)]
        tables[on] = SubjectTable.of(
            on, [(index, read(row) | (at_odds[index].get(row["key"], {}) if on == "path" else {}))
                 for index, row in found],
            [_label(on, row) for _, row in found],
            [refs.setdefault(f"{index}:{noun}/{row['key']}", len(refs)) for index, row in found])
    units = [(index, _unit(document, confirmed_only)) for index, document in enumerate(documents)]
    tables["unit"] = SubjectTable.of("unit", units)
    return Subjects(tables)


def _label(on, row):
    if on == "path":
        return row["place"]
    if on == "layer":
        return f"layer {row['position']}"
    return " ".join(filter(None, (row["role"].replace("_", " "), row["designator"])))


def _path(row: Row) -> dict[str, Any]:
    made = {name: row["slot"][name] for name in LENGTHS if name in row["slot"]}
    made |= {name: row[name] for name in
             ("barrier", "path", "site", "situation", "material_group", "shape")}
    made |= _flags(row, "coated", "contaminated")
    if "pollution_degree" in row:
        made["pollution_degree"] = row["pollution_degree"]
    if row["state"] == "recorded":
        made |= {"distance": row["value"], "distance_u": _distance_u(row),
                 "distance_assumed": float(not _is_stated(row))}
    return made


def _is_stated(row):
    """No length is exact: an uncertainty of 0 says that nobody thought of one."""
    return bool(row["uncertainty_kind"]) and row["uncertainty"] > 0.0


def _distance_u(row):
    if _is_stated(row):
        return STATED[row["uncertainty_kind"]] * row["uncertainty"]
    least, share = METHOD_U[row["method"] if row["how"] in ON_THE_PART else "other"]
    return max(least, share * row["value"])


def _at_odds(paths: Sequence[Row], confirmed_only: bool) -> dict[str, dict[str, float]]:
    """By key of a plain path, the least and the largest other reading of the same way that differs
    from it by more than both uncertainties."""
    ways: dict[tuple, list[Row]] = {}
    for row in paths:
        if row["state"] == "recorded" and row["shape"] == "" and witnesses(row, confirmed_only):
            ways.setdefault(_way(row), []).append(row)
    return {row["key"]: {"other_least": min(others), "other_most": max(others)}
            for rows in ways.values() if len(rows) > 1
            for row in rows if (others := _others(row, rows))}


def _way(row):
    return (row["barrier"], row["path"], row["site"], row["situation"],
            " ".join(row["place"].casefold().split()))


def _others(row, rows):
    return [one["value"] for one in rows if one is not row
            and abs(one["value"] - row["value"]) > _distance_u(one) + _distance_u(row)]


def _layer(row: Row) -> dict[str, Any]:
    names = ("position", "kind", "winding", "state", "wire_insulation", "material", "damage",
             "tape_layers", "thickness", "margin_left", "margin_right", "withstood")
    made = {name: row[name] for name in names if name in row}
    made |= _flags(row, "documented", "sleeved")
    return made | {"photographed": float("photo" in row)}


def _part(row: Row) -> dict[str, Any]:
    names = {"part_voltage": "rated_voltage", "part_current": "rated_current"}
    made = {name: row[name] for name in ("role", "state", "marking", "safety_class", "bridges",
                                         "count", "nominal", "tolerance") if name in row}
    made |= {name: row[field] for name, field in names.items() if field in row}
    return made | {"in_series": float(row["in_series"]), "cited": float("part" in row)}


def _flags(row, *names):
    return {name: float(row[name]) for name in names if name in row}


def _unit(document: Document, confirmed_only: bool) -> dict[str, Any]:
    parts = [row for row in document["components"] if witnesses(row, confirmed_only)]
    claims = [row for row in document["claims"]
              if counts(row, confirmed_only) and row["state"] == "recorded"]
    return {
        "plug": plug_kind(document["unit"]["plug"]), "kind": document["unit"]["kind"],
        **dict(_presence(parts)), **_highest(claims), **_named(claims),
        **_most_across(document, parts), **_bulk_pieces(parts), **_y2_pieces(parts),
    }


def _most_across(document: Document, parts: Sequence[Row]) -> dict[str, float]:
    """Not known where one is disputed or told by the seller alone: without it the sum is too small.

    parts : the components that witness
    """
    known = {row["key"] for row in parts}
    all_known = all(row["key"] in known for row in document["components"]
                    if is_across(row) and row["state"] != "not_found")
    return most_across(parts) if all_known else {}


def _bulk_pieces(parts: Sequence[Row]) -> dict[str, float]:
    found = [row["count"] for row in parts
             if row["role"] == "bulk_capacitor" and row["state"] == "recorded"]
    return {"bulk_pieces": float(sum(found))} if found else {}


def _y2_pieces(parts: Sequence[Row]) -> dict[str, float]:
    """Of those entered one by one: a pair is whole, and no other piece is half of it."""
    found = [1 for row in parts
             if is_across(row) and row["state"] == "recorded" and row["count"] == 1
             and "Y2" in classes_in(f"{row['safety_class']} {row['marking']}")]
    return {"barrier_y2_pieces": float(sum(found))} if found else {}


def _presence(parts: Sequence[Row]) -> Iterator[tuple[str, float]]:
    """Found where one is recorded; not found where it was looked for and nothing else is said."""
    for role in PRESENCE:
        states = {row["state"] for row in parts if row["role"] == role}
        if "recorded" in states:
            yield f"found_{role}", 1.0
        elif states == {"not_found"}:
            yield f"found_{role}", 0.0


def _highest(claims):
    """The highest output figures that are printed."""
    outputs = [row for row in claims if row["kind"] in ("output", "total")]
    names = {"claimed_output_voltage": "voltage_high", "claimed_output_current": "current",
             "claimed_output_power": "power"}
    found = {name: [row[field] for row in outputs if field in row]
             for name, field in names.items()}
    found["largest_printed_output"] = [watts for row in outputs for watts in _watts(row)]
    return {name: max(values) for name, values in found.items() if values}


def _watts(row):
    """As printed; else voltage times current. [W]"""
    if "power" in row:
        yield row["power"]
    elif "voltage_high" in row and "current" in row:
        yield row["voltage_high"] * row["current"]


def _named(claims):
    """Standards and sources that a printed mark names; not known where no mark was read."""
    marks = [row["mark"] for row in claims if row["kind"] == "mark"]
    if not marks:
        return {}
    return {
        "marks": f" {' '.join(marks)} ",
        "claims_limited_source": float(any(mark in LIMITED for mark in marks)),
        "claims_60950": float(any(mark.startswith("standard:60950") for mark in marks)),
        "claims_61558": float(any(mark.startswith("standard:61558") for mark in marks)),
    }
