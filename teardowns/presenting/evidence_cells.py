"""The words of one row of evidence: value, conditions, source, review, author."""
from __future__ import annotations

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.subjects import PATH
from teardowns.figures.marks import looking_mark, review_mark
from teardowns.figures.markup import element, escape
from teardowns.models import Measurement, Situation
from teardowns.reading.bounds import SIGNS
from teardowns.reading.quantity import print_quantity

from .evidence_names import component_name
from .numbers import THIN, as_recorded, printed, with_unit

SPREADS = {"standard": "k = 1", "interval": f"± U, 95{THIN}%", "tolerance": "± tolerance"}
LIMIT = "a limit, not a value"
COMPONENT_UNITS = {
    "fuse": "A", "fusible_resistor": "Ω", "discharge_resistor": "Ω", "sense_resistor": "Ω",
    "filter_choke": "H", "transformer": "H", "x_capacitor": "F", "bulk_capacitor": "F",
    "barrier_capacitor": "F", "output_capacitor": "F", "varistor": "V",
}


def looked(row) -> SafeString | None:
    """The drawing of how it was looked for, or None when there is something to print."""
    if row.state == "recorded" or has_limit(row):
        return None
    return mark_safe(looking_mark(row.state, said(row.get_state_display())))


def has_limit(row) -> bool:
    """Whether a measurement gave a limit in place of a value."""
    return bool(getattr(row, "bound_kind", ""))


def limit_text(kind: str, limit: float, unit: str) -> str:
    """`> 500 MΩ`"""
    return f"{SIGNS[kind]}{THIN}{as_recorded(limit, unit)}"


def measured_value(row, unit: str) -> list[str]:
    """Value with its uncertainty, and what the number behind ± means."""
    if row.uncertainty is None:
        return [as_recorded(row.value, unit), "uncertainty not stated"]
    return [print_quantity(row.value, unit, uncertainty=row.uncertainty),
            SPREADS[row.uncertainty_kind]]


def quantity_value(row) -> list[str]:
    quantity = QUANTITIES.get(row.quantity)
    unit = quantity.unit if quantity else "1"
    if has_limit(row):
        return [limit_text(row.bound_kind, row.bound, unit), LIMIT]
    if quantity is not None and quantity.is_flag:
        return ["present" if row.value else "absent"]
    return measured_value(row, unit)


def conditions(row) -> list[str]:
    """Mains, output setting, duration, ambient, place, instrument: as far as stated."""
    stated = (
        (row.mains_voltage, "V", "{} mains"), (row.mains_frequency, "Hz", "{}"),
        (row.output_voltage, "V", "{} at the port"), (row.output_current, "A", "{} drawn"),
        (row.duration, "s", "{}"),
        (row.ambient, "°C", "{} ambient"),
    )
    found = [
        words.format(as_recorded(value, unit))
        for value, unit, words in stated if value is not None
    ]
    found += [AsWritten(row.port)] if row.port is not None else []
    found += ["all ports together"] if row.all_ports else []
    found += [component_name(row.component.role, row.component.designator)] \
        if row.component is not None else []
    return found + ([AsWritten(row.instrument)] if row.instrument else [])


def component_value(row) -> list[str]:
    """Decoded value with tolerance, then ratings and class."""
    found = []
    if row.nominal is not None:
        text = as_recorded(row.nominal, COMPONENT_UNITS.get(row.role, "1"))
        if row.tolerance is not None:
            text += f" ±{THIN}{with_unit(printed(row.tolerance * 100), '%')}"
        found.append(text)
    ratings = ((row.rated_voltage, "V", "{}"), (row.rated_current, "A", "{}"),
               (row.rated_power, "W", "{}"), (row.ripple_current, "A", "{} ripple"),
               (row.on_resistance, "Ω", "{} switched on"))
    found += [words.format(as_recorded(value, unit)) for value, unit, words in ratings
              if value is not None]
    return found + _can(row) + ([f"class {row.safety_class}"] if row.safety_class else [])


def _can(row):
    """`8 mm × 12 mm can`, as far as it was measured."""
    sizes = [as_recorded(size, "m") for size in (row.diameter, row.length) if size is not None]
    size = said(f"{THIN}×{THIN}".join(sizes))
    return [AsWritten(f"{size} {said('can')}")] if sizes else []


def winding(row) -> list[str]:
    """Turns, strands, bare diameter and insulation of the wire."""
    found = [f"{printed(row.turns)}{THIN}turns"] if row.turns is not None else []
    if row.bare_diameter is not None:
        strands = f"{row.strands}{THIN}×{THIN}" if (row.strands or 1) > 1 else ""
        found.append(f"{strands}{as_recorded(row.bare_diameter, 'm')} bare")
    found += [row.get_wire_insulation_display()] if row.wire_insulation else []
    return found + (["in parallel with the layer before"] if row.in_parallel else [])


def layers(row) -> list[str]:
    """Tape layers, thickness of one, margins."""
    found = []
    if row.tape_layers is not None:
        found.append(f"{row.tape_layers} layer{'s' if row.tape_layers != 1 else ''}")
    if row.thickness is not None:
        found.append(f"{as_recorded(row.thickness, 'm')} each")
    margins = ((row.margin_left, "left"), (row.margin_right, "right"))
    return found + [
        f"{as_recorded(value, 'm')} margin {side}" for value, side in margins
        if value is not None
    ]


def condition(row) -> list[str]:
    """State of a layer: material, damage, what is documented of it, the contributor's words."""
    found = [row.get_material_display()] if row.material else []
    found += [row.get_damage_display()] if row.damage else []
    found += ["certificate or data sheet of the type seen"] if row.documented else []
    sleeves = {True: "leads sleeved", False: "leads without a sleeve", None: ""}[row.sleeved]
    found += [sleeves] if sleeves else []
    if row.withstood is not None:
        found.append(f"one layer withstood {as_recorded(row.withstood, 'V')} d.c. or peak")
    return found + ([AsWritten(row.condition)] if row.condition else [])


def path_ground(row) -> list[str]:
    """What bears on a path beside its length: situation, shape with its sizes, surface."""
    found = [row.get_situation_display()] if row.situation != Situation.AS_FOUND else []
    if row.shape:
        sizes = ", ".join(slot_size(name, value) for name, value in row.slot.items())
        found.append(row.get_shape_display() + (f": {sizes}" if sizes else ""))
    elif row.slot:
        found.append(", ".join(slot_size(name, value) for name, value in row.slot.items()))
    surface = ((row.coated, "coated or potted over", "not coated"),
               (row.contaminated, "conductive dirt across it", "clean"))
    found += [yes if state else no for state, yes, no in surface if state is not None]
    stated = (row.material_group and f"material group {row.material_group}",
              row.pollution_degree and f"pollution degree {row.pollution_degree}",
              row.bridged_by and f"bridged by {row.bridged_by}")
    return found + [text for text in stated if text]


def slot_size(name: str, value: float) -> str:
    """ "width 1.2 mm" """
    meaning = PATH.get(name)
    label = (meaning.label if meaning else name.replace("_", " ")).lower()
    if meaning is not None and meaning.unit != "m":
        return label if value else f"no {label}"
    return f"{label} {as_recorded(value, 'm')}"


def source(row) -> list[str]:
    """How it was obtained, the photo or recording behind it, and the contributor's note."""
    how = [row.get_how_display()] if row.state == "recorded" or has_limit(row) else []
    photo = [] if row.photo is None else [_photo(row.photo, row.ref)]
    recording = [] if row.recording is None else [_recording(row.recording, row)]
    return how + photo + recording + ([AsWritten(row.note)] if row.note else [])


def _photo(photo, ref) -> str:
    """A link to the place where the row can be seen, or the photo's name where it cannot."""
    if not photo.is_shown:
        return str(photo)
    place = f"{photo.get_absolute_url()}?shows={ref}"
    return mark_safe(element("a", escape(said(str(photo))), href=place))


def _recording(recording, row) -> str:
    """A link to where in the log it was read, or the log's name where it cannot be seen."""
    if not recording.is_shown:
        return AsWritten(recording)
    place = recording.get_absolute_url()
    if isinstance(row, Measurement):
        place += f"#result-{row.quantity}"
    return mark_safe(element("a", escape(f"{said('log')}: {recording}"), href=place))


def review(row) -> SafeString:
    return mark_safe(review_mark(row.review_state, said(row.get_review_state_display())))


def entered(row) -> str:
    return AsWritten(f"{row.author.get_username()}, {row.recorded_at.date().isoformat()}")


def discussion(address: str, words: str) -> SafeString:
    return mark_safe(element("a", escape(said(words)), href=address))
