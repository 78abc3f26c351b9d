"""Flyback stage: core, frequency, current limit, reflected voltage."""
import numpy as np

from teardowns.engine.columns import DERIVED
from teardowns.engine.default_value import default, triangular
from teardowns.engine.physics.cores import effective_area_from_dimensions, window_from_dimensions
from teardowns.engine.physics.magnetic_core import (
    gapped_inductance_factor,
    ungapped_inductance_factor,
)

# What a ferrite carries at 100 °C and about 1.2 kA/m; cold it carries 0.47 to 0.53 T.
SATURATION = (0.385, 0.02)


@default("Power ferrites at 100 °C carry 0.38 to 0.42 T (PyOpenMagnetics 1.7.35: N87 0.39, PC40 "
         "and 3C90 0.38, PC44 0.40, 3C95 and PC95 0.41): 0.385 ± 0.02 T.")
def saturation_flux_density(rated_voltage_low):
    return tuple(np.full(rated_voltage_low.shape, part) for part in SATURATION)


FIXED_TO = 15.0                                    # W of the largest claim
FIXED, VARIED = triangular(50e3, 65e3, 132e3), triangular(60e3, 100e3, 300e3)


@default("Up to 15 W of claimed power 50 to 132 kHz, mostly 65 kHz: controllers of a fixed "
         "frequency and self-oscillating stages. Above, or without a claim, 60 to 300 kHz, mostly "
         "100 kHz: quasi-resonant and gallium-nitride stages run faster, and so carry more through "
         "the same core. Triangular, from memory. Read the controller's data sheet, or measure.")
def switching_frequency(claimed_power):
    fixed = claimed_power <= FIXED_TO
    return tuple(np.where(fixed, low, high) for low, high in zip(FIXED, VARIED, strict=True))


@default("Of a standard core size the catalogue's figure, ± 3 %, or the computed one, ± 6 %; else "
         "from centre leg or outline by the statistics of the core's family (PyOpenMagnetics "
         "1.7.35), ± 5 to 27 %; family unknown ± 21 %.", how=DERIVED)
def core_effective_area(core_family, core_width, core_width_u, core_height, core_depth,
                        core_depth_u, centre_leg_width):
    area, u = effective_area_from_dimensions(core_family, core_width, core_height, core_depth,
                                             centre_leg_width)
    return area, _with_lengths(area, u, (core_width, core_width_u), (core_depth, core_depth_u))


@default("Of a standard core size its own window; else the share of the outline that it has in "
         "the standard sizes of the core's family, ± 6 to 20 %.", how=DERIVED)
def core_window_area(core_family, core_width, core_width_u, core_height, core_height_u,
                     core_depth):
    window, u = window_from_dimensions(core_family, core_width, core_height, core_depth)
    return window, _with_lengths(window, u, (core_width, core_width_u),
                                 (core_height, core_height_u))


def _with_lengths(value, u, *lengths):
    """The uncertainty with that of the measured lengths, to which the value is proportional."""
    square = u * u
    for length, spread in lengths:
        square = square + (value * spread / length) ** 2
    return np.sqrt(square)


# F = 1.0 to 1.3, and models of the fringing field that differ by 25 % in all.
FRINGING, FRINGING_U = 1.15, 0.10


@default("Primary inductance over the square of the primary turns, where both were measured; else "
         "from the air gap and the effective area, the fringing field taken as 1.15 times the "
         "area (1.0 to 1.3), ± 10 %.", how=DERIVED)
def inductance_factor(primary_inductance, primary_inductance_u, primary_turns, primary_turns_u,
                      air_gap, air_gap_u, core_effective_area, core_effective_area_u):
    measured = primary_inductance / (primary_turns * primary_turns)
    measured_u = measured * np.hypot(primary_inductance_u / primary_inductance,
                                     2 * primary_turns_u / primary_turns)
    # About a tenth of the gap's reluctance; a little too much of it is the better case.
    ungapped = ungapped_inductance_factor(core_effective_area)
    computed = gapped_inductance_factor(core_effective_area, air_gap, ungapped, FRINGING)
    computed_u = computed * np.sqrt(FRINGING_U**2 + (air_gap_u / air_gap) ** 2
                                    + (core_effective_area_u / core_effective_area) ** 2)
    absent = np.isnan(measured)
    return np.where(absent, computed, measured), np.where(absent, computed_u, measured_u)


LOWEST_THRESHOLD, HIGHEST_THRESHOLD = 0.5, 1.0
THRESHOLD = triangular(LOWEST_THRESHOLD, 0.75, HIGHEST_THRESHOLD)


@default("Controllers end the pulse at 0.5 to 1.0 V across the sense resistor, mostly 0.75 V, a "
         "bipolar transistor that oscillates by itself at 0.65 V; triangular, from memory. Read "
         "the controller's data sheet.")
def current_sense_threshold(rated_voltage_low):
    return tuple(np.full(rated_voltage_low.shape, part) for part in THRESHOLD)


@default("Controllers allow 0.45 to 0.75 of the period, mostly 0.60; triangular, from memory.")
def maximum_duty(rated_voltage_low):
    return tuple(np.full(rated_voltage_low.shape, part)
                 for part in triangular(0.45, 0.60, 0.75))


# Mean of the usual designs (triangular 50, 80, 135 V: 88 V), wider and a little higher: an output
# that switches reflects up to 150 V at its highest voltage.
REFLECTED = (95.0, 25.0)


@default("Usual designs reflect 50 to 135 V, mostly 80 V, onto the primary; 60 and 135 V are "
         "recommended for 100 V and for universal input (Power Integrations AN-19, p. 14). Taken "
         "as 95 ± 25 V, for an output that switches reflects more at its highest voltage.")
def reflected_voltage(rated_voltage_low):
    return tuple(np.full(rated_voltage_low.shape, part) for part in REFLECTED)
