import pytest

from teardowns.figures.axes import linear_axis, log_axis, plain


def test_a_logarithmic_axis_puts_the_geometric_mean_in_the_middle():
    # 1 to 100 are two decades; 10 lies one decade from either end
    axis = log_axis([1.2, 90])
    assert (axis.low, axis.high) == (1, 100)
    assert axis(10) == pytest.approx(50)


def test_ends_stand_on_the_series_1_2_5_outside_the_values():
    axis = log_axis([13, 170])
    assert (axis.low, axis.high) == (10, 200)
    assert axis.ticks == (10, 20, 50, 100, 200)


def test_close_values_still_get_a_whole_decade():
    axis = log_axis([44, 46])
    assert axis.high / axis.low >= 10
    assert axis.holds(44) and axis.holds(46)


def test_a_very_wide_axis_loses_ticks_and_at_last_its_lower_end():
    axis = log_axis([1e-6, 900])
    assert axis.high / axis.low == pytest.approx(1e4)
    assert len(axis.ticks) <= 5
    assert axis(1e-6) == 0


def test_an_axis_without_values_exists():
    assert log_axis([]).ticks


def test_values_outside_stand_at_the_nearer_end():
    axis = linear_axis(-100, 20)
    assert axis(-400) == 0 and axis(400) == 100
    assert not axis.holds(-400)


def test_a_linear_axis_has_a_tick_at_zero_when_it_spans_it():
    for low, high in ((-100, 10), (-10, 10), (-37, 81), (0, 2.62)):
        axis = linear_axis(low, high)
        assert 0 in axis.ticks
        assert axis.low <= low and axis.high >= high
        assert len(axis.ticks) <= 9


@pytest.mark.parametrize(("value", "text"), [
    (10, "10"), (0.5, "0.5"), (-20, "\u221220"), (1000, "1000"), (0, "0"), (0.002, "0.002"),
])
def test_ticks_are_plain_numbers(value, text):
    assert plain(value) == text
