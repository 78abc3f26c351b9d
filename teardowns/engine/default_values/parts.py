"""Line current and output capacitors: what follows from the mains and from a can's size."""
import numpy as np

from teardowns.engine.columns import DERIVED
from teardowns.engine.default_value import HIGH_RANGE, default

FULL_WAVE_LOW, FULL_WAVE_HIGH, HALF_WAVE = (0.58, 0.03), (0.52, 0.04), (0.37, 0.04)
CORRECTED = (0.95, 0.03)


@default("Capacitor-input rectifiers: 0.58 ± 0.03 at 100 to 120 V, 0.52 ± 0.04 at 230 V, one or "
         "two diodes 0.37 ± 0.04, by circuit simulation; with a corrector 0.90 to 0.99.")
def power_factor(mains_voltage, rectifier_full_wave, power_factor_corrector):
    bridge = (np.where(mains_voltage < HIGH_RANGE, low, high)
              for low, high in zip(FULL_WAVE_LOW, FULL_WAVE_HIGH, strict=True))
    return tuple(
        np.where(power_factor_corrector == 1, corrected,
                 np.where(power_factor_corrector == 0,
                          np.where(rectifier_full_wave > 0.5, full, half), np.nan))
        for full, half, corrected in zip(bridge, HALF_WAVE, CORRECTED, strict=True))


# Rated ripple current at 100 kHz and 105 °C by the can, diameter × length in mm (catalogues, from
# memory): low-impedance wet 8 × 11.5 0.6 to 0.95 A, 10 × 16 1.1 to 1.8 A, 12.5 × 20 1.7 to 2.6 A;
# polymer 6.3 × 8 2.8 to 3.9 A, 8 × 11.5 5 to 6 A. The can does not say which it is: the middle in
# ln, with both within two standard uncertainties.
CAN = (2.0, 100e-6, 0.8)          # A, of a can with this product of diameter and length [m²]
CAN_SPREAD = 0.6


@default("From the can: 2 A · (diameter × length / 100 mm²)^0.8 at 100 kHz ± 60 %, for each; "
         "low-impedance wet cans carry about half, polymer ones two to four times as much "
         "(catalogues, from memory). Read the series for a sharper value.", how=DERIVED)
def output_ripple_rating(output_capacitor_diameter, output_capacitor_length,
                         output_capacitor_count):
    ampere, size, exponent = CAN
    each = ampere * (output_capacitor_diameter * output_capacitor_length / size) ** exponent
    rating = output_capacitor_count * each
    return rating, CAN_SPREAD * rating
