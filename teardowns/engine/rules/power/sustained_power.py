"""A load that was held in regulation for ten minutes or more.

It counts at mains voltages down to 0.85 of the one during the test, for a unit does not do worse
with more; where none is stated, at the high end only. At an output voltage below the one of the
test it counts with the same current, not the same power. The highest such load counts.
"""
from teardowns.engine.mathml import EQ, equation, sym
from teardowns.engine.rule import passed


@passed(
    on="power",
    title="Load that was held",
    model_error=0.01,
    source="Direct test: mean of voltage times current at the port over a window of 600 s with "
           "at least 99 % of the samples in regulation, no reset and no change of the load.",
    validity="At the mains voltage of the test and above; at a lower output voltage the current "
             "that was held counts, at a higher one the power. Hand-held meters: 0.5 % and two "
             "digits for each of voltage and current; never better than 1 %.",
    silent="The mains or output voltage of the test says nothing about the claim.",
    formula=equation(sym("P"), EQ, sym("P", "held")),
    symbols={"sustained_power": sym("P", "held")},
    asks={"sustained_power": "No load test was recorded: which load does the unit hold in "
                             "regulation for ten minutes, and at which mains voltage?"},
)
def sustained_power(sustained_power):
    return sustained_power
