"""The mains fuse lets no more current pass for long than it holds.

A fuse holds somewhat more than its rating for an hour, so that it is judged generously, and makers
choose it for the switch-on pulse, far above the steady current.
"""
from teardowns.engine.mathml import EQ, TIMES, equation, num, sym
from teardowns.engine.physics.protection import mains_power
from teardowns.engine.rule import Worked, limit

HOLDS = 1.2           # times the rating, for long


@limit(
    on="power",
    title="Mains fuse",
    model_error=0.15,
    # Chosen for the switch-on pulse, three to ten times the steady current: a large fuse is no
    # sign of a large power.
    margin=3.0,
    source="Continuous current of at most 0.75 of the rating for UL fuses at 25 °C: EDN, 26 "
           "September 1996, maker's checklist. IEC 60127 fuses hold 1.5 times their rating for "
           "an hour (from memory). Taken as 1.2 ± 0.15. P = V·I·PF·η.",
    validity="Fuses with a printed rating. Above 60 °C a fuse holds about a tenth less.",
    formula=equation(sym("P"), EQ, num(HOLDS), TIMES, sym("I", "N"), TIMES, sym("V"), TIMES,
                     sym("PF"), TIMES, sym("η")),
    silent="Whether there is a power-factor corrector is not known, nor then the line current.",
    symbols={"fuse_rating": sym("I", "N"), "mains_voltage": sym("V"),
             "power_factor": sym("PF"), "efficiency": sym("η")},
    asks={"fuse_rating": "Current rating of the mains fuse, if there is one: read its cap or the "
                         "print beside it."},
    worked=(
        # 100 V · 0.2 A · 0.58 · 0.75 = 8.7 W; times 1.2.
        Worked({"fuse_rating": 0.2, "mains_voltage": 100.0, "power_factor": 0.58,
                "efficiency": 0.75}, 10.44, 1e-9, "Worked: 8.7 W at the rated current, times "
               "1.2."),
    ),
)
def fuse(fuse_rating, mains_voltage, power_factor, efficiency):
    return mains_power(mains_voltage, HOLDS * fuse_rating, power_factor) * efficiency
