"""Heat of a small box: the case, the air inside it, and the parts above that air.

Outside: the correlation of Yovanovich for a whole convex body (1987, from memory: square root of
the area as the length, the conduction of a cube at rest 3.388, 0.513 times a shape factor near one
for laminar flow in air), and radiation; not the sum over faces that the engine uses.
"""
from functools import cache

import numpy as np

STEFAN = 5.670374e-8        # W/(m² K⁴)
GRAVITY = 9.81
AMBIENT = 25.0              # °C, as on a bench
ZERO = 273.15
EMISSIVITY = 0.92
AT_REST, LAMINAR, SHAPE = 3.388, 0.513, 0.95
LOG_AREA = np.linspace(np.log(1e-3), np.log(0.2), 40)
LOG_FLUX = np.linspace(np.log(1.0), np.log(1e4), 200)       # W/m²


def shed(rise, area, free=1.0, ambient=AMBIENT):
    """W from a surface of `area` m², of which the part `free` sees air, at a rise in K."""
    surface, air = ambient + rise + ZERO, ambient + ZERO
    film = (surface + air) / 2
    length = np.sqrt(area)
    conductivity = 0.0263 * (film / 300) ** 0.85            # W/(m K), dry air
    viscosity = 15.9e-6 * (film / 300) ** 1.78              # m²/s
    rayleigh = 0.707 * GRAVITY * rise * length**3 / (film * viscosity**2)
    nusselt = AT_REST + LAMINAR * SHAPE * rayleigh**0.25
    convection = nusselt * conductivity / length * rise
    return free * area * (convection + EMISSIVITY * STEFAN * (surface**4 - air**4))


@cache
def _rises():
    """(areas, fluxes) ln of the rise that sheds each flux on the bench."""
    rise = np.exp(np.linspace(np.log(0.01), np.log(900.0), 2000))
    area = np.exp(LOG_AREA)
    return np.array([np.interp(LOG_FLUX, np.log(shed(rise, one) / one), np.log(rise))
                     for one in area])


def rise_of(loss, area, free=1.0):
    """K of the case, on average, that sheds `loss` W: `shed` turned round by a table; (n,)."""
    table = _rises()
    row = (np.log(area) - LOG_AREA[0]) / (LOG_AREA[1] - LOG_AREA[0])
    flux = np.log(np.maximum(loss / (free * area), 1.0))
    column = (flux - LOG_FLUX[0]) / (LOG_FLUX[1] - LOG_FLUX[0])
    row, column = (np.clip(place, 0, size - 1.001)
                   for place, size in zip((row, column), table.shape, strict=True))
    i, j = row.astype(int), column.astype(int)
    a, b = row - i, column - j
    upper = table[i, j] * (1 - b) + table[i, j + 1] * b
    lower = table[i + 1, j] * (1 - b) + table[i + 1, j + 1] * b
    return np.exp(upper * (1 - a) + lower * a)
