"""What was not weighed, and what was not photographed."""
import numpy as np

from teardowns.engine.default_value import default


@default("Not weighed: nothing is taken off the mass until a part without function is found.")
def mass_ballast(rated_voltage_low):
    return np.zeros(rated_voltage_low.shape), np.zeros(rated_voltage_low.shape)


@default("Not recorded: one side of the board counts as photographed.")
def photographed_sides(rated_voltage_low):
    return np.ones(rated_voltage_low.shape), np.zeros(rated_voltage_low.shape)
