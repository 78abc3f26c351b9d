"""A unit marked for high mains has parts that bear them: bulk capacitor, X capacitor, fuse."""
from math import isnan

from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.requirements.mains_parts import LOWEST_BULK, bulk_voltage
from teardowns.engine.rule import check
from teardowns.engine.wording import plain


@check(
    on="unit",
    title="Rated range and bulk capacitor",
    source="Engineering rule: a part is used within its rating (IEC 62368-1:2018, 4.1.2). √2 · 1.1 "
           "times the highest rated voltage.",
    validity="No power-factor corrector, no voltage doubler. Fuse and mains capacitor are graded "
             "one by one.",
    formula=equation(sym("U", "C"), op("≥"), sym("U", "peak")),
    optional=("voltage_doubler", "power_factor_corrector", "bulk_pieces"),
    symbols={"bulk_capacitor_rating": sym("U", "C")},
)
def range_against_parts(rated_voltage_high, bulk_capacitor_rating, voltage_doubler,
                        power_factor_corrector, bulk_pieces):
    if isnan(rated_voltage_high) or isnan(bulk_capacitor_rating) or power_factor_corrector == 1:
        return None
    peak = float(bulk_voltage(rated_voltage_high, voltage_doubler == 1))
    numbers = {"rating": bulk_capacitor_rating, "peak": peak}
    said = (f"Marked to {plain(rated_voltage_high, 'V')}, which peaks at {plain(peak, 'V')} at "
            f"most; the bulk capacitor is rated for {plain(bulk_capacitor_rating, 'V')}.")
    if bulk_capacitor_rating < LOWEST_BULK:
        return Outcome(CANNOT_TELL, f"{said} None across any mains has so low a rating: it lies "
                                    "elsewhere, or its rating is misread.", numbers)
    perhaps_halves = isnan(voltage_doubler) and bulk_pieces >= 2
    if perhaps_halves and 0.5 * peak <= bulk_capacitor_rating < peak:
        return Outcome(CANNOT_TELL, f"{said} Whether several of them are the halves of a voltage "
                                    "doubler was not noted.", numbers)
    if bulk_capacitor_rating < peak:
        return Outcome(INCONSISTENT, said, numbers)
    return Outcome(CONSISTENT, said, numbers)
