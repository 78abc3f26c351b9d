"""The mains rectifier with its bulk capacitor, loaded by a converter of constant power.

Angles are counted from the crest of the sine. Ideal diodes; a diode drop is taken off the peak
by the caller. A switching converter draws constant power, whatever the bus voltage.
"""
import numpy as np

# Newton's steps from zero on a convex falling function never overshoot and double their digits:
# 4 give 4 digits in the worst case, 9 give all. A fixed count keeps the bits of one unit apart
# from those of its neighbours.
NEWTON_STEPS = 9
BISECTION_STEPS = 60


def peak_voltage(mains_voltage, drop):
    r"""Peak of the rectified mains across the capacitor.

    .. math:: V_{pk} = \sqrt{2}\,V - \Delta V

    Parameters
    ----------
    mains_voltage : (n,) float
        Mains voltage, rms. [V]
    drop : (n,) float
        Forward drop of the diodes in the path: two in a bridge, one in half wave. [V]

    Returns
    -------
    (n,) float
        Peak bus voltage; NaN where an input is NaN. [V]

    Errors
    ------
    Formula: exact for a sine; distorted mains is flatter by up to 3 %.

    Examples
    --------
    >>> round(float(peak_voltage(265.0, 0.0)), 1)
    374.8

    References
    ----------
    .. [1] Power Integrations AN-17 (6/96), p. 8: 375 V at 265 V.
    """
    return np.sqrt(2.0) * mains_voltage - drop


def bus_power(capacitance, peak, valley, frequency, full_wave):
    r"""Power drawn from the bus when its valley is just `valley`.

    The capacitor follows the sine until :math:`\theta_1`, where the sine falls faster than the
    load discharges the capacitor, then gives energy alone until the next half-wave meets it at
    :math:`\theta_2 = \theta_{end} - \arccos(V_v/V_{pk})`, :math:`\theta_{end} = \pi` (full wave)
    or :math:`2\pi` (half wave):

    .. math:: \sin 2\theta_1 = \frac{2P}{\omega C V_{pk}^2}, \qquad
              V_v^2 = V_{pk}^2\cos^2\theta_1 - \frac{2P(\theta_2-\theta_1)}{\omega C}

    Parameters
    ----------
    capacitance : (n,) float
        All capacitors across the bus together. [F]
    peak : (n,) float
        Peak bus voltage. [V]
    valley : (n,) float
        Lowest bus voltage of the cycle. [V]
    frequency : (n,) float
        Mains frequency. [Hz]
    full_wave : (n,) float
        1 for four diodes, 0 for one or two. [1]

    Returns
    -------
    (n,) float
        Power from the bus; NaN where an input is NaN or the valley is not below the peak. [W]

    Errors
    ------
    Formula: valley within 0.12 V of a circuit simulation with near-ideal diodes; with the peak
    lowered by the diode drop within 0.5 V of one with a silicon bridge and 4.7 Ω.
    Inputs: proportional to capacitance and frequency.
    Holds for: capacitor-input rectifiers below about 75 W, without a power-factor corrector,
    voltage doubler or valley-fill circuit.

    Examples
    --------
    >>> round(float(bus_power(1e-6, 2**0.5 * 100, 70.0, 50.0, 1.0)), 3)
    1.19

    References
    ----------
    .. [1] Energy balance of the capacitor, from first principles; the rules of thumb of Power
       Integrations AN-23 (7/99), table 5, follow from it.
    """
    ratio = valley / peak
    end = np.where(np.isnan(full_wave), np.nan, np.where(full_wave > 0.5, np.pi, 2 * np.pi))
    turn_on = end - np.arccos(ratio)
    leave = np.zeros_like(turn_on)                                # θ₁
    for _ in range(NEWTON_STEPS):
        cosine = np.cos(leave)
        bridged = turn_on - leave
        excess = cosine * cosine - np.sin(2 * leave) * bridged - ratio * ratio
        leave = leave + excess / (2 * np.cos(2 * leave) * bridged)
    drawn = np.pi * frequency * capacitance * peak * peak * np.sin(2 * leave)
    return np.where((ratio >= 0) & (ratio < 1), drawn, np.nan)


def valley_voltage(power, capacitance, peak, frequency, full_wave):
    r"""Lowest bus voltage of the cycle at a given power from the bus.

    The same balance as in `bus_power`, solved for :math:`\theta_2` by bisection.

    Parameters
    ----------
    power : (n,) float
        Constant power drawn from the bus. [W]
    capacitance : (n,) float
        All capacitors across the bus together. [F]
    peak : (n,) float
        Peak bus voltage. [V]
    frequency : (n,) float
        Mains frequency. [Hz]
    full_wave : (n,) float
        1 for four diodes, 0 for one or two. [1]

    Returns
    -------
    (n,) float
        Valley of the bus voltage; NaN where the bus collapses or an input is NaN. [V]

    Errors
    ------
    Formula: within 0.12 V of a circuit simulation with near-ideal diodes.
    Inputs: first order, see `bus_power`.
    Holds for: as `bus_power`.

    Examples
    --------
    >>> round(float(valley_voltage(18.75, 33e-6, 2**0.5 * 85, 60.0, 1.0)), 2)
    86.35

    References
    ----------
    .. [1] Energy balance of the capacitor, from first principles.
    """
    end = np.where(np.asarray(full_wave) > 0.5, np.pi, 2 * np.pi)
    share = 2 * power / (2 * np.pi * frequency * capacitance * peak * peak)
    leave = 0.5 * np.arcsin(share)

    def surplus(angle):
        """Squared bus voltage above the sine's, in units of the squared peak."""
        return np.cos(leave) ** 2 - share * (angle - leave) - np.cos(angle) ** 2

    low, high = end - np.pi / 2 + 0 * leave, end + 0 * leave
    collapsed = surplus(low) <= 0
    for _ in range(BISECTION_STEPS):
        middle = 0.5 * (low + high)
        above = surplus(middle) > 0
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    valley = peak * np.abs(np.cos(0.5 * (low + high)))
    return np.where(collapsed | np.isnan(leave), np.nan, valley)


def simple_bus_power(capacitance, peak, valley, frequency, full_wave):
    r"""Power drawn from the bus at a given valley, discharge taken to begin at the crest.

    For a sanity check; lines of evidence use `bus_power`.

    .. math:: P = \frac{C (V_{pk}^2 - V_v^2)/2}
              {k/4f + \arcsin(V_v/V_{pk})/2\pi f}, \quad k = 1 \text{ (full wave) or } 3

    Parameters
    ----------
    capacitance : (n,) float
        All capacitors across the bus together. [F]
    peak : (n,) float
        Peak bus voltage. [V]
    valley : (n,) float
        Lowest bus voltage of the cycle; zero gives the most that any converter could draw. [V]
    frequency : (n,) float
        Mains frequency. [Hz]
    full_wave : (n,) float
        1 for four diodes, 0 for one or two. [1]

    Returns
    -------
    (n,) float
        Power from the bus. [W]

    Errors
    ------
    Formula: the valley comes out 0.1 to 2.5 V too low.

    Examples
    --------
    >>> round(float(simple_bus_power(10e-6, 2**0.5 * 85, 0.0, 50.0, 1.0)), 2)
    14.45

    References
    ----------
    .. [1] Energy balance of the capacitor, from first principles. Some design notes print the
       arc sine over π instead of 2π and so ask for a third more capacitance.
    """
    k = np.where(np.asarray(full_wave) > 0.5, 1.0, 3.0)
    energy = 0.5 * capacitance * (peak * peak - valley * valley)
    return energy / (k / (4 * frequency) + np.arcsin(valley / peak) / (2 * np.pi * frequency))


def shortcut_valley(power, capacitance, mains_voltage, frequency, conduction_time):
    r"""Valley of the bus voltage with an assumed conduction time, as design notes do.

    For comparison with published examples; lines of evidence use `bus_power`.

    .. math:: V_v = \sqrt{2V^2 - \frac{2P(1/2f - t_c)}{C}}

    Parameters
    ----------
    power : (n,) float
        Power from the mains or the bus. [W]
    capacitance : (n,) float
        All capacitors across the bus together. [F]
    mains_voltage : (n,) float
        Mains voltage, rms. [V]
    frequency : (n,) float
        Mains frequency. [Hz]
    conduction_time : (n,) float
        How long the diodes conduct each half cycle, about 3 ms. [s]

    Returns
    -------
    (n,) float
        Valley of the bus voltage. [V]

    Errors
    ------
    Formula: 0 to 9 V too high for lightly stressed capacitors, up to 12 V too low where the
    valley is below 65 % of the peak.

    Examples
    --------
    >>> round(float(shortcut_valley(18.75, 33e-6, 85.0, 60.0, 3.2e-3)), 1)
    92.8

    References
    ----------
    .. [1] Power Integrations AN-17 (6/96), p. 8; AN-23 (7/99), step 5.
    """
    bridged = 1 / (2 * frequency) - conduction_time
    return np.sqrt(2 * mains_voltage * mains_voltage - 2 * power * bridged / capacitance)
