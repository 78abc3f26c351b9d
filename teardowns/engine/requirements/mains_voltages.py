"""What the mains bring to a barrier: transients, temporary overvoltages, working voltage."""
import numpy as np

from .table import Table, step_up

TRANSIENTS = Table(
    "Mains transient voltage",
    ("Line to neutral up to, V rms", "OVC I, V peak", "OVC II, V peak", "OVC III, V peak",
     "OVC IV, V peak"),
    ((50, 330, 500, 800, 1500), (100, 500, 800, 1500, 2500), (150, 800, 1500, 2500, 4000),
     (300, 1500, 2500, 4000, 6000), (600, 2500, 4000, 6000, 8000)),
    "IEC 60664-1:2020, table F.1; IEC 62368-1:2018, table 12 (5.4.2.3.2.2). Read in a board "
    "calculator's table of IEC 60664-1 and in a converter maker's article; 2500 V at 240 V in a "
    "test report on a charger, IEC 62368-1, 2021.", "A")
TEMPORARY = Table(
    "Temporary overvoltage", ("Nominal mains up to, V rms", "V peak"),
    ((250, 2000), (600, 2500)),
    "IEC 62368-1:2018, 5.4.2.3.2.3; read in one open-source library.", "B")
# Where it was not measured: rms and peak; both of chargers' test reports (240 or 250 V and 420 V;
# 281 V and 530 V, 240 V and 500 V at transformers). The 120 V pairs are an assumption.
WORKING = Table(
    "Working voltage where it was not measured",
    ("Place", "200 to 250 V mains, V rms", "V peak", "100 to 127 V mains, V rms", "V peak"),
    (("static points", 250, 420, 125, 210), ("transformer, lenient", 250, 420, 125, 210),
     ("transformer, demanding", 285, 550, 160, 350)),
    "Test reports on chargers, IEC 62368-1, 2021, and IEC 60950-1; the pairs for 100 to 127 V are "
    "an assumption.", "B")
LOW_MAINS = 150.0          # V line to neutral: the row of 120 V systems
HIGH_MAINS = 250.0         # the highest that any supply of consumers has


def mains_transient(voltage, category=2.0) -> np.ndarray:
    """Required withstand voltage of the mains side, by steps, without interpolation.

    Parameters
    ----------
    voltage : (m,) float
        Line to neutral, rms; the upper end of the rated range. [V]
    category : (m,) float
        Overvoltage category, 1 to 4. [1]

    Returns
    -------
    (m,) float
        Transient, peak; NaN above 600 V and where an input is NaN. [V]

    Errors
    ------
    None: a table.

    References
    ----------
    .. [1] IEC 60664-1:2020, table F.1; IEC 62368-1:2018, table 12.
    """
    voltage, category = np.broadcast_arrays(np.asarray(voltage, float),
                                            np.asarray(category, float))
    found = np.full(voltage.shape, np.nan)
    for number in range(1, 5):
        column = step_up(TRANSIENTS.column(0), TRANSIENTS.column(number), voltage)
        found = np.where(category == number, column, found)
    return found


def temporary_overvoltage(voltage) -> np.ndarray:
    """Temporary overvoltage as procedure 1 of the clearances takes it. [V peak]

    voltage : (m,) float, nominal mains, rms [V]; unknown is taken as up to 250 V, as every supply
    of consumers is. NaN above 600 V.
    """
    voltage = np.asarray(voltage, float)
    return np.where(np.isnan(voltage), TEMPORARY.rows[0][1],
                    step_up(TEMPORARY.column(0), TEMPORARY.column(1), voltage))


def short_term_overvoltage(voltage) -> np.ndarray:
    """IEC 60664-1: for up to 5 s, U_n + 1200 V. [V rms]"""
    return np.asarray(voltage, float) + 1200.0


def sine_peak(rms) -> np.ndarray:
    """Peak of a sine. [V]"""
    return np.sqrt(2.0) * np.asarray(rms, float)


def assumed_working_voltage(line, transformer, demanding: bool) -> tuple[np.ndarray, np.ndarray]:
    """Working voltage where nobody measured it, rms and peak. [V]

    line : (m,) float, line to neutral [V]; up to 150 V counts as 100 to 127 V mains alone
    transformer : (m,) bool
    """
    line = np.asarray(line, float)
    static, _, worst = WORKING.rows
    is_low = line <= LOW_MAINS
    rms, peak = (np.where(is_low, static[at + 2], static[at]) for at in (1, 2))
    if demanding:
        rms, peak = (np.where(transformer, np.where(is_low, worst[at + 2], worst[at]), mild)
                     for at, mild in ((1, rms), (2, peak)))
    # A unit rated above 250 V has at least its own mains across the barrier.
    above = np.where(np.isnan(line) | is_low, 0.0, line)
    return np.maximum(rms, above), np.maximum(peak, sine_peak(above))
