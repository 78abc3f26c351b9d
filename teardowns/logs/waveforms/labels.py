"""Names and units of what a capture shows."""
from teardowns.engine.quantities import QUANTITIES
from teardowns.logs.results import RESULTS


def label(code: str) -> str:
    return QUANTITIES[code].label if code in QUANTITIES else RESULTS[code][0]


def unit(code: str) -> str:
    return QUANTITIES[code].unit if code in QUANTITIES else RESULTS[code][1]
