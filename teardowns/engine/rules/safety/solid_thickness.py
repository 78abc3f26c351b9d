"""One solid layer that alone parts mains and hand: case wall, bobbin, sleeve, plate."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, grade_min, graded
from teardowns.engine.mathml import equation, num, op, sym, word
from teardowns.engine.requirements.barriers import REINFORCED, supply
from teardowns.engine.requirements.solid_insulation import LEGACY_THICKNESS, THICKNESS
from teardowns.engine.rule import safety

UNREAD, NOT_ASKED, INSIDE = 1, 2, 3


@safety(
    on="path", hazard="shock", confidence="A", measure="m",
    title="Thickness of solid insulation",
    source="IEC 62368-1:2018, 5.4.4.2; IEC 60950-1, 2.10.5.2; three test reports on chargers print "
           "0.4 mm. Where IEC 61558 is named, its table 22 is the demanding end.",
    validity="One layer of any insulating material; what it withstands is not known from its "
             "thickness. Working voltage above 50 V rms.",
    formula=equation(sym("d"), op("≥"), num("0.4"), word(" mm")),
    symbols={"distance": sym("d")},
    reasons=(
        "",
        "The thickness was not recorded: the evidence does not decide it.",
        "No thickness is required of basic or functional insulation.",
        "The inside of an optocoupler may be thinner where its type is certified: a thickness "
        "there does not decide it.",
    ),
    optional=("site", "distance_u", "distance_assumed", "rated_voltage_high",
              "overvoltage_category", "claims_61558"),
)
def solid_thickness(barrier, path, site, distance, distance_u, distance_assumed, plug,
                    rated_voltage_high, overvoltage_category, claims_61558):
    mains = supply(rated_voltage_high, plug, overvoltage_category)
    by_class = np.select([mains.high <= row[0] for row in LEGACY_THICKNESS.rows],
                         [row[1] * 1e-3 for row in LEGACY_THICKNESS.rows], np.nan)
    high = np.where(claims_61558 == 1, by_class, THICKNESS)
    asked = np.isin(barrier, REINFORCED)
    why = np.select([~asked, np.isnan(distance), site == "optocoupler"],
                    [NOT_ASKED, UNREAD, INSIDE], 0)
    return graded(
        np.where(why > 0, CANNOT_TELL, grade_min(distance, distance_u, THICKNESS, high)),
        value=distance, u=distance_u, low=THICKNESS, high=high, why=why,
        applies=path == "insulation_thickness",
        assumed={"no_61558": np.isnan(claims_61558), "uncertainty": distance_assumed == 1,
                 "not_inside": site == "",
                 **{name: mains.assumed[name] & (claims_61558 == 1) for name in
                    ("mains_voltage", "plug_mains", "plug_above_plate", "plug_fits_plate")}})
