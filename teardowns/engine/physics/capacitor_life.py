"""How long a wet aluminium capacitor lasts where it sits."""
import numpy as np

HALVING = 10.0               # K by which a hotter capacitor lives half as long
CORE_RISE = 5.0              # K at rated ripple current, ordinary 105 °C types


def capacitor_life(rated_life, rated_temperature, temperature):
    r"""Life by the ten-kelvin rule, without ripple current.

    .. math:: L = L_0\, 2^{(T_{max}-T)/10}

    Parameters
    ----------
    rated_life : (n,) float
        Life at the rated temperature. [h]
    rated_temperature : (n,) float
        Highest temperature of the part, as printed on it. [°C]
    temperature : (n,) float
        Temperature of the capacitor's surroundings. [°C]

    Returns
    -------
    (n,) float
        Life; NaN where an input is NaN. [h]

    Errors
    ------
    Formula: a factor of two either way; makers end the extrapolation at about 15 years.

    Examples
    --------
    >>> capacitor_life(2000.0, 105.0, 85.0)
    8000.0

    References
    ----------
    .. [1] Arrhenius' law as the makers of aluminium capacitors simplify it; Rubycon, technical
       notes on the life of aluminium electrolytic capacitors.
    """
    return rated_life * 2.0 ** ((rated_temperature - temperature) / HALVING)


def capacitor_life_with_ripple(base_life, rated_temperature, temperature, ripple, rated_ripple,
                               frequency_factor):
    r"""Life with the heat of the ripple current.

    .. math:: L = L_b\, 2^{(T_{max}-T)/10}\; 2^{g(\Delta T_0) - g(\Delta T)}, \quad
              g(x) = \frac{x}{10 - 0.25x}, \quad
              \Delta T = \Delta T_0 \left(\frac{I/F}{I_0}\right)^2

    Parameters
    ----------
    base_life : (n,) float
        Life at the rated temperature with rated ripple current. [h]
    rated_temperature : (n,) float
        Highest temperature of the part, as printed on it. [°C]
    temperature : (n,) float
        Temperature of the capacitor's surroundings. [°C]
    ripple : (n,) float
        Ripple current, rms. [A]
    rated_ripple : (n,) float
        Rated ripple current, rms, at the frequency of the rating. [A]
    frequency_factor : (n,) float
        How much more ripple current the part carries at the frequency in use. [1]

    Returns
    -------
    (n,) float
        Life; NaN where an input is NaN, or where the core would rise by 40 K or more. [h]

    Errors
    ------
    Formula: a factor of two either way.
    Holds for: 105 °C types whose core rises by 5 K at rated ripple current.

    Examples
    --------
    >>> round(float(capacitor_life_with_ripple(2000.0, 105.0, 85.0, 0.5, 1.0, 1.0)))
    10871

    References
    ----------
    .. [1] Rubycon, technical notes on the life of aluminium electrolytic capacitors.
    """
    rise = CORE_RISE * (ripple / frequency_factor / rated_ripple) ** 2
    cooler = _strain(CORE_RISE) - _strain(rise)
    return capacitor_life(base_life, rated_temperature, temperature) * 2.0**cooler


def can_temperature_rise(ripple, series_resistance, diameter, length):
    r"""Rise of a capacitor's can above the air around it, by its ripple current.

    .. math:: \Delta T = \frac{I^2 R}{\beta S}, \quad
              \beta = 2.3\cdot10^{-3}\, S^{-0.2}\ \mathrm{W/(cm^2\,K)}, \quad
              S = \pi D L + \tfrac{\pi}{4} D^2

    Parameters
    ----------
    ripple : (n,) float
        Ripple current, rms. [A]
    series_resistance : (n,) float
        Equivalent series resistance at the frequency and temperature in use. [Ω]
    diameter : (n,) float
        Of the can. [m]
    length : (n,) float
        Of the can. [m]

    Returns
    -------
    (n,) float
        Rise of the can; NaN where an input is NaN. [K]

    Errors
    ------
    Formula: about 20 %; still air, nothing hot beside it, the end with the leads left out.

    Examples
    --------
    >>> round(float(can_temperature_rise(1.0, 0.1, 0.008, 0.0115)), 1)
    16.4

    References
    ----------
    .. [1] Technical notes of makers of aluminium electrolytic capacitors, β of a bare can; the
       surface without its sealed end is from memory.
    """
    across, along = 100 * diameter, 100 * length                  # cm, as β is published
    surface = np.pi * across * along + np.pi / 4 * across * across
    return ripple * ripple * series_resistance / (2.3e-3 * surface**0.8)


def _strain(rise):
    return np.where(rise < 40.0, rise / (10.0 - 0.25 * rise), np.nan)
