"""The highest voltage that was seen at a port.

A load that was held at a stated output voltage is such a sight too. Where the claim's own voltage
was asked for and not given, only a sight within 10 % of it counts.
"""
from teardowns.engine.mathml import EQ, equation, sym
from teardowns.engine.rule import passed


@passed(
    on="voltage",
    title="Highest voltage seen",
    model_error=0.01,
    source="Direct observation with a voltmeter or an analyser at the port.",
    validity="The port and the request of the observation.",
    formula=equation(sym("U", "max"), EQ, sym("U", "seen")),
    symbols={"offered_voltage": sym("U", "seen")},
    asks={"offered_voltage": "Which voltages does the port give when they are asked for by its "
                             "protocol? The highest one seen was not recorded."},
)
def offered_voltage(offered_voltage):
    return offered_voltage
