"""A load that was held for ten seconds.

A charger gives for ten seconds what it cannot give for ten minutes, yet not much more: its
windings and capacitors are hot within minutes, its limits of current and flux at once.
"""
import numpy as np

from teardowns.engine.mathml import EQ, TIMES, equation, num, sym
from teardowns.engine.rule import Worked, passed

SUSTAINED = 0.7           # of a short load that counts as held for good; our own choice


@passed(
    on="power",
    title="Load that was held for seconds",
    model_error=0.30,
    source="Direct test with a window of 10 s. That 0.7 ± 0.3 of a short load is held for good is "
           "common practice, no source.",
    validity="As for the load that was held for minutes, and only where no longer test was made.",
    silent="A longer test tells the same better, or the mains or output voltage of the test says "
           "nothing about the claim.",
    unless="power/sustained_power",
    formula=equation(sym("P"), EQ, num(SUSTAINED), TIMES, sym("P", "10 s")),
    symbols={"peak_power": sym("P", "10 s")},
    asks={"peak_power": ""},         # asked by the load that was held
    worked=(Worked({"peak_power": 20.0}, 14.0, 1e-9, "0.7 × 20 W, by hand."),),
)
def peak_power(peak_power):
    return np.multiply(SUSTAINED, peak_power)
