"""What a rule about safety is asked of: a path, a layer, a part or the unit, as columns.

The columns beside those of the quantities: what a row of evidence says that is no quantity of the
whole unit. Text is "" and a number NaN where nobody recorded it; a flag is 1, 0 or NaN.
"""
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

import numpy as np

TEXT, NUMBER = "text", "number"


@dataclass(frozen=True, slots=True)
class ColumnMeaning:
    kind: str            # TEXT or NUMBER
    label: str
    meaning: str
    unit: str = ""


def _text(label, meaning):
    return ColumnMeaning(TEXT, label, meaning)


def _number(label, unit, meaning):
    return ColumnMeaning(NUMBER, label, meaning, unit)


def _flag(label, meaning):
    return ColumnMeaning(NUMBER, label, meaning, "1")


PATH = {
    "barrier": _text("Barrier", "PRI_SEC, PRI_ENC, L_N, PRI_PE or FUNC."),
    "path": _text("Path", "clearance, creepage or insulation_thickness."),
    "site": _text("Where", "board, part, optocoupler, transformer, case, pins, or not stated."),
    "situation": _text("Situation", "as_found, joint_open or metal_moved."),
    "material_group": _text("Material group", "I, II, IIIa, IIIb, or not known."),
    "shape": _text("Shape", "plain, groove, v_groove, slot, rib, joint or floating."),
    "distance": _number("Distance", "m", "As recorded: along the contour of a groove, straight "
                        "across a slot, the sum of all gaps beside floating metal."),
    "distance_u": _number("Uncertainty", "m", "Expanded, of the distance."),
    "distance_assumed": _flag("Uncertainty assumed", "Nobody stated it: its method's is taken."),
    "other_least": _number("Least other reading", "m", "Of the same place, where it differs by "
                           "more than both uncertainties."),
    "other_most": _number("Largest other reading", "m", "Of the same place, where it differs by "
                          "more than both uncertainties."),
    "pollution_degree": _number("Pollution degree", "1", "1, 2 or 3, where somebody judged it."),
    "coated": _flag("Coated", "Potted, coated or cemented over."),
    "contaminated": _flag("Contaminated", "Conductive dust, flux residue, corrosion or traces of "
                          "condensation across the gap."),
    "width": _number("Width", "m", "Of the groove or slot."),
    "depth": _number("Depth", "m", "Of a V-shaped groove."),
    "straight": _number("Straight across", "m", "Distance as if the groove were bridged."),
    "from_x": _number("First conductor, x", "m", "Across the slot, whose middle is 0."),
    "from_y": _number("First conductor, y", "m", "Along the slot."),
    "to_x": _number("Second conductor, x", "m", "Across the slot, whose middle is 0."),
    "to_y": _number("Second conductor, y", "m", "Along the slot."),
    "start": _number("Slot begins", "m", "Along the slot; not stated where it leaves the board."),
    "end": _number("Slot ends", "m", "Along the slot; not stated where it leaves the board."),
    "gap_1": _number("First gap", "m", "Beside floating metal."),
    "gap_2": _number("Second gap", "m", "Beside floating metal."),
    "gap_3": _number("Third gap", "m", "Beside floating metal."),
    "particle": _number("Particle", "m", "Size of a solder ball or clipping in the gap."),
    "particle_loose": _flag("Loose particle", "1 loose, 0 attached."),
}
LAYER = {
    "position": _number("Place", "1", "Counted from the core outward."),
    "kind": _text("Kind", "winding or insulation."),
    "winding": _text("Winding", "primary, secondary, auxiliary or shield; empty: insulation."),
    "state": _text("State", "recorded, not_readable, not_looked or not_found."),
    "wire_insulation": _text("Wire insulation", "enamel, triple, single, fully, insulated, bare."),
    "material": _text("Material", "tape, bobbin, sheet or sleeve."),
    "damage": _text("Damage", "intact, damaged or melted."),
    "tape_layers": _number("Tape layers", "1", "Full overlapped turns."),
    "thickness": _number("Thickness", "m", "Of one layer."),
    "margin_left": _number("Margin, left", "m", "At the left end of the winding window."),
    "margin_right": _number("Margin, right", "m", "At the right end."),
    "documented": _flag("Documented", "A certificate or data sheet of the type was seen."),
    "sleeved": _flag("Sleeved", "A sleeve or sheet where its leads leave or cross."),
    "withstood": _number("Withstood", "V", "What one of its layers alone withstood, d.c. or peak."),
    "photographed": _flag("Photographed", "A photo shows it."),
}
PART = {
    "role": _text("Role", "Role of the component."),
    "state": _text("State", "recorded, not_readable, not_looked or not_found."),
    "marking": _text("Marking", "Verbatim."),
    "safety_class": _text("Class", "Class marks as printed: X2, Y1, X1Y2."),
    "bridges": _text("Bridges", "Barrier code; empty: as its role says."),
    "count": _number("Pieces", "1", "How many alike."),
    "nominal": _number("Nominal value", "F, Ω or H", "Of one piece."),
    "tolerance": _number("Tolerance", "1", "Of the nominal value, ±."),
    "part_voltage": _number("Rated voltage", "V", "As marked."),
    "part_current": _number("Rated current", "A", "As marked."),
    "in_series": _flag("In series", "The pieces lie in series."),
    "cited": _flag("Type known", "An entry of the part library is cited."),
}
UNIT = {
    "plug": _text("Plug", "Code of the plug."),
    "kind": _text("Kind of unit", "plug_in, desktop, outlet or other."),
    "claimed_output_voltage": _number("Highest claimed output voltage", "V", "As printed."),
    "claimed_output_current": _number("Highest claimed output current", "A", "As printed."),
    "claimed_output_power": _number("Largest claimed power", "W", "As printed."),
    "largest_printed_output": _number("Largest printed output", "W", "A printed power, or voltage "
                                      "times current where they are printed together."),
    "marks": _text("Marks", "Codes of the printed marks, each between blanks."),
    "claims_limited_source": _flag("Limited power source claimed", "A printed mark says so."),
    "claims_60950": _flag("IEC 60950-1 named", "A printed text names this standard."),
    "claims_61558": _flag("IEC 61558 named", "A printed text names this standard."),
    "found_fuse": _flag("Fuse", "1 found, 0 looked for and not found."),
    "found_fusible_resistor": _flag("Fusible resistor", "1 found, 0 looked for and not found."),
    "found_x_capacitor": _flag("Capacitor across the mains", "1 found, 0 not found."),
    "found_barrier_capacitor": _flag("Capacitor across the barrier", "1 found, 0 not found."),
    "found_discharge_resistor": _flag("Discharge resistor", "1 found, 0 not found."),
    "found_filter_choke": _flag("Interference choke", "1 found, 0 not found."),
    "barrier_y2_pieces": _number("Y2 capacitors across the barrier", "1",
                                 "How many pieces of the class Y2, each entered by itself, bridge "
                                 "mains side and output."),
    "bulk_pieces": _number("Bulk capacitors", "1", "How many pieces were found."),
    "barrier_capacitance_most": _number(
        "Largest capacitance across the barrier", "F",
        "All capacitors from the mains side to the output, series and tolerance included."),
}
# Of a primary–secondary neighbourhood in the transformer, made by engine.winding_stack.
ADJACENCY = {
    "inner": _text("Inner side", "primary, secondary, auxiliary, shield or core."),
    "outer": _text("Outer side", "primary, secondary, auxiliary, shield or core."),
    "layers_low": _number("Layers, lenient", "1", "Separate sheets that count at the lenient end."),
    "layers_high": _number("Layers, demanding", "1", "Those that count at the demanding end."),
    "solid_thickness": _number("Solid layer", "m", "Thickest single layer between; NaN unknown."),
    "layer_withstood": _number("Withstood", "V", "By one layer alone; the lowest of them."),
    "insulated_wire": _text("Insulated wire", "documented, doubtful, apparent or none; empty: not "
                            "known."),
    "traced": _flag("Traced", "Every layer between and both wires were read."),
    "margin_left_sum": _number("Margins, left", "m", "Of both windings at this end."),
    "margin_right_sum": _number("Margins, right", "m", "Of both windings at this end."),
    "edges_photographed": _flag("Edges photographed", "A photo shows both windings."),
    "inner_id": _number("Inner layer", "1", "Evidence id of its layer; NaN for the core."),
    "outer_id": _number("Outer layer", "1", "Evidence id of its layer; NaN for the core."),
    "condition_noted": _flag("Condition noted", "Of every layer that counts somebody said whether "
                             "it is intact."),
}
# Of one size of the plug, made from the quantities.
DIMENSION = {
    "code": _text("Size", "Code of the quantity."),
    "size": _number("Measured", "m", "As measured."),
    "size_u": _number("Uncertainty", "m", "Expanded."),
}
COLUMNS: dict[str, dict[str, ColumnMeaning]] = {
    "path": PATH, "layer": LAYER, "part": PART, "unit": UNIT, "adjacency": ADJACENCY,
    "dimension": DIMENSION}


@dataclass(frozen=True, slots=True)
class SubjectTable:
    """Subjects of one kind over many units, sorted by unit.

    row : (m,) int, which unit
    columns : by name of COLUMNS[on], (m,) float or text
    label : (m,) text, what a person calls it
    evidence_id : (m,) int, index into the caller's refs, −1 where no single row stands behind it
    """

    on: str
    row: np.ndarray
    columns: Mapping[str, np.ndarray]
    label: np.ndarray
    evidence_id: np.ndarray

    @classmethod
    @cache
    def none(cls, on: str) -> "SubjectTable":
        return cls.of(on, [])

    @classmethod
    def blank(cls, on: str, size: int) -> "SubjectTable":
        """One subject a unit, of which nothing is known."""
        columns = {name: np.full(size, "" if meaning.kind == TEXT else np.nan)
                   for name, meaning in COLUMNS[on].items()}
        return cls(on, np.arange(size), columns, np.full(size, "", dtype=object),
                   np.full(size, -1))

    @classmethod
    def of(cls, on: str, subjects, labels=None, evidence_ids=None) -> "SubjectTable":
        """From (row, {name: value}) pairs; a name left out is "" or NaN."""
        subjects = list(subjects)
        columns = {name: _column(meaning, name, subjects)
                   for name, meaning in COLUMNS[on].items()}
        count = len(subjects)
        return cls(on, np.array([row for row, _ in subjects], np.int64), columns,
                   np.array(labels or [""] * count, dtype=object),
                   np.array(evidence_ids or [-1] * count, np.int64))

    def take(self, rows) -> "SubjectTable":
        # Contiguous, for the reason that Column.take gives.
        return SubjectTable(self.on, self.row[rows],
                            {name: np.ascontiguousarray(part[rows])
                             for name, part in self.columns.items()},
                            self.label[rows], self.evidence_id[rows])

    def of_units(self, start: int, stop: int) -> "SubjectTable":
        """Those of units start to stop − 1, counted from 0 again."""
        part = self.take(slice(*np.searchsorted(self.row, [start, stop])))
        return SubjectTable(self.on, part.row - start, part.columns, part.label, part.evidence_id)


def _column(meaning, name, subjects):
    if meaning.kind == TEXT:
        return np.array([values.get(name, "") for _, values in subjects], dtype=str)
    return np.array([values.get(name, np.nan) for _, values in subjects], float)


@dataclass(frozen=True, slots=True)
class Subjects:
    """All that rules about safety are asked of, beside the columns of the quantities."""

    tables: Mapping[str, SubjectTable] = field(default_factory=dict)

    def __getitem__(self, on: str) -> SubjectTable:
        return self.tables[on] if on in self.tables else SubjectTable.none(on)

    def of_units(self, start: int, stop: int) -> "Subjects":
        return Subjects({on: table.of_units(start, stop) for on, table in self.tables.items()})


def facts_of_unit(subjects: Subjects, row: int) -> dict | None:
    """One unit's own columns by name; None where it has none."""
    units = subjects["unit"]
    places = np.flatnonzero(units.row == row)
    return {name: part[places[0]].item() for name, part in units.columns.items()
            } if len(places) else None
