"""The plug belongs to a country, and the plate to its mains."""
from math import isnan

from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.outcome import CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.requirements.barriers import PLUG_MAINS
from teardowns.engine.rule import check
from teardowns.engine.wording import plain


@check(
    on="unit",
    title="Plug and rated range",
    source="IEC world plugs list: 230 V where Europlug, Schuko, BS 1363 and AS/NZS 3112 are sold.",
    validity="A plug whose kind was named, a plate that was read.",
    formula=equation(sym("U", "plug"), op("≤"), sym("U", "rated")),
)
def plug_and_range(plug, rated_voltage_high):
    mains = PLUG_MAINS.get(plug)
    if mains is None or isnan(rated_voltage_high):
        return None
    said = (f"Such a plug is sold where the mains have {plain(mains, 'V')}; the plate goes up to "
            f"{plain(rated_voltage_high, 'V')}.")
    # 220 V is the older nominal voltage of the same mains.
    fits = rated_voltage_high >= 0.9 * mains
    return Outcome(CONSISTENT if fits else INCONSISTENT, said)
