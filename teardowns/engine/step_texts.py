"""What to measure next, in words: an instruction for the bench."""
from math import isnan

from .columns import DEFAULT
from .effort import EFFORT, TOOLS
from .quantities import QUANTITIES
from .wording import NARROW, plain, shown


def readings_text(codes) -> str:
    """"Measure with a calliper: case height, case width. Weigh: mass of the whole unit."""
    by_tool: dict[str, list[str]] = {}
    for code in codes:
        by_tool.setdefault(EFFORT[code].tool, []).append(label(code))
    return " ".join(f"{TOOLS[tool]}: {_listed(labels)}." for tool, labels in by_tool.items())


def _listed(labels):
    return ("; " if any("," in each for each in labels) else ", ").join(labels)


def better_text(code, frame) -> str:
    """The reading, and what stands in its place so far."""
    column = frame[code]
    number, space, unit = shown(code, float(column.value[0])).partition(NARROW)
    spread = shown(code, float(f"{column.u[0]:.2g}")).partition(NARROW)[0]
    stands = "the rulebook assumes" if column.how[0] == DEFAULT else "it is known as"
    return f"{readings_text((code,))} So far {stands} {number} ± {spread}{space}{unit}."


def load_text(asked) -> str:
    parts = [plain(value, unit) for value, unit in ((asked.voltage, "V"), (asked.current, "A"))
             if not isnan(value)]
    rating = f" ({', '.join(parts)})" if parts else ""
    return (f"Load it with {plain(asked.power, 'W')}{rating} for ten minutes at "
            f"{plain(asked.mains, 'V')} mains: does it stay in regulation?")


def voltage_text(asked, switched) -> str:
    voltage = plain(asked.voltage, "V")
    if switched:
        return f"Ask the port for {voltage} by its protocol: is the voltage given?"
    return f"Measure the output voltage without a load: is it {voltage}?"


# Labels that tell two readings of one thing apart, where only one of them is asked for.
NAMES = {"bulk_capacitance": "bulk capacitance",
         "bulk_capacitance_marked": "marking of the bulk capacitors"}


def label(code: str) -> str:
    """The quantity's label inside a sentence: its first word small, unless it is a name."""
    text = NAMES.get(code, QUANTITIES[code].label)
    return text if text[1:2].isupper() or text[1:2] == "-" else text[:1].lower() + text[1:]
