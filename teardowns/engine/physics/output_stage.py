"""The output side of a flyback: ripple current of the capacitors, stress of the rectifier."""
import numpy as np


def ripple_current(rms, average):
    r"""Alternating current that the output capacitors take up.

    .. math:: I_{ripple} = \sqrt{I_{s}^2 - I_o^2}

    Parameters
    ----------
    rms : (n,) float
        Current of the secondary winding, rms. [A]
    average : (n,) float
        Output current. [A]

    Returns
    -------
    (n,) float
        Ripple current, rms. [A]

    Errors
    ------
    Formula: exact for a steady load; all parallel capacitors together.

    Examples
    --------
    >>> round(float(ripple_current(3.05, 2.0)), 3)
    2.303

    References
    ----------
    .. [1] Power Integrations AN-16 (6/96), p. 22; AN-17 (6/96), p. 10.
    """
    return np.sqrt(rms * rms - average * average)


def ripple_limited_current(ripple, rms_over_average):
    r"""Output current at which the capacitors take up a given ripple current.

    .. math:: I_o = I_{ripple} / \sqrt{r^2 - 1}

    Parameters
    ----------
    ripple : (n,) float
        Ripple current, rms. [A]
    rms_over_average : (n,) float
        Secondary's rms current over its average, above 1. [1]

    Returns
    -------
    (n,) float
        Output current. [A]

    Errors
    ------
    Formula: exact, as `ripple_current`.
    Inputs: dI/I = −r dr/(r² − 1): large near 1.

    Examples
    --------
    >>> round(float(ripple_limited_current(2.303, 1.525)), 2)
    2.0

    References
    ----------
    .. [1] `ripple_current`, solved for the average.
    """
    return ripple / np.sqrt(rms_over_average * rms_over_average - 1)


def reverse_voltage(output_voltage, bus_voltage, turns_ratio):
    r"""Reverse voltage of the output rectifier while the primary switch conducts.

    .. math:: PIV = V_o + V_{dc} N_s/N_p

    Parameters
    ----------
    output_voltage : (n,) float
        Output voltage. [V]
    bus_voltage : (n,) float
        Highest rectified mains voltage. [V]
    turns_ratio : (n,) float
        Primary turns over secondary turns. [1]

    Returns
    -------
    (n,) float
        Peak inverse voltage, without ringing. [V]

    Errors
    ------
    Formula: ringing adds 10 to 40 % unless it is damped.

    Examples
    --------
    >>> reverse_voltage(5.0, 375.0, 15.0)
    30.0

    References
    ----------
    .. [1] Power Integrations AN-32, p. 15; at most 0.8 of the rating: AN-23 (7/99), step 6.
    """
    return output_voltage + bus_voltage / turns_ratio


def output_voltage_of_reverse(reverse, bus_voltage, turns_ratio):
    r"""Output voltage at which the rectifier sees a given reverse voltage.

    .. math:: V_o = PIV - V_{dc} N_s/N_p

    Parameters
    ----------
    reverse : (n,) float
        Peak inverse voltage that is allowed. [V]
    bus_voltage : (n,) float
        Highest rectified mains voltage. [V]
    turns_ratio : (n,) float
        Primary turns over secondary turns. [1]

    Returns
    -------
    (n,) float
        Output voltage; zero or less where the rectifier suits no output at all. [V]

    Errors
    ------
    Formula: as `reverse_voltage`.

    Examples
    --------
    >>> output_voltage_of_reverse(30.0, 375.0, 15.0)
    5.0

    References
    ----------
    .. [1] `reverse_voltage`, solved for the output.
    """
    return reverse - bus_voltage / turns_ratio


def reflected_voltage_of_reverse(bus_voltage, output_voltage, drop, reverse):
    r"""Reflected voltage that follows from the rectifier that was chosen.

    .. math:: V_{OR} = \frac{V_{dc}(V_o + V_D)}{PIV - V_o}

    Parameters
    ----------
    bus_voltage : (n,) float
        Highest rectified mains voltage. [V]
    output_voltage : (n,) float
        Output voltage. [V]
    drop : (n,) float
        Forward drop of the rectifier. [V]
    reverse : (n,) float
        Peak inverse voltage, above the output voltage. [V]

    Returns
    -------
    (n,) float
        Output voltage as the primary sees it. [V]

    Errors
    ------
    Formula: as `reverse_voltage`.

    Examples
    --------
    >>> round(reflected_voltage_of_reverse(375.0, 5.0, 0.5, 32.0), 1)
    76.4

    References
    ----------
    .. [1] Power Integrations AN-23 (7/99), step 6: above 150 V another diode is to be chosen.
    """
    return bus_voltage * (output_voltage + drop) / (reverse - output_voltage)


def synchronous_limited_current(dissipation, on_resistance, rms_over_average):
    r"""Output current at which a synchronous rectifier turns a given power into heat.

    .. math:: I_o = \frac{1}{r}\sqrt{P / R_{DS(on)}}

    Parameters
    ----------
    dissipation : (n,) float
        Power that its package sheds. [W]
    on_resistance : (n,) float
        Drain-source resistance at its own temperature. [Ω]
    rms_over_average : (n,) float
        Secondary's rms current over its average. [1]

    Returns
    -------
    (n,) float
        Output current. [A]

    Errors
    ------
    Formula: conduction loss alone; the body diode and the gate drive add 10 to 30 % to it.
    Inputs: half the relative error of power and resistance, that of the ratio in full.

    Examples
    --------
    >>> float(synchronous_limited_current(1.5, 0.015, 2.0))
    5.0

    References
    ----------
    .. [1] Joule's law.
    """
    return np.sqrt(dissipation / on_resistance) / rms_over_average
