"""What it takes to obtain each quantity: minutes at the bench, how far the unit has to be taken
apart, and with what.

All of it is common practice, no source. `typical` and `spread` say what such a reading is like
before it is made: a value of a charger of some 15 W, and the relative standard uncertainty that
the tool leaves.
"""
from collections.abc import Iterable
from dataclasses import dataclass

STAGES = ("outside", "opened", "desoldered", "unwound")      # each takes apart more
NON_DESTRUCTIVE = STAGES[:2]     # on a unit that is open already, nothing more is destroyed
PREPARATION = {"outside": 0.0, "opened": 10.0, "desoldered": 8.0, "unwound": 25.0}    # minutes
TOOLS = {
    "eye": "Read off", "look": "Look for", "trace": "Trace", "count": "Count",
    "photograph": "Photograph", "scale": "Weigh", "calliper": "Measure with a calliper",
    "micrometer": "Measure with a micrometer", "multimeter": "Measure with a multimeter",
    "component meter": "Measure with a component meter, discharged",
    "data sheet": "Look up in the part’s data sheet",
    "electronic load": "Test with an electronic load",
    "analyser": "Read with a protocol analyser", "power meter": "Measure with a mains power meter",
    "oscilloscope": "Measure with an oscilloscope and an isolated supply",
    "thermometer": "Measure with a thermometer",
}
POWERED = {"electronic load", "analyser", "power meter", "oscilloscope", "thermometer"}


@dataclass(frozen=True, slots=True)
class Effort:
    minutes: float       # at the bench, the unit being taken apart so far
    stage: str
    tool: str
    typical: float       # SI
    spread: float        # relative, k = 1


def _each(stage, tool, rows):
    return {code: Effort(minutes, stage, tool, typical, spread)
            for code, (minutes, typical, spread) in rows.items()}


EFFORT: dict[str, Effort] = {
    **_each("outside", "eye", {
        "rated_voltage_low": (1, 100.0, 0.0), "rated_voltage_high": (1, 240.0, 0.0),
        "rated_frequency": (1, 50.0, 0.0), "rated_input_current": (1, 0.5, 0.0),
        "efficiency_level": (1, 6.0, 0.0),
    }),
    **_each("outside", "photograph", {"all_faces_photographed": (3, 1.0, 0.0)}),
    **_each("outside", "scale", {"mass_total": (1, 0.06, 0.005)}),
    **_each("outside", "calliper", {
        "case_height": (1, 0.03, 0.01), "case_width": (1, 0.045, 0.01),
        "case_depth": (1, 0.06, 0.01),
    }),
    **_each("outside", "multimeter", {
        "output_voltage_no_load": (1, 5.0, 0.005), "type_c_current": (3, 3.0, 0.0),
    }),
    **_each("outside", "electronic load", {
        "sustained_power": (15, 15.0, 0.01), "failed_power": (15, 15.0, 0.01),
        "peak_power": (5, 18.0, 0.01), "overcurrent_point": (5, 3.5, 0.02),
        "source_resistance": (8, 0.05, 0.05), "temperature_load": (2, 15.0, 0.01),
    }),
    **_each("outside", "analyser", {
        "offered_voltage": (5, 12.0, 0.005), "refused_voltage": (5, 12.0, 0.005),
        "advertised_voltage": (4, 12.0, 0.0), "advertised_power": (4, 18.0, 0.0),
    }),
    **_each("outside", "power meter", {
        "input_power_full_load": (12, 18.0, 0.01), "input_current_full_load": (12, 0.3, 0.01),
        "power_factor": (12, 0.55, 0.01), "efficiency": (12, 0.82, 0.015),
        "no_load_power": (5, 0.08, 0.03), "no_load_power_at_most": (5, 0.1, 0.0),
        "average_efficiency": (20, 0.83, 0.01),
    }),
    **_each("outside", "oscilloscope", {"ripple_voltage": (6, 0.08, 0.1)}),
    # The temperatures take an hour to stand still; one need not sit beside it all the time.
    **_each("outside", "thermometer", {
        "ambient_temperature": (1, 25.0, 0.03), "case_temperature": (30, 60.0, 0.03),
    }),
    **_each("opened", "thermometer", {
        "transformer_temperature": (30, 85.0, 0.03), "switch_temperature": (30, 85.0, 0.03),
        "bulk_capacitor_temperature": (30, 70.0, 0.03),
        "output_rectifier_temperature": (30, 85.0, 0.03),
    }),
    **_each("opened", "scale", {
        "mass_accounted": (10, 0.055, 0.02), "mass_ballast": (3, 0.0, 0.0),
    }),
    **_each("opened", "calliper", {
        "case_wall_thickness": (1, 0.002, 0.05), "core_width": (1, 0.016, 0.01),
        "core_height": (1, 0.0144, 0.01), "core_depth": (1, 0.0048, 0.01),
        "output_capacitor_diameter": (1, 0.008, 0.02), "output_capacitor_length": (1, 0.012, 0.02),
    }),
    **_each("opened", "eye", {
        "bulk_capacitance_marked": (1, 15e-6, 0.115), "bulk_capacitor_rating": (1, 400.0, 0.01),
        "fuse_rating": (1, 2.0, 0.01), "fusible_power_rating": (2, 1.0, 0.2),
        "barrier_capacitance": (1, 1e-9, 0.1), "x_capacitance": (1, 100e-9, 0.1),
        "output_capacitor_rating": (1, 16.0, 0.01), "output_capacitor_count": (1, 2.0, 0.0),
    }),
    **_each("opened", "data sheet", {
        "controller_power_wide": (6, 15.0, 0.02), "controller_power_high": (6, 18.0, 0.02),
        "current_sense_threshold": (6, 0.8, 0.05), "maximum_duty": (6, 0.7, 0.05),
        "controller_supply_low": (6, 9.0, 0.05), "controller_supply_high": (6, 26.0, 0.05),
        "switch_voltage_rating": (4, 650.0, 0.01), "bridge_current_rating": (4, 1.0, 0.01),
        "rectifier_voltage_rating": (4, 60.0, 0.01), "rectifier_current_rating": (4, 5.0, 0.01),
        "synchronous_on_resistance": (4, 0.010, 0.1), "output_ripple_rating": (5, 2.0, 0.05),
        "primary_decodes_requests": (6, 0.0, 0.0), "core_effective_area": (6, 20e-6, 0.03),
        "saturation_flux_density": (10, 0.39, 0.05), "core_family": (2, 1.0, 0.0),
    }),
    **_each("opened", "multimeter", {
        "current_sense_resistance": (2, 1.2, 0.03), "fusible_resistance": (2, 10.0, 0.05),
        "discharge_resistance": (2, 1e6, 0.05),
    }),
    **_each("opened", "component meter", {"bulk_capacitance": (4, 15e-6, 0.02)}),
    **_each("opened", "oscilloscope", {
        "minimum_bus_voltage": (15, 70.0, 0.04), "switching_frequency": (8, 65e3, 0.02),
        "bus_voltage": (8, 140.0, 0.02), "reflected_voltage": (8, 80.0, 0.03),
        "on_time": (8, 5.3e-6, 0.02),
    }),
    **_each("opened", "look", {
        "voltage_doubler": (1, 0.0, 0.0), "common_mode_choke": (1, 1.0, 0.0),
        "differential_choke": (1, 0.0, 0.0), "rectifier_full_wave": (1, 1.0, 0.0),
        "power_factor_corrector": (2, 0.0, 0.0),
        "bias_regulator": (3, 0.0, 0.0), "isolated_feedback": (2, 1.0, 0.0),
        "primary_feedback": (4, 0.0, 0.0), "protocol_controller": (3, 1.0, 0.0),
        "port_converter": (2, 0.0, 0.0), "bus_switch": (2, 0.0, 0.0),
        "feedback_bridges_barrier": (2, 0.0, 0.0),
    }),
    **_each("opened", "trace", {"feedback_node_driven": (8, 1.0, 0.0)}),
    **_each("opened", "photograph", {"photographed_sides": (2, 2.0, 0.0)}),
    **_each("desoldered", "component meter", {"primary_inductance": (4, 1.0e-3, 0.03)}),
    **_each("unwound", "component meter", {"inductance_factor": (6, 125e-9, 0.03)}),
    **_each("unwound", "count", {
        "primary_turns": (20, 90.0, 0.01), "secondary_turns": (8, 9.0, 0.0),
        "auxiliary_turns": (8, 18.0, 0.0), "primary_strands": (1, 1.0, 0.0),
        "secondary_strands": (1, 2.0, 0.0),
    }),
    **_each("unwound", "calliper", {
        "centre_leg_width": (1, 0.004, 0.02), "core_window_area": (3, 38e-6, 0.05),
    }),
    **_each("unwound", "micrometer", {
        "primary_wire_diameter": (2, 0.20e-3, 0.03), "secondary_wire_diameter": (2, 0.5e-3, 0.03),
        "air_gap": (5, 0.2e-3, 0.08),
    }),
}


def stage_of(codes: Iterable[str]) -> str:
    """How far the unit has to be taken apart for all of these."""
    return max((EFFORT[code].stage for code in codes), key=STAGES.index, default=STAGES[0])


def minutes_for(codes: Iterable[str], reached: str) -> float:
    """Minutes for all of these, with what it takes to get there from the stage reached."""
    codes = tuple(codes)
    first, last = STAGES.index(reached) + 1, STAGES.index(stage_of(codes)) + 1
    return sum(EFFORT[code].minutes for code in codes) + sum(
        PREPARATION[stage] for stage in STAGES[first:last])
