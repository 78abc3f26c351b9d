"""A reading in one room, shifted to another; worked by hand."""
import numpy as np
import pytest

from teardowns.engine.physics.temperatures import (
    temperature_at_ambient,
    winding_temperature_at_ambient,
)


def test_a_part_gets_as_much_hotter_as_the_air():
    # 92 °C in air of 25 °C is a rise of 67 K: 107 °C in air of 40 °C.
    assert temperature_at_ambient(92.0, 25.0, 40.0) == 107.0


def test_a_winding_gets_a_little_hotter_still():
    # Rise 67 K; 67·(234.5 + T)/(234.5 + 92) + 40 = T. T = 110.87: 67·345.37/326.5 = 70.87.
    hot = winding_temperature_at_ambient(92.0, 25.0, 40.0)
    assert hot == pytest.approx(110.87, abs=0.01)
    assert hot - 40.0 == pytest.approx(67.0 * (234.5 + hot) / (234.5 + 92.0))


@pytest.mark.parametrize("shift", [temperature_at_ambient, winding_temperature_at_ambient])
def test_in_the_same_air_nothing_changes(shift):
    assert shift(92.0, 25.0, 25.0) == pytest.approx(92.0)


def test_a_winding_without_loss_has_the_temperature_of_the_air():
    assert winding_temperature_at_ambient(25.0, 25.0, 40.0) == pytest.approx(40.0)


@pytest.mark.parametrize("shift", [temperature_at_ambient, winding_temperature_at_ambient])
@pytest.mark.parametrize("missing", range(3))
def test_unknown_in_unknown_out(shift, missing):
    inputs = [92.0, 25.0, 40.0]
    inputs[missing] = float("nan")
    assert np.isnan(shift(*inputs))


def test_one_gives_the_bits_of_many():
    hot = np.linspace(30.0, 120.0, 101)
    many = winding_temperature_at_ambient(hot, 25.0, 40.0)
    assert winding_temperature_at_ambient(hot[[7]], 25.0, 40.0).tobytes() == many[[7]].tobytes()
