"""A list of capabilities follows rules of its own: for its power it offers certain voltages.

The power of a source is the largest product of voltage and current among its fixed supplies, and
with it goes a set of mandatory ones. A list that departs from the rules is no word on whether the
unit gives what the list offers.
"""
from math import isnan

from teardowns.engine.mathml import EQ, LEQ, TIMES, equation, fn, frac, op, row, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.offers import described, design_power
from teardowns.engine.physics.power_objects import read_list
from teardowns.engine.physics.source_rules import examine_list
from teardowns.engine.port_claims import listed
from teardowns.engine.rule import check
from teardowns.engine.wording import plain


@check(
    on="port",
    title="Capability list against the source power rules",
    source="USB Power Delivery Specification, revision 3.x, source power rules, in two public "
           "renderings of the table; object layouts: revision 3.2, version 1.1, tables 6.14 and "
           "6.15. Rows above 100 W and the order of the objects: from memory.",
    validity="Lists read whole, at a port alone in use. Sources of revision 2.0 before version 1.2 "
             "followed other rules. The adjustable supply that revision 3.2 also asks for above "
             "27 W is not asked for here.",
    formula=equation(sym("P", "source"), EQ, fn("max", sym("U", "i"), TIMES, sym("I", "i")),
                     op(","), sym("I", "i"), LEQ,
                     row(frac(sym("P", "source"), sym("U", "i")))),
)
def capability_list(port_words):
    if not port_words:
        return None
    capabilities = read_list(port_words)
    power = design_power(capabilities.objects)
    numbers = {} if isnan(power) else {"power": power}
    if capabilities.problems:
        return Outcome(CANNOT_TELL, " ".join(capabilities.problems), numbers)
    findings = examine_list(capabilities)
    sentence = " ".join(finding.sentence for finding in findings)
    if any(finding.departs for finding in findings):
        return Outcome(INCONSISTENT, f"The list, as recorded, departs from the source power rules. "
                       f"{sentence}", numbers)
    if isnan(power):
        return None
    offered = listed(map(described, capabilities.objects))
    return Outcome(CONSISTENT, f"The list follows the rules for a source of {plain(power, 'W')}: "
                   f"{offered}. {sentence}".rstrip(), numbers)
