"""While the plug mates, no finger may touch a pin that already has contact."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.requirements.barriers import UNEARTHED
from teardowns.engine.rule import safety

TOUCHABLE, BARE, EARTH, SLEEVED, UNTESTED, NO_EARTH = 1, 2, 3, 4, 5, 6
SLEEVES = ("europlug", "bs1363")
CLASS_II = "class_ii"


@safety(
    on="unit", hazard="shock", confidence="B", measure="m",
    title="Live pins while the plug mates",
    source="EN 50075 and BS 1363-1: insulating sleeves on both live pins, none on an earth pin; "
           "encyclopaedia articles and a plug museum.",
    validity="Europlug and BS 1363; other kinds by whether a finger touches a pin.",
    formula=equation(word("no live pin can be touched")),
    reasons=(
        "",
        "In the unit examined a finger can touch a live pin that already has contact.",
        "In the unit examined the live pins carry no insulating sleeve, which this kind of plug "
        "asks for.",
        "In the unit examined the earth pin carries an insulating sleeve, which it must not.",
        "In the unit examined both live pins carry a sleeve, and no finger touches them while the "
        "plug mates.",
        "Whether a finger can touch a pin while the plug mates was not tried, or not noted of "
        "every pin: the evidence does not decide it.",
        "A sleeve on an earth pin is recorded of a unit whose plug or class II mark says that it "
        "has no earth: the evidence does not decide what that pin is.",
    ),
    optional=("marks", "pins_sleeved", "earth_pin_sleeved", "pin_touchable"),
)
def plug_live_parts(plug, marks, pins_sleeved, earth_pin_sleeved, pin_touchable):
    sleeves = np.isin(plug, SLEEVES)
    earth_fits = (plug != "bs1363") | (earth_pin_sleeved == 0)
    unearthed = np.isin(plug, UNEARTHED) | (np.char.find(marks, f" {CLASS_II} ") >= 0)
    sleeved = earth_pin_sleeved == 1
    why = np.select(
        [pin_touchable == 1, sleeves & (pins_sleeved == 0), sleeved & unearthed, sleeved,
         sleeves & (pins_sleeved == 1) & (pin_touchable == 0) & earth_fits],
        [TOUCHABLE, BARE, NO_EARTH, EARTH, SLEEVED], UNTESTED)
    noted = ~np.isnan(pins_sleeved) | ~np.isnan(earth_pin_sleeved) | ~np.isnan(pin_touchable)
    return graded(
        np.select([why == SLEEVED, np.isin(why, (UNTESTED, NO_EARTH))], [MEETS, CANNOT_TELL],
                  FALLS_SHORT), why=why,
        applies=noted, assumed={"no_earth_sleeve": np.isnan(earth_pin_sleeved)})
