"""Published units that were weighed and loaded until they gave up. Invented."""
import numpy as np

from teardowns.services.import_unit import import_unit
from tests.exchange.small import small
from tests.published import confirm_all, published


def law(grams, noise=0.0):
    """0.1 W · (m / 1 g)^1.3"""
    return 0.1 * grams**1.3 * float(np.exp(noise))


def measured_unit(author, grams, watts=None, status="published", claims=(), **lists):
    """A unit of that mass which held 5 % less and lost 5 % more than its power."""
    watts = law(grams) if watts is None else watts
    document = small(
        unit={"title": f"Lamplit of {grams:.0f} g"},
        claims=[{"kind": "output", "key": "out", "text": "5 V", "voltage_low": 5.0,
                 "voltage_high": 5.0, "power": 12.0}, *claims],
        measurements=[
            {"quantity": "mass_total", "key": "mass", "value": 1e-3 * grams, "how": "measured"},
            {"quantity": "sustained_power", "key": "held", "value": watts / 1.05},
            {"quantity": "failed_power", "key": "lost", "value": watts * 1.05}], **lists)
    unit = import_unit(document, author, "in_review" if status == "published" else status)
    if status == "published":
        confirm_all(unit)
        published(unit)
    return unit


def measured_units(author, n=14, noise=0.15):
    """n units between 20 and 160 g about the law."""
    draw = np.random.default_rng(5).normal(0, noise, n)
    return [measured_unit(author, float(grams), law(grams, error))
            for grams, error in zip(np.geomspace(20, 160, n), draw, strict=True)]
