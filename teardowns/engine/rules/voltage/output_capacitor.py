"""An output capacitor is not run above the voltage printed on it.

The lowest rating on the switched rail counts. Capacitors behind a second regulator say nothing.
"""
from teardowns.engine.mathml import EQ, TIMES, equation, num, sym
from teardowns.engine.rule import limit

# Hard limit 1.0 of the rating, good practice 0.9 (wet aluminium 0.8, polymer to 1.0).
SHARE = 0.95


@limit(
    on="voltage",
    title="Output capacitor's rating",
    model_error=0.05,
    margin=0.45,
    source="Rated voltage of the part: at most 1.0 of it, in practice 0.9; from memory. Taken as "
           "0.95 ± 0.05 of the rating.",
    validity="Aluminium electrolytic, polymer and ceramic capacitors that lie on the switched "
             "rail itself, not after a second regulator.",
    formula=equation(sym("U", "max"), EQ, num(SHARE), TIMES, sym("U", "R")),
    symbols={"output_capacitor_rating": sym("U", "R")},
    asks={"output_capacitor_rating": "The voltage rating of the output capacitors was not "
                                     "recorded: read the lowest one on the rail of the port."},
)
def output_capacitor(output_capacitor_rating):
    return SHARE * output_capacitor_rating
