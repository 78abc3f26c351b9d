"""The drop along the cable between a port and the meter, put back."""
from __future__ import annotations

from math import hypot

from teardowns.engine.physics.wire import copper_resistivity
from teardowns.logs.conditions import Cable

ROOM = 20.0                     # °C, of a cable where the air was not stated
# Stranded wire of its nominal area, 10 K around the air: common practice, no source.
COPPER_SHARE = 0.05
CONTACT_SHARE = 0.3             # 0.03 to 0.05 Ω a mated pair, from memory


def loop_resistance(cable: Cable, ambient: float | None = None) -> tuple[float, float]:
    r"""Resistance of both conductors and all contacts, with its standard uncertainty.

    .. math:: R = 2 l \rho / S + R_c

    Parameters
    ----------
    cable : Cable
        One-way length [m], copper area of one conductor [m²], contacts [Ω].
    ambient : float or None
        Temperature of the copper; None: 20 °C. [°C]

    Returns
    -------
    (float, float)
        Resistance and its standard uncertainty. [Ω]

    Errors
    ------
    Formula: exact. Inputs: 5 % of the copper, 30 % of the contacts.

    Examples
    --------
    >>> round(loop_resistance(Cable(1.0, 8.098e-8))[0], 3)
    0.426

    References
    ----------
    .. [1] IEC 60028, as `copper_resistivity`.
    """
    copper = 0.0
    if cable.length > 0:
        resistivity = float(copper_resistivity(ROOM if ambient is None else ambient))
        copper = 2 * cable.length * resistivity / cable.area
    return copper + cable.contacts, hypot(COPPER_SHARE * copper, CONTACT_SHARE * cable.contacts)


def told(cable: Cable, resistance: float, u: float) -> str:
    """The correction in a sentence, numbers put in."""
    return (f"V_port = V_meter + I·R with R = 2·l·ρ/S + contacts = {1e3 * resistance:.0f} ± "
            f"{1e3 * u:.0f} mΩ (l = {cable.length:g} m, S = {1e6 * cable.area:g} mm², contacts "
            f"{1e3 * cable.contacts:g} mΩ).")
