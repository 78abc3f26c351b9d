"""How frequency and on-time follow the load; invented converters."""
import pytest

from teardowns.logs.extracted import Extracted, Told, Unread
from teardowns.logs.waveforms.follow_load import Capture, follow_load


def point(load, frequency, on_time, burst=False):
    codes = ("pulse_frequency", "pulse_on_time") if burst else ("switching_frequency", "on_time")
    numbers = [Extracted(code, code, value, 0.0, "", 0.0, 1.0)
               for code, value in zip(codes, (frequency, on_time), strict=True)]
    mode = Told("conduction_mode", "", "burst" if burst else "discontinuous", "", 0.0, 1.0)
    return Capture(load, (*numbers, mode))


@pytest.mark.parametrize(("word", "points"), [
    # In discontinuous conduction power goes with f·t²: four times the power by twice the on-time,
    # by four times the frequency, or by both.
    ("fixed_frequency", [(2, 65e3, 2e-6), (8, 65.2e3, 4e-6)]),
    ("constant_on_time", [(2, 20e3, 3e-6), (8, 80e3, 3.02e-6)]),
    ("frequency_foldback", [(2, 41e3, 2.5e-6), (5, 65e3, 3.1e-6), (8, 65e3, 4e-6)]),
    ("rising_frequency", [(2, 130e3, 1.4e-6), (8, 70e3, 4e-6)]),
    ("standing", [(6, 65e3, 5e-6), (12, 65e3, 5.1e-6)]),
    ("burst", [(0.5, 30e3, 1e-6, True), (2, 65e3, 2e-6), (8, 65e3, 4e-6)]),
])
def test_the_word_fits_the_numbers(word, points):
    told, = follow_load([point(*one) for one in reversed(points)])
    assert told.word == word
    assert told.working[0].startswith(f"{points[0][0]:.4g} W: {points[0][1] / 1e3:.4g} kHz")


def test_the_change_is_given_in_numbers():
    told, = follow_load([point(2, 20e3, 3e-6), point(8, 80e3, 3e-6)])
    assert told.working[-1] == ("From 2 W to 8 W the frequency moves by +300.0 %, the on-time by "
                                "less than 0.1 %.")


@pytest.mark.parametrize("captures", [
    [], [point(5, 65e3, 3e-6)], [point(5, 65e3, 3e-6), point(6, 65e3, 3e-6)],
    [point(5, 65e3, 3e-6), Capture(1.0, (Unread("on_time", "", ""),))],
])
def test_too_few_loads_are_said(captures):
    missing, = follow_load(captures)
    assert isinstance(missing, Unread) and "more loads" in missing.why
