"""What a charger turns into heat has to leave through its case.

A box of hand size in still air sheds a few watts. With the efficiency this bounds the output.
"""
from teardowns.engine.mathml import (
    EQ,
    MINUS,
    PLUS,
    TIMES,
    equation,
    frac,
    num,
    op,
    paren,
    power,
    row,
    sym,
    word,
)
from teardowns.engine.physics.enclosure import (
    BEST_PINS,
    BEST_ROOM,
    best_case_heat,
    output_at_loss,
)
from teardowns.engine.rule import Worked, limit

# The best case for the claim: the whole surface as hot as the parts inside may get. Usual designs
# stay touchable, 77 °C at the hottest place and 61 °C on average (hot-spot factor 0.70), which
# sheds e^−1.05 of it. A case is sized for its parts and its looks, seldom for its heat, so that the
# margin says nearly nothing: the line refutes what would melt and supports nothing.
SURFACE = 105.0        # °C

_HOT, _ROOM = sym("T", "s"), sym("T", "a")


@limit(
    on="power",
    title="Heat through the case",
    model_error=0.15,
    margin=3.0,
    source="Natural convection of vertical and horizontal faces (Churchill and Chu 1975; McAdams "
           "1954) and radiation, as in Incropera et al., chapter 9; compared with the library ht "
           "1.2.0. Surface at 105 °C, the limit of usual parts inside; touchable plastic stays "
           "below 77 °C (IEC 62368-1, table 38).",
    validity="Closed convex cases in still air, continuous load. Not for cases with a fan, with "
             "vents, or with metal that carries heat elsewhere.",
    formula=equation(
        sym("P"), EQ, frac(sym("η"), row(num(1), MINUS, sym("η"))), TIMES,
        frac(num(1), num(1 - BEST_PINS)),
        paren(op("∑"), sym("h", "i"), sym("A", "i"), paren(_HOT, MINUS, _ROOM), PLUS,
              sym("ε"), sym("σ"), sym("A"), paren(power(_HOT, 4), MINUS, power(_ROOM, 4))),
        op(","), _HOT, EQ, word(f"{SURFACE:.0f} °C"), op(","), _ROOM, EQ,
        word(f"{BEST_ROOM:.0f} °C")),
    symbols={
        "case_height": sym("H"), "case_width": sym("W"), "case_depth": sym("D"),
        "efficiency": sym("η"),
    },
    asks={
        "case_height": "The case was not measured: height, width and depth without the pins "
                       "bound the heat that it can shed.",
    },
    worked=(
        # Q = 17.39 W, over 0.90, times 0.80/0.20.
        Worked({"case_height": 0.070, "case_width": 0.045, "case_depth": 0.030,
                "efficiency": 0.80}, 77.3, 0.03,
               "The same box with the equations of the library ht 1.2.0: Nu_vertical_plate_"
               "Churchill, Nu_horizontal_plate_McAdams, q_rad at 105 °C and 25 °C, ε = 0.95."),
    ),
)
def enclosure_heat(case_height, case_width, case_depth, efficiency):
    heat = best_case_heat(case_height, case_width, case_depth, SURFACE)
    return output_at_loss(heat, efficiency)
