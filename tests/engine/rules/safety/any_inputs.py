"""Random columns for any rule about safety: what could be recorded, and gaps."""
import numpy as np

from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.subjects import COLUMNS, TEXT, UNIT

NAN = float("nan")
WORDS = {
    "barrier": ("PRI_SEC", "PRI_ENC", "L_N", "PRI_PE", "FUNC"),
    "path": ("clearance", "creepage", "insulation_thickness"),
    "site": ("", "board", "part", "optocoupler", "transformer", "case", "pins"),
    "situation": ("as_found", "joint_open", "metal_moved"),
    "material_group": ("", "I", "II", "IIIa", "IIIb"),
    "shape": ("", "", "groove", "v_groove", "slot", "rib", "joint", "floating"),
    "plug": ("", "europlug", "bs1363", "nema1", "schuko", "inlet"),
    "winding": ("primary", "secondary", "auxiliary", "shield", ""),
    "inner": ("primary", "secondary", "core"), "outer": ("primary", "secondary", "core"),
    "insulated_wire": ("", "none", "apparent", "doubtful", "documented"),
    "role": ("barrier_capacitor", "x_capacitor", "fuse", "varistor", "fusible_resistor",
             "optocoupler", "bulk_capacitor"),
    "state": ("recorded", "not_found", "not_readable", "not_looked"),
    "safety_class": ("", "X1", "X2", "Y1", "Y2", "X1Y1", "X1/Y2", "Y4", "1 kV"),
    "bridges": ("", "PRI_SEC", "PRI_PE", "L_N"),
    "marking": ("", "T1AL250V", "102 1kV", "471KD07"),
    "code": ("pin_diameter", "pin_length", "pin_width", "pin_spacing", "pin_edge_distance"),
    "marks": ("", " class_ii ", " ce lps "), "kind": ("plug_in", "desktop"),
}
RANGES = {"m": (5e-5, 2e-2), "V": (1.0, 600.0), "A": (1e-5, 10.0), "F": (1e-10, 1e-6),
          "Ω": (1e2, 1e8), "°C": (20.0, 160.0), "s": (1.0, 120.0), "Hz": (40.0, 3e5),
          "W": (1.0, 150.0), "VA": (1.0, 150.0), "dBµV": (20.0, 90.0), "kg": (0.01, 1.0)}
NAMED = {"rated_voltage_high": (100.0, 300.0), "electric_strength_withstood": (500.0, 6000.0),
         "breakdown_voltage": (500.0, 6000.0), "layer_withstood": (500.0, 6000.0),
         "working_voltage_peak": (100.0, 1500.0), "emission_frequency": (1e5, 5e7),
         "insulation_resistance": (1e5, 1e9), "rated_altitude": (0.0, 6000.0),
         "distance_u": (0.0, 5e-4), "nominal": (1e-10, 1e-7),
         "touch_current": (1e-5, 1e-2)}
SELDOM = ("other_least", "other_most")      # few places are read twice
COUNTS = {"pollution_degree": 3, "overvoltage_category": 4, "count": 3, "bulk_pieces": 3,
          "barrier_y2_pieces": 3, "layers_low": 5, "layers_high": 5, "tape_layers": 5,
          "position": 9}


def random_inputs(rule, rng, size):
    """By parameter, (size,) columns; about one number in five is not known."""
    made = {name: _column(rule, name, rng, size) for name in rule.reads}
    if {"layers_low", "layers_high"} <= made.keys():
        made["layers_high"] = np.minimum(made["layers_low"], made["layers_high"])
    return made


def is_text(rule, name):
    meaning = COLUMNS[rule.on].get(name) or UNIT.get(name)
    return meaning is not None and meaning.kind == TEXT


def dropped(rule, inputs, name):
    """The inputs as if nobody had recorded this one."""
    gone = np.full_like(inputs[name], "" if is_text(rule, name) else NAN)
    return {**inputs, name: gone}


def run(rule, inputs):
    with np.errstate(all="ignore"):
        return rule.compute(*(inputs[name] for name in rule.reads))


def _column(rule, name, rng, size):
    if is_text(rule, name):
        return rng.choice(WORDS[name], size)
    values = _numbers(rule, name, rng, size)
    return np.where(rng.random(size) < (0.9 if name in SELDOM else 0.2), NAN, values)


def _numbers(rule, name, rng, size):
    base = name.removesuffix("_u") if name not in COLUMNS[rule.on] else name
    if name in COUNTS:
        return rng.integers(1 if name == "pollution_degree" else 0, COUNTS[name] + 1,
                            size).astype(float)
    meaning = COLUMNS[rule.on].get(name) or UNIT.get(name)
    if meaning is None and QUANTITIES[base].is_flag or meaning and meaning.unit == "1":
        return rng.integers(0, 2, size).astype(float)
    unit = meaning.unit if meaning else QUANTITIES[base].unit
    low, high = NAMED.get(name) or RANGES.get(unit, (0.0, 10.0))
    values = np.exp(rng.uniform(np.log(max(low, 1e-12)), np.log(high), size))
    return 0.1 * values if name.endswith("_u") and base != name else values
