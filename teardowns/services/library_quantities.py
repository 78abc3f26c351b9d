"""Which quantities the library keeps of a part: those that the engine looks up there."""
from teardowns.engine.quantities import QUANTITIES, Quantity
from teardowns.exchange.observing.components import RATED_VOLTAGE
from teardowns.exchange.observing.limits import LIMITS, SWITCH
from teardowns.exchange.observing.recipes import RECIPES

CODES = tuple(dict.fromkeys((
    *(code for codes in LIMITS.values() for code in codes), SWITCH,
    *RATED_VOLTAGE.values(), *(recipe.code for recipe in RECIPES),
)))


def library_quantities() -> list[Quantity]:
    """In the order of the parts that they are published of: controllers, cores, the rest."""
    return [QUANTITIES[code] for code in CODES]
