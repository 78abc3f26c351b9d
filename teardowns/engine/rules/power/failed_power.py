"""A load at which the unit left regulation, reset or shut down.

It caps mains voltages up to 1.15 times that of the test; where none is stated, the low end only.
Lost at one output voltage it caps claims up to 1.1 times that voltage: a current limit at 5 V
says nothing about 20 V. The lowest such load counts.
"""
import numpy as np

from teardowns.engine.likelihoods import ELSEWHERE, MISREAD, SPOILT
from teardowns.engine.mathml import EQ, equation, sym, word
from teardowns.engine.rule import failed


def spoilt(failed_power, failed_tests):
    """A second load that was lost is a second look at the first (`likelihoods.MISREAD`)."""
    return (np.where(failed_tests > 1, MISREAD, SPOILT),
            np.full(np.shape(failed_power), ELSEWHERE))


@failed(
    on="power",
    title="Load at which regulation was lost",
    model_error=0.01,
    doubt=spoilt,
    source="Direct test: in regulation means at least 0.95 of the nominal voltage, 4.75 V for a "
           "5 V port.",
    validity="At the mains voltage of the test and below, at the output voltage of the test and "
             "below. A bad cable or contact, the wrong port or a slipped digit spoils one test in "
             "fifty; of several that were lost, one in two hundred (common practice, no source).",
    silent="The mains or output voltage of the test says nothing about the claim.",
    silent_ports="The mains or output voltage of the test says nothing about the claim, or it may "
                 "be the own limit of one of several outputs.",
    formula=equation(sym("P"), EQ, sym("P", "lost")),
    symbols={"failed_power": sym("P", "lost"), "failed_tests": word("tests")},
    asks={"failed_power": ""},       # asked by the load that was held
)
def failed_power(failed_power, failed_tests):
    return failed_power
