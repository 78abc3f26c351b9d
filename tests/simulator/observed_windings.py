"""What an unwound transformer tells: turns, wires, gap, centre leg; and its inductance before."""
import numpy as np

from . import cores


def observe_windings(chargers, who):
    stage, unwound = chargers.converter, who.unwound
    core = stage.core
    wire = {"where": unwound, "absolute": 0.008e-3}
    meter = who.opened & (who.rng.random(who.n) < np.where(unwound, 0.7, 0.15 * who.regime.unwound))
    legs = unwound & ~cores.ROUND[stage.core_index]
    listed = unwound & (who.rng.random(who.n) < 0.4)
    return (who.measures("primary_turns", core.turns, 0.9, unwound, absolute=0.7),
            who.measures("secondary_turns", stage.secondary_turns, 0.9, unwound, absolute=0.1),
            who.measures("auxiliary_turns", stage.auxiliary_turns, 0.8, unwound, absolute=0.2),
            who.measures("primary_wire_diameter", stage.primary_wire, 0.9, **wire),
            who.reads("primary_strands", stage.primary_strands, 0.9, unwound),
            who.measures("secondary_wire_diameter", stage.secondary_wire, 0.9, **wire),
            who.reads("secondary_strands", stage.secondary_strands, 0.9, unwound),
            who.measures("air_gap", core.gap * stage.fringe, 0.6, unwound, absolute=0.02e-3),
            who.measures("centre_leg_width", cores.LEG[stage.core_index], 0.8, legs,
                         absolute=0.1e-3),
            who.measures("core_effective_area", cores.AREA[stage.core_index], 1.0, listed,
                         relative=0.03),
            who.measures("primary_inductance", core.inductance, 1.0, meter, relative=0.02))
