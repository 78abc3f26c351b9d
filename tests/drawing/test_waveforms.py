from itertools import pairwise

import pytest

from teardowns.drawing.waveforms import load_tests, traces

from .units import document, drawn


def measured(*rows):
    return document(measurements=[{"key": f"m{i}", "quantity": code, "value": value}
                                  for i, (code, value) in enumerate(rows)])


def test_bars_are_as_long_as_the_loads():
    (picture,) = load_tests(measured(("sustained_power", 10.0), ("sustained_power", 25.0)))
    short, long = (m.points[1][0] - m.points[0][0] for m in picture.marks)
    assert long / short == pytest.approx(2.5)


def test_a_load_that_was_held_is_filled_and_one_that_was_lost_is_not():
    (picture,) = load_tests(measured(("sustained_power", 20.0), ("failed_power", 20.0)))
    held, lost = (picture.image.convert("L").getpixel(
        (int(m.points[0][0]) + 40, int((m.points[0][1] + m.points[1][1]) / 2)))
        for m in picture.marks)
    assert held < 120 < lost


def test_bars_of_many_loads_do_not_touch():
    marks = drawn("12")["load-tests"].marks
    assert len(marks) == 9
    assert all(a.points[1][1] < b.points[0][1] for a, b in pairwise(marks))


def test_the_period_of_the_trace_is_the_recorded_one():
    # 100 kHz: 10 µs; ten divisions of 5 µs are 50 µs, so a period spans a fifth of the screen.
    (picture,) = traces(measured(("switching_frequency", 100e3)))
    (mark,) = picture.marks
    assert mark.points[1][0] - mark.points[0][0] == pytest.approx((1600 - 460 - 60) / 5)
    assert mark.label == "switching at 100 kHz"


def test_a_larger_ripple_on_the_same_scale_is_taller():
    small, large = (traces(measured(("ripple_voltage", value)))[0].marks[0].points
                    for value in (0.06, 0.09))      # both at 20 mV a division
    assert (large[1][1] - large[0][1]) / (small[1][1] - small[0][1]) == pytest.approx(1.5)


def test_the_caption_says_that_the_shape_is_not_recorded():
    assert "shape is the usual one" in drawn("23")["traces"].caption


def test_nothing_put_on_a_bench_gives_no_picture():
    assert load_tests(document()) == [] == traces(document())
