"""The heat of warm boxes: a second implementation, and the heat-transfer library ht."""
import numpy as np
import pytest

from teardowns.engine.physics.enclosure import (
    best_case_heat,
    convection_heat,
    enclosure_heat,
    output_at_loss,
    radiation_heat,
)
from teardowns.engine.physics.natural_convection import air_properties

FREE, COVERED = 0.0, 1.0
BOX = (0.070, 0.045, 0.030, 77.0, 25.0, FREE)
PLUG_IN = (0.050, 0.030, 0.030, 77.0, 25.0, COVERED)


def test_8_f_a_box_with_all_faces():
    # Own calculation, second implementation: 5.06 W by convection, 4.80 W by radiation.
    assert float(convection_heat(*BOX)) == pytest.approx(5.06, rel=0.03)
    assert float(radiation_heat(*BOX, 0.9)) == pytest.approx(4.80, rel=0.03)
    assert float(enclosure_heat(*BOX, 0.9)) == pytest.approx(9.86, rel=0.03)


def test_8_f_radiation_by_hand():
    # A = 2·(70·45 + 70·30 + 45·30) mm² = 13 200 mm²; 350.15⁴ − 298.15⁴ = 7.1298e9 K⁴;
    # 0.9 · 5.670374e-8 · 0.0132 · 7.1298e9 = 4.803 W.
    assert float(radiation_heat(*BOX, 0.9)) == pytest.approx(4.803, abs=0.001)


def test_8_g_a_box_with_its_back_against_the_wall():
    # Own calculation, second implementation: 2.67 W and 2.29 W.
    assert float(convection_heat(*PLUG_IN)) == pytest.approx(2.67, rel=0.03)
    assert float(radiation_heat(*PLUG_IN, 0.9)) == pytest.approx(2.29, rel=0.03)
    assert float(enclosure_heat(*PLUG_IN, 0.9)) == pytest.approx(4.96, rel=0.03)


@pytest.mark.parametrize("box, efficiency, watts", [(BOX, 0.80, 39.5), (PLUG_IN, 0.78, 17.6)])
def test_8_h_and_8_i_output_that_heats_the_box_so(box, efficiency, watts):
    assert float(output_at_loss(enclosure_heat(*box, 0.9), efficiency)) == pytest.approx(
        watts, rel=0.01)


def ht_heat(height, width, depth, surface, ambient, emissivity):
    """The same box by the library's own equations, its full-range one for the walls."""
    import ht

    rise, film = surface - ambient, (surface + ambient) / 2 + 273.15
    viscosity, conductivity, diffusivity, _ = air_properties(film - 273.15)
    prandtl = viscosity / diffusivity

    def face(nusselt, length, area, *more):
        grashof = 9.80665 / film * rise * length**3 / viscosity**2
        return nusselt(prandtl, grashof, *more) * conductivity / length * area * rise

    end, flat = width * depth, width * depth / (2 * (width + depth))
    radiated = ht.q_rad(emissivity, surface + 273.15, ambient + 273.15)
    return (face(ht.Nu_vertical_plate_Churchill, height, 2 * height * (width + depth))
            + face(ht.Nu_horizontal_plate_McAdams, flat, end, True)
            + face(ht.Nu_horizontal_plate_McAdams, flat, end, False)
            + radiated * 2 * (height * width + height * depth + end))


@pytest.mark.parametrize("box", [
    (0.070, 0.045, 0.030, 77.0, 25.0, 0.9), (0.050, 0.030, 0.030, 60.0, 25.0, 0.92),
    (0.040, 0.040, 0.060, 105.0, 25.0, 0.95), (0.120, 0.060, 0.030, 70.0, 40.0, 0.9),
    (0.030, 0.150, 0.065, 50.0, 25.0, 0.92),
])
def test_the_library_ht_finds_the_same_heat(box):
    # Its full-range equation lies 2 to 4 % below the laminar one on walls of this size, about
    # half of the heat.
    *sizes, emissivity = box
    assert float(enclosure_heat(*sizes, FREE, emissivity)) == pytest.approx(
        ht_heat(*box), rel=0.03)


def test_8_f_by_the_library_is_9_79_watts():
    assert ht_heat(*BOX[:5], 0.9) == pytest.approx(9.79, abs=0.02)


def test_the_best_case_adds_what_leaves_through_the_pins():
    # 17.39 W by the library at 105 °C, ε = 0.95, are nine tenths of 19.32 W.
    assert ht_heat(*BOX[:3], 105.0, 25.0, 0.95) / 0.9 == pytest.approx(19.32, abs=0.01)
    assert float(best_case_heat(*BOX[:3], 105.0)) == pytest.approx(19.32, rel=0.03)


def test_a_covered_back_takes_one_wall_away():
    free, covered = (float(radiation_heat(*BOX[:5], back, 1.0)) for back in (FREE, COVERED))
    assert covered / free == pytest.approx(1 - 70 * 45 / 13_200)


def test_a_box_as_warm_as_the_air_sheds_nothing():
    assert float(enclosure_heat(0.07, 0.045, 0.03, 25.0, 25.0, FREE, 0.9)) == 0.0


@pytest.mark.parametrize("surface, ambient", [(20.0, 25.0), (300.0, 25.0)])
def test_colder_than_the_air_or_far_too_hot_is_no_answer(surface, ambient):
    with np.errstate(invalid="ignore"):
        assert np.isnan(enclosure_heat(0.07, 0.045, 0.03, surface, ambient, FREE, 0.9))


@pytest.mark.parametrize("missing", range(7))
def test_unknown_in_unknown_out(missing):
    inputs = [*BOX, 0.9]
    inputs[missing] = float("nan")
    assert np.isnan(enclosure_heat(*inputs))


def test_one_gives_the_bits_of_many():
    rng = np.random.default_rng(1)
    sides = [rng.uniform(0.02, 0.2, 301) for _ in range(3)]
    hot, back = rng.uniform(40, 110, 301), (rng.random(301) < 0.5) * 1.0
    many = enclosure_heat(*sides, hot, np.full(301, 25.0), back, np.full(301, 0.9))
    for i in (0, 150, 300):
        one = enclosure_heat(*(side[[i]] for side in sides), hot[[i]], np.array([25.0]),
                             back[[i]], np.array([0.9]))
        assert one.tobytes() == many[[i]].tobytes()
