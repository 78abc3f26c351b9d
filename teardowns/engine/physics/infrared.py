"""What an infrared thermometer saw, set right for the emissivity of the surface."""
from .natural_convection import KELVIN


def surface_temperature(reading, set_emissivity, emissivity, background):
    r"""Temperature of a surface from the reading of an instrument set to another emissivity.

    .. math:: T^4 = \frac{\varepsilon_s T_r^4 + (1-\varepsilon_s) T_b^4
              - (1-\varepsilon) T_b^4}{\varepsilon}

    Parameters
    ----------
    reading : (n,) float
        What the instrument showed. [°C]
    set_emissivity : (n,) float
        What the instrument was set to. [1]
    emissivity : (n,) float
        Of the surface: plastic 0.92 ± 0.03, tape 0.95 ± 0.02; not for bare metal. [1]
    background : (n,) float
        Temperature of what the surface mirrors, as a rule the room ± 2 K. [°C]

    Returns
    -------
    (n,) float
        Surface temperature; NaN where an input is NaN, or where the reading is colder than such
        a surface can appear. [°C]

    Errors
    ------
    Formula: ± 1.5 K; the fourth power is an approximation for instruments of 8 to 14 µm.
    Inputs: at 70 °C about 0.5 K for each 0.01 of emissivity.

    Examples
    --------
    >>> round(surface_temperature(70.0, 1.00, 0.95, 25.0), 2)
    71.93

    References
    ----------
    .. [1] Stefan-Boltzmann law with a mirrored background; for an instrument set to 1 the same
       as the sensor maker's form in the data sheets of the MLX9064x family.
    """
    mirrored = (background + KELVIN) ** 4
    radiance = set_emissivity * (reading + KELVIN) ** 4 + (1 - set_emissivity) * mirrored
    return ((radiance - (1 - emissivity) * mirrored) / emissivity) ** 0.25 - KELVIN
