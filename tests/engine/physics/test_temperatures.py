"""A reading in one room, shifted to another; worked by hand."""
import numpy as np
import pytest

from teardowns.engine.physics.temperatures import temperature_at_ambient


def test_a_part_gets_as_much_hotter_as_the_air():
    # 92 °C in air of 25 °C is a rise of 67 K: 107 °C in air of 40 °C.
    assert temperature_at_ambient(92.0, 25.0, 40.0) == 107.0


# A rise of 67 K that grows as copper's resistance does: 67·(234.5 + T)/(234.5 + 92) + 40 = T, which
# is 110.87 °C.
def test_it_is_up_to_4_kelvin_too_low_for_copper():
    copper = (40.0 + 67.0 * 234.5 / 326.5) / (1.0 - 67.0 / 326.5)
    assert copper == pytest.approx(110.87, abs=0.01)
    assert temperature_at_ambient(92.0, 25.0, 40.0) == pytest.approx(copper, abs=4.0)


def test_in_the_same_air_nothing_changes():
    assert temperature_at_ambient(92.0, 25.0, 25.0) == pytest.approx(92.0)


@pytest.mark.parametrize("missing", range(3))
def test_unknown_in_unknown_out(missing):
    inputs = [92.0, 25.0, 40.0]
    inputs[missing] = float("nan")
    assert np.isnan(temperature_at_ambient(*inputs))


def test_one_gives_the_bits_of_many():
    hot = np.linspace(30.0, 120.0, 101)
    many = temperature_at_ambient(hot, 25.0, 40.0)
    assert temperature_at_ambient(hot[[7]], 25.0, 40.0).tobytes() == many[[7]].tobytes()
