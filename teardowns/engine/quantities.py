"""The nomenclature: every quantity the engine knows, its unit and its meaning.

A quantity's code is also the parameter name by which a rule reads it, the field's name in
forms, the column's and the JSON key. A code is never renamed once evidence refers to it.
"""
from dataclasses import dataclass
from math import inf


@dataclass(frozen=True, slots=True)
class Quantity:
    code: str
    unit: str               # SI; "1" for a ratio, a count or a flag
    label: str              # as a form or a table names it
    meaning: str
    low: float = 0.0        # what can exist: a step of uncertainty stays inside
    high: float = inf
    shown_in: str = ""      # the unit a person types when it is not the SI unit
    pooling: str = "mean"   # how several observations become one: mean, highest, lowest, flag

    @property
    def is_flag(self) -> bool:
        """Whether the value is 1 (present) or 0 (looked and not found)."""
        return self.pooling == "flag"


def _flag(code, label, meaning):
    return Quantity(code, "1", label, meaning, 0.0, 1.0, pooling="flag")


_PLATE = (
    Quantity("rated_voltage_low", "V", "Rated input voltage, lower end",
             "Lowest rated mains voltage that the plate prints, rms.", 50, 600),
    Quantity("rated_voltage_high", "V", "Rated input voltage, upper end",
             "Highest rated mains voltage that the plate prints, rms.", 50, 600),
    Quantity("rated_frequency", "Hz", "Rated input frequency, lower end",
             "Lowest rated mains frequency that the plate prints.", 40, 70),
    Quantity("rated_input_current", "A", "Rated input current",
             "Largest input current that the plate prints, rms.", 0, 20),
    Quantity("efficiency_level", "1", "Efficiency level mark",
             "Number of the international efficiency mark: 4, 5 or 6 for IV, V or VI.", 1, 9),
)
_OUTSIDE = (
    Quantity("mass_total", "kg", "Mass of the whole unit", "Mass without any cable.", 0, 10, "g"),
    Quantity("mass_accounted", "kg", "Mass of the parts found",
             "Sum of the masses of all parts that were weighed.", 0, 10, "g"),
    Quantity("mass_ballast", "kg", "Mass of parts with no function",
             "Mass of parts with neither an electrical connection nor a heat path.", 0, 10, "g"),
    Quantity("case_height", "m", "Case height", "Outside height, plug pins left out.",
             0, 1, "mm"),
    Quantity("case_width", "m", "Case width", "Outside width.", 0, 1, "mm"),
    Quantity("case_depth", "m", "Case depth", "Outside depth, plug pins left out.", 0, 1, "mm"),
    Quantity("case_wall_thickness", "m", "Case wall thickness", "Thinnest wall found.",
             0, 0.05, "mm"),
)
_LOAD = (
    Quantity("sustained_power", "W", "Power held in regulation",
             "Output power held in regulation for at least ten minutes.", 0, 1000,
             pooling="highest"),
    Quantity("failed_power", "W", "Power at which regulation was lost",
             "Output power asked for when the unit left regulation, reset or shut down.",
             0, 1000, pooling="lowest"),
    Quantity("peak_power", "W", "Power held for ten seconds",
             "Largest output power held in regulation for ten seconds.", 0, 1000,
             pooling="highest"),
    Quantity("overcurrent_point", "A", "Over-current point",
             "Largest output current with at least 90 % of the no-load voltage.", 0, 100),
    Quantity("offered_voltage", "V", "Highest output voltage seen",
             "Highest output voltage measured at a port, with or without a request.",
             0, 300, pooling="highest"),
    Quantity("refused_voltage", "V", "Voltage asked for and not given",
             "Lowest output voltage that was requested by its protocol and not delivered.",
             0, 300, pooling="lowest"),
    Quantity("output_voltage_no_load", "V", "Output voltage without load",
             "Voltage at the port with nothing connected.", 0, 300),
    Quantity("input_power_full_load", "W", "Input power at full load",
             "Mains power drawn at the highest load that held.", 0, 2000),
    Quantity("input_current_full_load", "A", "Input current at full load",
             "Mains current drawn at the highest load that held, rms.", 0, 20),
    Quantity("power_factor", "1", "Power factor at full load",
             "Input power over mains voltage times current.", 0.1, 1),
    Quantity("no_load_power", "W", "Input power without load",
             "Mains power drawn with nothing connected to the output.", 0, 100),
    Quantity("efficiency", "1", "Efficiency at full load",
             "Output power over input power at full load.", 0.2, 0.99),
    Quantity("average_efficiency", "1", "Average active efficiency",
             "Mean efficiency at 25, 50, 75 and 100 % of the rated current.", 0.2, 0.99),
    Quantity("ripple_voltage", "V", "Output ripple",
             "Peak-to-peak ripple at the port in 20 MHz bandwidth.", 0, 50, "mV"),
    Quantity("source_resistance", "Ω", "Source resistance",
             "Fall of the port voltage per ampere, in regulation.", -1, 10, "mΩ"),
)
_MAINS_SIDE = (
    Quantity("bulk_capacitance", "F", "Bulk capacitance, measured",
             "Capacitance across the rectified mains, all capacitors together.", 0, 1, "µF"),
    Quantity("bulk_capacitance_marked", "F", "Bulk capacitance, as marked",
             "Sum of the values printed on the capacitors across the rectified mains.",
             0, 1, "µF"),
    Quantity("bulk_capacitor_rating", "V", "Bulk capacitor voltage rating",
             "Lowest voltage rating of the capacitors across the rectified mains.", 0, 1000,
             pooling="lowest"),
    Quantity("minimum_bus_voltage", "V", "Lowest usable bus voltage",
             "Rectified mains voltage below which regulation is lost.", 20, 400),
    Quantity("controller_power_wide", "W", "Controller's published power, wide range",
             "Output power that the controller's data sheet gives for 85 to 265 V.", 0, 1000,
             pooling="lowest"),
    Quantity("controller_power_high", "W", "Controller's published power, 230 V",
             "Output power that the controller's data sheet gives for 230 V.", 0, 1000,
             pooling="lowest"),
    Quantity("switching_frequency", "Hz", "Switching frequency", "At full load.",
             1e3, 5e6, "kHz"),
    Quantity("current_sense_resistance", "Ω", "Current-sense resistance",
             "Resistance in the source or emitter of the primary switch.", 0, 100),
    Quantity("current_sense_threshold", "V", "Current-sense threshold",
             "Voltage across the sense resistor at which the controller ends the pulse.", 0, 10),
    Quantity("maximum_duty", "1", "Largest duty cycle",
             "Largest share of the period that the switch conducts.", 0.05, 0.99),
    Quantity("controller_supply_low", "V", "Controller supply, lowest",
             "Supply voltage below which the controller stops.", 0, 100),
    Quantity("controller_supply_high", "V", "Controller supply, highest",
             "Supply voltage above which the controller stops or is damaged.", 0, 100),
    Quantity("switch_voltage_rating", "V", "Primary switch voltage rating",
             "Drain-source rating of the primary switch; of a bipolar one V_CES, its base "
             "shorted.", 0, 2000),
    Quantity("fuse_rating", "A", "Fuse rating", "Rated current of the mains fuse.", 0, 50),
    Quantity("fusible_resistance", "Ω", "Fusible resistance",
             "Resistance of the fusible resistor in the mains lead.", 0, 1000),
    Quantity("fusible_power_rating", "W", "Fusible resistor power rating",
             "Rated dissipation of the fusible resistor in the mains lead.", 0, 100),
    Quantity("bridge_current_rating", "A", "Mains rectifier current rating",
             "Average output current rating of the whole mains rectifier.", 0, 100),
    Quantity("barrier_capacitance", "F", "Capacitance across the barrier",
             "Sum of the capacitors from the mains side to the output.", 0, 1e-6, "nF"),
    Quantity("x_capacitance", "F", "Capacitance across the mains",
             "Capacitance between line and neutral ahead of the rectifier.", 0, 1e-4, "nF"),
    Quantity("discharge_resistance", "Ω", "Discharge resistance",
             "Resistance across the mains terminals.", 0, 1e9, "kΩ"),
    Quantity("bus_voltage", "V", "Rectified mains voltage", "Mean across the bulk capacitor.",
             0, 700),
    Quantity("reflected_voltage", "V", "Reflected voltage",
             "Output voltage seen through the turns ratio.", 0, 500),
    _flag("rectifier_full_wave", "Full-wave rectifier",
          "Four diodes or a bridge; not found means one or two diodes."),
    _flag("power_factor_corrector", "Active power-factor corrector",
          "A boost choke with its own switch ahead of the bulk capacitor."),
    _flag("bias_regulator", "Bias regulator or second auxiliary tap",
          "A part that keeps the controller's supply steady when the output voltage changes."),
)
_TRANSFORMER = (
    Quantity("primary_turns", "1", "Primary turns", "Counted while unwinding.", 0, 5000),
    Quantity("secondary_turns", "1", "Secondary turns", "Counted while unwinding.", 0, 1000),
    Quantity("auxiliary_turns", "1", "Auxiliary turns", "Counted while unwinding.", 0, 1000),
    Quantity("primary_inductance", "H", "Primary inductance",
             "Other windings open, on the assembled transformer.", 0, 1, "mH"),
    Quantity("air_gap", "m", "Air gap", "Total gap in the magnetic path.", 0, 0.01, "mm"),
    Quantity("core_effective_area", "m²", "Core effective area",
             "Effective cross-section A_e of the core set.", 0, 1e-2, "mm²"),
    Quantity("core_family", "1", "Core family",
             "Place of the core's shape in the core library.", 0, 100, pooling="highest"),
    Quantity("core_window_area", "m²", "Core window area",
             "Window of the core for the windings, on one side of the centre leg.", 0, 1e-2, "mm²"),
    Quantity("inductance_factor", "H", "Inductance factor",
             "A_L: primary inductance over the square of the primary turns.", 0, 1e-3, "nH"),
    Quantity("saturation_flux_density", "T", "Saturation flux density",
             "Of the core material, hot.", 0.05, 2),
    Quantity("core_width", "m", "Core width", "Overall width A of the core.", 0, 0.2, "mm"),
    Quantity("core_height", "m", "Core height", "Overall height 2B of the set.", 0, 0.2, "mm"),
    Quantity("core_depth", "m", "Core depth", "Depth C of the core.", 0, 0.2, "mm"),
    Quantity("centre_leg_width", "m", "Centre leg width", "Width F of the centre leg.",
             0, 0.1, "mm"),
    Quantity("primary_wire_diameter", "m", "Primary wire, bare diameter", "Without enamel.",
             0, 0.01, "mm"),
    Quantity("primary_strands", "1", "Primary strands", "Strands in parallel.", 0, 1000),
    Quantity("secondary_wire_diameter", "m", "Secondary wire, bare diameter",
             "Of one strand, without enamel.", 0, 0.01, "mm"),
    Quantity("secondary_strands", "1", "Secondary strands", "Strands in parallel.", 0, 1000),
)
_OUTPUT_SIDE = (
    Quantity("output_capacitor_rating", "V", "Output capacitor voltage rating",
             "Lowest voltage rating of the capacitors on the switched output rail.", 0, 500,
             pooling="lowest"),
    Quantity("rectifier_voltage_rating", "V", "Output rectifier voltage rating",
             "Reverse voltage rating of the output rectifier.", 0, 2000),
    Quantity("rectifier_current_rating", "A", "Output rectifier current rating",
             "Average forward current rating, all diodes in parallel.", 0, 200),
    Quantity("synchronous_on_resistance", "Ω", "Synchronous rectifier on-resistance",
             "Drain-source resistance at 25 °C, all transistors in parallel.", 0, 10, "mΩ"),
    Quantity("output_ripple_rating", "A", "Output capacitor ripple current rating",
             "Rated ripple current at 100 kHz, rms, all output capacitors together.", 0, 200),
    Quantity("output_capacitor_diameter", "m", "Output capacitor diameter",
             "Of the can of one capacitor.", 0, 0.1, "mm"),
    Quantity("output_capacitor_length", "m", "Output capacitor length",
             "Of the can of one capacitor.", 0, 0.2, "mm"),
    Quantity("output_capacitor_count", "1", "Output capacitors",
             "How many cans lie in parallel on the output rail.", 0, 100),
    _flag("isolated_feedback", "Optocoupler or isolated control link",
          "A part that carries a signal from the output side to the mains side."),
    _flag("primary_feedback", "Regulation from the auxiliary winding",
          "An auxiliary-winding divider into the primary controller."),
    _flag("primary_decodes_requests", "Primary controller that decodes requests",
          "A primary controller documented to change its output on request from the load side."),
    _flag("protocol_controller", "Protocol controller at the port",
          "A protocol chip or microcontroller on D+/D− or CC."),
    _flag("feedback_node_driven", "Feedback node driven by the protocol controller",
          "The protocol chip has a connection to the error amplifier's divider or the isolator."),
    _flag("port_converter", "DC-DC converter per port", "A secondary converter with a choke."),
    _flag("bus_switch", "Pass switch at the port", "A transistor in series with the port."),
    _flag("feedback_bridges_barrier", "Feedback resistor across the barrier",
          "A plain part carries the feedback from the output side to the mains side."),
    Quantity("advertised_voltage", "V", "Highest advertised voltage",
             "Highest fixed voltage in the capability lists that a port advertises.", 0, 60,
             pooling="highest"),
    Quantity("advertised_power", "W", "Advertised power",
             "Largest voltage times current of a fixed object in the capability lists.", 0, 300,
             pooling="highest"),
    Quantity("type_c_current", "A", "Advertised Type-C current",
             "Current that the pull-up on the CC contacts advertises.", 0, 5,
             pooling="highest"),
    Quantity("photographed_sides", "1", "Sides of the board photographed",
             "How many of the two sides were photographed, so that a missed part would show.",
             0, 2, pooling="highest"),
)
_INSULATION = (
    Quantity("clearance", "m", "Clearance", "Shortest path through air.", 0, 0.2, "mm"),
    Quantity("creepage", "m", "Creepage", "Shortest path along a surface.", 0, 0.2, "mm"),
    Quantity("insulation_thickness", "m", "Thickness through insulation",
             "Distance through one solid layer.", 0, 0.05, "mm"),
    Quantity("tape_layers", "1", "Tape layers", "Full overlapped turns across the barrier.",
             0, 100),
    Quantity("working_voltage_rms", "V", "Working voltage, rms", "Across the barrier.", 0, 2000),
    Quantity("working_voltage_peak", "V", "Working voltage, peak", "Across the barrier.",
             0, 5000),
    Quantity("insulation_resistance", "Ω", "Insulation resistance",
             "At 500 V d.c. for one minute, mains pins joined to output joined.", 0, 1e13, "MΩ"),
    Quantity("touch_current", "A", "Touch current", "Output to earth, rms.", 0, 1, "mA"),
)
_THERMAL = (
    Quantity("ambient_temperature", "°C", "Ambient temperature", "Air beside the unit.",
             -40, 90),
    Quantity("case_temperature", "°C", "Hottest case temperature", "Steady state.", -40, 400),
    Quantity("transformer_temperature", "°C", "Transformer temperature", "Steady state.",
             -40, 400),
    Quantity("bulk_capacitor_temperature", "°C", "Bulk capacitor temperature", "Steady state.",
             -40, 400),
    Quantity("switch_temperature", "°C", "Primary switch temperature", "Steady state.",
             -40, 400),
    Quantity("output_rectifier_temperature", "°C", "Output rectifier temperature",
             "Steady state.", -40, 400),
    Quantity("temperature_load", "W", "Load during the temperature readings",
             "Output power while the temperatures were read.", 0, 1000),
)

GROUPS = {
    "plate": _PLATE, "outside": _OUTSIDE, "load": _LOAD, "mains_side": _MAINS_SIDE,
    "transformer": _TRANSFORMER, "output_side": _OUTPUT_SIDE, "insulation": _INSULATION,
    "thermal": _THERMAL,
}
QUANTITIES = {q.code: q for group in GROUPS.values() for q in group}
CODES = tuple(QUANTITIES)
