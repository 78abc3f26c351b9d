"""A Type-C port says by its CC contacts how many amperes it gives at 5 V without negotiation."""
from math import isnan

from teardowns.engine.claims import FIXED_VOLTAGE
from teardowns.engine.mathml import LEQ, equation, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.offers import current_at
from teardowns.engine.physics.power_objects import read_list
from teardowns.engine.physics.usb_levels import DATA_MODES
from teardowns.engine.port_claims import port_claims
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

ALLOWED = 0.03          # of what is claimed; rounding on plates stays below it


@check(
    on="port",
    title="5 V claim against the CC contacts",
    source="USB Type-C Cable and Connector Specification: 0.5 or 0.9, 1.5 and 3 A; currents as in "
           "the tables of Texas Instruments TPS65981 and TUSB320, resistors from memory.",
    validity="Type-C receptacles, read with nothing else in use and without an A-to-C cable, "
             "which says 0.5 A whatever the source. A port may lower what it says while it is "
             "warm or shares its power.",
    formula=equation(sym("I", "claim"), LEQ, sym("I", "CC")),
    symbols={"type_c_current": sym("I", "CC")},
)
def type_c_current(port_connector, port_wiring, port_words, port_voltages, port_currents,
                   port_powers, type_c_current):
    claims = port_claims(port_voltages, port_currents, port_powers)
    currents = [claim.current for claim in claims
                if claim.voltage <= FIXED_VOLTAGE and not isnan(claim.current)]
    if port_connector != "usb_c" or isnan(type_c_current) or not currents:
        return None
    current = max(currents)
    outcome, how = _judged(current, type_c_current, port_wiring, read_list(port_words))
    return Outcome(outcome, f"The CC contacts advertise {plain(type_c_current, 'A')} and the label "
                   f"claims {plain(current, 'A')} at 5 V{how}.",
                   {"advertised_current": type_c_current, "claim": current})


def _judged(current, advertised, wiring, capabilities):
    needed = (1 - ALLOWED) * current
    if advertised >= needed:
        return CONSISTENT, ""
    if current_at(capabilities.objects, 5.0) >= needed:
        return CONSISTENT, ", which the capability list offers on request"
    if not capabilities.objects:
        return CANNOT_TELL, "; whether more is offered on request was not read"
    if wiring in DATA_MODES and DATA_MODES[wiring].current < needed:
        return INCONSISTENT, "; neither the capability list nor the data contacts offer more"
    return CANNOT_TELL, "; the data contacts may offer more, the capability list does not"
