"""The largest current that the port still gives with its voltage up.

Beyond the over-current point the voltage is gone, so that no more power comes out. It counts at
the voltage at which it was found and, with the same power, below.
"""
import numpy as np

from teardowns.engine.likelihoods import ELSEWHERE, SPOILT
from teardowns.engine.mathml import EQ, TIMES, equation, sym
from teardowns.engine.rule import Worked, failed


def spoilt(overcurrent_point, output_voltage):
    return tuple(np.full(np.shape(overcurrent_point), part) for part in (SPOILT, ELSEWHERE))


@failed(
    on="power",
    title="Over-current point",
    # The voltage there lies between 0.9 and 1.0 of the nominal one.
    model_error=0.05,
    doubt=spoilt,
    source="Direct test: the largest current with at least 0.9 of the voltage without load.",
    validity="At the mains voltage of the test and below, at the output voltage of the test and "
             "below. A bad cable or contact, the wrong port or a slipped digit spoils one test in "
             "fifty (common practice, no source).",
    silent="The mains or output voltage of the test says nothing about the claim.",
    silent_ports="The mains or output voltage of the test says nothing about the claim, or it may "
                 "be the own limit of one of several outputs.",
    formula=equation(sym("P"), EQ, sym("I", "max"), TIMES, sym("V")),
    symbols={"overcurrent_point": sym("I", "max"), "output_voltage": sym("V")},
    asks={"overcurrent_point": "At which current does the port give up its voltage?"},
    worked=(Worked({"overcurrent_point": 2.3, "output_voltage": 5.0}, 11.5, 1e-9,
                   "2.3 A × 5 V, by hand."),),
)
def overcurrent(overcurrent_point, output_voltage):
    return overcurrent_point * output_voltage
