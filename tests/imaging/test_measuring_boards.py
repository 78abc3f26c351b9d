"""2 000 boards of known geometry under a tilted camera: is the stated uncertainty true?"""
import numpy as np
import pytest

from teardowns.imaging.measuring import LENS_U, TILT_U, measure
from teardowns.imaging.scales import four_corners, two_points

from .camera import SIZE, seen

MM, CASES = 1e-3, 2000
CARD_U = 0.06 * MM                       # of width and height; tolerance ± 0.1 mm, rectangular
CARD = np.array([(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)]) * MM


def view(draw, tilt):
    """Twelve megapixels of a board that more or less fills the picture."""
    return {"tilt": tilt, "azimuth": draw.uniform(0, 2 * np.pi), "roll": draw.uniform(0, 7),
            "distance": draw.uniform(0.14, 0.22), "focal": draw.uniform(2600, 3600),
            "look_at": np.array([43, 27]) * MM + draw.uniform(-10, 10, 2) * MM,
            "lens": draw.normal(0, LENS_U)}


def line(draw, length):
    start, angle = draw.uniform((10, 5), (75, 50)) * MM, draw.uniform(0, 2 * np.pi)
    return start + np.array([(0, 0), (np.cos(angle), np.sin(angle))]) * length


def clicked(draw, points, **camera):
    return seen(points, **camera) + draw.normal(0, 1, np.shape(points))


def judged(cases):
    """Error and stated uncertainty (k = 1) of each reading, in mm."""
    return np.array([(value - true, u) for value, u, true in cases]).T / MM


def on_cards(draw):
    for _ in range(CASES):
        camera = view(draw, np.radians(draw.uniform(0, 40)))
        real = CARD * (1 + draw.normal(0, CARD_U, 2) / CARD.max(axis=0))
        card = four_corners(clicked(draw, real, **camera), 85.6 * MM, 53.98 * MM, CARD_U)
        ends = line(draw, 10 * MM)
        reading = measure(card, clicked(draw, ends, **camera), 1.0, size=SIZE)
        yield reading.value, reading.uncertainty, 10 * MM


def by_rulers(draw):
    for _ in range(CASES):
        camera = view(draw, draw.normal(0, TILT_U))
        ruler, ends, u = line(draw, 20 * MM), line(draw, 10 * MM), 0.1 * MM
        scale = two_points(clicked(draw, ruler, **camera), 20 * MM + draw.normal(0, u), u)
        reading = measure(scale, clicked(draw, ends, **camera), 1.0, size=SIZE)
        yield reading.value, reading.uncertainty, 10 * MM


def test_beside_a_card_ten_millimetres_are_true_to_a_tenth_at_tilts_up_to_40_degrees():
    error, u = judged(on_cards(np.random.default_rng(11)))
    assert np.mean(np.abs(error)) <= 0.1
    assert 0.95 <= np.mean(np.abs(error) <= 2 * u) <= 0.995         # nor is it merely large
    assert abs(np.mean(error)) < 0.01


def test_beside_a_ruler_the_stated_uncertainty_covers_a_hand_held_tilt():
    error, u = judged(by_rulers(np.random.default_rng(12)))
    assert np.mean(np.abs(error) <= 2 * u) >= 0.95
    assert np.sqrt(np.mean((error / u) ** 2)) == pytest.approx(1.0, abs=0.25)
