"""More cannot leave a charger than its plate says that it may draw.

The largest input current that a plate prints belongs to its lowest voltage. Their product is the
apparent power; a plain rectifier turns only part of it into output power. A contradiction lies
inside the label; it says nothing about what the unit can do.
"""
from math import isnan

from teardowns.engine.mathml import EQ, LEQ, TIMES, equation, frac, op, row, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

POWER_FACTOR = 0.70       # at most, for a capacitor-input rectifier; priors are 0.52 to 0.58
EFFICIENCY = 0.94         # at most, of small chargers
NO_CORRECTOR, BORDERLINE, GENERIC = 0.7, 0.55, 0.1      # of V·I, the table of the source


def largest_output(voltage: float, current: float, power_factor: float,
                   efficiency: float) -> float:
    """P = V·I·PF·η. [W]"""
    return voltage * current * power_factor * efficiency


@check(
    title="Claimed output against rated input",
    source="Energy balance of the plate. Power factor of capacitor-input rectifiers: 0.58 ± 0.03 "
           "at 100 to 120 V by circuit simulation, 0.70 at most; more than 10 % above the plate "
           "current is not allowed by IEC 62368-1, B.2.5 (from memory).",
    validity="Plates that print an input voltage and current. Above 75 W of input, and with an "
             "active power-factor corrector, the share may be higher.",
    formula=equation(sym("P", "claim"), LEQ, sym("V", "low"), TIMES, sym("I", "in"), op(","),
                     sym("x"), EQ, frac(sym("P", "claim"),
                                        row(sym("V", "low"), sym("I", "in")))),
    optional=("rated_voltage_low", "rated_input_current", "power_factor_corrector"),
    symbols={"claim_power": sym("P", "claim"), "rated_voltage_low": sym("V", "low"),
             "rated_input_current": sym("I", "in")},
)
def plate_input_balance(claim_power, rated_voltage_low, rated_input_current,
                        power_factor_corrector):
    if isnan(claim_power):
        return None
    apparent = rated_voltage_low * rated_input_current
    if isnan(apparent) or apparent <= 0:
        return Outcome(CANNOT_TELL, "The plate's input voltage and current were not recorded.")
    ratio = claim_power / apparent
    numbers = {
        "ratio": ratio, "apparent_power": apparent, "claim": claim_power,
        "largest_output": largest_output(rated_voltage_low, rated_input_current, POWER_FACTOR,
                                         EFFICIENCY)}
    drawn = (f"{plain(rated_voltage_low, 'V')} × {plain(rated_input_current, 'A')} = "
             f"{plain(apparent, 'VA')}")
    outcome, sentence = _judged(ratio, f"{drawn} of input", plain(claim_power, "W"),
                                power_factor_corrector)
    return Outcome(outcome, sentence, numbers)


def _judged(ratio, drawn, claim, corrector):
    """corrector : 1 found, 0 looked for and not found, NaN not looked for"""
    corrected = corrector == 1
    if ratio > 1:
        return INCONSISTENT, (f"The plate allows {drawn} and prints {claim} of output: more than "
                              "can come out. The contradiction lies inside the label.")
    if ratio > NO_CORRECTOR and corrector == 0:
        return INCONSISTENT, (f"{claim} from {drawn} takes an active power-factor corrector, and "
                              "none was found in the unit examined.")
    if ratio > NO_CORRECTOR and not corrected:
        return CANNOT_TELL, (f"{claim} from {drawn} takes an active power-factor corrector; a "
                             "plain rectifier does not reach it.")
    if ratio > BORDERLINE and not corrected:
        return CANNOT_TELL, f"{claim} from {drawn} is at the edge of what a plain rectifier draws."
    if ratio < GENERIC:
        return CANNOT_TELL, (f"{claim} from {drawn}: the printed input current is far above the "
                             "need, so it says nothing about the output.")
    return CONSISTENT, f"{claim} of output fits {drawn}."
