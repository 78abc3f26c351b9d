"""A log as its pages show it: chart, results with their working, how the bench was set."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.urls import reverse

from core.words.as_written import AsWritten
from teardowns.logs.channels import Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import result_from
from teardowns.logs.layout import Layout
from teardowns.logs.roles import ROLES
from teardowns.models import Recording, RecordingKind
from teardowns.reading.quantity import print_quantity

from .log_chart import chart_part
from .recording_results import shown_results

GENERATED = "Made from the demo’s own numbers; no instrument wrote it."
SET = {                     # of Conditions: what it is called, its unit
    "set_voltage": ("Voltage of the port", "V"), "lowest_voltage": ("Lowest that counts", "V"),
    "rated_current": ("Current on the plate", "A"), "mains_voltage": ("Mains", "V"),
    "mains_frequency": ("Mains", "Hz"), "ambient": ("Air", "°C"), "load": ("Output power", "W"),
    "bus_voltage": ("Across the bulk capacitor", "V"),
    "primary_inductance": ("Primary inductance", "H"),
}


def recording_sheet(recording: Recording, channels: Channels, results: Sequence[Mapping[str, Any]],
                    taken: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    """Context of a page about one log that was read.

    results : as stored; taken : by code, the row of evidence that has its value from here
    """
    return {
        "recording": recording, "title": title(recording),
        "chart": chart_part("chart", title(recording), channels,
                            [result_from(result) for result in results]),
        "results": shown_results(results, taken),
        "remark": GENERATED if recording.generated else "",
        "facts": facts(recording), "set": conditions_said(recording),
        "addresses": addresses(recording),
    }


def title(recording: Recording) -> str:
    """ "Load sweep 2": its kind, and its number where the key bears one."""
    number = recording.key.rpartition("-")[2]
    several = number if number.isdigit() and number != "1" else ""
    name = recording.get_kind_display()
    return f"{name[:1].upper()}{name[1:]} {several}".strip()


def facts(recording: Recording) -> list[str]:
    """How many rows, where, by what."""
    said = [f"{recording.rows:,} rows".replace(",", "\u202f")] if recording.rows else []
    if recording.port:
        said.append(f"port {recording.port.label}")
    return [*said, *([AsWritten(recording.instrument)] if recording.instrument else [])]


def columns_said(recording: Recording) -> list[tuple[str, str]]:
    """ "Voltage (V)", "output voltage": each column that is used, as the file heads it."""
    if not recording.layout:
        return []
    return [(AsWritten(column.label) or f"column {column.index + 1}", ROLES[column.role].label)
            for column in Layout.from_json(recording.layout).used()]


def conditions_said(recording: Recording) -> list[tuple[str, str]]:
    if not recording.conditions:
        return []
    stated = Conditions.from_json(recording.conditions)
    said = [(label, print_quantity(getattr(stated, name), unit))
            for name, (label, unit) in SET.items() if getattr(stated, name) is not None]
    cable = stated.cable
    if cable is not None:
        said.append(("Cable to the meter", f"{print_quantity(cable.length, 'm')}, "
                                           f"{print_quantity(cable.area, 'm²')}"))
    return said


def addresses(recording: Recording) -> dict[str, str]:
    """Of the chart's window, the drawing alone, the values, and the page itself."""
    names = {"window": "recording_window", "drawing": "recording_chart",
             "values": "recording_values", "page": "unit_recording"}
    return {word: reverse(name, args=[recording.unit_id, recording.key])
            for word, name in names.items()}


def recording_row(recording: Recording) -> dict[str, Any]:
    """A line of a list of logs: what it is and how far it came."""
    return {"title": title(recording), "caption": recording.caption,
            "file": recording.original_name,        # the contributor's own business
            "key": recording.key, "facts": facts(recording),
            "state": state_of(recording), "remark": GENERATED if recording.generated else ""}


def state_of(recording: Recording) -> str:
    if recording.kind == RecordingKind.PROTOCOL:
        return "Kept."
    if recording.refusal:
        return f"Not read: {refusal_of(recording)}"
    if not recording.is_laid_out:
        return "Say how it is read."
    if not recording.is_read:
        return f"Read so far: {percent_read(recording)} %."
    numbers = sum(result["kind"] == "number" for result in recording.results)
    return f"Read, {numbers} number{'' if numbers == 1 else 's'} found."


def percent_read(recording: Recording) -> int:
    progress = recording.progress
    return int(100 * progress["offset"] / progress["size"]) if progress.get("size") else 0


def refusal_of(recording: Recording) -> str:
    """ "Line 12, column 3: …" """
    place = [f"{word} {number}" for word, number in (
        ("line", recording.refusal_line), ("column", recording.refusal_column)) if number]
    where = ", ".join(place).capitalize()
    return f"{where}: {recording.refusal}" if where else recording.refusal
