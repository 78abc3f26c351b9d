"""A load at which the unit left regulation, reset or shut down.

It caps mains voltages up to 1.15 times that of the test; where none is stated, the low end only.
Lost at one output voltage it caps claims up to 1.1 times that voltage: a current limit at 5 V
says nothing about 20 V. The lowest such load counts.
"""
from teardowns.engine.mathml import EQ, equation, sym
from teardowns.engine.rule import failed


@failed(
    on="power",
    title="Load at which regulation was lost",
    model_error=0.01,
    source="Direct test: in regulation means at least 0.95 of the nominal voltage, 4.75 V for a "
           "5 V port.",
    validity="At the mains voltage of the test and below, at the output voltage of the test and "
             "below.",
    silent="The mains or output voltage of the test says nothing about the claim, or it may be the "
           "own limit of one of several outputs.",
    formula=equation(sym("P"), EQ, sym("P", "lost")),
    symbols={"failed_power": sym("P", "lost")},
    asks={"failed_power": ""},       # asked by the load that was held
)
def failed_power(failed_power):
    return failed_power
