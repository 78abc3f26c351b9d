"""Captures of known truth. Cases 12-a to 12-s: invented converters, worked out beside each."""
from dataclasses import replace

import numpy as np
import pytest

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, Told, Unread
from teardowns.logs.layout import LogColumn
from teardowns.logs.waveforms.read_waveform import CODES, read_waveform
from tests.bench.waveforms import BARS, shares
from tests.logs.captures import Flyback, Scope, balanced, capture, valley_switched

# 310 V · 3.06 µs (duty 0.2 at 65.3 kHz) against 110 V: empty after 8.6 µs of the 12.3 µs off.
EMPTY = balanced(Flyback(duty=0.2, reflected=110.0))
BENCH = Conditions(bus_voltage=310.0, primary_inductance=1e-3, load=10.0, rated_power=10.0)


def read(flyback, conditions=None, scope=None, **rest):
    channels = capture(flyback, scope, **rest)
    return {one.code: one for one in read_waveform(channels, conditions or Conditions())}


def unread(found):
    return {code for code, one in found.items() if isinstance(one, Unread)}


@pytest.fixture(scope="module")
def case_a():
    return read(Flyback())


@pytest.mark.parametrize(("code", "true", "within"), [
    ("switching_frequency", 65.3e3, 0.002 * 65.3e3), ("duty_cycle", 0.32, 0.005),
    ("ring_frequency", 480e3, 0.02 * 480e3), ("bus_level", 310.0, 4.0),
    ("plateau", 385.0, 5.0), ("demagnetisation_time", 5.1e-6, 0.35e-6),
])
def test_a_discontinuous_converter_is_read(case_a, code, true, within):
    assert case_a[code].value == pytest.approx(true, abs=within)


def test_reflected_over_bus_voltage_is_75_over_310(case_a):
    assert case_a["reflected_share"].value == pytest.approx(75 / 310, abs=5 / 310)
    assert case_a["conduction_mode"].word == "discontinuous"


def test_levels_whose_volt_seconds_disagree_give_no_reflected_voltage():
    # 310 V · 4.9 µs = 1519 µVs go in, 75 V · 5.1 µs = 382 µVs come out.
    found = read(Flyback(), BENCH)
    assert "must be equal" in found["reflected_voltage"].why
    assert "must be equal" in found["energy_per_cycle"].why


def test_a_continuous_converter_is_told_by_what_does_not_ring():
    found = read(Flyback(duty=0.41, demagnetisation=None), BENCH)
    assert found["conduction_mode"].word == "continuous"
    assert found["duty_cycle"].value == pytest.approx(0.41, abs=0.005)
    assert {"energy_per_cycle", "ring_frequency", "demagnetisation_time"} <= unread(found)
    # Volt-seconds: 310 V · 0.41/0.59
    assert found["reflected_voltage"].value == pytest.approx(215.4, rel=0.02)


def test_a_dithered_converter_is_read():
    found = read(Flyback(frequency=100e3, dither=0.04, duty=0.25, bus=155.0, ring=700e3,
                         decay=4e-6, demagnetisation=5.2e-6), scope=Scope(noise=6.0))
    assert found["switching_frequency"].value == pytest.approx(100e3, rel=0.02)
    assert found["switching_frequency"].uncertainty > 1e3          # 4 % of swing at the crest
    assert found["conduction_mode"].word == "discontinuous"
    assert found["ring_frequency"].value == pytest.approx(700e3, rel=0.04)
    assert found["bus_level"].value == pytest.approx(155.0, abs=5.0)


@pytest.mark.parametrize(("valley", "mode"), [(1, "boundary"), (2, "discontinuous"),
                                              (3, "discontinuous")])
def test_turn_on_in_the_first_valley_is_the_boundary(valley, mode):
    low = balanced(Flyback(bus=200.0, reflected=90.0, duty=0.3, ring=400e3))
    assert read(valley_switched(low, valley))["conduction_mode"].word == mode


def test_bursts_are_told_and_taken_for_no_full_load():
    found = read(replace(EMPTY, burst=(5, 12)))
    assert found["conduction_mode"].word == "burst"
    assert found["pulse_frequency"].value == pytest.approx(65.3e3, rel=0.002)
    assert found["burst_rate"].value == pytest.approx(65.3e3 / 17, rel=0.02)
    assert {"switching_frequency", "on_time", "bus_power"} <= unread(found)


def test_a_capture_at_part_load_gives_no_evidence_about_full_load():
    found = read(EMPTY, replace(BENCH, load=5.0))
    assert {"switching_frequency", "on_time"} <= unread(found)
    assert found["pulse_on_time"].value == pytest.approx(0.2 / 65.3e3, rel=0.01)


@pytest.mark.parametrize("factor", [0.1, 1.0, 7.3])
def test_the_scale_comes_from_the_bus_and_not_from_the_probe(factor):
    found = read(EMPTY, BENCH, Scope(factor=factor, offset=-20.0, bits=8))
    assert found["reflected_voltage"].value == pytest.approx(110.0, rel=0.02)
    off = any("off by a factor" in line for line in found["bus_level"].working)
    assert off is (factor != 1.0)


def test_without_the_bus_voltage_no_voltage_is_evidence():
    assert "State the voltage" in read(EMPTY)["reflected_voltage"].why


def test_energy_of_a_period_and_power_from_the_bus():
    # (310 V · 0.2/65.3 kHz)² / 2 mH = 0.4507 mJ; times 65.3 kHz: 29.43 W.
    found = read(EMPTY, BENCH)
    assert found["energy_per_cycle"].value == pytest.approx(450.7e-6, rel=0.01)
    assert found["bus_power"].value == pytest.approx(29.43, rel=0.01)
    assert found["bus_power"].uncertainty / found["bus_power"].value > 0.1     # short: bus ripple


def test_the_node_s_capacitance_follows_from_the_ring():
    # 1 mH and 480 kHz: 1/((2π·480 kHz)²·1 mH) = 109.9 pF
    assert read(EMPTY, BENCH)["node_capacitance"].value == pytest.approx(109.9e-12, rel=0.01)


@pytest.mark.parametrize("invert", [False, True])
def test_an_output_winding_does_as_well_either_way_up(invert):
    found = read(EMPTY, BENCH, Scope(noise=0.1), role="winding_voltage", invert=invert)
    assert found["duty_cycle"].value == pytest.approx(0.2, abs=0.005)
    assert found["conduction_mode"].word == "discontinuous"
    assert found["reflected_voltage"].value == pytest.approx(110.0, rel=0.02)


def test_a_trace_that_leaves_the_screen_keeps_its_times_only():
    found = read(EMPTY, BENCH, Scope(top=390.0))
    assert {"conduction_mode", "plateau", "reflected_voltage", "ring_frequency"} <= unread(found)
    assert found["switching_frequency"].value == pytest.approx(65.3e3, rel=0.002)


@pytest.mark.parametrize(("scope", "remedy"), [
    (Scope(count=3000), "capture a longer time"), (Scope(rate=1.5e6, count=3000), "shorter time"),
    (Scope(count=100), "widen it"),
])
def test_what_cannot_be_read_names_its_remedy(scope, remedy):
    found = read(EMPTY, scope=scope)
    assert unread(found) == set(CODES) == set(found)
    assert all(remedy in one.why for one in found.values())


@pytest.mark.parametrize("values", [
    np.zeros(5000), np.full(5000, 310.0) + np.random.default_rng(1).normal(0, 2, 5000),
    np.sin(np.arange(5000) / 30), np.where(np.arange(5000) == 7, np.nan, 1.0),
])
def test_what_is_no_switching_node_is_not_read(values):
    column = Channel(LogColumn(1, "CH1", "switch_voltage"), values)
    found = read_waveform(Channels(np.arange(5000) * 1e-8, (column,)), Conditions())
    assert all(isinstance(one, Unread) for one in found)


def test_a_log_without_such_a_column_says_so():
    found = read_waveform(Channels(np.arange(500.0), ()), Conditions(), {"duty_cycle"})
    assert [one.code for one in found] == ["duty_cycle"] and "No column" in found[0].why


def test_results_lie_within_the_span_that_was_asked_for():
    found = read_waveform(capture(EMPTY), BENCH, None, (2e-4, 6e-4))
    assert all(2e-4 <= one.start <= one.end <= 6e-4 for one in found
               if isinstance(one, Extracted | Told))


def test_every_number_has_a_working_and_a_budget_that_adds_up():
    for one in read(EMPTY, BENCH).values():
        if isinstance(one, Extracted):
            assert one.working and one.uncertainty > 0
            assert one.uncertainty**2 == pytest.approx(sum(u * u for _, u in one.budget))


def test_times_that_the_file_rounded_do_not_matter():
    channels = capture(EMPTY, Scope(rate=30e6, count=20_000))
    rounded = Channels(np.round(channels.time, 8), channels.channels)
    found = {one.code: one for one in read_waveform(rounded, BENCH)}
    assert found["switching_frequency"].value == pytest.approx(65.3e3, rel=0.002)


def test_captures_drawn_at_random_are_read_right():
    found, misread = shares(100, seed=12)
    for what, (right, of) in found.items():
        assert right >= (BARS[what] - 0.015) * of, (what, right, of)      # 2 of 150 by chance
    assert {what for what, _ in misread} <= set(BARS) - {"said to be unreadable"}
