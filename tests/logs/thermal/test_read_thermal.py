import numpy as np
import pytest

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.conditions import Accuracy, Conditions
from teardowns.logs.extracted import Extracted, Unread
from teardowns.logs.layout import LogColumn
from teardowns.logs.thermal.read_thermal import read_thermal


def logged(minutes=120, final=85.0, constant=900.0, place="case_temperature", **more):
    time = np.arange(0.0, minutes * 60, 5.0)
    warm = final - (final - 25) * np.exp(-time / constant)
    columns = {("temperature", place): warm, **{(role, ""): values + 0 * time
                                                for role, values in more.items()}}
    return Channels(time, tuple(
        Channel(LogColumn(number, role, role, "", place), values, 0.1)
        for number, ((role, place), values) in enumerate(columns.items(), 1)))


def only(results, code):
    found, = (result for result in results if result.code == code)
    return found


def test_what_stands_still_is_its_last_ten_minutes():
    found = only(read_thermal(logged(180), Conditions(ambient=25.0)), "case_temperature")
    assert isinstance(found, Extracted)
    assert found.value == pytest.approx(85.0, abs=0.1)
    assert found.end - found.start == pytest.approx(600, abs=6)
    assert found.conditions == {"ambient": 25.0}


def test_its_uncertainty_is_that_of_the_sensor():
    stated = Conditions(accuracies={"temperature": Accuracy(0.0, 2.0)})
    found = only(read_thermal(logged(180), stated), "case_temperature")
    # 2 K as limits, rectangular: 2/√3 = 1.155; the drift allowed adds 0.096, the digit 0.029.
    assert found.uncertainty == pytest.approx(1.159, abs=0.005)


def test_an_extrapolation_says_that_it_is_one():
    found = only(read_thermal(logged(35), Conditions()), "case_temperature")
    assert found.working[0].startswith("Extrapolated")
    assert abs(found.value - 85.0) <= 2 * found.uncertainty


def test_a_log_that_ends_early_is_not_guessed_from():
    found = only(read_thermal(logged(10), Conditions()), "case_temperature")
    assert isinstance(found, Unread) and "log" in found.why


def test_air_that_warms_up_is_taken_off_before_the_curve_is_fitted():
    time = np.arange(0.0, 180 * 60, 5.0)
    air = 22 + 4 * time / time[-1]
    channels = logged(180, ambient_temperature=air)
    rows = Channels(channels.time, (
        Channel(channels.channels[0].column, channels.channels[0].values - 25 + air, 0.1),
        channels.channels[1]))
    found = only(read_thermal(rows, Conditions()), "case_temperature")
    assert found.value == pytest.approx(86.0, abs=0.3)      # 60 K above 25.9 °C of the last window
    assert only(read_thermal(rows, Conditions()), "ambient_temperature").value == pytest.approx(24)


def test_a_place_that_nobody_named_is_asked_for():
    found = only(read_thermal(logged(place=""), Conditions()), "temperature")
    assert isinstance(found, Unread) and "How the file is read" in found.why


def test_only_the_time_under_one_load_counts():
    power = np.where(np.arange(0.0, 180 * 60, 5.0) < 9000, 12.0, 0.0)
    channels = logged(180, output_power=power)
    found = read_thermal(channels, Conditions())
    assert only(found, "temperature_load").value == pytest.approx(12.0)
    assert only(found, "case_temperature").end <= 9000


def test_a_span_of_the_contributors_own_is_kept_to():
    found = read_thermal(logged(180), Conditions(), {"case_temperature"}, (6000.0, 9000.0))
    assert [result.code for result in found] == ["case_temperature"]
    assert (found[0].start >= 6000.0, found[0].end) == (True, 9000.0)


def test_a_span_without_readings_says_so():
    found, = read_thermal(logged(), Conditions(), None, (1e6, 2e6))
    assert isinstance(found, Unread)
