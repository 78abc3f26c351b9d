"""What a component's marking says, as the fields of its row and as a sentence beside them."""
from dataclasses import dataclass

from teardowns.engine.physics.cores import find_core
from teardowns.models import Role
from teardowns.reading.markings.core import read_core
from teardowns.reading.markings.decode import decode_marking
from teardowns.reading.markings.decoding import MarkingError
from teardowns.reading.quantity import print_quantity

KIND_OF_ROLE = {
    Role.FUSE: "fuse", Role.FUSIBLE_RESISTOR: "resistor", Role.DISCHARGE_RESISTOR: "resistor",
    Role.SENSE_RESISTOR: "resistor", Role.X_CAPACITOR: "safety_capacitor",
    Role.BARRIER_CAPACITOR: "safety_capacitor", Role.FILTER_CHOKE: "inductor",
    Role.BULK_CAPACITOR: "electrolytic_capacitor",
    Role.OUTPUT_CAPACITOR: "electrolytic_capacitor",
}


@dataclass(frozen=True)
class Decoded:
    """`fields` are certain enough to fill a blank; `text` says them; `questions` stay open."""

    fields: dict
    text: str
    questions: tuple[str, ...]


def decode_for_role(role, marking):
    """Decoded, or None where the role's markings follow no code or the text holds none."""
    if role == Role.CORE:
        return _core(marking)
    kind = KIND_OF_ROLE.get(role)
    if kind is None or not marking:
        return None
    try:
        decoding = decode_marking(kind, marking)
    except MarkingError as error:
        return Decoded({}, "", (error.message,))
    return Decoded(_fields(decoding), _text(decoding), _questions(decoding))


def _core(marking):
    """What the core library knows of a name; nothing of it is stored in the row."""
    name = read_core(marking or "")
    if name is None:
        unread = "No core is named here: write family and size, such as EE16 or PQ 26/20."
        return Decoded({}, "", (unread,)) if marking else None
    core = find_core(str(name))
    if core is None:
        return Decoded({}, str(name), ("The core library does not hold this size: measure width, "
                                       "height, depth and centre leg.",))
    area = print_quantity(core.area * 1e6, "1", digits=3)
    return Decoded({}, f"{core.name}, effective area {area}\u202fmm²", ())


def _rivals(decoding):
    """Other readings in the same unit; “47 kΩ if it were a resistor” is no question here."""
    return [other for other in decoding.others if other.unit == decoding.unit]


def _fields(decoding):
    value = None if _rivals(decoding) else decoding.value
    low, high = decoding.tolerance or (None, None)
    found = {
        "nominal": value,
        "tolerance": high if low is not None and low == -high else None,
        "rated_voltage": decoding.rated_voltage,
        "rated_current": decoding.rated_current,
        "rated_power": decoding.rated_power,
        "safety_class": "".join(name for name, _ in decoding.safety_classes),
    }
    return {name: known for name, known in found.items() if known not in (None, "")}


def _text(decoding):
    value = None if _rivals(decoding) else decoding.value
    said = [
        "" if value is None else print_quantity(value, decoding.unit),
        _tolerance_text(decoding.tolerance),
        print_quantity(decoding.rated_voltage, "V") if decoding.rated_voltage else "",
        print_quantity(decoding.rated_current, "A") if _has_own_current(decoding) else "",
        print_quantity(decoding.rated_power, "W") if decoding.rated_power else "",
        " ".join(name for name, _ in decoding.safety_classes),
        print_quantity(decoding.temperature, "°C") if decoding.temperature else "",
    ]
    return ", ".join(word for word in said if word)


def _has_own_current(decoding):
    """Of a fuse the current is the value itself, and is said once."""
    return bool(decoding.rated_current) and decoding.unit != "A"


def _tolerance_text(tolerance):
    if tolerance is None:
        return ""
    low, high = (100 * end for end in tolerance)
    return f"± {high:g} %" if low == -high else f"{low:+g} to {high:+g} %".replace("-", "−")


def _questions(decoding):
    unread = [f"Not understood: “{decoding.unread}”."] if decoding.unread else []
    return (*_choice(decoding), *unread, *decoding.notes)


def _choice(decoding):
    """Every reading of an ambiguous marking in one sentence; none is taken without a person."""
    rivals = _rivals(decoding)
    if not rivals:
        return
    first = [] if decoding.value is None else [print_quantity(decoding.value, decoding.unit)]
    others = [f"{print_quantity(other.value, other.unit)} {other.why}" for other in rivals]
    yield f"This can be {', or '.join(first + others)}: write the value that is right."
