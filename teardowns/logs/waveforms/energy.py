"""What one period takes from the bus, where the current starts at zero."""


def energy_per_cycle(bus_voltage, on_time, inductance):
    r"""Energy that a primary takes up in one on-time, its current starting at zero.

    .. math:: E = \frac{(V_{dc}\,t_{on})^2}{2 L_p}

    Parameters
    ----------
    bus_voltage : (n,) float
        Rectified mains voltage. [V]
    on_time : (n,) float
        Conduction time of the switch. [s]
    inductance : (n,) float
        Primary inductance. [H]

    Returns
    -------
    (n,) float
        Energy of one period; in continuous conduction less than is moved. [J]

    Errors
    ------
    Formula: exact for an inductance that does not saturate.
    Inputs: 2·dV/V + 2·dt/t + dL/L.

    Examples
    --------
    >>> round(energy_per_cycle(100.0, 0.45 / 65e3, 1e-3) * 65e3, 3)
    15.577

    References
    ----------
    .. [1] L·I²/2 with I = V·t/L. R. W. Erickson and D. Maksimović, Fundamentals of Power
       Electronics, 2nd ed., ch. 5 and 6 (from memory).
    """
    volt_seconds = bus_voltage * on_time
    return volt_seconds * volt_seconds / (2 * inductance)
