"""Units counted in cells, and cells told apart by tints."""
import numpy as np

from teardowns.populations.cells import cells

DECADE = (1.0, 10.0)


def test_units_are_counted_in_the_cell_where_they_lie():
    # Two columns and rows in a decade meet at √10 = 3.16.
    x, y = np.array([2.0, 2.0, 4.0, np.nan]), np.array([2.0, 2.0, 9.0, 2.0])
    found = cells(x, y, DECADE, DECADE, 2, 2)
    assert list(zip(found.column, found.row, strict=True)) == [(0, 0), (1, 1)]
    assert (found.least, found.most) == ((1, 2), (1, 2))


def test_every_unit_that_is_known_is_in_one_tint():
    rng = np.random.default_rng(1)
    x, y = np.exp(rng.normal(1, 0.4, (2, 5000)))
    found = cells(x, y, DECADE, DECADE, 20, 20)
    held = [(low, high) for low, high in zip(found.least, found.most, strict=True)]
    assert all(low <= high for low, high in held)
    assert all(held[i][1] < held[i + 1][0] for i in range(len(held) - 1))
    assert set(found.step.tolist()) == set(range(len(held)))


def test_nobody_fills_no_cell():
    nobody = np.full(2, np.nan)
    found = cells(nobody, nobody, DECADE, DECADE, 4, 4)
    assert len(found.column) == 0 and found.least == ()
