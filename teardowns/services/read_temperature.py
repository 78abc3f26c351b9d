"""Read a temperature off a thermal picture, set right for the surface, with its uncertainty."""
from __future__ import annotations

from dataclasses import dataclass, replace
from math import isfinite, sqrt

import numpy as np
from django.db import transaction

from teardowns.engine.physics.infrared import surface_temperature
from teardowns.engine.quantities import QUANTITIES
from teardowns.imaging.points import Points
from teardowns.models import (
    How,
    Measurement,
    Photo,
    PhotoTemperature,
    State,
    UncertaintyKind,
)

from .annotate_photo import put_mark
from .measure_photo import SECTION
from .save_section import RowChange, SavedSection, save_section

FORMULA_U = 1.5 / sqrt(3)     # K: limits of ± 1.5 K, see `surface_temperature`


@dataclass(frozen=True)
class Spot:
    """What the camera showed at a place; °C and K, every u a standard uncertainty (k = 1)."""

    reading: float
    reading_u: float
    set_emissivity: float
    emissivity: float
    emissivity_u: float
    background: float
    background_u: float = 2.0 / sqrt(3)
    legend: tuple[float, float] | None = None    # what its printed colour scale begins and ends at


ROUNDING = 0.5                # K: a legend in whole degrees may be off by half of one


class SpotRefused(ValueError):
    """The message says what does not fit."""


def surface(spot: Spot) -> tuple[float, float]:
    """Temperature of the surface and its standard uncertainty. [°C, K]

    Each input is stepped by its u: half of f(x + u) − f(x − u), JCGM 100:2008, 5.1.3, note 2.
    """
    _check_legend(spot)
    value = _at(spot)
    if not isfinite(value):
        raise SpotRefused("A surface of this emissivity cannot look that cold before such a "
                          "background. Check the reading, the emissivities and the background.")
    shares = [_share(spot, name, u) for name, u in (
        ("reading", spot.reading_u), ("emissivity", spot.emissivity_u),
        ("background", spot.background_u))]
    return value, sqrt(sum(share ** 2 for share in shares) + FORMULA_U ** 2)


def _check_legend(spot):
    if spot.legend is None:
        return
    low, high = spot.legend
    if not low - ROUNDING <= spot.reading <= high + ROUNDING:
        raise SpotRefused(
            f"{spot.reading:g} °C lies outside the legend, which goes from {low:g} to {high:g} °C: "
            "its colours say nothing beyond. Check the reading and both ends of the legend; where "
            "the camera's range was cut short, take the picture again with a wider one.")


def _at(spot):
    # numpy's numbers: a negative one has no fourth root and becomes NaN, not a complex number.
    with np.errstate(invalid="ignore"):
        return float(surface_temperature(np.float64(spot.reading), spot.set_emissivity,
                                         spot.emissivity, np.float64(spot.background)))


def _share(spot, name, u):
    """Emissivities end at 1, so the step does."""
    centre = getattr(spot, name)
    most = 1.0 if name == "emissivity" else centre + u
    high, low = min(centre + u, most), centre - u
    swing = _at(replace(spot, **{name: high})) - _at(replace(spot, **{name: low}))
    return abs(swing) / (high - low) * u if high > low else 0.0


@transaction.atomic
def read_temperature(*, author, photo: Photo, shape: str, points: Points, spot: Spot,
                     quantity: str) -> tuple[float, float, SavedSection]:
    """Value, standard uncertainty, and what saving did. Raises Http404, SpotRefused, StaleRows,
    SaveRefused."""
    value, u = surface(spot)
    row = Measurement.objects.filter(unit=photo.unit_id, quantity=quantity).first()
    key = row.key if row else quantity.replace("_", "-")
    saved = save_section(author, photo.unit_id, SECTION, [RowChange(
        Measurement, key, row.version if row else 0, {
            "state": State.RECORDED, "how": How.MEASURED, "quantity": quantity, "value": value,
            "uncertainty": u, "uncertainty_kind": UncertaintyKind.STANDARD, "photo": photo,
            "instrument": "thermal picture", "note": _note(spot)})])
    put_mark(author=author, photo=photo, shape=shape, points=points,
             label=QUANTITIES[quantity].label, shows=f"measurement/{key}")
    low, high = spot.legend or (None, None)
    PhotoTemperature.objects.create(
        photo=photo, shows=f"measurement/{key}", shape=shape,
        points=[list(point) for point in points], reading=spot.reading,
        set_emissivity=spot.set_emissivity, emissivity=spot.emissivity,
        background=spot.background, legend_low=low, legend_high=high, value=value, uncertainty=u,
        author=author)
    return value, u, saved


def _note(spot):
    legend = f" Legend {spot.legend[0]:g} to {spot.legend[1]:g} °C." if spot.legend else ""
    return (f"Shown {spot.reading:g} °C at ε = {spot.set_emissivity:g}; surface ε = "
            f"{spot.emissivity:g} ± {2 * spot.emissivity_u:.2g}, mirrors {spot.background:g} °C."
            f"{legend}")
