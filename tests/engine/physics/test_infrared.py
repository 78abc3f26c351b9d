"""Readings set right for emissivity; worked by hand from the fourth-power law."""
import numpy as np
import pytest

from teardowns.engine.physics.infrared import surface_temperature


def test_70_degrees_read_at_1_00_on_plastic():
    # 343.15⁴ = 1.38655e10, 298.15⁴ = 7.90197e9; (1.38655e10 − 0.05·7.90197e9)/0.95 = 1.41793e10,
    # whose fourth root is 345.08 K: 71.93 °C.
    assert surface_temperature(70.0, 1.00, 0.95, 25.0) == pytest.approx(71.93, abs=0.01)


def test_60_degrees_read_at_0_95_on_a_duller_surface():
    # R = 0.95·333.15⁴ + 0.05·298.15⁴ = 1.20976e10; (R − 0.40·7.90197e9)/0.60 = 1.48946e10:
    # 349.35 K, 76.20 °C.
    assert surface_temperature(60.0, 0.95, 0.60, 25.0) == pytest.approx(76.20, abs=0.01)


@pytest.mark.parametrize("emissivity", [0.85, 0.92])
def test_the_sensor_makers_form_for_an_instrument_set_to_one(emissivity):
    # Data sheets of the MLX9064x family: T⁴ = T_b⁴ − (T_b⁴ − T_read⁴)/ε.
    room, seen = 298.15**4, 343.15**4
    expected = (room - (room - seen) / emissivity) ** 0.25 - 273.15
    assert surface_temperature(70.0, 1.0, emissivity, 25.0) == pytest.approx(expected)


def test_the_right_setting_needs_no_correction():
    assert surface_temperature(70.0, 0.92, 0.92, 25.0) == pytest.approx(70.0)


def test_a_surface_at_room_temperature_reads_the_same_at_any_setting():
    assert surface_temperature(25.0, 1.0, 0.5, 25.0) == pytest.approx(25.0)


@pytest.mark.parametrize("missing", range(4))
def test_unknown_in_unknown_out(missing):
    inputs = [70.0, 1.0, 0.95, 25.0]
    inputs[missing] = float("nan")
    assert np.isnan(surface_temperature(*inputs))


def test_a_reading_colder_than_such_a_surface_can_appear_is_no_answer():
    # With ε = 0.1 nine tenths of what is seen is the room at 25 °C, 7.1e9 K⁴ of 5.0e9 K⁴ read.
    with np.errstate(invalid="ignore"):
        assert np.isnan(surface_temperature(np.array([-7.0]), 1.0, 0.1, 25.0))[0]


def test_one_gives_the_bits_of_many():
    seen = np.linspace(30.0, 120.0, 101)
    many = surface_temperature(seen, 0.95, 0.92, 25.0)
    assert surface_temperature(seen[[50]], 0.95, 0.92, 25.0).tobytes() == many[[50]].tobytes()
