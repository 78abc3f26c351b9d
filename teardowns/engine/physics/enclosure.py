"""The heat that a warm box of hand size sheds to still air and to the room around it.

Faces: four vertical ones, of which the back one may lie against a wall, the top and the bottom.
"""
from .natural_convection import (
    KELVIN,
    air_properties,
    bottom_nusselt,
    rayleigh_number,
    top_nusselt,
    vertical_nusselt,
)

STEFAN_BOLTZMANN = 5.670374e-8   # W/(m²·K⁴), CODATA
# The best case for a claim: a room of 25 °C, every face free, plastic of 0.92 ± 0.03 at its upper
# end, and a tenth of the heat through the plug pins and the cable. From memory.
BEST_ROOM, BEST_BACK, BEST_EMISSIVITY, BEST_PINS = 25.0, 0.0, 0.95, 0.10


def convection_heat(height, width, depth, surface, ambient, back_covered):
    r"""Heat that a box sheds by natural convection.

    .. math:: Q = (T_s - T_a) \sum_i \frac{Nu_i k}{L_i} A_i

    Parameters
    ----------
    height : (n,) float
        Vertical edge. [m]
    width : (n,) float
        Edge of the front and the back. [m]
    depth : (n,) float
        Edge of the two sides. [m]
    surface : (n,) float
        Mean surface temperature. [°C]
    ambient : (n,) float
        Temperature of the air around. [°C]
    back_covered : (n,) float
        1 where the back lies against a wall and sheds nothing, 0 where it is free. [1]

    Returns
    -------
    (n,) float
        Heat; NaN where an input is NaN or the surface is colder than the air. [W]

    Errors
    ------
    Formula: 15 % (k = 1) for free-hanging boxes; less heat in corners and under cloth.
    Inputs: about dQ/Q = 1.75·dL/L + 1.25·dT/T, with T the rise.
    Holds for: convex boxes in still air, film temperatures from −23 to 127 °C. The horizontal
    faces lie below the range of their equations and carry less than a quarter of the heat.

    Examples
    --------
    >>> round(float(convection_heat(0.070, 0.045, 0.030, 77.0, 25.0, 0.0)), 2)
    5.06

    References
    ----------
    .. [1] F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, chapter 9, example 9.3
       (from memory): the faces of a box one by one.
    """
    rise, film = surface - ambient, (surface + ambient) / 2
    viscosity, conductivity, diffusivity, prandtl = air_properties(film)
    flat = width * depth / (2 * (width + depth))
    wall, level = (rayleigh_number(length, rise, film, viscosity, diffusivity)
                   for length in (height, flat))
    walls = vertical_nusselt(wall, prandtl) / height * _wall_area(height, width, depth,
                                                                  back_covered)
    ends = (top_nusselt(level) + bottom_nusselt(level)) / flat * width * depth
    return conductivity * (walls + ends) * rise


def radiation_heat(height, width, depth, surface, ambient, back_covered, emissivity):
    r"""Heat that a box radiates to a room of the temperature of the air.

    .. math:: Q = \varepsilon\sigma A (T_s^4 - T_a^4)

    Parameters
    ----------
    height : (n,) float
        Vertical edge. [m]
    width : (n,) float
        Edge of the front and the back. [m]
    depth : (n,) float
        Edge of the two sides. [m]
    surface : (n,) float
        Mean surface temperature. [°C]
    ambient : (n,) float
        Temperature of the walls of the room. [°C]
    back_covered : (n,) float
        1 where the back lies against a wall and sheds nothing, 0 where it is free. [1]
    emissivity : (n,) float
        Of the surface; plastic 0.92 ± 0.03. [1]

    Returns
    -------
    (n,) float
        Heat; NaN where an input is NaN. [W]

    Errors
    ------
    Formula: exact for a convex box in a large room.
    Inputs: proportional to area and emissivity.

    Examples
    --------
    >>> round(float(radiation_heat(0.070, 0.045, 0.030, 77.0, 25.0, 0.0, 0.9)), 2)
    4.8

    References
    ----------
    .. [1] Stefan-Boltzmann law; constant of CODATA.
    """
    area = _wall_area(height, width, depth, back_covered) + 2 * width * depth
    fourth = (surface + KELVIN) ** 4 - (ambient + KELVIN) ** 4
    return emissivity * STEFAN_BOLTZMANN * area * fourth


def enclosure_heat(height, width, depth, surface, ambient, back_covered, emissivity):
    r"""Heat that a box sheds to its room, by convection and radiation.

    Parameters
    ----------
    height : (n,) float
        Vertical edge. [m]
    width : (n,) float
        Edge of the front and the back. [m]
    depth : (n,) float
        Edge of the two sides. [m]
    surface : (n,) float
        Mean surface temperature. [°C]
    ambient : (n,) float
        Temperature of the air and of the walls of the room. [°C]
    back_covered : (n,) float
        1 where the back lies against a wall and sheds nothing, 0 where it is free. [1]
    emissivity : (n,) float
        Of the surface; plastic 0.92 ± 0.03. [1]

    Returns
    -------
    (n,) float
        Heat; NaN where an input is NaN or the surface is colder than the air. [W]

    Errors
    ------
    Formula: 15 % (k = 1) for free-hanging boxes; less heat in corners and under cloth. A heat
    conductor that leaves the box (cable, plug pins) adds up to a tenth.
    Inputs: about dQ/Q = 1.9·dL/L + 1.2·dT/T, with T the rise.
    Holds for: convex boxes in still air, without a fan or vents.

    Examples
    --------
    >>> round(float(enclosure_heat(0.070, 0.045, 0.030, 77.0, 25.0, 0.0, 0.9)), 1)
    9.9

    References
    ----------
    .. [1] F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, chapter 9.
    """
    box = (height, width, depth, surface, ambient, back_covered)
    return convection_heat(*box) + radiation_heat(*box, emissivity)


def best_case_heat(height, width, depth, surface):
    r"""The most heat that may leave a plug-in unit with its surface at a given temperature.

    .. math:: Q = \frac{Q_{box}(25\,°\mathrm{C},\ \varepsilon = 0.95)}{1 - 0.10}

    Parameters
    ----------
    height : (n,) float
        Vertical edge. [m]
    width : (n,) float
        Edge of the front and the back. [m]
    depth : (n,) float
        Edge of the two sides. [m]
    surface : (n,) float
        Temperature of the whole surface. [°C]

    Returns
    -------
    (n,) float
        Heat of `enclosure_heat` in a room of 25 °C with every face free, with a tenth of the
        whole through the pins; NaN where an input is NaN. [W]

    Errors
    ------
    Formula: 15 % (k = 1), of the model alone; all that is assumed is generous.
    Inputs: as `enclosure_heat`.

    Examples
    --------
    >>> round(float(best_case_heat(0.070, 0.045, 0.030, 105.0)), 1)
    19.4

    References
    ----------
    .. [1] As `enclosure_heat`; emissivity of plastic and the share of the pins from memory.
    """
    heat = enclosure_heat(height, width, depth, surface, BEST_ROOM, BEST_BACK, BEST_EMISSIVITY)
    return heat / (1 - BEST_PINS)


def output_at_loss(loss, efficiency):
    r"""Output power at which a converter turns a given power into heat.

    .. math:: P = Q \frac{\eta}{1-\eta}

    Parameters
    ----------
    loss : (n,) float
        Heat that can leave. [W]
    efficiency : (n,) float
        Output power over input power. [1]

    Returns
    -------
    (n,) float
        Output power; NaN where an input is NaN. [W]

    Errors
    ------
    Formula: exact.
    Inputs: dP/P = dQ/Q + dη/(η(1 − η)): at 0.90, one percent of efficiency is eleven of power.

    Examples
    --------
    >>> round(output_at_loss(9.86, 0.80), 2)
    39.44

    References
    ----------
    .. [1] Conservation of energy.
    """
    return loss * efficiency / (1 - efficiency)


def _wall_area(height, width, depth, back_covered):
    # NaN stays NaN: whether the back is covered is then unknown, and so is the area.
    return height * (2 * depth + width * (2 - back_covered))
