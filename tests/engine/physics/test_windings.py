"""Layers by a second form of the formula, and a catalogue's coil former."""
import numpy as np
import pytest

from teardowns.engine.physics.windings import (
    bundle_layers,
    carrying_area,
    layer_thickness,
    layers_factor,
    mean_turn_length,
    resistance_factor,
    winding_resistance,
)
from teardowns.engine.physics.wire import copper_area, copper_resistivity, wire_diameter

# (A, m) → F: two forms of the formula, in real and in complex hyperbolic functions, agree to 1e-9.
LAYERS = [(0.5, 3, 1.0610), (1, 1, 1.0856), (1, 4, 2.6875), (2, 2, 5.1465), (3, 5, 55.24)]


@pytest.mark.parametrize("thickness, layers, factor", LAYERS)
def test_3_r_s_layers(thickness, layers, factor):
    assert layers_factor(thickness, layers) == pytest.approx(factor, rel=1e-3)


@pytest.mark.parametrize("thickness, layers", [each[:2] for each in LAYERS])
def test_the_complex_form_gives_the_same(thickness, layers):
    # F = Re[M] + (m² − 1)/3 · Re[D], M = a·coth a, D = 2a·tanh(a/2), a = (1 + j)·A.
    a = (1 + 1j) * thickness
    factor = (a / np.tanh(a) + (layers**2 - 1) / 3 * 2 * a * np.tanh(a / 2)).real
    assert layers_factor(thickness, layers) == pytest.approx(factor, rel=1e-9)


@pytest.mark.parametrize("layers", [1, 2, 5])
def test_thin_layers_follow_the_fourth_power(layers):
    # The handbooks' series: F = 1 + (5m² − 1)/45 · A⁴.
    assert layers_factor(0.1, layers) == pytest.approx(
        1 + (5 * layers**2 - 1) / 45 * 1e-4, abs=2e-8)


def test_a_very_thick_layer_carries_its_current_in_one_skin_depth():
    assert layers_factor(300.0, 1) == pytest.approx(300.0)


def test_a_layer_of_touching_square_wires_would_be_a_foil():
    # Round wire of diameter d has the area of a square of side (π/4)^½·d; with the pitch of that
    # square's side the layer is a foil of that thickness: A = (π/4)^¾·d/δ·(π/4)^−¼.
    side = np.sqrt(np.pi / 4)
    assert layer_thickness(1.0, 0.5, side) == pytest.approx(side / 0.5)


def test_a_layer_between_two_halves_is_two_layers_of_half_the_thickness():
    assert layers_factor(2.0, 0.5) == pytest.approx(layers_factor(1.0, 1.0))


def test_the_heat_of_the_steady_part_stays_and_that_of_the_rest_grows():
    # (A, m) = (1, 4): F = 2.6875. r² = 4: one part steady, three with F: (1 + 3 · 2.6875)/4 = 2.266
    # times the heat; the area that has it at zero frequency is smaller by its root.
    assert carrying_area(1e-6, 1.0, 4, 2.0) == pytest.approx(1e-6 / np.sqrt(2.266), rel=1e-3)


def test_a_factor_above_four_is_not_believed():
    # (3, 5): F = 55. (1 + 3 · 4)/4 = 3.25.
    assert carrying_area(1e-6, 3.0, 5, 2.0) == pytest.approx(1e-6 / np.sqrt(3.25))


def test_nine_strands_stand_three_deep():
    assert bundle_layers(2, 9) == 6


def test_3_v_the_resistance_factor_of_a_catalogue_former():
    # EPCOS B66414, EFD 15/8/5: A_N 15.8 mm², l_N 29 mm, fill 0.5: A_R 63.1 µΩ.
    found = resistance_factor(copper_resistivity(20.0), 29e-3, 15.8e-6, 0.5)
    assert found == pytest.approx(63.1e-6, rel=5e-3)


def test_3_w_the_turn_length_of_a_catalogue_former():
    # Centre leg 5.3 × 2.4 mm, wall 0.6 mm, build 1.79 mm (A_N over the 8.85 mm of the former):
    # rounded 15.4 + 2π·1.495 = 24.8, square 15.4 + 8·1.495 = 27.4, mean 26.1; catalogue 29 mm.
    found = mean_turn_length(5.3e-3, 2.4e-3, 0.6e-3, 1.79e-3) * 1e3
    assert found == pytest.approx(26.1, abs=0.05)
    assert found == pytest.approx(29, rel=0.15)


def test_a_winding_that_fills_its_former_has_the_factor_times_turns_squared():
    # 50 turns share 0.5 · 15.8 mm²: 0.158 mm² each.
    rho = copper_resistivity(20.0)
    assert winding_resistance(rho, 50, 29e-3, 0.158e-6) == pytest.approx(
        2500 * resistance_factor(rho, 29e-3, 15.8e-6, 0.5))


def test_a_metre_of_awg_24_in_twenty_turns():
    # 84.2 mΩ/m at 20 °C, standard wire tables (from memory).
    found = winding_resistance(copper_resistivity(20.0), 20, 0.05,
                               copper_area(wire_diameter(24), 1))
    assert found == pytest.approx(84.2e-3, rel=1e-3)


@pytest.mark.parametrize("formula, inputs", [
    (layer_thickness, (1e-3, 2e-4, 1.1e-3)), (layers_factor, (0.5, 3.0)),
    (carrying_area, (1e-6, 0.5, 2.0, 1.6)), (bundle_layers, (2.0, 9.0)),
    (mean_turn_length, (5e-3, 2e-3, 6e-4, 2e-3)),
    (winding_resistance, (2e-8, 100.0, 0.03, 1e-7)),
    (resistance_factor, (2e-8, 0.03, 1e-5, 0.5))])
def test_unknown_in_unknown_out(formula, inputs):
    for place in range(len(inputs)):
        assert np.isnan(formula(*inputs[:place], np.nan, *inputs[place + 1:]))


def test_one_gives_the_bits_of_many():
    thickness = np.random.default_rng(1).uniform(0.05, 5, 501)
    many = layers_factor(thickness, np.full(501, 3.0))
    for i in (0, 250, 500):
        assert layers_factor(thickness[[i]], np.array([3.0])).tobytes() == many[[i]].tobytes()
