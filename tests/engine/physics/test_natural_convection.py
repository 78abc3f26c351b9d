"""Faces against textbook examples.

8-a is example 9.2 of Incropera et al. as the documentation of the library ht 1.2.0 quotes it. 8-b
to 8-e is example 9.3 (from memory): a duct of 0.75 m × 0.30 m at 45 °C in air of 15 °C.
"""
import numpy as np
import pytest

from teardowns.engine.physics.natural_convection import (
    air_properties,
    bottom_nusselt,
    rayleigh_number,
    top_nusselt,
    vertical_nusselt,
)

# Example 9.3: the film is at 303 K; ν = 16.2e-6 m²/s, α = 22.9e-6 m²/s, k = 0.0265 W/(m·K).
DUCT_RISE, DUCT_FILM, DUCT_K, DUCT_PR = 30.0, 303.0 - 273.15, 0.0265, 0.71


def duct_face(nusselt, length, *more):
    rayleigh = rayleigh_number(length, DUCT_RISE, DUCT_FILM, 16.2e-6, 22.9e-6)
    return float(nusselt(rayleigh, *more)) * DUCT_K / length


def test_8_a_a_tall_plate():
    assert float(vertical_nusselt(0.69 * 2.63e9, 0.69)) == pytest.approx(147.16, abs=0.01)


# The side is 0.30 m tall; of the long top, area over perimeter is half the width, 0.375 m.
@pytest.mark.parametrize("nusselt, length, more, expected", [
    (vertical_nusselt, 0.30, (DUCT_PR,), 4.23), (top_nusselt, 0.375, (), 5.47),
    (bottom_nusselt, 0.375, (), 2.07)])
def test_8_b_to_8_d_coefficients_of_a_duct(nusselt, length, more, expected):
    assert duct_face(nusselt, length, *more) == pytest.approx(expected, abs=0.03)


def test_8_e_heat_of_a_metre_of_the_duct():
    sides = 2 * 0.30 * duct_face(vertical_nusselt, 0.30, DUCT_PR)
    ends = 0.75 * (duct_face(top_nusselt, 0.375) + duct_face(bottom_nusselt, 0.375))
    assert DUCT_RISE * (sides + ends) == pytest.approx(246, abs=1)


@pytest.mark.parametrize("kelvin, row", [
    (250.0, (11.44e-6, 0.0223, 15.9e-6, 0.720)), (300.0, (15.89e-6, 0.0263, 22.5e-6, 0.707)),
    (400.0, (26.41e-6, 0.0338, 38.3e-6, 0.690)),
    (325.0, (18.405e-6, 0.02815, 26.2e-6, 0.7035)),              # half way to 350 K
])
def test_air_is_that_of_the_table(kelvin, row):
    assert air_properties(kelvin - 273.15) == pytest.approx(row, rel=1e-9)


@pytest.mark.parametrize("celsius", [-24.0, 127.0, float("nan")])
def test_outside_the_table_there_is_no_air(celsius):
    assert np.isnan(air_properties(celsius)).all()


def test_the_wall_turns_to_the_full_range_equation_at_a_rayleigh_number_of_1e9():
    # At Pr 0.7: laminar 0.68 + 0.670·177.83/1.3041 = 92.0; full range
    # (0.825 + 0.387·31.623/1.1937)² = 122.6.
    below, above = vertical_nusselt(np.array([1e9 - 1, 1e9]), 0.7)
    assert (below, above) == pytest.approx((92.0, 122.6), abs=0.1)


def test_the_top_turns_turbulent_at_1e7():
    # 0.54·56.234 = 30.37 and 0.15·215.44 = 32.32
    assert top_nusselt(np.array([1e7, 1e7 + 1])) == pytest.approx((30.37, 32.32), abs=0.01)


def test_air_that_does_not_rise_carries_nothing_from_a_level_face():
    assert float(top_nusselt(0.0)) == float(bottom_nusselt(0.0)) == 0.0
    assert float(vertical_nusselt(0.0, 0.7)) == 0.68       # conduction alone


@pytest.mark.parametrize("face", [top_nusselt, bottom_nusselt,
                                  lambda rayleigh: vertical_nusselt(rayleigh, 0.7)])
def test_a_face_colder_than_the_air_is_no_answer(face):
    with np.errstate(invalid="ignore"):
        assert np.isnan(face(np.array([-1e6]))).all() and np.isnan(face(np.array([np.nan]))).all()


def test_one_gives_the_bits_of_many():
    rayleigh = np.geomspace(1e3, 1e11, 101)
    many = vertical_nusselt(rayleigh, 0.7)
    assert vertical_nusselt(rayleigh[[60]], 0.7).tobytes() == many[[60]].tobytes()
