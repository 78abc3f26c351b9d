"""What sister boards may lend: properties of a design that several makers put into their cases.

Only what a drawing of the board and of its transformer fixes. Never what was tried on a specimen
(loads, temperatures, voltages seen), never a claim, never a distance, nor whether a thing is there:
those depend on how that one piece was made. The shares are our own choice: they are what the same
design is taken to vary by from one batch to the next, as a standard uncertainty relative to the
value, beside the uncertainty of the reading itself.
"""
from __future__ import annotations

from dataclasses import dataclass

DESIGN = 0.05            # windings, core, sense resistor, controller: what makes it that board
INDUCTANCE = 0.10        # gapped cores spread by that much; common practice, no source
SAME_TYPE = 0.05         # a part whose marking was read in both
CHANGED_AT_WILL = 0.30   # a part that makers replace by what is in stock, and nobody read it here

STACK, CORE, COMPONENT, METERED = "stack", "core", "component", "metered"
CORE_ROLES = ("core", "transformer")


@dataclass(frozen=True, slots=True)
class Inheritable:
    """One quantity of a design."""

    code: str
    about: str               # STACK, CORE, COMPONENT, or METERED: told by an instrument alone
    of: str                  # the winding, or the role of the part
    share: float             # where nobody looked at it here
    is_design: bool = True   # whether two boards of one family have to agree in it


def _stack(winding, *codes):
    return [Inheritable(code, STACK, winding, DESIGN) for code in codes]


def _core(*codes):
    return [Inheritable(code, CORE, "core", DESIGN) for code in codes]


def _design(role, *codes):
    return [Inheritable(code, COMPONENT, role, DESIGN) for code in codes]


def _changed(role, *codes):
    return [Inheritable(code, COMPONENT, role, CHANGED_AT_WILL, False) for code in codes]


INHERITABLE = {one.code: one for one in (
    *_stack("primary", "primary_turns", "primary_wire_diameter", "primary_strands"),
    *_stack("secondary", "secondary_turns", "secondary_wire_diameter", "secondary_strands"),
    *_stack("auxiliary", "auxiliary_turns"),
    Inheritable("primary_inductance", METERED, "primary", INDUCTANCE),
    *_core("core_effective_area", "core_window_area", "core_width", "core_height", "core_depth",
           "centre_leg_width", "inductance_factor", "saturation_flux_density"),
    *_design("sense_resistor", "current_sense_resistance"),
    *_design("primary_controller", "controller_power_wide", "controller_power_high",
             "current_sense_threshold", "maximum_duty", "switching_frequency",
             "controller_supply_low", "controller_supply_high"),
    *_changed("bulk_capacitor", "bulk_capacitance_marked"),
    *_changed("primary_switch", "switch_voltage_rating"),
    *_changed("rectifier", "bridge_current_rating"),
    *_changed("fuse", "fuse_rating"),
    *_changed("fusible_resistor", "fusible_resistance", "fusible_power_rating"),
    *_changed("output_rectifier", "rectifier_voltage_rating", "rectifier_current_rating",
              "synchronous_on_resistance"),
    *_changed("output_capacitor", "output_capacitor_rating", "output_ripple_rating"),
)}
# Read with an instrument on the transformer itself; all others are read off parts and layers, for
# what a meter shows of them is of that specimen and of that moment.
MEASURABLE = frozenset(one.code for one in INHERITABLE.values()
                       if one.about != COMPONENT) - {"saturation_flux_density"}
# One fact under two names: who looked at the one is not told the other.
ONE_FACT = {"bulk_capacitance_marked": ("bulk_capacitance",)}
