"""The whole output current passes the output rectifier.

A diode carries its average rated current at the most, and only with the heat led away; makers
choose a multiple.
"""
import numpy as np

from teardowns.engine.mathml import EQ, TIMES, equation, sym
from teardowns.engine.rule import Worked, limit


@limit(
    on="power",
    title="Output rectifier's current",
    model_error=0.25,
    # A third of the rating, as advised, would ask for 1.6; diodes come in steps of two and more.
    margin=2.0,
    source="Average forward current rating of the part; ratings of at least three times the "
           "continuous output current are advised: Power Integrations AN-19 (6/96), p. 14.",
    validity="Diode rectifiers; the rating holds at a case temperature of its data sheet, which "
             "moves it by about 20 %. No bound behind a DC-DC converter at the port.",
    silent="Behind a converter at the port, the rectifier's current is not the port's.",
    formula=equation(sym("P"), EQ, sym("U"), TIMES, sym("I", "F(AV)")),
    symbols={"rectifier_current_rating": sym("I", "F(AV)"), "output_voltage": sym("U")},
    optional=("port_converter",),
    asks={"rectifier_current_rating": "Current rating of the output rectifier: read its marking; "
                                      "add up diodes in parallel."},
    worked=(
        Worked({"rectifier_current_rating": 6.0, "output_voltage": 5.0, "port_converter": 0.0},
               30.0, 1e-9, "Power Integrations AN-19 (6/96), p. 14: 6 A are advised for 2 A of "
               "output; at the most they carry 6 A · 5 V."),
    ),
)
def output_rectifier(rectifier_current_rating, output_voltage, port_converter):
    return np.where(port_converter == 1, np.nan, rectifier_current_rating * output_voltage)
