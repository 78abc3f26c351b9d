"""What a part measured in one room would reach in a warmer one."""

COPPER = 234.5         # °C below zero at which the resistance of copper would vanish


def temperature_at_ambient(measured, ambient, rated):
    r"""Temperature of a part in air of another temperature, at the same load.

    .. math:: T = T_m + (T_{rated} - T_a)

    Parameters
    ----------
    measured : (n,) float
        Steady temperature of the part. [°C]
    ambient : (n,) float
        Temperature of the air during the reading. [°C]
    rated : (n,) float
        Temperature of the air asked about. [°C]

    Returns
    -------
    (n,) float
        Temperature of the part; NaN where an input is NaN. [°C]

    Errors
    ------
    Formula: first order. Warmer surfaces shed heat better, so that for losses that do not grow
    it is up to 2 K too high for each 15 K of shift; copper losses grow, see
    `winding_temperature_at_ambient`. Not for touch temperatures: they are measured at 25 °C.

    Examples
    --------
    >>> temperature_at_ambient(92.0, 25.0, 40.0)
    107.0

    References
    ----------
    .. [1] The correction for the highest rated ambient of IEC 62368-1, B.1.5 and B.2.6 (clauses
       from memory).
    """
    return measured + (rated - ambient)


def winding_temperature_at_ambient(measured, ambient, rated):
    r"""The same for a winding whose whole loss is in its copper, the largest that it can be.

    The rise grows with the resistance, :math:`\Delta T_2 = \Delta T_1
    (234.5 + T_2)/(234.5 + T_1)`; solved for :math:`T_2`:

    .. math:: T_2 = \frac{T_{rated}(234.5 + T_1) + 234.5\,\Delta T_1}{234.5 + T_1 - \Delta T_1}

    Parameters
    ----------
    measured : (n,) float
        Steady temperature T₁ of the winding. [°C]
    ambient : (n,) float
        Temperature of the air during the reading. [°C]
    rated : (n,) float
        Temperature of the air asked about. [°C]

    Returns
    -------
    (n,) float
        Temperature of the winding; NaN where an input is NaN. [°C]

    Errors
    ------
    Formula: an upper end; the lower is `temperature_at_ambient`. Core losses do not grow so.

    Examples
    --------
    >>> round(winding_temperature_at_ambient(92.0, 25.0, 40.0), 2)
    110.87

    References
    ----------
    .. [1] Resistance of copper with temperature, 234.5 °C: IEC 60034-1, 8.6.2 (clause from
       memory).
    """
    rise = measured - ambient
    return (rated * (COPPER + measured) + COPPER * rise) / (COPPER + measured - rise)
