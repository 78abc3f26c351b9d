"""The bulk capacitor has to bear the peak of the highest mains."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, grade_min, graded
from teardowns.engine.mathml import TIMES, equation, num, op, sym
from teardowns.engine.requirements.mains_parts import DOUBLING_MAINS, LOWEST_BULK, rated_mains
from teardowns.engine.requirements.mains_parts import bulk_voltage as highest
from teardowns.engine.rule import safety

CORRECTOR, PERHAPS, ALWAYS, ELSEWHERE = 1, 2, 3, 4


@safety(
    on="unit", hazard="fire", confidence="B", measure="V",
    title="Rated voltage of the bulk capacitor",
    source="Engineering rule: a part is used within its rating (IEC 62368-1:2018, 4.1.2). Repair "
           "tutorials name 400 V parts as usual.",
    validity="No power-factor corrector; a voltage doubler that is switched off at the highest "
             "mains leaves each half with half. That it doubles up to 120 V is common practice, no "
             "source.",
    formula=equation(sym("U", "r"), op("≥"), num("√2"), TIMES, num("1.1"), sym("U", "mains")),
    symbols={"bulk_capacitor_rating": sym("U", "r"), "rated_voltage_high": sym("U", "mains")},
    reasons=(
        "",
        "A power-factor corrector sets the voltage of the bulk capacitor: the evidence does not "
        "decide how high it is.",
        "The rating lies below the peak of the mains, but not below half of it, and there are "
        "several bulk capacitors: the evidence does not decide it as long as nobody noted whether "
        "they are the halves of a voltage doubler.",
        "While a voltage doubler doubles, each of its halves bears the whole peak of the mains: "
        "the rating lies below that peak, but not below half of the highest, and the evidence does "
        "not decide at which mains it doubles.",
        "No capacitor across any mains has so low a rating, nor would it outlive being plugged "
        "in: it lies elsewhere, such as behind a mains transformer, or its rating is misread. The "
        "evidence does not decide it.",
    ),
    asks={"voltage_doubler": "Do two bulk capacitors lie in series, as a voltage doubler?"},
    optional=("rated_voltage_high", "voltage_doubler", "power_factor_corrector", "bulk_pieces"),
)
def bulk_voltage(bulk_capacitor_rating, voltage_doubler, power_factor_corrector, bulk_pieces, plug,
                 rated_voltage_high):
    mains = rated_mains(rated_voltage_high, plug)
    doubled, corrected = voltage_doubler == 1, power_factor_corrector == 1
    perhaps = np.isnan(voltage_doubler) & (bulk_pieces >= 2)
    low = highest(mains.low, doubled | perhaps)
    # While it doubles, each half bears the whole peak of the low mains.
    doubling = highest(np.minimum(mains.high, DOUBLING_MAINS), False)
    switched = highest(mains.high, doubled)
    high = np.where(doubled, np.maximum(switched, doubling), switched)
    grade = grade_min(bulk_capacitor_rating, 0.0, low, high)
    open_end = (grade == CANNOT_TELL) & (mains.low == mains.high)
    elsewhere = bulk_capacitor_rating < LOWEST_BULK
    why = np.select([corrected, elsewhere, open_end & perhaps, open_end & doubled],
                    [CORRECTOR, ELSEWHERE, PERHAPS, ALWAYS], 0)
    return graded(
        np.where(corrected | elsewhere, CANNOT_TELL, grade), value=bulk_capacitor_rating, u=0.0,
        low=low, high=high, why=why, applies=~np.isnan(bulk_capacitor_rating),
        assumed={"no_doubler": np.isnan(voltage_doubler) & ~perhaps, "perhaps_doubler": perhaps,
                 "no_corrector": np.isnan(power_factor_corrector), **mains.assumed})
