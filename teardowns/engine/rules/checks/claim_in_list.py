"""A claim at a port whose capability list was read: does the list offer it?

What is advertised is not yet delivered, and what is not advertised may come by another way: a
protocol on the data contacts, a marked cable, the extended range. Where such a way is open the
list does not decide.
"""
from math import isnan

from teardowns.engine.mathml import EQ, LEQ, equation, fn, op, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.offers import current_at, described, most_power
from teardowns.engine.physics.power_objects import EPR_CAPABLE, read_list
from teardowns.engine.physics.source_rules import PLAIN_CABLE, STANDARD
from teardowns.engine.physics.usb_levels import DATA_MODES, SAFE_5V
from teardowns.engine.port_claims import PortClaim, listed
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

ALLOWED = 0.03          # of what is claimed; rounding on plates stays below it
STANDARD_POWER = 100.0  # W; more belongs to the extended range


@check(
    title="Claim against the port's capability list",
    source="USB Power Delivery Specification, revision 3.x: a device can only ask for what the "
           "source advertises. The 3 % for rounding is common practice, no source.",
    validity="Ports whose list was read. The list speaks of USB Power Delivery only, and of a "
             "source that was alone in use; it offers more than 3 A through a marked cable only.",
    formula=equation(sym("I", "claim"), LEQ, sym("I", "list"), op(","), sym("I", "list"), EQ,
                     fn("I", sym("U", "claim"))),
    symbols={"claim_voltage": sym("U", "claim"), "claim_current": sym("I", "claim"),
             "claim_power": sym("P", "claim")},
)
def claim_in_list(claim_voltage, claim_current, claim_power, claim_wiring, claim_words):
    capabilities = read_list(claim_words)
    claim = PortClaim(claim_voltage, claim_current, claim_power)
    if not capabilities.objects or isnan(claim_voltage) and isnan(claim_power):
        return None
    offered, wanted, numbers = _compared(claim, capabilities.objects)
    asked = f"the claim of {claim.words}"
    if offered >= (1 - ALLOWED) * wanted:
        return Outcome(CONSISTENT, f"The list that the port advertises covers {asked}.", numbers)
    told = f"The list that the port advertises does not cover {asked}: {_most(claim, offered)}"
    whole = listed(map(described, capabilities.objects))
    if ways := _other_ways(claim, capabilities, offered, claim_wiring):
        return Outcome(CANNOT_TELL, f"{told} ({whole}). It may come by another way: {ways}.",
                       numbers)
    return Outcome(INCONSISTENT, f"{told} ({whole}).", numbers)


def _compared(claim, objects):
    """(offered, wanted, numbers): amperes at the claim's voltage, or watts without a voltage."""
    if isnan(claim.voltage):
        most = most_power(objects)
        return most, claim.power, {"advertised_power": most, "claim": claim.power}
    wanted = claim.power / claim.voltage if isnan(claim.current) else claim.current
    offered = current_at(objects, claim.voltage)
    numbers = {"voltage": claim.voltage}
    if isnan(offered):
        return 0.0, 1.0, numbers
    numbers["advertised_current"] = offered
    return offered, 0.0 if isnan(wanted) else wanted, numbers


def _most(claim, offered):
    if isnan(claim.voltage):
        return f"it goes up to {plain(offered, 'W')}"
    if offered == 0:
        return f"no object of it reaches {plain(claim.voltage, 'V')}"
    return f"it offers {plain(offered, 'A')} there"


def _other_ways(claim, capabilities, offered, wiring):
    ways = list(capabilities.problems)
    if _takes_a_marked_cable(claim, offered):
        ways.append("more than 3 A is offered through a cable marked for 5 A only")
    extended = claim.voltage > STANDARD or claim.power > STANDARD_POWER
    if extended and EPR_CAPABLE in getattr(capabilities.objects[0], "flags", ()):
        ways.append("the source says that it is capable of the extended range, which is offered "
                    "on request only")
    if not extended:
        ways += _data_contacts(claim, wiring)
    return "; ".join(ways)


def _takes_a_marked_cable(claim, offered):
    if isnan(claim.voltage):
        return offered == PLAIN_CABLE * STANDARD and claim.power <= STANDARD_POWER
    return offered == PLAIN_CABLE


def _data_contacts(claim, wiring):
    if wiring == "chip":
        return ["a chip at the data contacts may know other protocols"]
    if wiring not in DATA_MODES:
        return ["the data contacts were not looked at"]
    mode = DATA_MODES[wiring]
    if claim.voltage <= SAFE_5V[1] and claim.current <= mode.current:
        return [f"{mode.words}, for which a device takes up to {plain(mode.current, 'A')}"]
    return []
