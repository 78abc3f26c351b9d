"""The box against published correlations that it does not use."""
import numpy as np
import pytest

from .heat import rise_of, shed


def test_two_boxes_as_the_sum_of_their_faces_has_them():
    # 70 × 45 × 30 mm at 77 °C in 25 °C: 9.86 W by vertical and horizontal plates (Churchill and
    # Chu, McAdams; 9.79 W with the library ht 1.2.0) and radiation at 0.90; models differ by 15 %
    assert shed(52.0, 0.0132) == pytest.approx(9.86, rel=0.15)
    # 50 × 30 × 30 mm with its back, 15 of 78 cm², at the wall: 4.96 W
    free = (78 - 15) / 78
    assert shed(52.0, 0.0078, free) == pytest.approx(4.96, rel=0.15)


def test_radiation_of_a_warm_wall_in_a_cold_room_is_left_of_it():
    # without air: 0.92 × 5.67e-8 × (350⁴ − 298.15⁴) = 371 W/m²; conduction and convection add
    assert shed(51.85, 0.01) > 0.01 * 371


def test_the_table_turns_shed_round():
    rise, area = np.array([5.0, 30.0, 80.0]), np.array([0.003, 0.012, 0.04])
    assert rise_of(shed(rise, area, 0.9), area, 0.9) == pytest.approx(rise, rel=0.01)

