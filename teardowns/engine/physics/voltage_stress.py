"""The voltages that a flyback converter puts on its switch, and through it on its output."""


def switch_peak_voltage(bus_voltage, reflected_voltage, spike):
    r"""Highest voltage across the open switch.

    .. math:: V_{DS} = V_{dc} + V_{OR} + V_{spike}

    Parameters
    ----------
    bus_voltage : (n,) float
        Highest rectified mains voltage. [V]
    reflected_voltage : (n,) float
        Output voltage seen through the turns ratio. [V]
    spike : (n,) float
        Overshoot by the leakage inductance, 40 to 120 V. [V]

    Returns
    -------
    (n,) float
        Peak voltage. [V]

    Errors
    ------
    Formula: exact; the spike depends on the clamp.

    Examples
    --------
    >>> switch_peak_voltage(375.0, 135.0, 80.0)
    590.0

    References
    ----------
    .. [1] Sum of voltages around the primary loop.
    """
    return bus_voltage + reflected_voltage + spike


def switch_limited_voltage(standing, bus_voltage, spike, primary_turns, secondary_turns,
                           rectifier_drop):
    r"""Output voltage at which the open switch just stands its voltage.

    .. math:: V_o = (V_{DS} - V_{dc} - V_{spike})\frac{N_s}{N_p} - V_D

    Parameters
    ----------
    standing : (n,) float
        Voltage that the switch may see. [V]
    bus_voltage : (n,) float
        Highest rectified mains voltage. [V]
    spike : (n,) float
        Overshoot by the leakage inductance. [V]
    primary_turns : (n,) float
        Turns of the primary. [1]
    secondary_turns : (n,) float
        Turns of the secondary. [1]
    rectifier_drop : (n,) float
        Forward drop of the output rectifier. [V]

    Returns
    -------
    (n,) float
        Output voltage. [V]

    Errors
    ------
    Formula: exact; a difference, so that errors of the rating and the bus grow.

    Examples
    --------
    >>> round(float(switch_limited_voltage(617.5, 375.0, 40.0, 75.0, 5.0, 0.5)), 2)
    13.0

    References
    ----------
    .. [1] `switch_peak_voltage` with V_OR = (V_o + V_D)·N_p/N_s, solved for V_o.
    """
    left = standing - bus_voltage - spike
    return left * secondary_turns / primary_turns - rectifier_drop


def reflected_limited_voltage(standing, bus_voltage, reflected_voltage, rectifier_drop):
    r"""Output voltage at which the rectifier just stands its voltage, by the reflected voltage.

    .. math:: V_o = \frac{V_R V_{OR} - V_{dc} V_D}{V_{OR} + V_{dc}}

    Parameters
    ----------
    standing : (n,) float
        Reverse voltage that the rectifier may see. [V]
    bus_voltage : (n,) float
        Highest rectified mains voltage. [V]
    reflected_voltage : (n,) float
        This output voltage seen through the turns ratio, whatever the turns. [V]
    rectifier_drop : (n,) float
        Forward drop of the output rectifier. [V]

    Returns
    -------
    (n,) float
        Output voltage. [V]

    Errors
    ------
    Formula: exact; V_OR of usual designs is 50 to 135 V.

    Examples
    --------
    >>> round(float(reflected_limited_voltage(32.0, 375.0, 76.4, 0.5)), 2)
    5.0

    References
    ----------
    .. [1] Reverse voltage of the rectifier, V_R = V_o + V_dc·N_s/N_p (Power Integrations AN-32,
       p. 15), with N_s/N_p = (V_o + V_D)/V_OR, solved for V_o.
    """
    product = standing * reflected_voltage - bus_voltage * rectifier_drop
    return product / (reflected_voltage + bus_voltage)
