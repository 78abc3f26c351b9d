"""Round a slot through the board: its nearer end, its corners, or no way at all."""
import numpy as np
import pytest

from teardowns.engine.requirements.surface_path import slot_creepage
from teardowns.imaging.slots import (
    SlotError,
    as_recorded,
    beside_slot,
    nodes_round_slot,
    round_slot,
    slot_width,
)

MM = 1e-3


def rectangle(width, start, end):
    half = width / 2
    return np.array([(-half, start), (half, start), (half, end), (-half, end)]) * MM


def way(start, end, slot, narrowest=1.0, **more):
    path = round_slot(np.array(start) * MM, np.array(end) * MM, slot, narrowest * MM, **more)
    return float(np.hypot(*np.diff(path, axis=0).T).sum()) / MM


# By hand: A(−3, 5), B(3, 5), slot 0 to 10: twice √(2.5² + 5²) = 11.18, and 1.0. Narrower than
# 1 mm it is crossed. A(−2, 3), B(2, 3), 1.2 wide: twice √(1.4² + 3²) = 6.621, and 1.2.
@pytest.mark.parametrize("x, y, width, end, expected", [
    (3, 5, 1.0, 10, 12.18), (3, 5, 0.8, 10, 6.0), (2, 3, 1.2, 12, 7.82)])
def test_a_straight_slot_is_walked_round_at_its_nearer_end(x, y, width, end, expected):
    assert way((-x, y), (x, y), rectangle(width, 0, end)) == pytest.approx(expected, abs=5e-3)


def test_any_straight_slot_counts_as_the_engine_has_it():
    draw = np.random.default_rng(3)
    for _ in range(100):
        ax, bx, y0, y1, width = draw.uniform((-6, 1.5, -4, 5, 1.0), (-1.5, 6, 1, 12, 2.5))
        ay, by = draw.uniform(y0, y1, 2)
        engine = slot_creepage(ax, ay, bx, by, width, y0, y1, 1.0)
        assert way((ax, ay), (bx, by), rectangle(width, y0, y1)) == pytest.approx(float(engine))


def test_beside_the_slot_the_straight_way_is_free():
    assert way((-3, 12), (3, 11), rectangle(1, 0, 10)) == pytest.approx(np.hypot(6, 1))
    # Along its side, corner to corner, too.
    assert way((-0.5, -2), (-0.5, 12), rectangle(1, 0, 10)) == pytest.approx(14)


def test_a_bent_slot_is_followed_round_its_arms():
    # An L, each arm 1 mm wide and 6 long, with the near conductor in its bay: out round the end of
    # the upper arm at (6, −1) .. (6, 0): from (3, 2) √(9 + 4) + 1 + from (6, −1) to (3, −3) √13.
    bent = np.array([(-1, -1), (6, -1), (6, 0), (0, 0), (0, 6), (-1, 6)]) * MM
    assert way((3, 2), (3, -3), bent) == pytest.approx(2 * 13 ** 0.5 + 1)


def test_an_end_on_the_edge_of_the_board_is_no_way():
    # The lower end, corners 0 and 1, is open: round the upper one, twice √(2.5² + 8²) and 1.
    slot = rectangle(1, 0, 10)
    assert way((-3, 2), (3, 2), slot, open_corners=(0, 1)) == pytest.approx(
        2 * np.hypot(2.5, 8) + 1)
    with pytest.raises(ValueError, match="No way leads round"):
        way((-3, 2), (3, 2), slot, open_corners=(0, 1, 2, 3))


def test_a_conductor_in_the_slot_is_refused():
    with pytest.raises(ValueError, match="inside the slot"):
        way((0, 5), (3, 5), rectangle(1, 0, 10))


def test_a_slot_is_as_wide_as_its_narrower_way_across():
    turn = np.array([[0.6, -0.8], [0.8, 0.6]])
    assert slot_width(rectangle(1.2, 0, 10) @ turn) == pytest.approx(1.2 * MM)


def test_a_bent_slot_is_as_wide_as_its_arms():
    bent = np.array([(-0.3, -0.3), (6, -0.3), (6, 0.3), (0.3, 0.3), (0.3, 6), (-0.3, 6)]) * MM
    assert slot_width(bent) == slot_width(bent[::-1]) == pytest.approx(0.6 * MM)


def test_a_slot_with_round_ends_is_as_wide_as_between_its_sides():
    angles = np.linspace(0, np.pi, 8)
    cap = 0.6 * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    slot = np.concatenate([cap + (0, 10), -cap]) * MM
    assert slot_width(slot) == pytest.approx(1.2 * MM, rel=0.03)


def test_the_points_that_the_way_leads_by_are_named():
    nodes = nodes_round_slot((-3 * MM, 8 * MM), (3 * MM, 8 * MM), rectangle(1, 0, 10), MM)
    assert nodes == (0, 4, 3, 5)          # start, upper left, upper right, end


def test_a_straight_slot_is_recorded_as_the_engine_reads_it():
    # The engine's own sample: 12.18 mm (see above), from corners in any order of drawing.
    for turns in range(4):
        corners = np.roll(rectangle(1.0, 0, 10), turns, axis=0)
        for slot in (corners, corners[::-1]):
            found = as_recorded((-3 * MM, 5 * MM), (3 * MM, 5 * MM), slot)
            assert float(slot_creepage(**found, narrowest=MM)) == pytest.approx(12.18 * MM,
                                                                               abs=5e-6)


def test_an_end_that_is_open_to_the_edge_is_left_out_of_the_record():
    slot = rectangle(1.0, 0, 10)
    found = as_recorded((-3 * MM, 2 * MM), (3 * MM, 2 * MM), slot, (0, 1))
    assert len({"start", "end"} & set(found)) == 1
    # Round the far end, 8 mm along: twice √(2.5² + 8²), and 1.
    ends = {"start": np.nan, "end": np.nan} | found
    assert float(slot_creepage(**ends, narrowest=MM)) == pytest.approx(
        (2 * np.hypot(2.5, 8) + 1) * MM)


@pytest.mark.parametrize("slot, open_corners", [
    (np.array([(-1, -1), (6, -1), (6, 0), (0, 0), (0, 6), (-1, 6)]) * MM, ()),     # bent
    (np.array([(-0.5, 0), (0.5, 0), (3, 10), (-3, 10)]) * MM, ()),                 # a wedge
    (rectangle(1.0, 0, 10), (0,)),                                                 # half open
    (rectangle(1.0, 0, 10) + (0.01, 0), ()),                                       # elsewhere
])
def test_what_no_row_can_say_of_a_slot_is_not_recorded(slot, open_corners):
    assert as_recorded((-4 * MM, 5 * MM), (4 * MM, 5 * MM), slot, open_corners) is None


@pytest.mark.parametrize("slot, told", [
    ([(0, 0), (1, 10), (1, 0), (0, 10)], "cross each other"),
    ([(0, 0), (0, 5), (0, 9)], "one line"),
    ([(0, 0), (1, 0)], "between 3 and 40"), ([(n, n % 2) for n in range(41)], "between 3 and 40")])
def test_what_is_no_outline_is_refused(slot, told):
    with pytest.raises(SlotError, match=told):
        round_slot((-3 * MM, 0), (3 * MM, 0), np.array(slot) * MM, MM)


def test_both_conductors_are_placed_beside_the_slot_as_a_path_is_recorded():
    # The slot of the sample above, turned by 3-4-5 and moved; the engine finds 12.18 mm again.
    turn, place = np.array([[0.6, -0.8], [0.8, 0.6]]), np.array([20, 30])
    spots = (np.array([(-3, 5), (3, 5), (0, 0), (0, 10)]) @ turn + place) * MM
    for start, end in ((0, 1), (1, 0)):
        found = beside_slot(spots[start], spots[end], spots[2], spots[3], 1.0 * MM)
        assert (found["from_x"], found["from_y"]) == pytest.approx((-3 * MM, 5 * MM))
        assert float(slot_creepage(**found, narrowest=MM)) == pytest.approx(12.18 * MM, abs=5e-6)


@pytest.mark.parametrize("start, end, first, second, width, told", [
    ((-3, 5), (-2, 5), (0, 0), (0, 10), 1, "between the two conductors"),
    ((-0.2, 5), (3, 5), (0, 0), (0, 10), 1, "between the two conductors"),
    ((-3, 5), (3, 5), (0, 0), (0, 0), 1, "two different ends"),
    ((-3, 5), (3, 5), (0, 0), (0, 9), 0, "a width of more than 0")])
def test_a_slot_that_does_not_part_them_is_refused(start, end, first, second, width, told):
    with pytest.raises(ValueError, match=told):
        beside_slot(start, end, first, second, width)
