"""Invented columns of public units."""
import numpy as np

from teardowns.populations.listed import COLUMNS, ListedNumbers


def numbers(**columns):
    """Units 1 to n by the columns that are given; what is not given is unknown."""
    n = max(len(values) for values in columns.values())
    unknown = [np.nan] * n
    table = np.stack([np.asarray(columns.get(name, unknown), float) for name in COLUMNS], 1)
    return ListedNumbers(np.arange(1, n + 1), table)


def weighed(n=24):
    """Heavier units deliver more; mass in kg, power in W."""
    mass = np.geomspace(0.02, 0.2, n)
    return numbers(mass=mass, measured_power=200 * mass * np.where(np.arange(n) % 2, 1.2, 0.8))


def everybody(numbers):
    return np.ones(len(numbers.pks), bool)


NAMES = {pk: f"Veltrice VQ-{pk}" for pk in range(1, 1000)}
