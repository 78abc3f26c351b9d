"""A voltage that was asked for in the port's own protocol and not given.

It concerns claims within 10 % of that voltage: 12 V is optional where 15 and 20 V are not.
"""
from teardowns.engine.mathml import EQ, TIMES, equation, num, sym
from teardowns.engine.rule import failed

GIVEN = 0.95        # within 5 % of the request counts as given


@failed(
    on="voltage",
    title="Voltage asked for and not given",
    model_error=0.01,
    source="Direct test: the tolerance of a fixed voltage is ±5 % (USB Power Delivery, "
           "vSrcNew; from memory).",
    validity="The port and the protocol of the request, with a cable that allows it.",
    formula=equation(sym("U", "max"), EQ, num(GIVEN), TIMES, sym("U", "asked")),
    symbols={"refused_voltage": sym("U", "asked")},
    asks={"refused_voltage": ""},       # asked by the highest voltage seen
    silent="The voltage that was asked for lies more than 10 % from the highest claimed one.",
)
def refused_voltage(refused_voltage):
    return GIVEN * refused_voltage
