"""The bulk-capacitor model against circuit simulations and published examples.

Simulations: ngspice 39, a bridge (or one diode), the capacitor and a load of constant power;
near-ideal diodes, and silicon diodes with 4.7 Ω. A second implementation of the model computed
the column "exact" and the tables of watts a microfarad.
"""
import numpy as np
import pytest

from teardowns.engine.physics.rectifier import (
    bus_power,
    peak_voltage,
    shortcut_valley,
    simple_bus_power,
    valley_voltage,
)

FULL, HALF = 1.0, 0.0
# name, rectifier, V rms, Hz, µF, W, valley by the simple form, exact, simulated ideal, real
CASES = [
    ("B1", FULL, 85, 60, 33, 18.75, 85.60, 86.35, 86.30, 84.04),
    ("B2", FULL, 85, 47, 10, 5, 81.33, 82.32, 82.27, 80.51),
    ("B3", FULL, 85, 50, 10, 7, 68.81, 70.68, 70.62, 68.61),
    ("B4", FULL, 90, 50, 15, 7.5, 92.74, 93.45, 93.38, 91.62),
    ("B5", FULL, 90, 60, 22, 12, 95.85, 96.42, 96.37, 94.44),
    ("B6", FULL, 100, 50, 4.7, 3, 101.75, 102.60, 102.55, 100.99),
    ("B7", FULL, 115, 60, 6.8, 6.25, 121.20, 121.99, 121.92, 120.31),
    ("B8", FULL, 195, 50, 10, 12, 236.96, 237.33, 237.27, 235.75),
    ("B9", FULL, 230, 50, 4.7, 6.25, 288.56, 288.82, 288.77, 287.42),
    ("B10", FULL, 230, 50, 2.2, 6.25, 248.35, 249.68, 249.65, 248.20),
    ("B11", FULL, 264, 50, 10, 25, 313.85, 314.49, 314.44, 312.84),
    ("B12", FULL, 90, 47, 82, 33, 97.65, 98.15, 98.09, 95.07),
    ("B13", HALF, 90, 50, 10, 2.5, 86.65, 86.86, 86.83, 85.93),
    ("B14", HALF, 230, 50, 4.7, 3, 286.82, 286.88, 286.86, 286.19),
    ("B15", HALF, 230, 50, 2.2, 3, 240.17, 240.51, 240.49, 239.78),
    ("B16", FULL, 90, 50, 10, 8.58, 67.56, 70.02, 70.00, 67.82),
    ("B17", FULL, 100, 50, 10, 11.90, 66.34, 70.02, 69.93, 67.60),
]
# Bus watts a microfarad by V rms, Hz, rectifier: valley → W, ideal diodes.
WATTS_PER_MICROFARAD = {
    (85, 50, FULL): {50: 0.994, 60: 0.853, 70: 0.710, 80: 0.565, 90: 0.421, 100: 0.277},
    (90, 50, FULL): {50: 1.158, 60: 1.009, 70: 0.858, 80: 0.706, 90: 0.553, 100: 0.400},
    (100, 50, FULL): {50: 1.520, 60: 1.356, 70: 1.190, 80: 1.022, 90: 0.853, 100: 0.682},
    (115, 50, FULL): {50: 2.149, 60: 1.963, 70: 1.775, 80: 1.584, 90: 1.391, 100: 1.196},
    (100, 60, FULL): {50: 1.824, 60: 1.628, 70: 1.428, 80: 1.227, 90: 1.023, 100: 0.819},
    (120, 60, FULL): {50: 2.857, 60: 2.626, 70: 2.391, 80: 2.153, 90: 1.912, 100: 1.669},
    (100, 50, HALF): {50: 0.546, 60: 0.504, 70: 0.457, 80: 0.404, 90: 0.348, 100: 0.287},
    (195, 50, FULL): {70: 6.634, 100: 5.700, 150: 4.084, 200: 2.429, 240: 1.113, 260: 0.475},
    (207, 50, FULL): {70: 7.615, 100: 6.629, 150: 4.924, 200: 3.171, 240: 1.766, 260: 1.075},
    (220, 50, FULL): {70: 8.752, 100: 7.711, 150: 5.908, 200: 4.052, 240: 2.555, 260: 1.813},
    (230, 50, FULL): {70: 9.679, 100: 8.595, 150: 6.718, 200: 4.784, 240: 3.219, 260: 2.439},
    (230, 50, HALF): {70: 3.248, 100: 3.022, 150: 2.539, 200: 1.934, 240: 1.371, 260: 1.067},
}
TABLE = [(*at, valley, watts) for at, row in WATTS_PER_MICROFARAD.items()
         for valley, watts in row.items()]
by_name = pytest.mark.parametrize("case", CASES, ids=[case[0] for case in CASES])


def valley(case, drop):
    _, full, volts, hertz, microfarads, watts, *_ = case
    return float(valley_voltage(watts, microfarads * 1e-6, peak_voltage(volts, drop), hertz, full))


@by_name
def test_the_valley_is_that_of_the_second_implementation(case):
    assert valley(case, 0.0) == pytest.approx(case[7], abs=0.006)


@by_name
def test_the_valley_is_within_0_12_volts_of_the_ideal_circuit(case):
    assert valley(case, 0.0) == pytest.approx(case[8], abs=0.12)


@by_name
def test_less_the_diode_drop_it_is_within_half_a_volt_of_the_real_circuit(case):
    # B12: 4.7 Ω is too much for 33 W, and the resistance is not in the model.
    allowed = 1.2 if case[0] == "B12" else 0.5
    drop = 1.6 if case[1] == FULL else 0.8
    assert valley(case, drop) == pytest.approx(case[9], abs=allowed)


@by_name
def test_the_bus_power_is_the_load_that_makes_the_valley(case):
    _, full, volts, hertz, microfarads, watts, *_ = case
    peak = peak_voltage(volts, 0.0)
    drawn = bus_power(microfarads * 1e-6, peak, valley(case, 0.0), hertz, full)
    assert float(drawn) == pytest.approx(watts, rel=1e-9)


@by_name
def test_the_simple_form_gives_the_load_at_its_own_valley(case):
    # The valley is printed to 0.01 V; the load moves by up to 0.02 W a volt and microfarad.
    _, full, volts, hertz, microfarads, watts, simple, *_ = case
    drawn = simple_bus_power(microfarads * 1e-6, peak_voltage(volts, 0.0), simple, hertz, full)
    assert float(drawn) == pytest.approx(watts, abs=0.005 * 0.03 * microfarads + 1e-3)


@pytest.mark.parametrize("volts, hertz, full, low, watts", TABLE)
def test_watts_per_microfarad(volts, hertz, full, low, watts):
    drawn = bus_power(1e-6, peak_voltage(volts, 0.0), low, hertz, full)
    assert float(drawn) == pytest.approx(watts, abs=0.00051)


@pytest.mark.parametrize("volts, low, microfarads", [(85, 90, 2.38), (195, 240, 0.90)])
def test_the_rules_of_thumb_of_an_23_table_5_follow(volts, low, microfarads):
    # 2 to 3 µF a watt of output holds 90 V at 85 V; 1 µF a watt holds 240 V at 195 V.
    drawn = bus_power(1e-6, peak_voltage(volts, 0.0), low, 50.0, FULL)
    assert 1 / float(drawn) == pytest.approx(microfarads, abs=0.006)


def test_1_a_the_shortcut_gives_93_volts_for_an_17_page_8():
    assert shortcut_valley(15 / 0.8, 33e-6, 85.0, 60.0, 3.2e-3) == pytest.approx(93, abs=0.5)


def test_1_b_the_peak_at_265_volts_is_375_volts():
    assert peak_voltage(265.0, 0.0) == pytest.approx(375, abs=0.5)      # AN-17, page 8


@pytest.mark.parametrize("volts, microfarads, low", [(85, 3, 90), (195, 1, 240)])
def test_1_d_e_the_shortcut_holds_what_an_23_table_5_says(volts, microfarads, low):
    held = shortcut_valley(1 / 0.8, microfarads * 1e-6, volts, 50.0, 3e-3)
    assert low <= held <= low + 3


def test_1_i_ten_microfarads_at_85_volts_give_14_45_watts_at_most():
    # 2 · 50 Hz · 10 µF · (√2 · 85 V)² = 14.45 W
    most = simple_bus_power(10e-6, peak_voltage(85.0, 0.0), 0.0, 50.0, FULL)
    assert most == pytest.approx(14.45, abs=0.01)


def test_half_wave_gives_a_third_of_the_most():
    half, full = (simple_bus_power(10e-6, 120.0, 0.0, 50.0, kind) for kind in (HALF, FULL))
    assert half == pytest.approx(full / 3)


def test_too_much_load_collapses_the_bus():
    # The simple form ends at 14.45 W; the exact model bridges a little more, not a quarter more.
    assert np.isnan(valley_voltage(18.0, 10e-6, peak_voltage(85.0, 0.0), 50.0, FULL))


def test_a_valley_above_the_peak_is_no_operating_point():
    with np.errstate(invalid="ignore"):
        assert np.isnan(bus_power(10e-6, 140.0, 150.0, 50.0, FULL))


@pytest.mark.parametrize("unknown", range(5))
def test_unknown_in_unknown_out(unknown):
    inputs = [10e-6, 140.0, 70.0, 50.0, FULL]
    inputs[unknown] = np.nan
    with np.errstate(invalid="ignore"):
        assert np.isnan(bus_power(*inputs))


def test_one_gives_the_bits_of_many():
    rng = np.random.default_rng(1)
    peak, low = rng.uniform(110, 340, 1001), rng.uniform(40, 105, 1001)
    full = (rng.random(1001) < 0.5).astype(float)
    many = bus_power(np.full(1001, 1e-5), peak, low, np.full(1001, 50.0), full)
    for i in (0, 500, 1000):
        one = bus_power(np.array([1e-5]), peak[[i]], low[[i]], np.array([50.0]), full[[i]])
        assert one.tobytes() == many[[i]].tobytes()
