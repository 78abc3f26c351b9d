"""Tables worked out in whole numbers, where no rounding error of a computer can hide."""
from fractions import Fraction
from math import ceil

import numpy as np


def between_rows(table, column, step):
    """Voltages in whole steps between the rows of a table, and the exact value at each."""
    rows = [(Fraction(str(row[0])), Fraction(str(row[column]))) for row in table.rows]
    volts, values = [], []
    for (x0, y0), (x1, y1) in zip(rows, rows[1:], strict=False):
        for at in range(int(x0) + step, ceil(x1), step):
            volts.append(float(at))
            values.append(y0 + (y1 - y0) * (at - x0) / (x1 - x0))
    return np.array(volts), values


def up_to(value, step):
    """To the next multiple of 1/step, as the number that a person would write."""
    return float(Fraction(ceil(value * step), step))


def rounded(value):
    """As the footnote of the tables of clearances says: up to 0.01 mm, above 0.5 mm to 0.1 mm."""
    return up_to(value, 100 if value <= Fraction(1, 2) else 10)
