"""A capacitor that bridges the barrier must not fail as a short.

Only classes that were tested for it may sit there. A class mark is a claim: it says what the part
calls itself.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, CONFIDENCE, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.requirements.barriers import EARTHED_PLUGS
from teardowns.engine.requirements.mains_parts import LOWEST_BULK, PRESENT, rated_mains
from teardowns.engine.requirements.safety_capacitors import barrier_of, bears
from teardowns.engine.rule import safety

(Y1, TWO_Y2, ONE_Y2, NO_CLASS, UNREAD, EARTH, NOT_EARTH, TWO_Y4, LOW_RATING, ODD, OLD_EARTH,
 PERHAPS_LOW, MISREAD, WHERE) = range(1, 15)
FITTING = (Y1, TWO_Y2, EARTH, TWO_Y4)
UNDECIDED = (UNREAD, ODD, OLD_EARTH, PERHAPS_LOW, MISREAD, WHERE)
SINGLE_MAINS = 150.0        # V, to which two Y4 in series are accepted
FROM_MEMORY, TWO_SOURCES = CONFIDENCE.index("C"), CONFIDENCE.index("A")


@safety(
    on="part", hazard="shock", confidence="A", measure="V",
    title="Capacitor across the barrier",
    source="IEC 62368-1:2018, 5.5.2, G.11.3 and table G.12, as a certifier's questions and answers "
           "and a product-safety list give them; IEC 60950-1, 1.5.7. Two Y4 from memory.",
    validity="Class marks as printed; whether they are genuine is not examined, nor whether the "
             "part withstands the test of the whole barrier.",
    formula=equation(word("one Y1, or two Y2 in series")),
    reasons=(
        "",
        "In the unit examined the capacitor bears the class Y1, which this place asks for. The "
        "class is not verified.",
        "In the unit examined two Y2 capacitors lie in series, which this place accepts. The class "
        "is not verified; what both withstand together was not tested.",
        "In the unit examined a single capacitor of class Y2 bridges mains side and output, where "
        "one Y1 or two Y2 in series are asked for.",
        "In the unit examined the capacitor bears none of the classes that this place asks for "
        "(one Y1, or two Y2 in series).",
        "The class of the capacitor could not be read: the evidence does not decide whether it "
        "belongs there.",
        "In the unit examined the capacitor to protective earth bears a class that this place "
        "accepts. The class is not verified.",
        "In the unit examined the capacitor to protective earth bears none of the classes that "
        "this place asks for (Y1 or Y2).",
        "In the unit examined two Y4 capacitors lie in series, accepted to 150 V mains as far as "
        "this rulebook remembers.",
        "In the unit examined the capacitor is rated for less than the rated mains voltage.",
        "How many capacitors of this class lie in series, or the mains voltage that this class "
        "would do for, is not noted: the evidence does not decide whether they do. Pieces that "
        "lie in series with each other belong into one entry, with their number.",
        "In the unit examined the capacitor to protective earth bears the class Y3 or Y4, of which "
        "this rulebook has no rule for this place: the evidence does not decide.",
        "In the unit examined the class is one that this place accepts, but whether the capacitor "
        "is rated for the mains depends on the plate and the plug.",
        "No capacitor of this class is rated for so little: its rating is misread, and the "
        "evidence does not decide it.",
        "The plug has an earth, to which such a capacitor may lead as well, where this class "
        "belongs; what it bridges was not noted.",
    ),
    optional=("safety_class", "marking", "bridges", "count", "in_series", "part_voltage",
              "rated_voltage_high", "barrier_y2_pieces"),
)
def barrier_capacitor(role, state, marking, safety_class, bridges, count, in_series, part_voltage,
                      plug, rated_voltage_high, barrier_y2_pieces):
    mains, barrier = rated_mains(rated_voltage_high, plug), barrier_of(role, bridges)
    y1, y2, old, y4 = (bears(safety_class, marks) | bears(marking, marks)
                       for marks in ({"Y1"}, {"Y2"}, {"Y3", "Y4"}, {"Y4"}))
    unread = (state != "recorded") | ((safety_class == "") & (marking == ""))
    two = (count >= 2) & (in_series == 1)
    # A piece alone in series is one of several that are entered apart.
    # Of several that nobody said to lie in series, nobody said that they lie side by side.
    alone = (np.isnan(count) & (in_series == 0)) | ((count == 1) & (in_series != 1))
    # Beside another entry of the class it may well be its other half, for each has its own place.
    alone &= ~((count == 1) & (barrier_y2_pieces >= 2))
    earth, to_150 = barrier == "PRI_PE", mains.high <= SINGLE_MAINS
    perhaps_earth = np.isin(plug, EARTHED_PLUGS) & (bridges == "")
    why = np.select(
        [unread, earth & (y1 | y2), earth & old, earth, y1, y2 & two, y2 & perhaps_earth,
         y2 & alone, y2, y4 & two & to_150, y4 & ~alone & (mains.low <= SINGLE_MAINS)],
        [UNREAD, EARTH, OLD_EARTH, NOT_EARTH, Y1, TWO_Y2, WHERE, ONE_Y2, ODD, TWO_Y4, ODD],
        NO_CLASS)
    fits = np.isin(why, FITTING)
    why = np.select(
        [fits & (part_voltage < LOWEST_BULK), fits & (part_voltage < mains.low),
         fits & (part_voltage < mains.high)], [MISREAD, LOW_RATING, PERHAPS_LOW], why)
    return graded(
        np.select([np.isin(why, FITTING), np.isin(why, UNDECIDED)], [MEETS, CANNOT_TELL],
                  FALLS_SHORT),
        why=why, confidence=np.where(why == TWO_Y4, FROM_MEMORY, TWO_SOURCES),
        applies=np.isin(state, PRESENT) & np.isin(barrier, ("PRI_SEC", "PRI_PE")),
        assumed={**mains.assumed, "part_voltage": fits & np.isnan(part_voltage)},
        numbers={"mains_low": mains.low, "mains_high": mains.high})
