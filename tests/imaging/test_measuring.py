"""Lengths on pictures and how far they may be off, with a camera of our own as witness."""
import GTC
import numpy as np
import pytest

from teardowns.imaging.measuring import (
    HEIGHT_U,
    agreement,
    click_uncertainty,
    measure,
    path_length,
)
from teardowns.imaging.scales import ScaleError, four_corners, two_points

from .camera import SIZE, seen

MM = 1e-3
CARD = np.array([(0, 0), (85.6, 0), (85.6, 53.98), (0, 53.98)]) * MM
RULER = two_points([(1000, 1500), (2000, 1500)], 30 * MM, 0.1 * MM)      # 0.03 mm a pixel


def shares(reading):
    return {part.name: part.share for part in reading.budget}


def test_a_path_is_the_sum_of_its_legs():
    # 300 + 400 + 500 px of 0.03 mm.
    reading = measure(RULER, [(1000, 1000), (1300, 1000), (1300, 1400), (1600, 1000)], 1.0,
                      size=SIZE)
    assert reading.value == pytest.approx(36 * MM)


def test_length_and_clicks_agree_with_a_library_for_uncertain_numbers():
    marks = [(1000, 1500), (2000, 1600), (1200, 2000), (1500, 2400)]
    x = [[GTC.ureal(v, 1.5) for v in point] for point in marks]
    known = GTC.ureal(30 * MM, 0.1 * MM)
    found = known * _apart(x[2], x[3]) / _apart(x[0], x[1])
    parts = shares(measure(two_points(marks[:2], 30 * MM, 0.1 * MM), marks[2:], 1.5, size=SIZE))
    clicks = np.hypot(parts["Clicks on the scale"], parts["Clicks on what is measured"])
    assert parts["Length of the scale"] == pytest.approx(abs(GTC.component(found, known)), rel=1e-3)
    assert np.hypot(clicks, parts["Length of the scale"]) == pytest.approx(GTC.uncertainty(found),
                                                                           rel=1e-3)


def _apart(a, b):
    return GTC.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2)


def test_the_budget_adds_up_in_squares_and_names_the_largest_first():
    reading = measure(RULER, [(1200, 1000), (1500, 1400)], 1.0, size=SIZE, off_plane=True)
    found = [part.share for part in reading.budget]
    assert found == sorted(found, reverse=True) and len(found) == 6
    assert reading.uncertainty == pytest.approx(np.sqrt(np.sum(np.square(found))))


def test_corners_take_the_tilt_out_of_the_budget():
    corners = seen(CARD, tilt=0.5, look_at=(0.04, 0.03), distance=0.2)
    card = four_corners(corners, 85.6 * MM, 53.98 * MM, 0.06 * MM)
    ends = seen([(0.02, 0.01), (0.03, 0.01)], tilt=0.5, look_at=(0.04, 0.03), distance=0.2)
    reading = measure(card, ends, 1.0, size=SIZE)
    assert reading.value == pytest.approx(10 * MM, rel=1e-9)
    assert "Tilt of the camera" not in shares(reading)


def test_a_tilt_foreshortens_what_lies_across_the_scale():
    # Both through the picture's centre, of equal length, so that perspective does next to nothing.
    # Tilted by θ to azimuth α, lengths across and along shrink by √(1 − sin²θ sin²α) and
    # √(1 − sin²θ cos²α): their ratio is off by ½ sin²θ cos 2α. Over all α and θ ~ N(0, u):
    # ½ √3 u² / √2 = 0.6124 u²; with u = 6° = 0.10472 that is 0.671 %.
    scale = two_points([(1980, 1500), (2020, 1500)], 1.2 * MM, 0.0)
    reading = measure(scale, [(2000, 1480), (2000, 1520)], 1.0, size=SIZE, tilt_u=np.radians(6))
    assert shares(reading)["Tilt of the camera"] == pytest.approx(0.00671 * 1.2 * MM, rel=0.03)
    beside = measure(scale, [(1981, 1501), (2021, 1501)], 1.0, size=SIZE, tilt_u=np.radians(6))
    assert shares(beside)["Tilt of the camera"] < 0.0001 * 1.2 * MM


@pytest.mark.parametrize("end, share", [((40, 0), 0.494), ((0, 40), 0.258)])
def test_a_tilt_brings_what_lies_uphill_nearer(end, share):
    # 280 px beside the scale at a focal length of 0.7 · 4000 px: 0.1 of the distance. A slope of θ
    # towards azimuth α puts the plane there at a depth of d = 1 + 0.1 θ cos α. A short line across
    # the way to it grows with d, one along it with d + 0.1 ∂d/∂0.1 = 1 + 0.2 θ cos α. Root mean
    # square over α: 0.1 u / √2 and 0.2 u / √2; at u = 2° = 0.0349 that is 0.247 % and 0.494 %. The
    # line across lies across the scale too: 0.6124 u² = 0.075 % as above, in squares 0.258 %.
    scale = two_points([(1980, 1500), (2020, 1500)], 1.2 * MM, 0.0)
    ends = [(2280 - end[0] / 2, 1500 - end[1] / 2), (2280 + end[0] / 2, 1500 + end[1] / 2)]
    reading = measure(scale, ends, 1.0, size=SIZE, tilt_u=np.radians(2))
    assert shares(reading)["Tilt of the camera"] == pytest.approx(share / 100 * 1.2 * MM, rel=0.03)


def test_a_lens_does_more_the_further_out_one_measures():
    # r (1 + k r²/R²) stretches a short radial line at r by 1 + 3 k r²/R²: R = 2500 px, r = 2000,
    # k = 0.005: 3 · 0.005 · 0.64 = 0.96 %. At the middle, where the scale lies, next to nothing.
    scale = two_points([(1990, 1500), (2010, 1500)], 0.6 * MM, 0.0)
    outside = measure(scale, [(3990, 1500), (4010, 1500)], 1.0, size=SIZE, lens_u=0.005)
    assert shares(outside)["Lens"] == pytest.approx(0.0096 * 0.6 * MM, rel=0.01)
    assert shares(measure(scale, [(2000, 1490), (2000, 1510)], 1.0, size=SIZE))["Lens"] < 1e-8


def test_what_lies_above_the_plane_is_seen_larger():
    # The camera stands 0.7 · 4000 px · 0.03 mm = 84 mm away; what lies 5 mm higher looks larger
    # by 5 / 84 of itself.
    part = shares(measure(RULER, [(1200, 1000), (1500, 1400)], 1.0, size=SIZE, off_plane=True))
    assert part["Height above or below the scale"] == pytest.approx(15 * MM * HEIGHT_U / 0.084)
    assert len(shares(measure(RULER, [(1200, 1000), (1500, 1400)], 1.0, size=SIZE))) == 5


def test_another_length_along_the_points_has_its_own_budget():
    ends = [(1200, 1000), (1500, 1400)]
    half = measure(RULER, ends, 1.0, size=SIZE, along=lambda p: path_length(p) / 2)
    whole = measure(RULER, ends, 1.0, size=SIZE)
    assert (half.value, half.uncertainty) == pytest.approx((whole.value / 2, whole.uncertainty / 2))


@pytest.mark.parametrize("given, told", [
    ({"points": [(1, 1)]}, "at least two points"),
    ({"points": [(1, 1), (1, 1)]}, "all the same"),
    ({"click_u": 0.0}, "one click may be off must be more than 0"),
    ({"lens_u": 0.5}, "between 0 and 20 %"),
    ({"tilt_u": 0.6}, "between 0° and 25°"),
])
def test_what_cannot_be_measured_is_said(given, told):
    with pytest.raises(ValueError, match=told):
        measure(**{"scale": RULER, "points": [(1, 1), (50, 50)], "click_u": 1.0, "size": SIZE}
                | given)


def test_a_length_that_one_click_could_push_over_the_horizon_is_refused():
    scale = four_corners([(1500, 500), (2500, 500), (3000, 1000), (1000, 1000)], 1.0, 1.0, 0.0)
    with pytest.raises(ScaleError, match="horizon"):
        measure(scale, [(2000, 1.5), (2000, 900)], 2.0, size=SIZE)


def test_repeated_clicks_tell_how_far_one_is_off():
    # x: 10, 12, 14: variance 4; y: 5, 5, 8: variance 3; mean 3.5. With ν = 4: 3.5 · 4 / 2 = 7.
    assert click_uncertainty([(10, 5), (12, 5), (14, 8)]) == pytest.approx(7 ** 0.5)
    # All on one pixel: its rectangle of ± half a pixel remains, 1/√12 (GUM, F.2.2.1).
    assert click_uncertainty([(10, 5)] * 4) == pytest.approx(0.2887, abs=1e-4)


def test_many_clicks_find_the_spread_they_were_drawn_with():
    clicks = np.random.default_rng(1).normal((500, 500), 1.7, (4000, 2))
    assert click_uncertainty(clicks) == pytest.approx(1.7, rel=0.03)


def test_two_clicks_say_nothing_about_their_spread():
    with pytest.raises(ValueError, match="at least three times"):
        click_uncertainty([(1, 1), (2, 2)])


def test_two_readings_agree_within_their_uncertainty():
    # 10.3 and 10.0 mm, each ± 0.1 (k = 1): U of the difference 2 √2 · 0.1 = 0.283 mm, E_n = 1.06.
    apart = agreement(10.3 * MM, 0.1 * MM, 10.0 * MM, 0.1 * MM)
    assert apart.difference == pytest.approx(0.3 * MM)
    assert apart.normalised == pytest.approx(1.0607, abs=1e-4) and apart.agrees is False
    assert agreement(10.0, 0.2, 10.3, 0.1).agrees is True          # 0.3 / 0.447


@pytest.mark.parametrize("ua, ub", [(None, 0.1), (0.1, None), (0.0, 0.0)])
def test_without_uncertainties_nobody_can_tell_whether_they_agree(ua, ub):
    found = agreement(10.3, ua, 10.0, ub)
    assert found.agrees is None and found.normalised is None and found.difference > 0
