"""A plug has to fit its outlet and nothing else: each measured size against its band."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.requirements.plugs import band
from teardowns.engine.rule import safety

NO_BAND, OUTSIDE, INSIDE, BETWEEN = 1, 2, 3, 4


@safety(
    on="dimension", hazard="shock", confidence="C", measure="m",
    title="Plug size",
    source="EN 50075 (Europlug), BS 1363-1 and NEMA 1-15P by encyclopaedia articles, a plug museum "
           "and a plug maker's page; the bands from memory.",
    validity="The kind of plug as the contributor named it.",
    formula=equation(sym("d", "min"), op("≤"), sym("d"), op("≤"), sym("d", "max")),
    symbols={"size": sym("d")},
    reasons=(
        "",
        "For this kind of plug, or for a plug whose kind was not named, no band is known: the "
        "evidence does not decide it.",
        "It lies outside the band of its kind.",
        "It lies within the band of its kind.",
        "The evidence does not decide whether it lies within the band of its kind.",
    ),
    optional=("size_u",),
)
def plug_dimensions(plug, code, size, size_u):
    low, high = band(plug, code)
    known = ~np.isnan(low) & ~np.isnan(size_u) & ~np.isnan(size)
    inside = known & (size - size_u >= low) & (size + size_u <= high)
    outside = known & ((size + size_u < low) | (size - size_u > high))
    why = np.select([np.isnan(low), inside, outside], [NO_BAND, INSIDE, OUTSIDE], BETWEEN)
    return graded(np.select([inside, outside], [MEETS, FALLS_SHORT], CANNOT_TELL), value=size,
                  u=size_u, low=low, high=np.where(np.isinf(high), np.nan, high), why=why)
