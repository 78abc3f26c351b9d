import numpy as np

from teardowns.engine.columns import DEFAULT, EVIDENCE, Frame, exact
from tests.engine.make import NAN


def test_a_gap_is_filled_and_says_so():
    filled = exact([1.0, NAN]).filled(exact([7.0, 8.0], DEFAULT))
    assert filled.value.tolist() == [1.0, 8.0]
    assert filled.how.tolist() == [EVIDENCE, DEFAULT]


def test_exact_has_no_uncertainty_and_unknown_stays_unknown():
    column = exact([2.0, NAN])
    assert column.u[0] == 0 and np.isnan(column.u[1])


def test_a_code_without_a_column_is_unknown_everywhere():
    assert np.isnan(Frame(3)["mass_total"].value).all()


def test_taken_rows_are_contiguous():
    frame = Frame(4, {"mass_total": exact(np.arange(8.0)[::2])}).take([3, 0])
    assert frame["mass_total"].value.tolist() == [6.0, 0.0]
    assert frame["mass_total"].value.flags.c_contiguous
