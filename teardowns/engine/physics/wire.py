"""Round copper wire: gauge, area, resistivity, and how far a fast current enters it."""
import numpy as np
from scipy.special import jv

MU_0 = 4e-7 * np.pi                # V·s/(A·m)
MIL = 25.4e-6                      # m
RESISTIVITY_20 = 1.7241e-8         # Ω·m, annealed copper of 100 % IACS
PER_KELVIN = 0.00393


def wire_diameter(gauge):
    r"""Bare diameter of an American wire gauge.

    .. math:: d = 0.127\,\mathrm{mm} \cdot 92^{(36-n)/39}

    Parameters
    ----------
    gauge : (n,) float
        Gauge number; 0, −1, −2, −3 for 1/0 to 4/0. [1]

    Returns
    -------
    (n,) float
        Diameter without enamel. [m]

    Errors
    ------
    Formula: exact by definition; wire is drawn to about 1 %.

    Examples
    --------
    >>> round(float(wire_diameter(30)) * 1e3, 3)
    0.255

    References
    ----------
    .. [1] ASTM B258, the standard's defining ratio (from memory).
    """
    return 0.127e-3 * 92.0 ** ((36.0 - gauge) / 39.0)


def copper_area(diameter, strands):
    r"""Copper cross-section of a conductor of round strands.

    .. math:: S = N_s \pi d^2/4

    Parameters
    ----------
    diameter : (n,) float
        Bare diameter of one strand; over the enamel it measures 0.03 to 0.06 mm more on wire of
        0.1 to 0.5 mm, triple-insulated wire 0.2 mm more (from memory). [m]
    strands : (n,) float
        Strands in parallel. [1]

    Returns
    -------
    (n,) float
        Area of copper. [m²]

    Errors
    ------
    Formula: exact.
    Inputs: dS/S = 2 dd/d; 0.01 mm of a calliper on 0.2 mm wire is 10 %.

    Examples
    --------
    >>> round(float(copper_area(1e-3, 4)) * 1e6, 4)
    3.1416

    References
    ----------
    .. [1] Area of a circle.
    """
    return strands * np.pi * diameter * diameter / 4


def circular_mils(diameter):
    r"""Area of a round wire in circular mils, the squares of its diameter in mils.

    .. math:: CM = (d / 25.4\,\mathrm{\mu m})^2

    Parameters
    ----------
    diameter : (n,) float
        Bare diameter. [m]

    Returns
    -------
    (n,) float
        Area. [cmil]

    Errors
    ------
    Formula: exact by definition. Printed tables round the diameter to 0.1 mil first: 0.6 %.

    Examples
    --------
    >>> round(float(circular_mils(wire_diameter(26))), 1)
    254.1

    References
    ----------
    .. [1] ASTM B258 (from memory); Power Integrations AN-18 (7/96), p. 29.
    """
    return (diameter / MIL) ** 2


def density_of_mils(mils_per_ampere):
    r"""Current density from the circular mils that a design gives each ampere.

    .. math:: J = \frac{1}{CMA \cdot (\pi/4)(25.4\,\mathrm{\mu m})^2}

    Parameters
    ----------
    mils_per_ampere : (n,) float
        Circular mils an ampere rms. [cmil/A]

    Returns
    -------
    (n,) float
        Current density, rms. [A/m²]

    Errors
    ------
    Formula: exact.

    Examples
    --------
    >>> round(float(density_of_mils(200.0)) / 1e6, 1)
    9.9

    References
    ----------
    .. [1] Power Integrations AN-18 (7/96), p. 10: 200 to 500 circular mils an ampere; AN-22
       (5/98), p. 8: 4 to 10 A/mm².
    """
    return 1.0 / (mils_per_ampere * (np.pi / 4 * MIL * MIL))


def copper_resistivity(temperature):
    r"""Resistivity of annealed copper.

    .. math:: \rho = \rho_{20}\,(1 + 0.00393\,(T - 20))

    Parameters
    ----------
    temperature : (n,) float
        Of the winding. [°C]

    Returns
    -------
    (n,) float
        Resistivity. [Ω·m]

    Errors
    ------
    Formula: 0.5 % between 0 and 130 °C; hard-drawn wire has up to 3 % more.

    Examples
    --------
    >>> float(copper_resistivity(20.0))
    1.7241e-08

    References
    ----------
    .. [1] IEC 60028, international annealed copper standard: 1/58 Ω·mm²/m at 20 °C, 0.00393 a
       kelvin (from memory).
    """
    return RESISTIVITY_20 * (1 + PER_KELVIN * (temperature - 20.0))


def skin_depth(frequency, resistivity):
    r"""Depth at which a current in a thick conductor has fallen to 1/e.

    .. math:: \delta = \sqrt{\rho / (\pi f \mu_0)}

    Parameters
    ----------
    frequency : (n,) float
        Of a sine current. [Hz]
    resistivity : (n,) float
        Of a conductor that is not magnetic. [Ω·m]

    Returns
    -------
    (n,) float
        Skin depth. [m]

    Errors
    ------
    Formula: exact for a plane surface.
    Inputs: half the relative error of each.

    Examples
    --------
    >>> round(float(skin_depth(1e5, copper_resistivity(20.0))) * 1e3, 3)
    0.209

    References
    ----------
    .. [1] Diffusion into a conductor, from first principles; the handbooks' 66.1 mm/√f at 20 °C
       (from memory).
    """
    return np.sqrt(resistivity / (np.pi * frequency * MU_0))


def skin_factor(diameter, depth):
    r"""Resistance of one round wire to a sine current over that to a steady one, nothing near it.

    .. math:: \frac{R_{ac}}{R_{dc}} = \mathrm{Re}\left[\frac{z}{2}\frac{J_0(z)}{J_1(z)}\right],
              \quad z = \frac{d}{\sqrt 2\,\delta}\,e^{-j\pi/4}

    Parameters
    ----------
    diameter : (n,) float
        Bare diameter. [m]
    depth : (n,) float
        Skin depth. [m]

    Returns
    -------
    (n,) float
        Ratio, 1 or more. [1]

    Errors
    ------
    Formula: exact for an isolated wire; neighbours only add to it.
    Holds for: diameters up to 500 skin depths.

    Examples
    --------
    >>> round(float(skin_factor(2**0.5 * 2, 1.0)), 5)
    1.07816

    References
    ----------
    .. [1] Rosa and Grover, Formulas and tables for the calculation of mutual and
       self-inductance, Bulletin of the Bureau of Standards 8 (1912), skin-effect table (from
       memory).
    """
    z = diameter / (np.sqrt(2.0) * depth) * np.exp(-0.25j * np.pi)
    return np.real(z / 2 * jv(0, z) / jv(1, z))
