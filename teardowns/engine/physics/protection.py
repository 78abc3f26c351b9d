"""What lies in the mains lead: line current and power factor, fuse, fusible resistor, inrush."""
import numpy as np

# Share of the mains power that reaches the bus: bridge, fusible resistor and filter take 1.5 to
# 4 % (from memory).
INPUT_STAGE = 0.9725
# Pulses that a fuse is to outlive → share of its nominal melting I²t that each may have.
PULSES = np.array([1e2, 1e3, 1e4, 1e5])
SHARE_OF_MELTING = np.array([0.48, 0.38, 0.29, 0.22])


def mains_power(voltage, current, power_factor):
    r"""Power drawn from the mains.

    .. math:: P_{in} = V I \cdot PF

    Parameters
    ----------
    voltage : (n,) float
        Mains voltage, rms. [V]
    current : (n,) float
        Line current, rms. [A]
    power_factor : (n,) float
        Power over apparent power. [1]

    Returns
    -------
    (n,) float
        Input power. [W]

    Errors
    ------
    Formula: exact by definition of the power factor.

    Examples
    --------
    >>> round(mains_power(100.0, 0.2, 0.58) * 0.75, 1)
    8.7

    References
    ----------
    .. [1] Definition; power factors of capacitor-input rectifiers by circuit simulation.
    """
    return voltage * current * power_factor


def line_current(power, voltage, power_factor):
    r"""Line current that a unit draws.

    .. math:: I = P_{in} / (V \cdot PF)

    Parameters
    ----------
    power : (n,) float
        Input power. [W]
    voltage : (n,) float
        Mains voltage, rms. [V]
    power_factor : (n,) float
        Power over apparent power. [1]

    Returns
    -------
    (n,) float
        Line current, rms. [A]

    Errors
    ------
    Formula: exact by definition of the power factor.

    Examples
    --------
    >>> round(line_current(11.6, 100.0, 0.58), 3)
    0.2

    References
    ----------
    .. [1] `mains_power`, solved for the current.
    """
    return power / (voltage * power_factor)


def needed_power_factor(output_power, efficiency, voltage, current):
    r"""Power factor without which an output cannot come from a printed input.

    .. math:: PF = \frac{P_{out}}{\eta V I}

    Parameters
    ----------
    output_power : (n,) float
        Output power. [W]
    efficiency : (n,) float
        Output over input power. [1]
    voltage : (n,) float
        Mains voltage, rms. [V]
    current : (n,) float
        Line current, rms. [A]

    Returns
    -------
    (n,) float
        Power factor; above 1 the input cannot give the output. [1]

    Errors
    ------
    Formula: exact.

    Examples
    --------
    >>> round(needed_power_factor(15.0, 0.75, 100.0, 0.6), 3)
    0.333

    References
    ----------
    .. [1] `mains_power` times the efficiency, solved for the power factor.
    """
    return output_power / (efficiency * voltage * current)


def resistor_current(dissipation, resistance):
    r"""Current at which a resistor turns a given power into heat.

    .. math:: I = \sqrt{P/R}

    Parameters
    ----------
    dissipation : (n,) float
        Power. [W]
    resistance : (n,) float
        Resistance. [Ω]

    Returns
    -------
    (n,) float
        Current, rms. [A]

    Errors
    ------
    Formula: exact.
    Inputs: half the relative error of each.

    Examples
    --------
    >>> round(float(resistor_current(1.0, 10.0)), 3)
    0.316

    References
    ----------
    .. [1] Joule's law.
    """
    return np.sqrt(dissipation / resistance)


def inrush_peak(peak_voltage, resistance):
    r"""First peak of the charging current of an empty bulk capacitor.

    .. math:: I_{pk} = V_{pk} / R

    Parameters
    ----------
    peak_voltage : (n,) float
        Peak of the mains. [V]
    resistance : (n,) float
        In the path: fusible resistor, thermistor, the capacitor's own. [Ω]

    Returns
    -------
    (n,) float
        Peak current. [A]

    Errors
    ------
    Formula: an upper bound; the mains impedance lowers it.

    Examples
    --------
    >>> round(inrush_peak(373.35, 10.0), 1)
    37.3

    References
    ----------
    .. [1] Ohm's law at the crest of the mains.
    """
    return peak_voltage / resistance


def inrush_melting_integral(peak_current, resistance, capacitance):
    r"""Integral of the squared charging current, to be compared with a fuse's melting I²t.

    .. math:: I^2t = \tfrac12 I_{pk}^2 R C = \frac{C V_{pk}^2}{2R}

    Parameters
    ----------
    peak_current : (n,) float
        First peak of the exponential. [A]
    resistance : (n,) float
        In the path. [Ω]
    capacitance : (n,) float
        Bulk capacitance. [F]

    Returns
    -------
    (n,) float
        Joule integral. [A²·s]

    Errors
    ------
    Formula: exact for an exponential pulse.

    Examples
    --------
    >>> round(inrush_melting_integral(37.335, 10.0, 10e-6), 4)
    0.0697

    References
    ----------
    .. [1] Littelfuse pulse charts: an exponential pulse of peak i counts i²·t/2.
    """
    return 0.5 * peak_current * peak_current * resistance * capacitance


def share_of_melting(pulses):
    """Share of a fuse's nominal melting I²t that each of many pulses may have.

    Parameters
    ----------
    pulses : (n,) float
        Number of pulses that the fuse is to outlive. [1]

    Returns
    -------
    (n,) float
        Share, straight between the published points over the logarithm of the number. [1]

    Errors
    ------
    Formula: 10 % between makers.
    Holds for: 100 to 100 000 pulses; beyond, the share of the nearer end.

    Examples
    --------
    >>> float(share_of_melting(1000.0))
    0.38

    References
    ----------
    .. [1] Littelfuse pulse charts; EDN, 26 September 1996, fuse checklist.
    """
    return np.interp(np.log(pulses), np.log(PULSES), SHARE_OF_MELTING)
