"""What the numbers behind a requirement are called, and in which unit they are printed."""
from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.safety_words import amount

# Name without its end → label and SI unit; a quantity of the unit has both from its own entry.
NUMBERS = {
    "transient": ("Mains transient, peak", "V"),
    "peak": ("Peak voltage across the barrier", "V"),
    "rms": ("Voltage across the barrier, rms", "V"),
    "clearance": ("Required clearance", "m"),
    "mains": ("Mains, line to neutral", "V"),
    "capacitance": ("Capacitance", "F"),
    "resistance": ("Discharge resistance", "Ω"),
    "start": ("Voltage when the plug is pulled", "V"),
    "legacy_clearance": ("Clearance of the withdrawn IEC 60950-1", "m"),
    "legacy_strength": ("Test voltage of the withdrawn IEC 60950-1, rms", "V"),
    "legacy_limit": ("Limit of the withdrawn IEC 60950-1", "A"),
    "open_voltage": ("Voltage without load", "V"),
    "power": ("Largest output power", "VA"),
    "layers": ("Layers that count", "1"),
    "strength": ("Electric strength asked of them", "V"),
    "margin_left_sum": ("Both margins, left end", "m"),
    "margin_right_sum": ("Both margins, right end", "m"),
}


def stem_and_end(name: str) -> tuple[str, str]:
    """ "transient_low" → ("transient", "low"); what has no end is the same at both."""
    stem, _, end = name.rpartition("_")
    return (stem, end) if end in ("low", "high") else (name, "both")


def number_label(name: str) -> str:
    return NUMBERS[name][0] if name in NUMBERS else QUANTITIES[name].label


def number_in_words(name: str, value: float) -> str:
    return amount(value, NUMBERS[name][1] if name in NUMBERS else QUANTITIES[name].unit)
