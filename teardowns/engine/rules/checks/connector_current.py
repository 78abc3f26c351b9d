"""A contact carries the current that it is rated for, whatever the plate says."""
from math import isnan

from teardowns.engine.mathml import LEQ, equation, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.usb_levels import CONNECTOR_NAMES, CONTACTS
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

ROUNDING = 1e-9


@check(
    title="Claimed current against the connector",
    source="Contact ratings, from memory: USB 2.0 Type-A 1.5 A, to 3 A with high-current "
           "receptacles; Micro-B 1.8 A; Type-C 3 A, 5 A with an e-marked cable.",
    validity="Connectors with a rating of their own. Captive cables, coaxial plugs and terminals "
             "have none here. A current that is printed for no single one of several ports may be "
             "that of all together.",
    formula=equation(sym("I", "claim"), LEQ, sym("I", "contact")),
    symbols={"claim_current": sym("I", "claim")},
)
def connector_current(claim_current, claim_connector, claim_outlets):
    if isnan(claim_current) or claim_connector not in CONTACTS:
        return None
    sure, most, condition = CONTACTS[claim_connector]
    numbers = {"current": claim_current, "rating": sure, "rating_at_most": most}
    name, current = CONNECTOR_NAMES[claim_connector], plain(claim_current, "A")
    if claim_current <= sure + ROUNDING:
        return Outcome(CONSISTENT, f"{current} lies within the {plain(sure, 'A')} of a {name} "
                       "contact.", numbers)
    if claim_current <= most + ROUNDING:
        return Outcome(CANNOT_TELL, f"{current} through {name} is within the rating only if "
                       f"{condition}.", numbers)
    if claim_current <= claim_outlets * most + ROUNDING:
        return Outcome(CANNOT_TELL, f"{current} is more than one {name} contact is rated for "
                       f"({plain(most, 'A')} at most); it is printed for no single one of "
                       f"{claim_outlets} ports.", numbers)
    return Outcome(INCONSISTENT, f"{current} is more than a {name} contact is rated for "
                   f"({plain(most, 'A')} at most).", numbers)
