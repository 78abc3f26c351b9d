"""Data contacts without a chip can only say how many amperes a device may take, at 5 V.

Open contacts, contacts joined to each other and resistors cannot ask for another voltage. On a
Type-C port the CC contacts can, so that there the data contacts alone do not decide.
"""
from math import isnan

from teardowns.engine.claims import FIXED_VOLTAGE
from teardowns.engine.mathml import LEQ, equation, num, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.usb_levels import DATA_MODES
from teardowns.engine.port_claims import listed, port_claims
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

WITHOUT_CC = ("usb_a", "usb_a_high_current", "micro_b")
SEEN = 0.95         # of a claimed voltage: it was seen at the port
ROUNDING = 1e-9


@check(
    on="port",
    title="Claims against the data contacts",
    source="USB Battery Charging 1.2, dedicated charging port: D+ joined to D− by less than "
           "200 Ω, from memory; Texas Instruments TPS65987, TPS65988 and TPS2513 family for the "
           "modes, currents of the dividers from memory.",
    validity="Ports whose data contacts were traced. A controller that decodes pulses of the load "
             "on the mains side needs no chip at the port: it has to be excluded where the "
             "contacts are joined. What a device takes is no limit of the port.",
    formula=equation(sym("U", "claim"), LEQ, num("5.5 V")),
    optional=("offered_voltage", "primary_decodes_requests"),
    symbols={"offered_voltage": sym("U", "seen")},
)
def data_line_modes(port_connector, port_wiring, port_voltages, port_currents, port_powers,
                    offered_voltage, primary_decodes_requests):
    claims = port_claims(port_voltages, port_currents, port_powers)
    if port_wiring not in DATA_MODES or port_connector not in (*WITHOUT_CC, "usb_c"):
        return None
    mode = DATA_MODES[port_wiring]
    higher = [claim.voltage for claim in claims if claim.is_above_5v]
    if higher:
        way = _way(port_connector, port_wiring, max(higher), offered_voltage,
                   primary_decodes_requests)
        return Outcome(CANNOT_TELL if way else INCONSISTENT, _told(mode, higher, way),
                       {"voltage": max(higher), "highest": FIXED_VOLTAGE})
    currents = [claim.current for claim in claims if not isnan(claim.current)]
    # At 5 V a Type-C device goes by the CC contacts: a check of its own.
    return _of_current(mode, max(currents)) if currents and port_connector != "usb_c" else None


def _way(connector, wiring, voltage, seen, decodes):
    """How a higher voltage can come all the same; "" where no way is left."""
    if seen >= SEEN * voltage:
        return f"but {plain(seen, 'V')} was seen at the port: look at the contacts again"
    if connector == "usb_c":
        return "but a Type-C port may be asked through its CC contacts"
    if decodes == 1:
        return "but the controller on the mains side decodes requests"
    if wiring == "shorted" and isnan(decodes):
        return ("and whether the controller on the mains side decodes pulses of the load was not "
                "looked at")
    return ""


def _told(mode, higher, way):
    asked = listed(plain(volts, "V") for volts in sorted(higher))
    rest = way or "and nothing else at this port can be asked for them"
    return f"{mode.words}, by which a device gets 5 V only; {asked} are claimed, {rest}."


def _of_current(mode, current):
    numbers = {"current": current, "most": mode.current}
    most = plain(mode.current, "A")
    if current <= mode.current + ROUNDING:
        return Outcome(CONSISTENT, f"{mode.words}: a device takes up to {most}, which covers "
                       f"{plain(current, 'A')} at 5 V.", numbers)
    return Outcome(CANNOT_TELL, f"{mode.words} ({mode.why}): a device takes up to {most}, which "
                   f"does not tell whether the port can give {plain(current, 'A')}.", numbers)
