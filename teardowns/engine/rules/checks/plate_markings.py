"""What a plate has to say of the unit: maker and model, input, output, class of protection."""
from math import isnan

from teardowns.engine.mathml import equation, word
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check


@check(
    on="unit",
    title="Markings on the plate",
    source="IEC 62368-1:2018, F.3.2 and F.3.3, a marking page of a certifier; Regulation (EU) "
           "2019/1782, annex II, for volts, amperes and watts of the output.",
    validity="Presence only, never an electrical defect. Absent means something only where all "
             "faces were photographed.",
    formula=equation(word("input V, A, Hz; output V, A, W")),
    optional=("all_faces_photographed", "rated_input_current", "rated_frequency",
              "rated_voltage_high"),
)
def plate_markings(rated_voltage_high, rated_input_current, rated_frequency,
                   claimed_output_voltage, claimed_output_current, claimed_output_power,
                   all_faces_photographed):
    wanted = {"input voltage": rated_voltage_high, "input current": rated_input_current,
              "frequency": rated_frequency, "output voltage": claimed_output_voltage,
              "output current": claimed_output_current, "output power": claimed_output_power}
    missing = [name for name, value in wanted.items() if isnan(value)]
    if isnan(claimed_output_voltage) and isnan(claimed_output_power):
        return None                    # nothing was read of the output: the plate was not read
    if not missing:
        return Outcome(CONSISTENT, "The plate prints input and output in full.")
    said = f"Not read on the plate: {', '.join(missing)}."
    if all_faces_photographed == 1:
        return Outcome(INCONSISTENT, f"{said} All outside faces were photographed. A matter of "
                                     "marking alone.")
    return Outcome(CANNOT_TELL, f"{said} Not all outside faces were photographed.")
