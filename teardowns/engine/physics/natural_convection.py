"""Natural convection of still air at a warm face: air, Rayleigh and Nusselt numbers.

Temperatures are in °C at the edge and in kelvin inside.
"""
import numpy as np

KELVIN = 273.15
GRAVITY = 9.80665                # m/s²
TURBULENT_WALL, TURBULENT_TOP = 1e9, 1e7      # Rayleigh numbers

# Dry air at one atmosphere: temperature [K], kinematic viscosity [m²/s], conductivity [W/(m·K)],
# thermal diffusivity [m²/s], Prandtl number. Incropera, table A.4, from memory.
AIR = np.array([
    (250.0, 11.44e-6, 0.0223, 15.9e-6, 0.720),
    (300.0, 15.89e-6, 0.0263, 22.5e-6, 0.707),
    (350.0, 20.92e-6, 0.0300, 29.9e-6, 0.700),
    (400.0, 26.41e-6, 0.0338, 38.3e-6, 0.690),
])


def air_properties(temperature):
    r"""Properties of dry air at one atmosphere, interpolated linearly.

    Parameters
    ----------
    temperature : (n,) float
        Film temperature, half way between surface and air. [°C]

    Returns
    -------
    (4, n) float
        Kinematic viscosity [m²/s], conductivity [W/(m·K)], thermal diffusivity [m²/s], Prandtl
        number [1]; NaN outside −23 to 127 °C.

    Errors
    ------
    Formula: interpolation below 0.5 % between the rows.

    Examples
    --------
    >>> [float(f"{value:.4g}") for value in air_properties(26.85)]
    [1.589e-05, 0.0263, 2.25e-05, 0.707]

    References
    ----------
    .. [1] F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, table A.4, from memory.
    """
    at, *columns = AIR.T
    kelvin = np.asarray(temperature, float) + KELVIN
    return np.stack([np.interp(kelvin, at, column, np.nan, np.nan) for column in columns])


def rayleigh_number(length, temperature_rise, film_temperature, viscosity, diffusivity):
    r"""Buoyancy against friction in the air beside a warm surface; air taken as an ideal gas.

    .. math:: Ra = \frac{g\,\Delta T\,L^3}{T_f\,\nu\,\alpha}

    Parameters
    ----------
    length : (n,) float
        Height of a vertical face; of a horizontal one its area over its perimeter. [m]
    temperature_rise : (n,) float
        Surface above the air. [K]
    film_temperature : (n,) float
        Half way between surface and air. [°C]
    viscosity : (n,) float
        Kinematic viscosity of the air. [m²/s]
    diffusivity : (n,) float
        Thermal diffusivity of the air. [m²/s]

    Returns
    -------
    (n,) float
        Rayleigh number. [1]

    Errors
    ------
    Formula: exact for an ideal gas.

    Examples
    --------
    >>> round(float(rayleigh_number(0.3, 30.0, 29.85, 16.2e-6, 22.9e-6)) / 1e7, 2)
    7.07

    References
    ----------
    .. [1] F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, eq. 9.25, from memory.
    """
    kelvin = film_temperature + KELVIN
    return GRAVITY * temperature_rise * length**3 / (kelvin * viscosity * diffusivity)


def vertical_nusselt(rayleigh, prandtl):
    r"""Mean Nusselt number of a vertical face.

    .. math:: Nu = 0.68 + \frac{0.670\,Ra^{1/4}}{[1+(0.492/Pr)^{9/16}]^{4/9}}
              \quad (Ra < 10^9), \qquad
              Nu = \left(0.825 + \frac{0.387\,Ra^{1/6}}{[1+(0.492/Pr)^{9/16}]^{8/27}}\right)^2

    Parameters
    ----------
    rayleigh : (n,) float
        Rayleigh number with the height of the face. [1]
    prandtl : (n,) float
        Prandtl number of the air. [1]

    Returns
    -------
    (n,) float
        Nusselt number; NaN where an input is NaN or the surface is colder than the air. [1]

    Errors
    ------
    Formula: about 10 %; the two forms differ by 3 to 4 % at the Rayleigh numbers of small boxes.

    Examples
    --------
    >>> round(float(vertical_nusselt(0.69 * 2.63e9, 0.69)), 2)
    147.16

    References
    ----------
    .. [1] S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18, 1323 (1975); Incropera,
       eq. 9.26 and 9.27 (numbers from memory).
    """
    spread = 1 + (0.492 / prandtl) ** (9 / 16)
    laminar = 0.68 + 0.670 * rayleigh**0.25 / spread ** (4 / 9)
    general = (0.825 + 0.387 * rayleigh ** (1 / 6) / spread ** (8 / 27)) ** 2
    return np.where(rayleigh < TURBULENT_WALL, laminar, general)


def top_nusselt(rayleigh):
    r"""Mean Nusselt number of a hot face that looks upward.

    .. math:: Nu = 0.54\,Ra^{1/4} \quad (Ra \le 10^7), \qquad Nu = 0.15\,Ra^{1/3}

    Parameters
    ----------
    rayleigh : (n,) float
        Rayleigh number with area over perimeter. [1]

    Returns
    -------
    (n,) float
        Nusselt number; NaN where the input is NaN or the surface is colder than the air. [1]

    Errors
    ------
    Formula: about 15 % from 10⁴ to 10¹¹; small boxes lie below, where it is too low.

    Examples
    --------
    >>> round(float(top_nusselt(1e6)), 2)
    17.08

    References
    ----------
    .. [1] W. H. McAdams, Heat Transmission, 3rd ed. 1954; Incropera, eq. 9.30 and 9.31 (numbers
       from memory).
    """
    return np.where(rayleigh <= TURBULENT_TOP, 0.54 * rayleigh**0.25, 0.15 * np.cbrt(rayleigh))


def bottom_nusselt(rayleigh):
    r"""Mean Nusselt number of a hot face that looks downward.

    .. math:: Nu = 0.27\,Ra^{1/4}

    Parameters
    ----------
    rayleigh : (n,) float
        Rayleigh number with area over perimeter. [1]

    Returns
    -------
    (n,) float
        Nusselt number; NaN where the input is NaN or the surface is colder than the air. [1]

    Errors
    ------
    Formula: about 20 % from 10⁵ to 10¹⁰; small boxes lie below, where it is too low.

    Examples
    --------
    >>> round(float(bottom_nusselt(1e6)), 2)
    8.54

    References
    ----------
    .. [1] W. H. McAdams, Heat Transmission, 3rd ed. 1954; Incropera, eq. 9.32 (number from
       memory).
    """
    return 0.27 * rayleigh**0.25
