"""The evidence itself, one table a kind: nothing left out, nothing rounded away."""
from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten, Quoted
from core.words.said import said
from teardowns.figures.markup import element

from . import evidence_cells as cells
from .advertised import advertised_words
from .cell_text import cell_text
from .evidence_names import quantity_label
from .links import anchor
from .numbers import printed, with_unit

PROVENANCE = ("How obtained", "Review and entry")
RATINGS = ("input", "output", "total")
Talk = Callable[[str], tuple[str, str]]          # ref → address and words of its discussion
LIMIT = "limit"                                  # a state only here
STATES = (
    ("recorded", "recorded"), ("not_found", "looked for and not found"),
    (LIMIT, "known as a limit"), ("not_readable", "not readable"),
    ("not_looked", "not looked at"),
)


@dataclass(frozen=True, slots=True)
class Cell:
    label: str              # the column's head, repeated on phones; "" where it says nothing
    text: SafeString


@dataclass(frozen=True, slots=True)
class EvidenceRow:
    anchor: str
    name: SafeString
    cells: list[Cell]
    faint: bool             # there is no value

    @property
    def written(self) -> SafeString:
        """The cells as markup: they are many, and a template takes four times as long for them."""
        return mark_safe("".join(
            element("td", cell.text, role="cell", data_l=said(cell.label) or None)
            for cell in self.cells))


@dataclass(frozen=True, slots=True)
class EvidenceTable:
    anchor: str
    title: str
    caption: str            # "12 recorded, 1 looked for and not found"
    heads: tuple[str, ...]
    rows: list[EvidenceRow]


@dataclass(frozen=True, slots=True)
class Kind:
    """What is particular to one kind of evidence: its columns, and how a row fills them."""

    name: str
    title: str
    heads: tuple[str, ...]                       # the row's name first
    fill: Callable[[object], tuple[list[str], ...]]


def evidence_tables(rows: dict[str, list], talk: Talk | None = None) -> list[EvidenceTable]:
    """A table for each kind of which the unit has any.

    talk : by ref, address and words of the discussion of a row; None where there is none to have
    """
    return [_table(kind, rows[kind.name], talk) for kind in KINDS if rows[kind.name]]


def states_in_words(rows: Iterable) -> str:
    found = [LIMIT if cells.has_limit(row) else row.state for row in rows]
    counts = [(found.count(state), words) for state, words in STATES]
    return ", ".join(f"{count} {words}" for count, words in counts if count)


def _table(kind: Kind, rows: list, talk: Talk | None) -> EvidenceTable:
    return EvidenceTable(
        f"evidence-{kind.name}", kind.title, f"{states_in_words(rows)}.",
        kind.heads + PROVENANCE, [_row(kind, row, talk) for row in rows],
    )


def _row(kind: Kind, row, talk: Talk | None) -> EvidenceRow:
    name, *values = kind.fill(row)
    looked = cells.looked(row)
    if looked is not None:
        values[0] = [looked, *values[0]]
    about = [] if talk is None else [cells.discussion(*talk(row.ref))]
    # Said in full: below "confirmed" a bare name would be taken for who confirmed it.
    by = AsWritten(f"{said('Entered by')} {cells.entered(row)}")
    filled = [*values, cells.source(row), [cells.review(row), by, *about]]
    labels = kind.heads[1:] + PROVENANCE
    return EvidenceRow(
        anchor=anchor(row.ref), name=_stacked(name), faint=looked is not None,
        cells=[_cell(label, parts) for label, parts in zip(labels, filled, strict=True)],
    )


def _cell(label: str, parts: list[str]) -> Cell:
    return Cell(label if parts else "", _stacked(parts))


def _stacked(parts: list[str]) -> SafeString:
    """The first part stands out, the rest are remarks below it."""
    first, *rest = [cell_text(part) for part in parts] or [""]
    return mark_safe(first + "".join(element("small", part) for part in rest))


def _claim(row):
    place = str(row.printed_text) if row.printed_text else "source not stated"
    shared = {True: "shared", False: "each port", None: ""}[row.shared]
    where = [place, *filter(None, (row.port and f"port {row.port}", shared))]
    return [AsWritten(row.text) or "no text", row.get_kind_display()], claim_reading(row), where


def claim_reading(row) -> list[str]:
    """What was read from the words: `100 to 240 V, 50 to 60 Hz, 0.6 A`."""
    found = [
        _range(row.voltage_low, row.voltage_high, "V"),
        _range(row.frequency_low, row.frequency_high, "Hz"),
        with_unit(printed(row.current), "A") if row.current is not None else "",
        with_unit(printed(row.power), "W") if row.power is not None else "",
    ]
    words = AsWritten(", ".join(filter(None, (*map(said, found), row.mark))))
    unread = row.state == "recorded" and row.kind in RATINGS
    return [words] if words else ["not read as numbers"] if unread else []


def _range(low: float | None, high: float | None, unit: str) -> str:
    ends = [end for end in (low, high) if end is not None]
    if not ends:
        return ""
    ends = ends[:1] if ends[0] == ends[-1] else ends
    return with_unit(" to ".join(printed(end) for end in ends), unit)


def _port(row):
    contacts = {True: "high-current contacts", False: "plain contacts", None: ""}
    connector = [row.get_connector_display(), *filter(None, [contacts[row.high_current_contacts]])]
    words = advertised_words(row.advertised)
    if row.cc_current is not None:
        words.append(f"CC: {with_unit(printed(row.cc_current), 'A')}")
    wiring = [row.get_wiring_display()]
    return [AsWritten(row.label)], connector, wiring, words or ["nothing recorded"]


def _component(row):
    series = ", in series" if row.in_series else ""
    count = [f"{row.count} pieces{series}"] if row.count != 1 else []
    part = [f"library: {row.part}"] if row.part else []
    port = [f"port {row.port} alone"] if row.port else []
    across = [f"bridges {row.get_bridges_display()}"] if row.bridges else []
    where = map(AsWritten, filter(None, [row.designator, row.place]))
    name = [row.get_role_display(), *where, *count, *port, *across]
    marking = [Quoted(row.marking), *part] if row.marking else part
    return name, marking, cells.component_value(row)


def _layer(row):
    what = row.get_winding_display() if row.winding else row.get_kind_display()
    condition = cells.condition(row)
    return [f"{row.position}. {what}"], cells.winding(row) + cells.layers(row), condition


def _path(row):
    value = cells.measured_value(row, "m") if row.value is not None else []
    ground = [row.get_method_display(), *cells.path_ground(row)]
    name = [AsWritten(row.place), row.get_path_display(), row.get_barrier_display(),
            *([row.get_site_display()] if row.site else [])]
    return name, value, ground if row.state == "recorded" else []


def _measurement(row):
    is_known = row.value is not None or cells.has_limit(row)
    value = cells.quantity_value(row) if is_known else []
    return [quantity_label(row.quantity)], value, cells.conditions(row)


KINDS = (
    Kind("claim", "Printed claims", ("As printed", "Read as", "Where"), _claim),
    Kind("port", "Ports", ("Port", "Connector", "Data lines", "Advertised"), _port),
    Kind("component", "Components", ("Part", "Marking", "Value and ratings"), _component),
    Kind("stacklayer", "Transformer, from the core outward",
         ("Layer", "Wire or tape", "Condition"), _layer),
    Kind("insulationobservation", "Insulation paths", ("Path", "Value", "Method"), _path),
    Kind("measurement", "Measurements", ("Quantity", "Value", "Conditions"), _measurement),
)
