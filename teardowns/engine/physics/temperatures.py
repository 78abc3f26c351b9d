"""What a part measured in one room would reach in a warmer one."""


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
    it is up to 2 K too high for each 15 K of shift; where all loss is in copper, whose resistance
    grows, up to 4 K too low. Not for touch temperatures: they are measured at 25 °C.

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
