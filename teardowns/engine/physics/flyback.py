"""A flyback converter at its operating point: turns, duty cycle, currents and power.

While the switch conducts, the bus voltage drives a rising current through the primary; when it
opens, the stored energy leaves by the secondary. Discontinuous conduction: all of it leaves each
period (ripple ratio 1); continuous: part of the current stays (ripple ratio below 1).
"""


def reflected_voltage(output_voltage, rectifier_drop, primary_turns, secondary_turns):
    r"""Output voltage seen through the turns ratio, on top of the bus, while the switch is off.

    .. math:: V_{OR} = (V_o + V_D)\,\frac{N_p}{N_s}

    Parameters
    ----------
    output_voltage : (n,) float
        Output voltage. [V]
    rectifier_drop : (n,) float
        Forward drop of the output rectifier. [V]
    primary_turns : (n,) float
        Turns of the primary. [1]
    secondary_turns : (n,) float
        Turns of the secondary. [1]

    Returns
    -------
    (n,) float
        Reflected voltage; NaN where an input is NaN. [V]

    Errors
    ------
    Formula: exact for tight coupling; leakage adds a short spike, counted apart.
    Inputs: proportional to the turns ratio.

    Examples
    --------
    >>> round(float(reflected_voltage(20.0, 0.0, 100.0, 15.0)), 1)
    133.3

    References
    ----------
    .. [1] R. W. Erickson, D. Maksimovic, Fundamentals of Power Electronics, 2nd ed., ch. 6, from
       memory.
    """
    return (output_voltage + rectifier_drop) * primary_turns / secondary_turns


def duty_cycle(reflected_voltage, bus_voltage, switch_drop):
    r"""Share of the period that the switch conducts, at and above the edge of continuous current.

    .. math:: D = \frac{V_{OR}}{V_{OR} + V_{dc} - V_{DS}}

    Parameters
    ----------
    reflected_voltage : (n,) float
        Output voltage seen through the turns ratio. [V]
    bus_voltage : (n,) float
        Rectified mains voltage. [V]
    switch_drop : (n,) float
        Drop across the conducting switch, 2 to 10 V for integrated switches. [V]

    Returns
    -------
    (n,) float
        Duty cycle; in discontinuous conduction it is smaller. [1]

    Errors
    ------
    Formula: within 0.035 of the pairs that the note recommends.

    Examples
    --------
    >>> round(float(duty_cycle(60.0, 90.0, 0.0)), 3)
    0.4

    References
    ----------
    .. [1] Power Integrations AN-19 (6/96), p. 14.
    """
    return reflected_voltage / (reflected_voltage + bus_voltage - switch_drop)


def lowest_bus_voltage(reflected_voltage, maximum_duty, switch_drop):
    r"""Bus voltage below which the duty cycle would have to exceed the controller's largest.

    .. math:: V_{dc,min} = V_{OR}\,\frac{1 - D_{max}}{D_{max}} + V_{DS}

    Parameters
    ----------
    reflected_voltage : (n,) float
        Output voltage seen through the turns ratio. [V]
    maximum_duty : (n,) float
        Largest duty cycle of the controller. [1]
    switch_drop : (n,) float
        Drop across the conducting switch. [V]

    Returns
    -------
    (n,) float
        Lowest usable bus voltage. [V]

    Errors
    ------
    Formula: exact in continuous conduction; discontinuous conduction reaches lower.

    Examples
    --------
    >>> round(float(lowest_bus_voltage(60.0, 0.4, 0.0)), 1)
    90.0

    References
    ----------
    .. [1] `duty_cycle` solved for the bus voltage.
    """
    return reflected_voltage * (1 - maximum_duty) / maximum_duty + switch_drop


def peak_current(bus_voltage, duty, inductance, frequency):
    r"""Current that the primary reaches from zero in one conduction time.

    .. math:: I_{pk} = \frac{V_{dc} D}{L_p f}

    Parameters
    ----------
    bus_voltage : (n,) float
        Rectified mains voltage. [V]
    duty : (n,) float
        Duty cycle. [1]
    inductance : (n,) float
        Primary inductance. [H]
    frequency : (n,) float
        Switching frequency. [Hz]

    Returns
    -------
    (n,) float
        Peak current in discontinuous conduction, the ripple in continuous conduction. [A]

    Errors
    ------
    Formula: exact for an inductance that does not saturate.

    Examples
    --------
    >>> round(float(peak_current(200.0, 0.4, 1.0667e-3, 150e3)), 3)
    0.5

    References
    ----------
    .. [1] Voltage is inductance times rate of current.
    """
    return bus_voltage * duty / (inductance * frequency)


def drawn_power(inductance, peak_current, ripple_ratio, frequency):
    r"""Power that a primary takes from the bus.

    .. math:: P = \tfrac12 L_p I_{pk}^2 f\,K(2 - K)

    For a given peak current it is largest at K = 1, so that the value there is an upper bound
    in every mode.

    Parameters
    ----------
    inductance : (n,) float
        Primary inductance. [H]
    peak_current : (n,) float
        Largest primary current. [A]
    ripple_ratio : (n,) float
        K, peak less valley over peak: 1 in discontinuous conduction. [1]
    frequency : (n,) float
        Switching frequency. [Hz]

    Returns
    -------
    (n,) float
        Power from the bus. [W]

    Errors
    ------
    Formula: exact; what the core or the winding loses comes off it.

    Examples
    --------
    >>> round(float(drawn_power(1.0667e-3, 1.5, 1 / 3, 150e3)), 1)
    100.0

    References
    ----------
    .. [1] Stored energy before and after, L·I²/2, times the frequency.
    """
    return (0.5 * inductance * peak_current * peak_current * ripple_ratio * (2 - ripple_ratio)
            * frequency)


def boundary_power(bus_voltage, duty, inductance, frequency):
    r"""Power above which the conduction is continuous.

    .. math:: P = \frac{(V_{dc} D)^2}{2 L_p f}

    Parameters
    ----------
    bus_voltage : (n,) float
        Rectified mains voltage. [V]
    duty : (n,) float
        Duty cycle at the edge, see `duty_cycle`. [1]
    inductance : (n,) float
        Primary inductance. [H]
    frequency : (n,) float
        Switching frequency. [Hz]

    Returns
    -------
    (n,) float
        Power from the bus. [W]

    Errors
    ------
    Formula: exact for an inductance that does not saturate.

    Examples
    --------
    >>> round(float(boundary_power(200.0, 0.4, 1.0667e-3, 150e3)), 1)
    20.0

    References
    ----------
    .. [1] `drawn_power` at K = 1 with the current of `peak_current`.
    """
    volts = bus_voltage * duty
    return volts * volts / (2 * inductance * frequency)


def supplied_voltage(supply_voltage, auxiliary_drop, rectifier_drop, secondary_turns,
                     auxiliary_turns):
    r"""Output voltage that belongs to a supply voltage of the controller.

    .. math:: V_o = \frac{N_s}{N_a}(V_{CC} + V_{Da}) - V_D

    Parameters
    ----------
    supply_voltage : (n,) float
        Supply voltage of the controller, from the auxiliary winding. [V]
    auxiliary_drop : (n,) float
        Forward drop of the auxiliary rectifier. [V]
    rectifier_drop : (n,) float
        Forward drop of the output rectifier. [V]
    secondary_turns : (n,) float
        Turns of the secondary. [1]
    auxiliary_turns : (n,) float
        Turns of the auxiliary winding. [1]

    Returns
    -------
    (n,) float
        Output voltage. [V]

    Errors
    ------
    Formula: about 8 %; leakage lifts the supply under load, and so lowers what is left.

    Examples
    --------
    >>> round(float(supplied_voltage(28.0, 0.7, 0.45, 5.0, 12.0)), 2)
    11.51

    References
    ----------
    .. [1] Both windings see the same volts a turn.
    """
    return secondary_turns / auxiliary_turns * (supply_voltage + auxiliary_drop) - rectifier_drop


def window_limited_voltage(lowest_output, supply_low, supply_high, auxiliary_drop,
                           rectifier_drop):
    r"""Highest output voltage beside a lowest one, the controller's supply kept in its window.

    .. math:: V_{o,max} = (V_{o,min} + V_D)\,\frac{V_{CC,max} + V_{Da}}{V_{CC,min} + V_{Da}} - V_D

    Parameters
    ----------
    lowest_output : (n,) float
        An output voltage at which the unit works. [V]
    supply_low : (n,) float
        Supply voltage below which the controller stops. [V]
    supply_high : (n,) float
        Supply voltage above which it stops or is damaged. [V]
    auxiliary_drop : (n,) float
        Forward drop of the auxiliary rectifier. [V]
    rectifier_drop : (n,) float
        Forward drop of the output rectifier. [V]

    Returns
    -------
    (n,) float
        Highest output voltage, whatever the turns. [V]

    Errors
    ------
    Formula: about 8 %, see `supplied_voltage`.
    Holds for: one auxiliary winding without a regulator behind it.

    Examples
    --------
    >>> round(float(window_limited_voltage(5.0, 8.0, 28.0, 0.7, 0.45)), 1)
    17.5

    References
    ----------
    .. [1] `supplied_voltage` at both ends of the window, divided.
    """
    ratio = (supply_high + auxiliary_drop) / (supply_low + auxiliary_drop)
    return (lowest_output + rectifier_drop) * ratio - rectifier_drop
