"""What a USB port gives without negotiation, how it says so, and what its connector carries."""
from dataclasses import dataclass

import numpy as np

SAFE_5V = (4.75, 5.5)           # V at the source: vSafe5V
REMOVED = 0.8                   # V, at most, of a Type-C port with nothing attached: vSafe0V
PULL_DOWN = 5100.0              # Ω, of the device: Rd, 4.6 to 5.6 kΩ
LOGIC_SUPPLIES = (5.0, 3.3)     # V, to which a pull-up goes

# V on CC, from which on a device takes the port for one of 0.5 A, 1.5 A and 3 A; V, where none is.
THRESHOLDS = (0.20, 0.66, 1.23)
NOTHING_ABOVE = 2.04
TYPE_C_CURRENTS = (0.5, 1.5, 3.0)                               # A; 0.9 A with SuperSpeed contacts
WINDOWS = ((0.25, 0.61), (0.70, 1.16), (1.31, 2.04))            # V, that a detector may use
PULL_UPS = {0.5: (56e3, 36e3, 80e-6), 1.5: (22e3, 12e3, 180e-6), 3.0: (10e3, 4.7e3, 330e-6)}
LEGACY_CABLE = 0.5              # A: an A-to-C cable presents 56 kΩ, whatever the source

# Connector: surely carried [A], carried at most [A], what the difference depends on. From memory;
# 3 A without a marked cable as in two public renderings of the source power rules.
CONTACTS = {
    "usb_a": (1.5, 3.0, "the receptacle has high-current contacts"),
    "usb_a_high_current": (3.0, 3.0, ""),
    "usb_c": (3.0, 5.0, "a cable with an e-marker for 5 A is used"),
    "micro_b": (1.8, 1.8, ""),
}
CONNECTOR_NAMES = {
    "usb_a": "USB Type-A", "usb_a_high_current": "high-current USB Type-A",
    "usb_c": "USB Type-C", "micro_b": "USB Micro-B",
}


@dataclass(frozen=True, slots=True)
class DataMode:
    """How the data contacts are wired, and what a device takes for it, all at 5 V."""

    words: str
    current: float      # A, that a device takes at most
    why: str


DATA_MODES = {
    "open": DataMode("D+ and D− are open", 0.5, "without a sign a device takes 0.5 A"),
    "shorted": DataMode("D+ is joined to D−", 1.5,
                        "the sign of a dedicated charging port; the port itself may give "
                        "0.5 to 5 A"),
    "divider": DataMode("D+ and D− are held by resistors", 2.4,
                        "the dividers in use stand for 1, 2.1 or 2.4 A"),
}


def contact_voltage(supply, pull_up, pull_down):
    r"""Voltage on a configuration contact, from a pull-up at the source and Rd at the device.

    .. math:: U = U_0 \frac{R_d}{R_p + R_d}

    Parameters
    ----------
    supply : (n,) float
        To which the pull-up goes. [V]
    pull_up : (n,) float
        Rp. [Ω]
    pull_down : (n,) float
        Rd, 5.1 kΩ nominally. [Ω]

    Returns
    -------
    (n,) float
        [V]

    Errors
    ------
    Formula: exact. Inputs: Rd 10 %, resistors of the source 1 to 20 % by what they stand for.

    Examples
    --------
    >>> round(contact_voltage(5.0, 22e3, 5.1e3), 3)
    0.941

    References
    ----------
    .. [1] USB Type-C Cable and Connector Specification, Rp and Rd (resistors from memory).
    """
    return supply * pull_down / (pull_up + pull_down)


def driven_voltage(current, pull_down):
    r"""Voltage on a configuration contact, from a current source and Rd at the device.

    .. math:: U = I R_d

    Parameters
    ----------
    current : (n,) float
        Of the source: 80, 180 or 330 µA. [A]
    pull_down : (n,) float
        Rd, 5.1 kΩ nominally. [Ω]

    Returns
    -------
    (n,) float
        [V]

    Errors
    ------
    Formula: exact. Inputs: Rd 10 %, current 8 to 20 % by what it stands for.

    Examples
    --------
    >>> round(driven_voltage(180e-6, 5.1e3), 3)
    0.918

    References
    ----------
    .. [1] USB Type-C Cable and Connector Specification, Rp and Rd (currents from memory).
    """
    return current * pull_down


def advertised_current(contact):
    r"""Current that the voltage on a configuration contact stands for.

    .. math:: I = 0.5,\ 1.5,\ 3\,\mathrm{A} \text{ from } 0.20,\ 0.66,\ 1.23\,\mathrm{V} \text{ on}

    Parameters
    ----------
    contact : (n,) float
        Voltage on CC with Rd = 5.1 kΩ attached. [V]

    Returns
    -------
    (n,) float
        NaN below 0.20 V and above 2.04 V, where no source is seen, and where the input is NaN. [A]

    Errors
    ------
    Formula: exact at the thresholds of the devices named below; a reading within 0.05 V of one
    does not decide.

    Examples
    --------
    >>> advertised_current(np.array([0.41, 0.94, 1.68])).tolist()
    [0.5, 1.5, 3.0]

    References
    ----------
    .. [1] Texas Instruments TPS65981 and Nordic, CC thresholds 0.20, 0.66 and 1.23 V.
    .. [2] Texas Instruments TUSB320, windows 0.25 to 0.61, 0.70 to 1.16, 1.31 to 2.04 V.
    """
    contact = np.asarray(contact, float)
    found = np.full(contact.shape, np.nan)
    for threshold, current in zip(THRESHOLDS, TYPE_C_CURRENTS, strict=True):
        found = np.where(contact >= threshold, current, found)
    return np.where(contact <= NOTHING_ABOVE, found, np.nan)
