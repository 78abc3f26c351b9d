"""The ratings printed for one Type-C port, against what a source of their power has to offer.

“20 V 5 A” means a source of 100 W, and with it 5, 9 and 15 V at 3 A. 12 V is optional: it follows
from nothing else and needs evidence of its own.
"""
from math import isnan

from teardowns.engine.mathml import EQ, equation, fn, op, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.source_rules import PLAIN_CABLE, mandatory_ratings
from teardowns.engine.port_claims import PortClaim, listed, port_claims
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

SAME = 0.05                 # relative, of two voltages
ALLOWED = 0.03              # of a current; rounding on plates stays below it
WITHOUT_LEVELS = 15.0       # W, up to which 5 V is all that there is
OPTIONAL = 12.0             # V


@check(
    on="port",
    title="Printed ratings against the source power rules",
    source="USB Power Delivery Specification, revision 3.x, source power rules, in two public "
           "renderings of the table; above 100 W from memory.",
    validity="Type-C ports of USB Power Delivery, from revision 2.0, version 1.2 on: earlier "
             "sources and other protocols follow other rules, so that without a capability list "
             "the label alone does not decide. A plate need not print all that a source offers. "
             "An outcome is about the label, not about what the unit gives.",
    formula=equation(sym("I"), EQ, fn("min", sym("P", "source"), op("/"), sym("U"), op(","),
                                      sym("I", "max"))),
)
def source_power_rules(port_connector, port_words, port_voltages, port_currents, port_powers):
    claims = port_claims(port_voltages, port_currents, port_powers)
    rated = [c for c in claims if not isnan(c.voltage) and not isnan(c.current)]
    power = max((claim.power for claim in claims if not isnan(claim.power)), default=0.0)
    if port_connector != "usb_c" or power <= WITHOUT_LEVELS or not rated:
        return None
    outcome, sentence = _judged(rated, power, mandatory_ratings(power), bool(port_words))
    return Outcome(outcome, " ".join([sentence, *_remarks(claims)]), {"power": power})


def _judged(rated, power, mandatory, has_list):
    printed = {volts: _current_at(rated, volts) for volts, _ in mandatory}
    short = [(volts, amperes) for volts, amperes in mandatory
             if printed[volts] < (1 - ALLOWED) * amperes]
    missing = [(volts, amperes) for volts, amperes in mandatory if isnan(printed[volts])]
    source = f"A USB PD source of {plain(power, 'W')}"
    if short:
        prints = listed(f"{plain(printed[volts], 'A')} at {plain(volts, 'V')}"
                        for volts, _ in short)
        told = f"{source} has to offer {_ratings(short)}; the label prints {prints}."
        if has_list:
            return INCONSISTENT, f"{told} The port advertises itself as one."
        return CANNOT_TELL, (f"{told} Whether the port is one was not seen: no capability list "
                             "was read.")
    if missing:
        return CANNOT_TELL, (f"{source} has to offer {_ratings(missing)} as well, which is not "
                             "printed.")
    return CONSISTENT, f"The label prints all that a source of {plain(power, 'W')} has to offer."


def _current_at(rated, volts):
    """The largest current printed for a voltage; NaN where none is."""
    here = [claim.current for claim in rated if abs(claim.voltage - volts) <= SAME * volts]
    return max(here, default=float("nan"))


def _ratings(pairs):
    return listed(PortClaim(volts, amperes, float("nan")).words for volts, amperes in pairs)


def _remarks(claims):
    if any(abs(claim.voltage - OPTIONAL) <= SAME * OPTIONAL for claim in claims):
        yield "12 V is optional: the other voltages do not show that it is there."
    if any(claim.current > PLAIN_CABLE for claim in claims):
        yield "More than 3 A takes a cable marked for 5 A."
