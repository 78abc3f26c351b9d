"""A window shows what the whole log shows."""
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from teardowns.logs.windows import rows_between, window, windows, with_neighbours

READINGS = st.one_of(st.just(np.nan), st.floats(-1e6, 1e6))
LOGS = arrays(float, st.integers(1, 400), elements=READINGS)
BUCKETS = st.integers(4, 40)


def every_second(values):
    return np.arange(len(values), dtype=float)


def shown(values, buckets=4):
    time = every_second(values)
    return window(time, values, time[0], time[-1], buckets)


@given(LOGS, BUCKETS)
def test_no_peak_is_lost(values, buckets):
    found = shown(values, buckets).values
    if np.isfinite(values).any():
        assert np.nanmin(found) == np.nanmin(values)
        assert np.nanmax(found) == np.nanmax(values)


@given(LOGS, BUCKETS)
def test_the_peaks_of_any_part_as_wide_as_two_buckets_are_near(values, buckets):
    time = every_second(values)
    found = window(time, values, time[0], time[-1], buckets)
    width = 4 * -(-len(values) // buckets)         # thinned by gaps: a bucket holds up to 4 shares
    part = slice(len(values) // 3, len(values) // 3 + width)
    near = (found.time > part.start - width) & (found.time < part.stop + width)
    if np.isfinite(values[part]).any():
        assert np.nanmax(found.values[near]) >= np.nanmax(values[part])


@given(LOGS, BUCKETS)
def test_there_are_never_more_points_than_asked_for(values, buckets):
    assert len(shown(values, buckets).time) <= 2 * buckets


@given(LOGS, BUCKETS, st.sets(st.integers(0, 399), max_size=60))
def test_pauses_take_their_points_from_the_same_room(values, buckets, halts):
    time = np.cumsum([100.0 if row in halts else 1.0 for row in range(len(values))])
    found = window(time, values, time[0], time[-1], buckets)
    assert len(found.time) <= 2 * buckets and (np.diff(found.time) > 0).all()


@given(LOGS, BUCKETS)
def test_every_point_is_a_sample_in_its_order_and_both_ends_are_kept(values, buckets):
    found = shown(values, buckets)
    np.testing.assert_array_equal(found.values, values[found.time.astype(int)])
    assert (np.diff(found.time) > 0).all()
    assert (found.time[0], found.time[-1]) == (0, len(values) - 1)


def test_a_span_of_few_samples_shows_all_of_them():
    values = np.sin(np.arange(1e5))
    found = window(np.arange(1e5), values, 50_000, 50_007, buckets=4)
    np.testing.assert_array_equal(found.values, values[50_000:50_008])


def test_a_blank_stretch_stays_a_gap():
    values = np.ones(1000)
    values[400:700] = np.nan
    found = shown(values, buckets=20)
    assert np.isnan(found.values[(found.time > 450) & (found.time < 650)]).all()
    assert np.isfinite(found.values[(found.time < 380) | (found.time > 720)]).all()


def test_a_blank_between_two_peaks_of_one_bucket_stays():
    values = np.ones(1000)
    values[503] = np.nan
    assert np.isnan(shown(values, buckets=20).values).sum() == 1


def test_a_pause_of_the_log_breaks_the_line_between_its_last_and_first_sample():
    time = np.concatenate([np.arange(500.0), 2000 + np.arange(500.0)])
    found = window(time, np.ones(1000), 0, 2499, buckets=20)
    place = np.flatnonzero(np.isnan(found.values)).item()
    assert list(found.time[place - 1:place + 2]) == [499, (499 + 2000) / 2, 2000]


def test_uneven_time_alone_is_no_pause():
    time = np.cumsum(1 + np.arange(1000) % 7)          # steps of 1 to 7 s, over and over
    assert np.isfinite(window(time, np.ones(1000), 0, time[-1], 20).values).all()


def test_a_column_that_is_blank_throughout_is_a_gap_throughout():
    assert np.isnan(shown(np.full(1000, np.nan)).values).all()


def test_several_columns_share_their_times_and_keep_the_peaks_of_each():
    one, other = np.zeros(1000), np.zeros(1000)
    one[123], other[877] = 5, -5
    found = windows(every_second(one), (one, other), slice(0, 1000), 10)
    first, second = found.columns
    assert first.max() == 5 and second.min() == -5 and not found.whole
    assert len(found.time) == len(first) == len(second) <= 40


def test_it_tells_when_nothing_was_left_out():
    values = np.zeros(1000)
    assert windows(every_second(values), (values,), slice(0, 20), 10).whole


def test_what_is_no_sample_is_named():
    time = np.concatenate([np.arange(50.0), 200 + np.arange(50.0), 400 + np.arange(50.0)])
    found = windows(time, (np.ones(150),), slice(0, 150), 100)
    assert list(found.marks) == [50, 101] and list(found.time[found.marks]) == [124.5, 324.5]


def test_one_sample_beyond_each_edge_leads_the_line_on():
    rows = rows_between(np.arange(10.0), 3.5, 3.7)
    assert with_neighbours(rows, 10) == slice(3, 5)        # samples at 3 s and at 4 s
    assert with_neighbours(slice(0, 10), 10) == slice(0, 10)


def test_a_file_on_the_disk_is_read_where_it_lies(tmp_path):
    np.arange(1e5).tofile(tmp_path / "time")
    time = np.memmap(tmp_path / "time", float, "r")
    assert list(window(time, time, 10, 99_990, 4).values[[0, -1]]) == [10, 99_990]


def test_too_few_buckets_for_a_peak_are_refused():
    with pytest.raises(ValueError, match="at least 4"):
        shown(np.arange(100.0), buckets=3)


def test_an_empty_span_has_no_points():
    assert len(window(np.arange(10.0), np.arange(10.0), 20, 30, 4).time) == 0
