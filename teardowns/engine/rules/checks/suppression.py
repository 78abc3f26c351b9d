"""Parts that keep interference out of the mains: how much of them was found. No hazard."""
from math import isnan

from teardowns.engine.mathml import equation, word
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, Outcome
from teardowns.engine.rule import check

CLAIMS = (" ce ", " fcc ", " ukca ")


@check(
    on="unit",
    title="Interference suppression",
    source="Roles of the parts: capacitor makers' class pages and a design guide. No limit is "
           "implied: absence proves nothing without a measurement.",
    validity="Where somebody looked for the parts. Compliance alone, no shock or fire hazard.",
    formula=equation(word("typical, reduced or none")),
    optional=("common_mode_choke", "differential_choke"),
)
def suppression(marks, common_mode_choke, differential_choke, found_x_capacitor,
                found_barrier_capacitor, found_filter_choke):
    # A choke in the list of parts is one of these two, where somebody said which.
    chokes = max((common_mode_choke == 1) + (differential_choke == 1), found_filter_choke == 1)
    found = int(chokes + (found_x_capacitor == 1) + (found_barrier_capacitor == 1))
    unseen = any(isnan(fact) for fact in (found_x_capacitor, found_barrier_capacitor)) or (
        not chokes and isnan(found_filter_choke))
    if not found and unseen:
        return None
    if found == 1 and unseen:
        return Outcome(CANNOT_TELL, "One of the usual kinds of suppression parts was found; not "
                                    "all were looked for.", {"kinds": 1.0})
    if found:
        kind = "typical" if found >= 2 else "reduced"
        return Outcome(CONSISTENT, f"The suppression found is {kind}: {found} of the usual kinds "
                                   "of parts.", {"kinds": float(found)})
    claimed = any(mark in f" {marks} " for mark in CLAIMS)
    beside = " beside a mark that claims conformity" if claimed else ""
    return Outcome(CANNOT_TELL, f"No suppression part was found{beside}. That proves nothing "
                                "without a measurement.", {"kinds": 0.0})
