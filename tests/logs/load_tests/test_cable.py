import pytest

from teardowns.engine.physics.wire import copper_area, wire_diameter
from teardowns.logs.conditions import Cable
from teardowns.logs.load_tests.cable import loop_resistance


def gauge(number, length):
    return Cable(length, float(copper_area(wire_diameter(number), 1)))


@pytest.mark.parametrize("number, current, drop", [(28, 1.0, 0.426), (24, 2.0, 0.337)])
def test_a_metre_of_wire_drops_what_the_table_of_astm_b258_gives(number, current, drop):
    # Both conductors of 1 m at 20 °C: 213 mΩ/m of gauge 28, 84.2 mΩ/m of 24 (B258, from memory).
    assert current * loop_resistance(gauge(number, 1.0))[0] == pytest.approx(drop, abs=6e-4)


def test_contacts_add_to_the_copper():
    bare, mated = gauge(28, 1.0), Cable(1.0, gauge(28, 1.0).area, 0.04)
    assert loop_resistance(mated)[0] - loop_resistance(bare)[0] == pytest.approx(0.04)


def test_no_cable_drops_nothing():
    assert loop_resistance(Cable(0.0, 0.0)) == (0.0, 0.0)


def test_warm_copper_resists_more():
    # 0.393 % a kelvin (IEC 60028): 10 K are 3.93 %.
    assert loop_resistance(gauge(28, 1.0), 30.0)[0] / loop_resistance(gauge(28, 1.0), 20.0)[0] == (
        pytest.approx(1.0393, abs=1e-4))


def test_its_uncertainty_is_a_twentieth_of_the_copper():
    resistance, u = loop_resistance(gauge(24, 2.0))
    assert u == pytest.approx(0.05 * resistance)
