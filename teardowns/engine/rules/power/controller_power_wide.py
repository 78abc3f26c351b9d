"""The power that the controller's data sheet gives for universal input, 85 to 265 V."""
import numpy as np

from teardowns.engine.default_value import HIGH_RANGE
from teardowns.engine.mathml import EQ, equation, sym, word
from teardowns.engine.rule import limit


@limit(
    on="power",
    title="Controller's published power, wide range",
    model_error=0.15,
    margin=0.45,
    source="Power table of the marked part's data sheet, cited with the part; for example "
           "Power Integrations AN-23 (7/99), table 7: 2.5, 5 and 7.5 W.",
    validity="At mains voltages below 180 V. Tables assume an enclosure and an ambient "
             "temperature, which moves them by about 15 %.",
    formula=equation(sym("P"), EQ, sym("P", "table"), word(" (85 to 265 V)")),
    symbols={"mains_voltage": sym("V"), "controller_power_wide": sym("P", "table")},
    asks={"controller_power_wide": "Which part is the primary controller, and which power does "
                                   "its data sheet give, for 85 to 265 V and for 230 V?"},
    silent="The plate has no mains voltage below 180 V.",
)
def controller_power_wide(mains_voltage, controller_power_wide):
    return np.where(mains_voltage < HIGH_RANGE, controller_power_wide, np.nan)
