"""Measuring rules: what is too narrow is bridged, a slot is walked round, dirt is taken off."""
import numpy as np
import pytest

from teardowns.engine.requirements.surface_path import (
    effective,
    groove_creepage,
    narrowest_width,
    slot_creepage,
    sum_of_gaps,
    v_groove_creepage,
    with_others,
)

MM, NAN = 1e-3, float("nan")


# IEC 60664-1, 6.8, as a board calculator has it; 0.25 and 1 mm also in a forum's measuring rules.
@pytest.mark.parametrize("degree, clearance, expected", [
    (1, 3.0, .25), (2, 3.0, 1.0), (3, 3.0, 1.5), (2, 1.5, 0.5), (1, 1.5, .25), (2, 5.5, 1.0)])
def test_the_smallest_width_that_counts(degree, clearance, expected):
    assert narrowest_width(degree, clearance * MM) == pytest.approx(expected * MM)


# By hand: A(−3, 5), B(3, 5), slot 0 to 10: twice √(2.5² + 5²) = 11.18, and 1.0. Narrower than
# 1 mm it is bridged. A(−2, 3), B(2, 3), 1.2 wide: twice √(1.4² + 3²) = 6.621, and 1.2.
@pytest.mark.parametrize("x, y, width, end, expected", [
    (3, 5, 1.0, 10, 12.18), (3, 5, 0.8, 10, 6.0), (2, 3, 1.2, 12, 7.82)])
def test_a_way_round_a_slot(x, y, width, end, expected):
    found = slot_creepage(*(v * MM for v in (-x, y, x, y, width, 0, end)), 1.0 * MM)
    assert found == pytest.approx(expected * MM, abs=5e-6)


def test_a_slot_that_leaves_the_board_is_walked_round_at_its_inner_end():
    # Only the end at 10: twice √(2.5² + 5²) + 1.0 again, by symmetry of the sample above.
    found = slot_creepage(-3 * MM, 5 * MM, 3 * MM, 5 * MM, MM, NAN, 10 * MM, MM)
    assert found == pytest.approx(12.18 * MM, abs=5e-6)
    assert np.isnan(slot_creepage(-3 * MM, 5 * MM, 3 * MM, 5 * MM, MM, NAN, NAN, MM))


# By hand, slot 0 to 10, 1.0 wide. Both pads at 12: straight, 6. One at 12, the other at 5: past the
# further corner at once, √(3.5² + 2²) + √(2.5² + 5²) = 9.621, whichever is which.
@pytest.mark.parametrize("pads, expected", [
    ((-3, 12, 3, 12), 6.0), ((-3, -1, 3, -1), 6.0), ((-3, 12, 3, 5), 9.621),
    ((3, 5, -3, 12), 9.621), ((-3, 5, 3, 12), 9.621)])
def test_a_way_past_an_end_of_the_slot_is_shorter(pads, expected):
    found = slot_creepage(*(v * MM for v in (*pads, 1.0, 0, 10)), 1.0 * MM)
    assert found == pytest.approx(expected * MM, abs=5e-6)


@pytest.mark.parametrize("pads", [(-3, 5, -2, 5), (2, 5, 3, 5), (-3, 5, 0.2, 5)])
def test_pads_that_no_slot_parts_were_read_wrong(pads):
    assert np.isnan(slot_creepage(*(v * MM for v in (*pads, 1.0, 0, 10)), 1.0 * MM))


def test_another_reading_of_the_place_widens_what_it_may_be():
    longest, shortest = with_others(*(np.array(part) for part in (
        [3.0, 3.0, NAN], [2.0, 2.0, NAN], [1.0, NAN, 1.0], [4.0, NAN, 4.0])))
    np.testing.assert_array_equal(longest, [4.0, 3.0, NAN])
    np.testing.assert_array_equal(shortest, [1.0, 2.0, NAN])


def test_a_groove_counts_from_the_width_on():
    # 1.2 mm wide counts by its contour of 6 mm, 0.8 mm wide is crossed: 3 mm.
    assert groove_creepage(6.0, 3.0, np.array([1.2, 0.8]), 1.0).tolist() == [6.0, 3.0]
    assert np.isnan(groove_creepage(6.0, 3.0, NAN, 1.0))
    assert np.isnan(groove_creepage(2.0, 3.0, 1.2, 1.0))        # no contour is shorter


def test_the_bottom_of_a_v_groove_is_cut_short():
    # 2 mm wide, 3 mm deep: sides √(1 + 9) = 3.162; the link of 1 mm lies half way down, so half of
    # both sides goes, 3.162, and 1 comes: of a contour of 10 mm 7.838 remain.
    assert v_groove_creepage(10.0, 4.0, 2.0, 3.0, 1.0) == pytest.approx(7.838, abs=5e-4)
    # 4 mm wide, 2 mm deep opens by 90°: no bottom to be bridged.
    assert v_groove_creepage(10.0, 4.0, 4.0, 2.0, 1.0) == 10.0
    assert v_groove_creepage(10.0, 4.0, 0.9, 2.0, 1.0) == 4.0


def test_gaps_beside_floating_metal_add_up_where_they_are_wide_enough():
    # 1.8 + 1.6 = 3.4 mm; 0.8 mm is too narrow to count.
    assert sum_of_gaps([1.8, 1.6, NAN], 1.0) == pytest.approx(3.4)
    assert sum_of_gaps([1.8, 0.8, NAN], 1.0) == pytest.approx(1.8)
    assert np.isnan(sum_of_gaps([NAN, NAN, NAN], 1.0))


def path(**known):
    names = ("distance", "width", "depth", "straight", "from_x", "from_y", "to_x", "to_y", "start",
             "end", "gap_1", "gap_2", "gap_3", "particle", "particle_loose")
    return {name: np.array([known.get(name, NAN)]) for name in names} | {
        "shape": np.array([known.get("shape", "")])}


@pytest.mark.parametrize("loose, lenient", [(0.0, 2.8), (1.0, 3.4), (NAN, 3.4)])
def test_a_solder_ball_shortens_a_gap(loose, lenient):
    # 3.4 mm with a ball of 0.6 mm: 2.8 mm; a loose one may lie elsewhere.
    longest, shortest = effective(path(distance=3.4, particle=0.6, particle_loose=loose), False,
                                  1.0)
    assert longest[0] == pytest.approx(lenient) and shortest[0] == pytest.approx(2.8)


def test_air_goes_straight_across_a_slot():
    slot = path(distance=6 * MM, shape="slot", width=MM, from_x=-3 * MM, from_y=5 * MM,
                to_x=3 * MM, to_y=5 * MM, start=0.0, end=10 * MM)
    assert effective(slot, False, MM)[0][0] == 6 * MM
    assert effective(slot, True, MM)[0][0] == pytest.approx(12.18 * MM, abs=5e-6)
    assert np.isnan(effective(path(distance=NAN, shape="slot"), True, MM)[0]).all()
