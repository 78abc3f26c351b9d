"""The power that the controller's data sheet gives for 230 V mains."""
import numpy as np

from teardowns.engine.default_value import HIGH_RANGE
from teardowns.engine.mathml import EQ, equation, sym, word
from teardowns.engine.rule import limit


@limit(
    on="power",
    title="Controller's published power, 230 V",
    model_error=0.15,
    margin=0.45,
    source="Power table of the marked part's data sheet, cited with the part; for example "
           "Power Integrations AN-23 (7/99), table 7: 5, 8 and 10 W.",
    validity="At mains voltages of 180 V and more. Tables assume an enclosure and an ambient "
             "temperature, which moves them by about 15 %.",
    formula=equation(sym("P"), EQ, sym("P", "table"), word(" (230 V)")),
    symbols={"mains_voltage": sym("V"), "controller_power_high": sym("P", "table")},
    asks={"controller_power_high": ""},       # asked by the wide range
    silent="The plate has no mains voltage of 180 V or more.",
)
def controller_power_high(mains_voltage, controller_power_high):
    return np.where(mains_voltage >= HIGH_RANGE, controller_power_high, np.nan)
