"""Grades: only what holds under every documented assumption is said."""
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.engine.grading import (
    CANNOT_TELL,
    FALLS_SHORT,
    FROM_MEMORY,
    MEETS,
    Graded,
    chance_short,
    grade_max,
    grade_min,
    graded,
)

NAN = float("nan")
lengths = st.floats(0.0, 20.0)


def one(grade):
    return int(np.asarray(grade).item())


# By hand: value − U against the demanding end, value + U against the lenient one.
@pytest.mark.parametrize("value, u, low, high, expected", [
    (2.0, 0.1, 3.0, 3.0, FALLS_SHORT),       # 2.1 < 3.0
    (7.6, 0.1, 3.0, 3.0, MEETS),             # 7.5 ≥ 3.0
    (2.95, 0.1, 3.0, 3.0, CANNOT_TELL),      # 2.85 to 3.05
    (5.2, 0.1, 5.0, 5.8, CANNOT_TELL),       # the assumptions decide
    (3.1, 0.1, 3.0, 3.0, MEETS),             # exactly at the figure meets it
    (NAN, 0.1, 3.0, 3.0, CANNOT_TELL),
    (2.0, NAN, 3.0, 3.0, CANNOT_TELL),
    (2.0, 0.1, 3.0, NAN, CANNOT_TELL),       # one end unknown: nothing is said
    (9.0, 0.1, NAN, 3.0, CANNOT_TELL),
])
def test_a_minimum_is_graded_at_both_ends(value, u, low, high, expected):
    assert one(grade_min(np.array([value]), u, low, high)) == expected


# 0.263 mA ± 5 % against 0.5 mA; 72 ± 2 °C against 60 °C; 80 ± 2 °C between 77 and 94 °C.
@pytest.mark.parametrize("value, u, strict, permissive, expected", [
    (0.263, 0.013, 0.5, 0.5, MEETS),
    (72.0, 2.0, 60.0, 60.0, FALLS_SHORT),
    (80.0, 2.0, 77.0, 94.0, CANNOT_TELL),
    (NAN, 2.0, 77.0, 94.0, CANNOT_TELL),
    (100.0, 2.0, NAN, 94.0, CANNOT_TELL),
    (60.0, 2.0, 77.0, NAN, CANNOT_TELL),
])
def test_a_maximum_is_graded_at_both_ends(value, u, strict, permissive, expected):
    assert one(grade_max(np.array([value]), u, strict, permissive)) == expected


# In metres, as records keep them: 0.3 + 0.1 = 0.4, 2.4 − 0.2 = 2.2, 5.8 + 0.1 = 5.9 mm exactly.
@pytest.mark.parametrize("value, u, limit, expected", [
    (0.3e-3, 0.1e-3, 0.4e-3, CANNOT_TELL), (2.4e-3, 0.2e-3, 2.2 * 1e-3, MEETS),
    (5.8e-3, 0.1e-3, 5.9 * 1e-3, CANNOT_TELL), (0.29e-3, 0.1e-3, 0.4e-3, FALLS_SHORT)])
def test_no_rounding_error_moves_a_reading_off_a_limit(value, u, limit, expected):
    assert one(grade_min(value, u, limit, limit)) == expected


# 0.1 + 0.2 mA = 0.3 mA exactly, 0.8 − 0.1 mA = 0.7 mA.
@pytest.mark.parametrize("value, u, limit, expected", [
    (0.1e-3, 0.2e-3, 0.3e-3, MEETS), (0.8e-3, 0.1e-3, 0.7 * 1e-3, CANNOT_TELL)])
def test_no_rounding_error_moves_a_reading_over_a_limit(value, u, limit, expected):
    assert one(grade_max(value, u, limit, limit)) == expected


@given(lengths, lengths, st.floats(0.0, 3.0), lengths, lengths)
def test_a_longer_distance_is_never_graded_worse(first, second, u, low, high):
    low, high = sorted((low, high))
    shorter, longer = sorted((first, second))
    assert one(grade_min(shorter, u, low, high)) <= one(grade_min(longer, u, low, high))


@given(lengths, st.floats(0.0, 3.0), st.floats(0.0, 3.0), lengths, lengths)
def test_more_uncertainty_is_never_surer(value, first, second, low, high):
    low, high = sorted((low, high))
    less, more = sorted((first, second))
    for grade in (grade_min, grade_max):
        surer = one(grade(value, less, low, high))
        assert one(grade(value, more, low, high)) in (CANNOT_TELL, surer)


def test_a_figure_from_memory_words_no_shortfall():
    found = graded(np.array([FALLS_SHORT, FALLS_SHORT, MEETS]),
                   confidence=np.array([0, FROM_MEMORY, FROM_MEMORY]))
    assert found.worded.tolist() == [FALLS_SHORT, CANNOT_TELL, MEETS]
    assert found.flagged.tolist() == [False, True, False]


def test_the_chance_of_a_shortfall_follows_the_scatter_of_the_reading():
    # 2.9 ± 0.2 mm (0.1 mm standard) against 3.0 mm: one standard uncertainty, Φ(1) = 0.8413
    # (Abramowitz and Stegun, table 26.1).
    assert chance_short(2.9, 0.2, 3.0) == pytest.approx(0.8413, abs=5e-5)
    assert chance_short(2.9, 0.2, 3.0, largest=True) == pytest.approx(0.1587, abs=5e-5)
    assert chance_short(2.9, 0.0, 3.0) == 1.0 and chance_short(3.0, 0.0, 3.0) == 0.0
    assert np.isnan(chance_short(NAN, 0.2, 3.0)) and np.isnan(chance_short(2.9, NAN, 3.0))


def test_parts_of_a_column_join_to_the_whole():
    whole = graded(np.array([1, 0, -1]), value=np.array([1.0, NAN, 3.0]), why=np.array([0, 1, 2]),
                   assumed={"altitude": np.array([True, False, True])})
    again = Graded.joined([whole.take([0]), whole.take([1, 2])])
    assert again.grade.tolist() == [1, 0, -1] and again.why.tolist() == [0, 1, 2]
    assert again.assumed["altitude"].tolist() == [True, False, True]
