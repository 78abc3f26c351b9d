"""Whether anything in the unit can change its output voltage at all.

A chip at the port may ask for 9 V; only a path from it to the regulation point can deliver. The
line weighs how well the parts that were found, and those that were looked for and not found, fit
arrangements that can be switched and arrangements that cannot.
"""
import numpy as np

from teardowns.engine.mathml import EQ, equation, fn, frac, op, sym, word
from teardowns.engine.physics.feedback import FLAGS, switchable_ratio
from teardowns.engine.rule import switch


@switch(
    on="voltage",
    title="Feedback path",
    source="Truth table of feedback arrangements F1 to F12; reference architecture: Texas "
           "Instruments data sheets UCC28C43 and UCC28750, note SDAA053. Probabilities of "
           "missing a part: from memory.",
    silent="Nothing has to switch, for one voltage on a plug that has no other; or no part that "
           "decides was looked at; or a plain part carries the feedback across the barrier, a "
           "safety defect, which is not scored as switchable.",
    validity="USB ports and units that claim several voltages, for one fixed voltage needs no "
             "switching, and only where the feedback was looked at. A part that was not seen is "
             "not taken as absent: it is missed with 0.05 (both sides photographed), 0.4 (one "
             "side) or 0.6 (none), a connection with 0.1 at least.",
    formula=equation(sym("R"), EQ,
                     frac(fn("P", word("seen"), op("|"), word("switchable")),
                          fn("P", word("seen"), op("|"), word("fixed"))),
                     op(","), word(" for voltages above 5.5 V")),
    optional=FLAGS + ("feedback_bridges_barrier",),
    symbols={"photographed_sides": sym("s")},
    asks={"isolated_feedback": "Was an optocoupler or another isolated link looked for?",
          "protocol_controller": "Was a protocol chip at the port looked for?",
          "feedback_node_driven": "Does the protocol chip reach the regulation point? Trace it."},
)
def feedback_path(isolated_feedback, primary_feedback, primary_decodes_requests,
                  protocol_controller, feedback_node_driven, port_converter, bus_switch,
                  feedback_bridges_barrier, photographed_sides):
    observed = np.stack([isolated_feedback, primary_feedback, primary_decodes_requests,
                         protocol_controller, feedback_node_driven, port_converter, bus_switch])
    looked_at = ~np.isnan(observed[:-1]).all(axis=0)
    across = ((isolated_feedback == 0) & (primary_feedback == 1) & (protocol_controller == 1)
              & (primary_decodes_requests == 0) & (port_converter == 0))          # row F12
    # A safety defect is flagged apart, never scored as a way to switch.
    defect = (feedback_node_driven == 1) & (across | (feedback_bridges_barrier == 1))
    ratio = switchable_ratio(observed, photographed_sides)
    return np.where(looked_at & ~defect, ratio, np.nan)
