"""The highest fixed voltage in the port's own list of capabilities.

A source that lists 20 V is built to switch to it. Listing is not delivering, so this is a habit
and no test. Silence of the list says less: up to 12 V may be given through the data contacts, and
more than 20 V is listed on request only.
"""
import numpy as np

from teardowns.engine.mathml import EQ, equation, fn, sym
from teardowns.engine.rule import Worked, practice

BY_DATA_CONTACTS = 12.0     # V, up to which other protocols commonly go; from memory
STANDARD = 20.0             # V; more is listed in the extended range only
SAME = 1.05                 # as ratio: the tolerance of a fixed supply


@practice(
    on="voltage",
    title="Advertised voltage",
    model_error=0.05,
    source="The capability list of the port; layout: USB Power Delivery Specification, revision "
           "3.2. Fixed supplies lie within 5 % of their voltage, from memory.",
    validity="The port whose list was read, and claims of USB Power Delivery. Against a claim "
             "that is not listed the line is silent up to 12 V, which another protocol may give, "
             "and above 20 V, where a list read in the standard range ends. Advertising is not "
             "delivering: only a measured voltage shows that.",
    formula=equation(sym("U", "max"), EQ, fn("max", sym("U", "i"))),
    worked=(Worked({"advertised_voltage": 20.0, "output_voltage": 20.0}, 20.0, 1e-9,
                   "a list of 100 W in a public log, read off: 5, 9, 12, 15 and 20 V"),),
    symbols={"advertised_voltage": sym("U", "i")},
    asks={"advertised_voltage": "Which capabilities does the port advertise? Its list was not "
                                "read."},
    silent="The list does not reach the claimed voltage, which may be given in another way.",
)
def advertised_voltage(advertised_voltage, output_voltage):
    beyond = output_voltage > SAME * advertised_voltage
    other = output_voltage <= SAME * BY_DATA_CONTACTS
    extended = (output_voltage > SAME * STANDARD) & (advertised_voltage <= STANDARD)
    return np.where(beyond & (other | extended), np.nan, advertised_voltage)
