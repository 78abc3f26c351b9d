"""The bench sheet: what is asked for, in bench order. A new entry is one line here."""
from teardowns.engine.quantities import QUANTITIES
from teardowns.forms import cautions
from teardowns.forms.items import Entry, Group, Parts, Section, Table, UnitFields
from teardowns.forms.rows.claims import ClaimForm
from teardowns.forms.rows.components import LIMITS
from teardowns.forms.rows.distances import DistanceForm
from teardowns.forms.rows.load_tests import LoadTestForm
from teardowns.forms.rows.ports import PortForm
from teardowns.forms.rows.printed_texts import PrintedTextForm
from teardowns.forms.rows.stack_layers import StackLayerForm
from teardowns.models import How, Role

MAINS = ("mains_voltage",)
LOADED = ("mains_voltage", "ambient")

ORIGIN = Section("origin", "Identity and origin", (
    Group("Identity", (UnitFields((
        "title", "kind", "maker", "model", "obtained_on", "channel", "price", "currency",
        "listing_reach", "plug",
    )),)),
))
PRINTED = Section("printed", "Plate and listing", (
    Group("Printed texts", (
        Table("texts", "Printed text", PrintedTextForm, frozenset({
            ("printedtext", "plate"), ("printedtext", "packaging"), ("printedtext", "listing"),
            ("printedtext", "manual"),
        }), at_least=2),
    )),
    Group("Claims", (
        Table("claims", "Claim", ClaimForm, frozenset({("claim", "")}), at_least=0,
              add="Add a claim by hand"),
    ), hint="One row a statement. Read the texts into rows with the buttons above, then correct "
            "them: the words on the unit decide, not the reader. A voltage may be a range, "
            "100-240 V; a power is written only where it is printed."),
))
OUTSIDE = Section("outside", "Outside and mass", (
    Group("Mass", (Entry("mass_total"),)),
    Group("Case", (
        Entry("case_height"), Entry("case_width"), Entry("case_depth"),
        Entry("case_wall_thickness"),
    )),
    Group("Limits of use that are printed", (
        Entry("rated_ambient", how=How.READ_OFF), Entry("rated_altitude", how=How.READ_OFF),
        Entry("overvoltage_category", how=How.READ_OFF),
    ), seldom=True),
))
CASE = Section("case", "Case and plug", (
    Group("How it is closed", (
        Entry("case_opens_by_hand"), Entry("case_clipped"), Entry("case_welded"),
        Entry("case_opened_by_drop"), Entry("test_finger_reaches_mains"),
    ), hint="As found when it was opened. Nothing has to be dropped or forced for this record."),
    Group("What it is made of", (
        Entry("case_is_metal"), Entry("case_flame_retardant", how=How.READ_OFF),
        Entry("case_plain_resin", how=How.READ_OFF), Entry("board_flame_class", how=How.READ_OFF),
        Entry("scorch_marks"), Entry("all_faces_photographed"),
    )),
    Group("Pins", (
        Entry("pins_sleeved"), Entry("earth_pin_sleeved"), Entry("pin_touchable"),
        Entry("pin_diameter"), Entry("pin_length"), Entry("pin_spacing"),
        Entry("pin_spacing_tip"),
    )),
    Group("More sizes of the plug", (
        Entry("pin_width"), Entry("pin_thickness"), Entry("neutral_pin_width"),
        Entry("earth_pin_width"), Entry("earth_pin_thickness"), Entry("earth_pin_length"),
        Entry("pin_sleeve_length"), Entry("pin_sleeve_diameter"), Entry("plug_body_height"),
        Entry("plug_body_width"), Entry("pin_edge_distance"),
    ), seldom=True),
    Group("Cords", (
        Entry("mains_cord_relief"), Entry("output_cord_relief"),
        Entry("output_wire_reaches_mains"),
    ), seldom=True),
), cautions=(cautions.DISCHARGE, cautions.OPENED), discharge=True)
PORTS = Section("ports", "Ports", (
    Group("Ports", (Table("ports", "Port", PortForm, frozenset({("port", "")})),),
          hint="Power contacts: a full set carries the connector's full current."),
    Group("Voltages at the ports", (
        Entry("output_voltage_no_load", ("port", "mains_voltage"), repeat=True),
        Entry("offered_voltage", ("port", "mains_voltage"), repeat=True),
        Entry("refused_voltage", ("port", "mains_voltage"), repeat=True,
              hint="Lowest voltage that was asked for by its protocol and not given."),
    )),
), cautions=(cautions.RESIDUAL_CURRENT, cautions.SURFACE))
LOAD = Section("load", "Load tests", (
    Group("Loads", (
        Table("loads", "Load test", LoadTestForm, frozenset({
            ("measurement", "sustained_power"), ("measurement", "peak_power"),
            ("measurement", "failed_power"),
        })),
    ), hint="One row a load: held for ten minutes or more, held for a shorter time, or not held. "
            "Voltage and current may be those that the load shows: a power left blank is worked "
            "out from them. Ports that were loaded together are one row, with their whole power."),
    Group("At full load", (
        Entry("input_power_full_load", MAINS, repeat=True),
        Entry("input_current_full_load", MAINS, repeat=True), Entry("power_factor", MAINS),
        Entry("efficiency", MAINS, repeat=True, hint="For example 0.87, or 87 %."),
        Entry("average_efficiency", MAINS, repeat=True),
        Entry("ripple_voltage", MAINS), Entry("source_resistance", ("port",)),
        Entry("overcurrent_point", ("port", "mains_voltage", "output_voltage"), repeat=True),
    )),
    Group("Without load", (
        Entry("no_load_power", MAINS, repeat=True,
              hint="Mains power drawn with nothing connected to the output. Below what the meter "
                   "resolves write its limit: < 0.1 W."),
    )),
), cautions=(cautions.RESIDUAL_CURRENT, cautions.FIRST_POWER, cautions.SURFACE,
             cautions.SECOND_PERSON, cautions.NO_FAULTS))
MAINS_SIDE = Section("mains-side", "Mains side", (
    Group("Bulk capacitor", (
        Parts((Role.BULK_CAPACITOR,), ("count", "nominal", "tolerance", "rated_voltage"),
              "Bulk capacitor"),
        Entry("bulk_capacitance", hint="All together at 120 Hz; one lead lifted, discharged."),
        Entry("bulk_discharge_resistance"),
        Entry("bus_voltage", MAINS), Entry("minimum_bus_voltage"),
    )),
    Group("Protection and filter", (
        Parts((Role.FUSE,), ("rated_current", "rated_voltage"), "Fuse"),
        Entry("fuse_rating", how=How.READ_OFF,
              hint="Only if it is known otherwise than from the marking above."),
        Parts((Role.FUSIBLE_RESISTOR,), ("nominal", "tolerance", "rated_power"),
              "Fusible resistor"),
        Entry("fusible_resistance"),
        Parts((Role.X_CAPACITOR,), ("nominal", "rated_voltage", "safety_class"),
              "Capacitor across the mains"),
        Entry("x_capacitance"), Entry("discharge_resistance"),
        Parts((Role.DISCHARGE_RESISTOR,), ("count", "nominal"), "Discharge resistor", at_least=0),
        Entry("discharge_circuit"),
        Parts((Role.FILTER_CHOKE, Role.VARISTOR), ("count", "rated_voltage"), "Choke or varistor",
              at_least=0),
        Entry("common_mode_choke"), Entry("differential_choke"),
        Entry("line_path_traced"), Entry("track_as_fuse"), Entry("part_before_fuse"),
    ), hint="“Looked, not found” is a finding. “Not looked” stays an open question."),
    Group("Rectifier", (
        Parts((Role.RECTIFIER,), ("count", "rated_current"), "Mains rectifier",
              remark="Rated current: of the whole bridge where it is one body, else of one diode."),
        Entry("rectifier_full_wave"), Entry("power_factor_corrector"), Entry("voltage_doubler"),
    )),
    Group("Controller and switch", (
        Parts((Role.PRIMARY_CONTROLLER,),
              ("part_marking", *LIMITS, "citation"), "Primary controller",
              remark="Published values: from the data sheet of the type, never from a shop page."),
        Parts((Role.PRIMARY_SWITCH,), ("part_marking", "count", "rated_voltage"), "Primary switch",
              remark="Leave it out if the controller contains it."),
        Entry("switch_voltage_rating", how=How.DATA_SHEET),
        Entry("current_sense_resistance"),
        Parts((Role.SENSE_RESISTOR,), ("count", "nominal", "tolerance"), "Current-sense resistor",
              at_least=0),
        Entry("switching_frequency", MAINS), Entry("on_time", MAINS),
        Entry("reflected_voltage"), Entry("bias_regulator"),
    )),
), cautions=(cautions.DISCHARGE, cautions.NO_EARTHED_PROBE, cautions.ISOLATION, cautions.OPENED),
   discharge=True)
OUTPUT_SIDE = Section("output-side", "Output side", (
    Group("Capacitor and rectifier", (
        Parts((Role.OUTPUT_CAPACITOR,),
              ("count", "nominal", "rated_voltage", "ripple_current", "diameter", "length"),
              "Output capacitor", more=("port",),
              remark="Size of the can: of wet types, without the sleeve. Of a polymer can the size "
                     "says nothing; write what its data sheet says."),
        Parts((Role.OUTPUT_RECTIFIER,),
              ("count", "rated_voltage", "rated_current", "on_resistance"), "Output rectifier",
              more=("port",),
              remark="Of one piece: a diode has a rated current, a transistor an on-resistance."),
        Entry("rectifier_voltage_rating", how=How.DATA_SHEET),
        Entry("rectifier_current_rating", how=How.DATA_SHEET),
    )),
    Group("What was looked at", (UnitFields(("photographed_sides",)),)),
    Group("Feedback and control", (
        Entry("isolated_feedback"), Entry("primary_feedback"), Entry("primary_decodes_requests"),
        Entry("protocol_controller"), Entry("feedback_node_driven"), Entry("port_converter"),
        Entry("bus_switch"), Entry("feedback_bridges_barrier"),
    ), hint="Which parts talk, regulate and switch. A part that was not seen is not a part that "
            "is not there."),
    Group("Their markings", (
        Parts((Role.OPTOCOUPLER, Role.PROTOCOL_CONTROLLER, Role.PORT_CONVERTER, Role.PASS_SWITCH,
               Role.OTHER), ("count",), "Part", at_least=0, more=("port",)),
    )),
), cautions=(cautions.DISCHARGE,), discharge=True)
TRANSFORMER = Section("transformer", "Transformer", (
    Group("Core", (
        Parts((Role.CORE,), (), "Core",
              remark="Family and size as on the ferrite, the bobbin or by comparison with a "
                     "catalogue: EE16, EFD 15/8/5, PQ 26/20. The core library knows the rest."),
        Entry("core_width"), Entry("core_height"), Entry("core_depth"),
        Entry("centre_leg_width"), Entry("core_effective_area", how=How.DATA_SHEET),
        Entry("core_window_area", how=How.DATA_SHEET),
        Entry("saturation_flux_density", how=How.DATA_SHEET),
        Entry("air_gap"), Entry("primary_inductance"), Entry("core_floating"),
        Entry("inductance_factor", how=How.READ_OFF, hint="Only where it is printed on the core."),
        Parts((Role.TRANSFORMER,), ("count",), "Transformer marking", at_least=0),
    )),
    Group("Winding stack", (
        Table("stack", "Layer", StackLayerForm, frozenset({("stacklayer", "")}), at_least=4),
    ), hint="Place 1 is next to the core. Count the turns as they come off; the layers may be "
            "entered in any order."),
), cautions=(cautions.DISCHARGE, cautions.OPENED), discharge=True)
BARRIER = Section("barrier", "Barrier distances", (
    Group("Distances", (
        Table("distances", "Distance", DistanceForm,
              frozenset({("insulationobservation", "")}), at_least=2),
    ), hint="The shortest path that you can find. Clearance runs through air, creepage along the "
            "surface; give both of one gap the same place. Without ± U these are taken: 0.10 mm "
            "for a caliper, 0.30 mm or 10 % for a photo with a scale, 0.50 mm or 20 % for a photo "
            "scaled from a known part.", picture="teardowns/_bench_path_pictures.html"),
    Group("Capacitors across the barrier", (
        Parts((Role.BARRIER_CAPACITOR,), ("count", "in_series", "nominal", "rated_voltage",
                                          "safety_class", "bridges"),
              "Capacitor across the barrier"),
        Entry("barrier_capacitance"),
    )),
    Group("Voltages and leakage", (
        Entry("working_voltage_rms", MAINS), Entry("working_voltage_peak", MAINS),
        Entry("working_voltage_frequency"),
        Entry("insulation_resistance",
              hint="At 500 V d.c. for one minute, mains pins joined to output joined. At the end "
                   "of the tester's scale write its limit: > 500 MΩ."),
        Entry("touch_current", MAINS),
        Entry("pin_voltage", MAINS),
    )),
    Group("Electric strength, reported by who is equipped for it", (
        Entry("electric_strength_withstood", ("duration",)), Entry("breakdown_voltage"),
    ), hint="Write down what an equipped laboratory reported. Such tests are not made for this "
            "record.", seldom=True),
), cautions=(cautions.DISCHARGE, cautions.NO_EARTHED_PROBE, cautions.TESTERS), discharge=True)
TEMPERATURES = Section("temperatures", "Temperatures", (
    Group("Steady state", (
        Entry("temperature_load"),
        Entry("ambient_temperature"), Entry("case_temperature", LOADED),
        Entry("transformer_temperature", LOADED), Entry("switch_temperature", LOADED),
        Entry("output_rectifier_temperature", LOADED),
        Entry("bulk_capacitor_temperature", LOADED), Entry("board_temperature", LOADED),
    ), hint="At the highest load that held, when nothing rises any more."),
    Group("What the parts are made for", (
        Entry("winding_thermal_class", how=How.DATA_SHEET),
        Entry("bulk_capacitor_temperature_rating", how=How.READ_OFF),
        Entry("board_temperature_rating", how=How.READ_OFF),
    ), seldom=True),
), cautions=(cautions.FIRST_POWER, cautions.SURFACE, cautions.NO_EARTHED_PROBE))
BALLAST = Section("ballast", "Ballast and remarks", (
    Group("Ballast", (
        Entry("mass_accounted"), Entry("mass_ballast"),
        Parts((Role.BALLAST,), ("count", "place"), "Part with no function",
              remark="What it is and where it sat: neither an electrical connection nor a heat "
                     "path."),
        Entry("loose_metal"), Entry("loose_metal_bridges"), Entry("ballast_secured"),
        Entry("ballast_glued"),
    )),
    Group("Faults, reported by who is equipped for it", (
        Entry("fault_output_voltage"), Entry("short_circuit_flame"),
        Entry("short_circuit_survived"), Entry("short_circuit_current"),
        Entry("largest_apparent_power"),
    ), hint="Write down what an equipped laboratory reported. Faults are not made for this "
            "record.", seldom=True),
    Group("Conducted emission", (
        Entry("emission_frequency"), Entry("emission_quasi_peak"), Entry("emission_average"),
        Entry("emission_equipped"),
    ), seldom=True),
    Group("Remarks", (UnitFields(("notes",)),)),
))

SECTIONS = (ORIGIN, PRINTED, OUTSIDE, PORTS, LOAD, CASE, MAINS_SIDE, OUTPUT_SIDE, TRANSFORMER,
            BARRIER, TEMPERATURES, BALLAST)
BY_SLUG = {section.slug: section for section in SECTIONS}

# Quantities that another kind of row states, so that no entry asks for them twice.
STATED_BY_ROWS = {
    "rated_voltage_low", "rated_voltage_high", "rated_frequency", "rated_input_current",
    "efficiency_level",
    "sustained_power", "peak_power", "failed_power",
    "bulk_capacitance_marked", "bulk_capacitor_rating", "output_capacitor_rating",
    *LIMITS, "bridge_current_rating", "fusible_power_rating", "core_family",
    "output_ripple_rating", "output_capacitor_diameter", "output_capacitor_length",
    "output_capacitor_count", "synchronous_on_resistance",
    "advertised_voltage", "advertised_power", "type_c_current",
    "primary_turns", "secondary_turns", "auxiliary_turns",
    "primary_wire_diameter", "primary_strands", "secondary_wire_diameter", "secondary_strands",
    "clearance", "creepage", "insulation_thickness", "tape_layers",
    "electric_strength_duration",
    "photographed_sides",
    *(code for code in QUANTITIES if code.endswith(("_at_least", "_at_most"))),    # “> 500 MΩ”
}
