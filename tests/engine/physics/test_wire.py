"""Wire tables, published winding examples and the skin-effect table."""
import numpy as np
import pytest

from teardowns.engine.physics.wire import (
    circular_mils,
    copper_area,
    copper_resistivity,
    density_of_mils,
    skin_depth,
    skin_factor,
    wire_diameter,
)


# Standard wire tables (ASTM B258, from memory).
@pytest.mark.parametrize("gauge, millimetres", [
    (24, 0.5106), (30, 0.2546), (36, 0.1270), (-3, 11.684)])
def test_3_a_b_d_diameters_of_the_gauge_table(gauge, millimetres):
    assert wire_diameter(gauge) * 1e3 == pytest.approx(millimetres, abs=1e-4)


def test_3_c_awg_26_has_254_circular_mils():
    # AN-18, page 29 prints 252.8, from a diameter rounded to 15.9 mil.
    assert circular_mils(wire_diameter(26)) == pytest.approx(254.1, abs=0.1)
    assert circular_mils(wire_diameter(26)) == pytest.approx(252.8, rel=6e-3)


# Standard wire tables at 20 °C (from memory).
@pytest.mark.parametrize("gauge, milliohms_a_metre", [(24, 84.2), (30, 338.6)])
def test_3_e_f_resistance_of_a_metre(gauge, milliohms_a_metre):
    found = copper_resistivity(20.0) / copper_area(wire_diameter(gauge), 1)
    assert found * 1e3 == pytest.approx(milliohms_a_metre, rel=1e-3)


def test_3_g_two_wires_at_2_25_amperes():
    # AN-18, page 29: 2 × 252.8 cmil for 2.25 A are 224.7 cmil/A, by 3.3 8.78 A/mm²:
    # 1/(224.7 · 506.7 µm²) = 8.783e6.
    two = copper_area(np.sqrt(252.8) * 25.4e-6, 2)
    assert 2.25 / two == pytest.approx(density_of_mils(224.7), rel=0.1 / 224.7)
    assert 2.25 / two == pytest.approx(8.783e6, rel=1e-3)


# AN-22, page 8.
@pytest.mark.parametrize("mils_an_ampere, density", [(219, 9.0), (493, 4.0), (197, 10.0)])
def test_3_h_to_j_densities_of_the_published_design(mils_an_ampere, density):
    assert density_of_mils(mils_an_ampere) / 1e6 == pytest.approx(density, rel=5e-3)


# AN-22, page 8: the wires of the three-output example at 9 A/mm².
@pytest.mark.parametrize("current, millimetres", [(3.05, 0.66), (1.83, 0.51), (0.030, 0.07)])
def test_3_k_wires_at_9_amperes_a_square_millimetre(current, millimetres):
    density = current / copper_area(millimetres * 1e-3, 1)
    assert millimetres * np.sqrt(density / 9e6) == pytest.approx(millimetres, abs=0.006)


# 66.1 mm/√f at 20 °C (handbooks, from memory): 0.209 mm at 100 kHz. At 100 °C the resistivity is
# 1 + 0.00393 · 80 = 1.3144 times as high: 0.209 · 1.1465 = 0.240 mm.
@pytest.mark.parametrize("celsius, millimetres", [(20.0, 0.209), (100.0, 0.240)])
def test_3_n_o_skin_depth_at_100_kilohertz(celsius, millimetres):
    depth = skin_depth(1e5, copper_resistivity(celsius))
    assert depth * 1e3 == pytest.approx(millimetres, rel=5e-3)


def test_3_p_awg_26_is_the_thickest_solid_wire_at_100_kilohertz():
    # AN-18, page 11: AWG 26 is the limit; twice the skin depth at 100 °C is 0.479 mm.
    two_depths = 2 * skin_depth(1e5, copper_resistivity(100.0))
    assert two_depths * 1e3 == pytest.approx(0.479, abs=1e-3)
    assert wire_diameter(26) * 1e3 == pytest.approx(0.405, abs=1e-3)
    assert wire_diameter(26) <= two_depths < wire_diameter(24)


# Rosa and Grover (1912), skin-effect table, argument x = d/(√2·δ) (from memory).
ROSA_GROVER = [(1, 1.00519), (2, 1.07816), (3, 1.31809), (4, 1.67787), (5, 2.04272),
               (10, 3.79857)]


@pytest.mark.parametrize("x, ratio", ROSA_GROVER)
def test_3_q_the_skin_effect_table(x, ratio):
    assert skin_factor(np.sqrt(2.0) * x, 1.0) == pytest.approx(ratio, abs=2e-5)


def test_thin_wire_knows_no_skin_effect_and_thick_wire_conducts_in_its_skin():
    assert skin_factor(1e-6, 1.0) == pytest.approx(1.0, abs=1e-9)
    # A shell of one skin depth on a thick wire: d²/(4·d·δ), and 1/4 by the curvature.
    assert skin_factor(100.0, 1.0) == pytest.approx(100 / 4 + 1 / 4, rel=1e-3)


def test_four_strands_are_four_wires():
    assert copper_area(0.2e-3, 4) == pytest.approx(copper_area(0.4e-3, 1))


@pytest.mark.parametrize("formula, inputs", [
    (copper_area, (1e-3, 2.0)), (skin_depth, (1e5, 2e-8)), (skin_factor, (5e-4, 2e-4)),
    (wire_diameter, (30.0,)), (circular_mils, (1e-3,)), (density_of_mils, (300.0,)),
    (copper_resistivity, (80.0,)),
])
def test_unknown_in_unknown_out(formula, inputs):
    for place in range(len(inputs)):
        with np.errstate(invalid="ignore"):
            assert np.isnan(formula(*inputs[:place], np.nan, *inputs[place + 1:]))


def test_one_gives_the_bits_of_many():
    diameters = np.random.default_rng(1).uniform(5e-5, 1e-3, 501)
    many = skin_factor(diameters, 2e-4)
    for i in (0, 250, 500):
        assert skin_factor(diameters[[i]], 2e-4).tobytes() == many[[i]].tobytes()
