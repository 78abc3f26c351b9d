"""Every USB port starts at 5 V, and a device trusts that it does.

A Type-C port gives nothing at all until something is attached; a reading near zero there is as
it should be.
"""
from math import isnan

from teardowns.engine.mathml import LEQ, equation, num, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.usb_levels import CONNECTOR_NAMES, REMOVED, SAFE_5V
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

READING = 0.01      # relative: a multimeter's error; common practice, no source


@check(
    on="port",
    title="5 V without load",
    source="USB Power Delivery Specification, vSafe5V 4.75 to 5.5 V at the source; vSafe0V, at "
           "most 0.8 V, from memory.",
    validity="USB ports with nothing connected. A Type-C port whose voltage is off may show a "
             "few volts on a meter that takes no current: that does not decide.",
    formula=equation(num("4.75 V"), LEQ, sym("U", "0"), LEQ, num("5.5 V")),
    symbols={"output_voltage_no_load": sym("U", "0")},
)
def safe_5v(port_connector, output_voltage_no_load):
    if port_connector not in CONNECTOR_NAMES or isnan(output_voltage_no_load):
        return None
    outcome, how = _judged(output_voltage_no_load, port_connector == "usb_c")
    return Outcome(outcome, f"{plain(output_voltage_no_load, 'V')} at the "
                   f"{CONNECTOR_NAMES[port_connector]} port with nothing connected {how}.",
                   {"voltage": output_voltage_no_load, "lowest": SAFE_5V[0],
                    "highest": SAFE_5V[1]})


def _judged(voltage, is_type_c):
    low, high = SAFE_5V
    span = f"the {low:g} to {plain(high, 'V')} of a USB port"
    if low <= voltage <= high:
        return CONSISTENT, f"lies within {span}"
    if is_type_c and voltage <= REMOVED:
        return CONSISTENT, "is as it should be: Type-C gives its voltage when something is attached"
    if is_type_c and voltage < low:
        return CANNOT_TELL, "is neither 5 V nor off: measure again with a small load attached"
    if low * (1 - READING) <= voltage <= high * (1 + READING):
        return CANNOT_TELL, f"is at the edge of {span}, within the error of a reading"
    return INCONSISTENT, f"lies outside {span}"
