"""A bulk capacitor dries out: ten kelvin more, half the life.

For information: nobody claims a life on the plate, so that there is nothing to contradict.
"""
from math import isnan

from teardowns.engine.mathml import EQ, MINUS, TIMES, equation, frac, num, row, sym
from teardowns.engine.outcome import CANNOT_TELL, Outcome
from teardowns.engine.physics.capacitor_life import capacitor_life as life
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

# Rated life [h] and temperature [°C] of the two usual types; from memory.
ORDINARY, PLAIN = (2000.0, 105.0), (2000.0, 85.0)
YEAR = 8760.0            # h
LONGEST = 15.0           # years; makers extrapolate no further


@check(
    on="unit",
    title="Life of the bulk capacitor at its temperature",
    source="Rule of ten kelvin, as makers of aluminium electrolytic capacitors publish it "
           "(Rubycon, technical notes). Rated 2000 h at 105 °C or at 85 °C: usual types, from "
           "memory.",
    validity="Continuous running at the measured load and room; a factor of two either way. "
             "Ripple below the rated current lengthens it by up to half. Makers extrapolate to "
             "15 years at most.",
    formula=equation(sym("L"), EQ, sym("L", "0"), TIMES,
                     f"<msup>{num(2)}"
                     f"{frac(row(sym('T', 'max'), MINUS, sym('T')), num('10 K'))}</msup>"),
    symbols={"bulk_capacitor_temperature": sym("T")},
)
def capacitor_life(bulk_capacitor_temperature):
    if isnan(bulk_capacitor_temperature):
        return None
    ordinary, weak = (life(*rated, bulk_capacitor_temperature) for rated in (ORDINARY, PLAIN))
    return Outcome(
        CANNOT_TELL,
        f"At the {plain(bulk_capacitor_temperature, '°C')} measured on the bulk capacitor, one "
        f"rated 2000 h at 105 °C lasts {_long(ordinary)} of running, one rated 2000 h at 85 °C "
        f"{_long(weak)}. The plate claims no life.",
        {"hours_105": ordinary, "hours_85": weak})


def _long(hours):
    if hours > LONGEST * YEAR:
        return f"more than {LONGEST:.0f} years"
    return f"about {plain(float(f'{hours:.2g}'), 'h')}"          # two digits are all it is worth
